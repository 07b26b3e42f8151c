//! The evidence table as a file: printed, checked, signed, carried by a card. A rule of the house.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/ran.rs"]
mod ran;

use marrowbook::bundle::{Kind, open};
use marrowbook::card::{Card, EvidenceTable};
use marrowbook::reading::{built_in, digest_of_table, table_of};
use ran::{Office, folder};
use serde_json::Value;

const CARD: &str = include_str!("../demo/card.json");

fn office_with_key(name: &str) -> Office {
    let mut office = Office::new(folder(name));
    office.passphrase = Some("acorn basin cedar dolphin".into());
    assert_eq!(office.run(&["key", "new"]).code, 0);
    office
}

#[test]
fn the_program_s_own_table_is_printed_and_holds() {
    let office = Office::new(folder("table-export"));
    let ran = office.run(&["table", "export"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let table = EvidenceTable::from_json(&ran.out).unwrap();
    assert_eq!(table, built_in());
    let file = office.put("table.json", ran.out.as_bytes());
    let ran = office.run(&["table", "check", &file]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(ran.out.contains(&digest_of_table(&table).to_string()) && ran.out.contains("not signed"), "{}", ran.out);
}

#[test]
fn a_table_that_does_not_hold_is_refused_by_its_row() {
    let office = office_with_key("table-flaw");
    let mut table = built_in();
    table.rows[16].states[1].cells[10] = "71Q".into();
    let file = office.put("table.json", serde_json::to_string(&table).unwrap().as_bytes());
    for command in ["check", "sign"] {
        let ran = office.run(&["table", command, &file]);
        assert_eq!(ran.code, 1, "{command}");
        assert!(ran.err.contains("row `rumen_contents`: the states of cause `feed` add to 1010"), "{}", ran.err);
        assert!(ran.err.contains("next: correct the row"), "{}", ran.err);
    }
}

#[test]
fn a_signed_table_opens_as_a_table_and_a_card_carries_it() {
    let office = office_with_key("table-signed");
    let mut table = built_in();
    table.name = "An invented office's table".into();
    table.rows[0].states[0].cells[0] = "70Q".into();
    table.rows[0].states[1].cells[0] = "20E".into();
    let file = office.put("table.json", serde_json::to_string(&table).unwrap().as_bytes());
    let ran = office.run(&["table", "sign", &file]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let opened = open(ran.out.as_bytes(), Kind::Table).unwrap();
    let read = EvidenceTable::from_json(std::str::from_utf8(&opened.payload).unwrap()).unwrap();
    assert_eq!(read, table);
    assert!(table_of(&read).is_ok());
    assert!(open(ran.out.as_bytes(), Kind::Card).is_err(), "a table is no card");

    let signed = office.put("table.txt", ran.out.as_bytes());
    assert!(office.run(&["table", "check", &signed]).out.contains("signed"));
    let mut without_area: Value = serde_json::from_str(CARD).unwrap();
    without_area.as_object_mut().unwrap().remove("cause").unwrap();
    let card = office.put("card.json", without_area.to_string().as_bytes());
    let ran = office.run(&["card", &card, "--table", &signed]);
    assert!(ran.code == 1 && ran.err.contains("it names no area"), "{}", ran.err);
    let card = office.put("card.json", CARD.as_bytes());
    let ran = office.run(&["card", &card, "--table", &signed]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let opened = open(ran.out.as_bytes(), Kind::Card).unwrap();
    let card_read = Card::from_json(std::str::from_utf8(&opened.payload).unwrap()).unwrap();
    assert_eq!(*card_read.cause.unwrap().table.unwrap(), table);

    // Not signed, or signed by somebody else: not carried.
    let ran = office.run(&["card", &card, "--table", &file]);
    assert!(ran.code == 1 && ran.err.contains("not signed by this office"), "{}", ran.err);
    let other = office_with_key("table-other");
    let ran = other.run(&["card", &card, "--table", &signed]);
    assert!(ran.code == 1 && ran.err.contains("not signed by this office"), "{}", ran.err);
}

#[test]
fn a_card_with_a_table_that_does_not_hold_is_not_signed() {
    let office = office_with_key("table-bad-card");
    let mut table = serde_json::to_value(built_in()).unwrap();
    table["rows"][3]["row"] = "blood".into();
    let mut text: Value = serde_json::from_str(CARD).unwrap();
    text["cause"] = serde_json::json!({"area": "northeast", "table": table});
    let card = office.put("card.json", text.to_string().as_bytes());
    let ran = office.run(&["card", &card]);
    assert!(ran.code == 1 && ran.err.contains("row `blood`"), "{}", ran.err);
}
