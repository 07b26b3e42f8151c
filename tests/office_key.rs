//! The office's own key: made once, signs the keyring and local cards.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/kit.rs"]
mod kit;
#[path = "office/ran.rs"]
mod ran;

use marrowbook::bundle::{Fingerprint, Kind, open};
use marrowbook::card::Card;
use ran::{Office, folder};
use std::fs;

const CARD: &str = include_str!("../demo/card.json");

fn office_with_key(name: &str) -> Office {
    let mut office = Office::new(folder(name));
    office.passphrase = Some("acorn basin cedar dolphin".into());
    assert_eq!(office.run(&["key", "new"]).code, 0);
    office
}

#[test]
fn a_key_is_made_once_and_shown_without_its_passphrase() {
    let mut office = office_with_key("key-once");
    let ran = office.run(&["key", "new"]);
    assert_eq!(ran.code, 1);
    assert!(ran.err.contains("has an office key already"), "{}", ran.err);
    let with = office.run(&["key", "show"]);
    office.passphrase = None;
    let without = office.run(&["key", "show"]);
    assert_eq!((with.code, &with.out), (0, &without.out));
    assert!(with.out.starts_with("fingerprint: "), "{}", with.out);
}

#[test]
fn a_short_or_missing_passphrase_makes_no_key() {
    let mut office = Office::new(folder("key-short"));
    let ran = office.run(&["key", "new"]);
    assert!(ran.code == 1 && ran.err.contains("MARROWBOOK_PASSPHRASE"), "{}", ran.err);
    office.passphrase = Some("short".into());
    let ran = office.run(&["key", "new"]);
    assert!(ran.code == 1 && ran.err.contains("at least 15 characters"), "{}", ran.err);
    assert!(!office.folder.join("office-key.json").exists());
    assert_eq!(office.run(&["key", "show"]).code, 1);
}

#[test]
fn with_a_key_the_keyring_is_signed_and_a_changed_one_is_refused() {
    let mut office = Office::new(folder("key-ring"));
    let file = office.put("bundle.txt", kit::good().as_bytes());
    let words = Fingerprint::of(kit::phone().public().id()).to_string();
    assert_eq!(office.run(&["enrol", &file, "--name", "blue phone", "--words", &words]).code, 0);
    // devices enrolled before there was a key stay enrolled
    office.passphrase = Some("acorn basin cedar dolphin".into());
    assert_eq!(office.run(&["key", "new"]).code, 0);
    assert!(!office.folder.join("keyring.json").exists());
    assert_eq!(office.run(&["open", &file]).code, 0);

    let other = Fingerprint::of(kit::stranger().public().id()).to_string();
    let enrol = |office: &Office| office.run(&["enrol", "--fingerprint", &other, "--name", "red phone"]);
    office.passphrase = Some("acorn basin cedar dolphins".into());
    let ran = enrol(&office);
    assert!(ran.code == 1 && ran.err.contains("does not open the office key"), "{}", ran.err);
    office.passphrase = Some("acorn basin cedar dolphin".into());
    assert_eq!(enrol(&office).code, 0);
    // looking needs no passphrase
    office.passphrase = None;
    assert_eq!(office.run(&["open", &file]).code, 0);

    let ring = office.folder.join("keyring.txt");
    let good = fs::read_to_string(&ring).unwrap();
    assert_eq!(open(good.as_bytes(), Kind::Keyring).unwrap().kind, Kind::Keyring);
    let elsewhere = office_with_key("key-elsewhere");
    assert_eq!(elsewhere.run(&["enrol", "--fingerprint", &words, "--name", "blue phone"]).code, 0);
    let theirs = fs::read_to_string(elsewhere.folder.join("keyring.txt")).unwrap();
    let middle = good.len() / 3;
    let changed =
        format!("{}{}{}", &good[..middle], if &good[middle..=middle] == "A" { "B" } else { "A" }, &good[middle + 1..]);
    for wrong in [theirs, changed, good[..middle].to_owned()] {
        fs::write(&ring, wrong).unwrap();
        let ran = office.run(&["open", &file]);
        assert!(ran.code == 1 && ran.err.contains("the keyring does not hold"), "{ran:?}");
    }
}

#[test]
fn a_card_is_signed_and_opens_as_a_card() {
    let office = office_with_key("key-card");
    let card = office.put("card.json", CARD.as_bytes());
    let ran = office.run(&["card", &card]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let opened = open(ran.out.as_bytes(), Kind::Card).unwrap();
    let shown = office.run(&["key", "show"]).out;
    let words = Fingerprint::of(opened.signer.id()).to_string();
    assert!(shown.contains(&words) && ran.err.contains(&words), "{shown} {}", ran.err);
    let payload = String::from_utf8(opened.payload).unwrap();
    assert_eq!(Card::from_json(&payload), Card::from_json(CARD));

    let out = office.folder.join("card.txt");
    assert_eq!(office.run(&["card", &card, "--out", out.to_str().unwrap()]).code, 0);
    assert_eq!(fs::read_to_string(out).unwrap(), ran.out);
}

#[test]
fn what_is_no_card_is_not_signed() {
    let office = office_with_key("key-no-card");
    for text in ["", "{}", &CARD.replacen("\"serial\"", "\"cereal\"", 1), &CARD.replacen('{', "{\"form\": 1,", 1)] {
        let card = office.put("card.json", text.as_bytes());
        let ran = office.run(&["card", &card]);
        assert_eq!((ran.code, ran.out.as_str()), (1, ""), "{text}");
        assert!(ran.err.contains("no local card") && ran.err.contains("next: "), "{}", ran.err);
    }
    let keyless = Office::new(folder("key-none"));
    let card = keyless.put("card.json", CARD.as_bytes());
    let ran = keyless.run(&["card", &card]);
    assert!(ran.code == 1 && ran.err.contains("office key new"), "{}", ran.err);
}
