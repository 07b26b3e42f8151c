//! The invented season: it comes out the same again, and a season run on it does too, in whatever order its files lie.
//! None of its figures is a check value.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/digests.rs"]
mod digests;
#[path = "office/few.rs"]
mod few;
#[path = "../demo/season/make/mod.rs"]
mod make;
#[path = "office/ran.rs"]
mod ran;
#[path = "office/written.rs"]
mod written;

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use ran::{Office, folder};
use serde_json::Value as Json;
use written::written;

const PASSPHRASE: &str = "quillback ridge is invented";

/// A season run over an archive: what it says, and every file that it wrote.
fn run(archive: &Path, out: &Path) -> (Json, BTreeMap<String, Vec<u8>>) {
    let mut office = Office::new(archive.to_owned());
    office.passphrase = Some(PASSPHRASE.into());
    let ran = office.run(&["season", "--out", out.to_str().unwrap(), "--json"]);
    // A stranger's phone is in it.
    assert_eq!(ran.code, 3, "{ran:?}");
    (serde_json::from_str(&ran.out).unwrap(), written(out))
}

/// Files of the archive under other names, so that they are read in another order.
fn shuffle(archive: &Path) {
    let received = archive.join("received");
    for (n, name) in (0..).zip(written(&received).into_keys()) {
        fs::rename(received.join(&name), received.join(format!("{}-{n}.txt", ["m", "a", "z"][n % 3]))).unwrap();
    }
}

fn same(one: &BTreeMap<String, Vec<u8>>, other: &BTreeMap<String, Vec<u8>>) {
    assert_eq!(one.keys().collect::<Vec<_>>(), other.keys().collect::<Vec<_>>());
    let differing: Vec<&String> = one.iter().filter(|(name, bytes)| other[*name] != **bytes).map(|(n, _)| n).collect();
    assert!(differing.is_empty(), "{differing:?}");
}

#[test]
fn it_is_made_the_same_again_and_a_season_of_its_shuffled_files_too() {
    let place = folder("demo-season");
    let (first, second) = (place.join("one"), place.join("two"));
    assert_eq!(make::season(&first).unwrap(), 64);
    make::season(&second).unwrap();
    let made = written(&first);
    same(&made, &written(&second));
    assert_eq!(made.keys().filter(|name| name.starts_with("files/")).count(), 10, "{:?}", made.keys());
    // Few carcasses, so that a slow build is done with it soon.
    for folder in [&first, &second] {
        few::leave_few(folder);
    }
    shuffle(&second.join("archive"));
    let (season, files) = run(&first.join("archive"), &place.join("a"));
    let (_, shuffled) = run(&second.join("archive"), &place.join("b"));
    same(&files, &shuffled);
    digests::committed("demo/season/season-of-few.sha256", &files);
    let counts = &season["carcasses"];
    assert_eq!((counts["found"].as_u64(), counts["no_carcass"].as_u64()), (Some(12), Some(1)), "{counts}");
    assert!(season["not_used"].to_string().contains("not enrolled"), "{}", season["not_used"]);
    assert!(season["density"]["refused"].is_string(), "responses give no density: {}", season["density"]);
}

/// What the demo shows has to work there: a result that is still to be entered, and whom it calls.
#[test]
fn the_sheet_that_lies_beside_it_is_entered_and_the_suspect_is_called_for_as_confirmed() {
    let place = folder("demo-season-sheet");
    make::season(&place).unwrap();
    let mut office = Office::new(place.join("archive"));
    office.passphrase = Some(PASSPHRASE.into());
    let calls = |office: &Office| office.run(&["calls", "list"]).out;
    let before = calls(&office);
    assert!(before.contains("exposed:M3:cwd:suspect") && before.contains("SUSPECT, not confirmed"), "{before}");
    let sheets = written(&place.join("sheets"));
    let [name] = sheets.keys().collect::<Vec<_>>()[..] else { panic!("{:?}", sheets.keys()) };
    let ran = office.run(&["lab", "read", place.join("sheets").join(name).to_str().unwrap(), "--by", "K7"]);
    assert_eq!(ran.code, 0, "{ran:?}");
    let after = calls(&office);
    assert!(after.contains("exposed:M3:cwd:positive") && !after.contains("SUSPECT"), "{after}");
    // The page's list names every file of the archive as it was made.
    let list: Json = serde_json::from_slice(&fs::read(place.join("files.json")).unwrap()).unwrap();
    let listed: Vec<&str> = list["archive"].as_array().unwrap().iter().map(|one| one.as_str().unwrap()).collect();
    for part in ["office-key.json", "keyring.txt", "cards/", "received/", "winter/"] {
        assert!(listed.iter().any(|one| one.starts_with(part)), "{part} of {listed:?}");
    }
}

/// What would greet a newcomer as nonsense: chains out of order of time, who may not touch and takes a jaw all the same, a
/// paper envelope that is handed on frozen.
#[test]
fn its_crews_do_what_crews_may_do_in_order_of_time() {
    let place = folder("demo-season-sense");
    make::season(&place).unwrap();
    let office = Office::new(place.join("archive"));
    let waiting = office.run(&["decide", "list"]).out;
    let clocks: Vec<&str> = waiting.lines().filter(|line| line.contains("clock went back")).collect();
    assert!(matches!(clocks[..], [one] if one.starts_with("white: its clock went back 1 time,")), "{clocks:?}");
    assert!(waiting.contains("Brown against white"), "two readers of one jaw differ: {waiting}");
    let card = written(&place.join("archive/cards")).into_values().next().unwrap();
    let card: Json = serde_json::from_slice(&card).unwrap();
    let card: Json =
        serde_json::from_slice(&URL_SAFE_NO_PAD.decode(card["payload"].as_str().unwrap()).unwrap()).unwrap();
    let may = |code: &str, what: &str| {
        let person = card["people"].as_array().unwrap().iter().find(|one| one["code"] == code).unwrap();
        person["may_touch"] == true && person[what] == true
    };
    assert!(!may("D4", "may_take_jaw"), "one crew only looks");
    let listed = office.run(&["lab", "list", "--all", "--json"]).out;
    let lines: Vec<Json> = listed.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert!(lines.len() > 40, "{listed}");
    for line in &lines {
        let what = match line["what"].as_str().unwrap() {
            "jaw" => "may_take_jaw",
            "femur" => "may_take_femur",
            "head_part" => "may_take_head_parts",
            other => panic!("{other}: {line}"),
        };
        let mut label = line["label"].as_array().unwrap().iter().map(|one| one.as_str().unwrap());
        let by = label.find_map(|one| one.strip_prefix("Taken by: ")).unwrap();
        assert!(may(by, what), "{by} may not take it: {line}");
        let state = if line["kept"] == "paper_dry" { ", dry" } else { ", frozen" };
        let hands = line["custody"].as_array().unwrap().iter().map(|one| one.as_str().unwrap());
        let hands: Vec<&str> =
            hands.filter(|one| one.starts_with("Received") || one.starts_with("Handed on")).collect();
        assert!(!hands.is_empty() && hands.iter().all(|one| one.ends_with(state)), "{line}");
        assert_eq!(line["gaps"].as_array().map(Vec::len), Some(0), "{line}");
    }
}
