//! Files made to swell: small to send, and many times their size in memory or in time where no bound holds them.

use super::kit;
use marrowbook::bundle::payload::MOST_CARRIED;
use marrowbook::bundle::strict::ReadError;
use marrowbook::bundle::{Contents, ContentsError, Kind, OpenError, canonical, open, seal};
use marrowbook::office::csv_sheet::{CsvSheet, NoCsv};
use marrowbook::office::keyring::Keyring;
use marrowbook::office::opening::{Outcome, judge};
use marrowbook::office::winter::text::{NoTable, rows};
use serde_json::{Value, json};

/// As long a list as a file may hold; as a tree it would be sixty times that.
const MANY: usize = 1 << 20;

#[test]
fn an_envelope_or_header_of_many_values_is_read_no_further() {
    let list = "0,".repeat(MANY) + "0";
    for text in [format!("[{list}]"), format!("{{\"payload\":[{list}]}}"), format!("{{\"signatures\":[{list}]}}")] {
        assert_eq!(open(text.as_bytes(), Kind::Bundle).unwrap_err(), OpenError::NotAnEnvelope(ReadError::TooMany));
    }
    let parts = kit::parts(&kit::good());
    let header = parts.header.replacen('{', &format!("{{\"a\":[{list}],"), 1);
    let text = kit::signed(&header, &parts.packed, &kit::phone());
    assert_eq!(open(text.as_bytes(), Kind::Bundle).unwrap_err(), OpenError::HeaderNotJson(ReadError::TooMany));
}

fn payload_with(change: impl FnOnce(&mut Value)) -> String {
    let mut payload: Value =
        serde_json::from_slice(&open(kit::good().as_bytes(), Kind::Bundle).unwrap().payload).unwrap();
    change(&mut payload);
    seal(Kind::Bundle, &canonical::to_vec(&payload).unwrap(), &kit::phone()).unwrap()
}

#[test]
fn what_follows_an_entry_of_no_known_form_is_not_held() {
    for filler in [json!({}), json!({"salt": "x"}), json!({"body": "", "salt": ""}), json!({"found": ""})] {
        let text = payload_with(|payload| {
            let all = payload["chain"]["entries"].as_array_mut().unwrap();
            all.truncate(2);
            all.extend(std::iter::repeat_n(filler.clone(), 20_000));
        });
        let opened = open(text.as_bytes(), Kind::Bundle).unwrap();
        assert_eq!(Contents::read(&opened).unwrap_err(), ContentsError::EntryForm { seq: 3 }, "{filler}");
        // The third is held, because the error names it, and nothing behind it.
        let payload: marrowbook::bundle::Payload = serde_json::from_slice(&opened.payload).unwrap();
        assert_eq!(payload.chain.entries.len(), 3);
    }
}

#[test]
fn more_carried_bundles_than_a_phone_takes_are_no_bundle() {
    let of = |count: usize| payload_with(|payload| payload["carried"] = json!(vec![""; count]));
    let taken = judge(of(MOST_CARRIED).as_bytes(), &Keyring::default());
    assert_eq!((taken.carried.len(), taken.worst()), (MOST_CARRIED, Outcome::Damaged));
    let refused = judge(of(MOST_CARRIED + 1).as_bytes(), &Keyring::default());
    assert_eq!((refused.carried.len(), refused.outcome()), (0, Outcome::Damaged));
}

#[test]
fn sheets_of_commas_are_refused_by_their_size() {
    let head: Vec<String> = (0..401).map(|n| format!("c{n}")).collect();
    let wide = |columns: usize| format!("{}\n{}\n", head[..columns].join(","), vec!["1"; columns].join(","));
    assert!(CsvSheet::read(wide(400).as_bytes()).is_ok());
    assert_eq!(CsvSheet::read(wide(401).as_bytes()), Err(NoCsv::TooLarge));
    assert_eq!(CsvSheet::read(&vec![b','; (4 << 20) + 1]), Err(NoCsv::TooLarge));
    let read = rows(wide(401).as_bytes()).unwrap();
    assert_eq!((read.header.len(), read.rows[0].1.len()), (400, 400), "a log has no such column");
    assert_eq!(rows(&vec![b','; (24 << 20) + 1]).unwrap_err(), NoTable::TooLong);
}
