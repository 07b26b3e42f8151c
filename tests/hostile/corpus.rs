//! Every kept input through the target that it is for, as it is and spoilt in a fixed row of ways.

use super::{seeds, targets};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

fn folder(target: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/corpus").join(target)
}

fn kept(target: &str) -> BTreeMap<String, Vec<u8>> {
    let files = fs::read_dir(folder(target)).unwrap_or_else(|error| panic!("{target}: {error}"));
    let file = |path: PathBuf| (path.file_name().unwrap().to_str().unwrap().to_owned(), fs::read(&path).unwrap());
    files.map(|entry| file(entry.unwrap().path())).collect()
}

/// To write them anew: `MARROWBOOK_WRITE_CORPUS=1 cargo test --features cli --test hostile`.
#[test]
fn the_seeds_are_those_that_are_made() {
    let made = seeds::all();
    for (target, name, bytes) in &made {
        let path = folder(target).join(format!("seed-{name}"));
        if std::env::var_os("MARROWBOOK_WRITE_CORPUS").is_some() {
            fs::create_dir_all(folder(target)).unwrap();
            fs::write(&path, bytes).unwrap();
        }
        assert_eq!(&fs::read(&path).unwrap_or_default(), bytes, "{}", path.display());
    }
    for (target, _) in targets::ALL {
        let seeds = made.iter().filter(|(of, ..)| *of == target).count();
        let there = kept(target).keys().filter(|name| name.starts_with("seed-")).count();
        assert_eq!((seeds > 0, there), (true, seeds), "{target}");
    }
}

#[test]
fn every_kept_input_is_borne() {
    for (target, run) in targets::ALL {
        for bytes in kept(target).values() {
            run(bytes);
        }
    }
}

/// The next of a row of numbers, the same in each run (Marsaglia 2003, xorshift64).
struct Row(u64);

impl Row {
    fn below(&mut self, most: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % u64::try_from(most.max(1)).unwrap()).unwrap()
    }
}

/// Cut, with a part doubled, left out or moved, with bytes changed: what a mail program or a worn card does.
fn spoilt(bytes: &[u8], row: &mut Row) -> Vec<u8> {
    let mut out = bytes.to_vec();
    for _ in 0..=row.below(3) {
        let (from, to) = (row.below(out.len()), row.below(out.len()));
        let (from, to) = (from.min(to), from.max(to));
        match row.below(5) {
            0 => out.truncate(to),
            1 => drop(out.drain(from..to)),
            2 => {
                let part = out[from..to].to_vec();
                out.splice(from..from, part);
            }
            3 => {
                let place = row.below(out.len());
                let byte = [0, b'\n', b'"', b',', b'{', b'9', b'-', 0xff][row.below(8)];
                out.insert(place, byte);
            }
            _ => {
                let place = row.below(out.len());
                if let Some(byte) = out.get_mut(place) {
                    *byte ^= 1 << row.below(8);
                }
            }
        }
    }
    out
}

#[test]
fn every_seed_spoilt_is_borne() {
    let mut row = Row(0x7369_6c76_6572);
    for (target, name, bytes) in seeds::all() {
        let run = targets::by_name(target).unwrap();
        // Large inputs take longer and say no more.
        let times = if bytes.len() > 4000 { 60 } else { 240 };
        for time in 0..times {
            let input = spoilt(&bytes, &mut row);
            let result = std::panic::catch_unwind(|| run(&input));
            assert!(
                result.is_ok(),
                "{target}: {name}, spoilt the {time}th time: {:?}",
                String::from_utf8_lossy(&input)
            );
        }
    }
}
