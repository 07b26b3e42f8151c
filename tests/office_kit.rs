//! Every file of `tests/kit` through `office open`, with what its name says must come out.
//!
//! The files are committed so that any other reader of the format can be tried on them; they are
//! made by `office/kit.rs` from fixed keys, and a test compares the two. To write them anew after a
//! deliberate change: `MARROWBOOK_WRITE_KIT=1 cargo test --features cli --test office_kit`.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/kit.rs"]
mod kit;
#[path = "office/ran.rs"]
mod ran;

use ran::{Office, folder};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn kit_folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/kit")
}

/// Files that this project cannot make itself, because that is their point.
const FROM_OUTSIDE: [&str; 1] = ["intact--signed-by-python-jwcrypto.txt"];

#[test]
fn the_committed_kit_is_the_one_that_is_made() {
    let made = kit::files();
    if std::env::var_os("MARROWBOOK_WRITE_KIT").is_some() {
        for (name, bytes) in &made {
            fs::write(kit_folder().join(name), bytes).unwrap();
        }
    }
    let mut expected: BTreeSet<String> = made.iter().map(|(name, _)| name.clone()).collect();
    assert_eq!(expected.len(), made.len(), "two files of one name");
    expected.extend(FROM_OUTSIDE.map(str::to_owned));
    let committed: BTreeSet<String> =
        fs::read_dir(kit_folder()).unwrap().map(|file| file.unwrap().file_name().into_string().unwrap()).collect();
    assert_eq!(committed, expected);
    for (name, bytes) in made {
        assert_eq!(fs::read(kit_folder().join(&name)).unwrap(), bytes, "{name}");
    }
}

/// What a name promises: the outcome and, for a damaged file, the step.
fn promised(name: &str) -> (&str, Option<&str>, i32) {
    let expectation = name.split("--").next().unwrap();
    match expectation.split_once('-') {
        None if expectation == "intact" => ("intact", None, 0),
        None if expectation == "unknown" => ("unknown_device", None, 3),
        None if expectation == "newer" => ("newer", None, 5),
        Some(("damaged", step)) => ("damaged", Some(step), 4),
        _ => panic!("{name} promises nothing"),
    }
}

#[test]
fn every_file_comes_out_as_its_name_says() {
    let office = Office::new(folder("kit"));
    office.put("keyring.json", kit::keyring().as_bytes());
    let mut tried = 0;
    for file in fs::read_dir(kit_folder()).unwrap() {
        let path = file.unwrap().path();
        let name = path.file_name().unwrap().to_str().unwrap();
        let (outcome, step, code) = promised(name);
        let ran = office.run(&["open", "--json", path.to_str().unwrap()]);
        let line = ran.json();
        assert_eq!((line["worst"].as_str(), line["step"].as_str()), (Some(outcome), step), "{name}: {line}");
        assert_eq!(ran.code, code, "{name}");
        // in words: the same outcome, and for all but an intact file what to do next
        let ran = office.run(&["open", path.to_str().unwrap()]);
        assert_eq!(ran.code, code, "{name}");
        assert!(ran.out.starts_with(path.to_str().unwrap()), "{}", ran.out);
        assert_eq!(ran.out.contains(" next: "), code != 0, "{name}: {}", ran.out);
        // (a text found altered is printed as it is, braces and all)
        let own_words = ran.out.split("as found it reads").next().unwrap();
        assert!(
            !own_words.contains("office.") && !own_words.contains('{'),
            "a text is missing or unfilled: {}",
            ran.out
        );
        tried += 1;
    }
    assert!(tried >= 40, "{tried}");
}

#[test]
fn what_is_intact_holds_the_same_entries_in_all_its_forms() {
    let office = Office::new(folder("kit-forms"));
    office.put("keyring.json", kit::keyring().as_bytes());
    for name in ["as-made", "wrapped-by-mail", "byte-order-mark", "white-space-round-it", "indented"] {
        let path = kit_folder().join(format!("intact--{name}.txt"));
        let ran = office.run(&["open", "--json", path.to_str().unwrap()]);
        let line = ran.json();
        assert_eq!((line["entries"].as_u64(), line["label"].as_str()), (Some(6), Some("blue phone")), "{name}");
    }
}

#[test]
fn a_file_of_200_megabytes_is_refused_by_its_size() {
    let office = Office::new(folder("kit-large"));
    let path = office.folder.join("large.txt");
    // sparse: it takes no room on the disk (that nothing of it is read is tested beside `read_limited`)
    fs::File::create(&path).unwrap().set_len(200 << 20).unwrap();
    let ran = office.run(&["open", "--json", path.to_str().unwrap()]);
    let line = ran.json();
    assert_eq!((line["outcome"].as_str(), line["step"].as_str(), ran.code), (Some("damaged"), Some("size"), 4));
}
