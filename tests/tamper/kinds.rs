//! One office's five real signed files at every door: each opens its own door and no other, also where the office's own
//! key signs one kind's payload under another kind's name.

use super::{kit, ran, sampled};
use marrowbook::bundle::{DeviceKey, Kind, OpenError, open, seal};
use marrowbook::office::archive::Archive;
use marrowbook::office::card_made::read_table;
use marrowbook::office::cards::Cards;
use marrowbook::office::keyring::Keyring;
use marrowbook::office::opening::{Outcome, judge};
use marrowbook::office::season::manifest::Manifest;
use ran::Office;
use std::fs;

struct Files {
    office: Office,
    key: DeviceKey,
    /// Each kind's file as the office has it.
    all: Vec<(Kind, String)>,
}

/// An office that has signed one of each: its key signs the bundle of its own entries too.
fn files(name: &str) -> Files {
    let mut chain = sampled::Chain::new();
    chain.deer(1);
    let office = sampled::office(name, &chain);
    let key = Archive::at(&office.folder).office_key().unwrap().unwrap().unlock(sampled::PASSPHRASE).unwrap();
    let card = office.run(&["card", office.folder.join("card.json").to_str().unwrap()]).out;
    let table = office.put("table.json", office.run(&["table", "export"]).out.as_bytes());
    let table = office.run(&["table", "sign", &table]);
    assert_eq!(table.code, 0, "{table:?}");
    let out = office.folder.join("season");
    let ran = office.run(&["season", office.folder.to_str().unwrap(), "--out", out.to_str().unwrap()]);
    assert_eq!(ran.code, 0, "{ran:?}");
    let bundle =
        marrowbook::bundle::make(kit::cover(), &kit::entries(&key), marrowbook::bundle::Extras::default(), &key);
    let all = vec![
        (Kind::Bundle, bundle.unwrap()),
        (Kind::Card, card),
        (Kind::Table, table.out),
        (Kind::Decision, fs::read_to_string(out.join("manifest.txt")).unwrap()),
        (Kind::Keyring, fs::read_to_string(office.folder.join("keyring.txt")).unwrap()),
    ];
    Files { office, key, all }
}

/// Whether the door of a kind takes this file.
fn taken(door: Kind, text: &str, office: &DeviceKey) -> bool {
    let (bytes, public) = (text.as_bytes(), office.public());
    match door {
        Kind::Bundle => judge(bytes, &Keyring::default()).outcome() == Outcome::UnknownDevice,
        Kind::Card => Cards::default().take(bytes, Some(&public)).is_ok(),
        Kind::Table => read_table(bytes).is_ok(),
        Kind::Decision => Manifest::read(bytes, Some(&public)).is_ok(),
        Kind::Keyring => {
            let opened = open(bytes, Kind::Keyring).ok().and_then(|opened| String::from_utf8(opened.payload).ok());
            opened.is_some_and(|text| Keyring::read(&text).is_ok())
        }
    }
}

#[test]
fn each_kind_opens_its_own_door_and_no_other() {
    let Files { key, all, .. } = files("tamper-doors");
    assert_eq!(all.len(), Kind::ALL.len());
    for (kind, text) in &all {
        for door in Kind::ALL {
            assert_eq!(taken(door, text, &key), door == *kind, "{kind} at the door of {door}");
            if door != *kind {
                let refused = open(text.as_bytes(), door).unwrap_err();
                assert_eq!(refused, OpenError::OtherKind { expected: door, found: *kind });
            }
        }
    }
}

#[test]
fn a_payload_signed_under_another_kind_s_name_is_not_taken_for_it() {
    let Files { key, all, .. } = files("tamper-names");
    for (kind, text) in &all {
        let payload = open(text.as_bytes(), *kind).unwrap().payload;
        for name in Kind::ALL {
            let renamed = seal(name, &payload, &key).unwrap();
            for door in Kind::ALL {
                let own = *kind == name && name == door;
                assert_eq!(taken(door, &renamed, &key), own, "{kind} signed as {name} at the door of {door}");
            }
        }
    }
}

#[test]
fn at_the_command_line_no_kind_passes_as_another() {
    let Files { office, all, .. } = files("tamper-commands");
    let folder = office.folder.to_str().unwrap().to_owned();
    let ring = office.folder.join("keyring.txt");
    let good_ring = fs::read_to_string(&ring).unwrap();
    let crew = office.folder.join("crew.txt").to_str().unwrap().to_owned();
    for (kind, text) in &all {
        let file = office.put("some.txt", text.as_bytes());
        let ran = office.run(&["open", "--json", &file]);
        let line = ran.json();
        if *kind == Kind::Bundle {
            // The office's own key is on the ring only once it has entered something.
            assert_eq!((ran.code, line["outcome"].as_str()), (3, Some("unknown_device")), "{line}");
        } else {
            let said = (ran.code, line["outcome"].as_str(), line["step"].as_str());
            assert_eq!(said, (4, Some("damaged"), Some("kind")), "{kind}");
            let words = office.run(&["enrol", &file, "--name", "green phone", "--words", "a b c d e f g h"]);
            assert_ne!(words.code, 0, "{kind} enrolled");
        }
        if *kind != Kind::Card {
            let ran = office.run(&["read", "--card", &file, &crew]);
            assert_eq!((ran.code, ran.out.as_str()), (1, ""), "{kind} as a card: {ran:?}");
        }
        if *kind != Kind::Table {
            let card = format!("{folder}/card.json");
            let ran = office.run(&["card", &card, "--table", &file]);
            assert_eq!((ran.code, ran.out.as_str()), (1, ""), "{kind} as a table: {ran:?}");
        }
        if *kind != Kind::Decision {
            let ran = office.run(&["season", &folder, "--out", &format!("{folder}/again"), "--again", &file]);
            assert!(ran.code == 1 && ran.err.contains("no season manifest"), "{kind} as a manifest: {ran:?}");
        }
        if *kind != Kind::Keyring {
            fs::write(&ring, text).unwrap();
            let ran = office.run(&["open", &crew]);
            assert!(ran.code == 1 && ran.err.contains("the keyring does not hold"), "{kind} as a keyring: {ran:?}");
            fs::write(&ring, &good_ring).unwrap();
        }
    }
    assert_eq!(office.run(&["open", &crew]).code, 0);
}
