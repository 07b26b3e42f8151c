//! The start of the form on stores in which anything may stand. Nothing that lay there may be gone afterwards, and a
//! second start finds nothing left to mend.
//!
//! The input is lines. The first letter says where the rest lies: `r` a row of the store, `R` one under another number,
//! `f` a fork, `h` a head, `s` a seed, `c` a quick copy, `H` and `S` what the quick store has of head and seed.

use marrowbook::bundle::DeviceKey;
use marrowbook::keep::memory::{MemoryQuick, MemoryStore};
use marrowbook::keep::{Begin, Opened, Quick, Seed, Stamp, Writing, open, row};
use marrowbook::record::{DeviceId, Digest, EntryId, Moment, Salt, Versions};
use std::future::Future;
use std::pin::pin;
use std::rc::Rc;
use std::task::{Context, Poll, Waker};

fn device_of(seed: &Seed) -> DeviceId {
    DeviceKey::from_seed(&seed.0).public().id()
}

fn begin(n: u8) -> Begin {
    let stamp = Stamp {
        at: Moment::parse("2027-02-14T10:23:05-05:00").unwrap(),
        zone: String::new(),
        versions: Versions { protocol: 1, step: None, card: None },
    };
    Begin { seed: Seed([n; 32]), salt: Salt([n; 16]), stamp }
}

fn wait<T>(future: impl Future<Output = T>) -> T {
    let mut future = pin!(future);
    let mut context = Context::from_waker(Waker::noop());
    loop {
        if let Poll::Ready(value) = future.as_mut().poll(&mut context) {
            return value;
        }
    }
}

type Desk = Opened<MemoryStore, MemoryQuick>;

fn start(store: &MemoryStore, quick: &MemoryQuick, n: u8) -> Desk {
    wait(open(Rc::new(store.clone()), quick.clone(), &begin(n), device_of, true))
}

pub(crate) fn run(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    let (store, quick) = (MemoryStore::default(), MemoryQuick::default());
    for (place, line) in (1_u64..).zip(text.lines().take(64)) {
        let Some((kind, rest)) = line.split_at_checked(1) else { continue };
        let entry = row::read(rest).ok();
        let somewhere = EntryId { device: DeviceId(Digest([7; 32])), seq: place };
        let id = entry.as_ref().map_or(somewhere, marrowbook::record::Entry::id);
        let digest = entry.as_ref().map_or(Digest([7; 32]), |entry| entry.header.digest());
        let mut disk = store.disk.borrow_mut();
        let rest = rest.to_owned();
        match kind {
            "r" => drop(disk.rows.insert(id, rest)),
            "R" => drop(disk.rows.insert(somewhere, rest)),
            "f" => drop(disk.forks.insert((id, digest), rest)),
            "h" => drop(disk.heads.insert(id.device, rest)),
            "s" => disk.seeds.push(rest),
            "c" => drop(quick.put(&format!("copy.{place}"), &rest)),
            "H" => drop(quick.put("head", &rest)),
            "S" => drop(quick.put("seed", &rest)),
            _ => {}
        }
    }
    let before = store.disk.borrow().clone();
    let copies: Vec<String> = texts(&quick, "copy.");
    let first = start(&store, &quick, 1);
    assert!(matches!(first.writing, Writing::Queue(_)));
    assert_eq!(first.report.not_written, None, "a store that takes everything takes what was mended");
    let disk = store.disk.borrow().clone();
    // What lay in the store lies there still, byte for byte.
    for (id, text) in &before.rows {
        assert_eq!(disk.rows.get(id), Some(text));
    }
    assert!(before.forks.iter().all(|(name, text)| disk.forks.get(name) == Some(text)));
    assert!(before.seeds.iter().all(|seed| disk.seeds.contains(seed)));
    // What can be read is in the journal; what cannot is set aside as it was found.
    let aside = |text: &str| disk.set_aside.values().any(|item| item.text == text);
    let known: Vec<Digest> = first.journal.entries().map(|entry| entry.header.digest()).collect();
    let held = |text: &str| row::read(text).is_ok_and(|entry| known.contains(&entry.header.digest()));
    for text in before.rows.values().chain(before.forks.values()).chain(&copies) {
        assert!(held(text) || aside(text), "lost: {text}");
    }
    assert!(texts(&quick, "copy.").is_empty(), "a copy stayed behind");
    // The seed by which the form goes on is kept where the journal is.
    let seed = first.seed.unwrap();
    assert!(disk.seeds.contains(&seed.write()));
    assert_eq!(first.device, device_of(&seed));

    let second = start(&store, &quick, 2);
    assert_eq!(second.seed, Some(seed));
    let report = second.report;
    assert_eq!((report.recovered, report.set_aside.len(), report.forks.len()), (0, 0, 0), "{report:?}");
    let again: Vec<Digest> = second.journal.entries().map(|entry| entry.header.digest()).collect();
    assert_eq!(again, known);
}

fn texts(quick: &MemoryQuick, prefix: &str) -> Vec<String> {
    let names = quick.names().unwrap_or_default();
    names.iter().filter(|name| name.starts_with(prefix)).filter_map(|name| quick.get(name).ok().flatten()).collect()
}
