//! Bundles made and opened, good and spoilt before signing. Names and answers are invented.

use super::*;
use crate::bundle::canonical;
use crate::bundle::envelope::seal;
use crate::bundle::key::DeviceKey;
use crate::bundle::making::{Cover, Extras, MakeError, make};
use crate::bundle::opening::{Limits, open, open_within};
use crate::bundle::payload::{FourVersions, PhoneReading};
use crate::bundle::vectors::published_key;
use crate::bundle::{Kind, OpenError};
use crate::record::{
    Act, Answer, Body, ENTRY_SCHEMA, Key, Moment, PersonCode, Photo, Site, Subject, Versions, uuid_v7,
};
use proptest::prelude::*;
use serde_json::{Value, json};

fn body(option: &str) -> Body {
    Body {
        schema: ENTRY_SCHEMA,
        act: Act::Answer {
            key: Key {
                subject: Subject::Examination(uuid_v7(1_800_000_000_000, [3; 10])),
                finding: "marrow_colour".into(),
                site: Site::NONE,
                observer: PersonCode::new("K7").unwrap(),
            },
            answer: Answer::choice(option),
            supersedes: Vec::new(),
        },
        typed_by: PersonCode::new("K7").unwrap(),
        at: Moment::parse("2027-02-14T10:23:05-05:00").unwrap(),
        zone: "America/Toronto".into(),
        since_start_ms: Some(61_000),
        versions: Versions { protocol: 1, step: Some("marrow_look".into()), card: None },
    }
}

fn chain(key: &DeviceKey, length: u8) -> Vec<Entry> {
    let mut head = Head::start(key.public().id());
    let options = ["white", "pink", "red", "yellow"];
    (0..length)
        .map(|place| {
            let entry = head.next(&body(options[usize::from(place) % 4]), Salt([place; 16])).unwrap();
            head = Head::after(&entry);
            entry
        })
        .collect()
}

fn cover() -> Cover {
    Cover {
        bundle: uuid_v7(1_800_000_000_000, [9; 10]),
        made_at: Moment::parse("2027-02-14T16:40:00-05:00").unwrap(),
        zone: "America/Toronto".into(),
        app: "0.1.0".into(),
        versions: FourVersions { envelope: 1, entry_schema: 1, protocol: 1, science: 1 },
        label: "blue phone".into(),
        crew: Some("north".into()),
        card: None,
    }
}

fn made(range: &[Entry]) -> String {
    make(cover(), range, Extras::default(), &published_key()).unwrap()
}

fn contents(text: &str) -> Result<Contents, ContentsError> {
    Contents::read(&open(text.as_bytes(), Kind::Bundle).unwrap())
}

/// Opens a bundle, lets `change` spoil its payload, and signs it again with the same key.
fn spoilt(text: &str, change: impl FnOnce(&mut Value)) -> Result<Contents, ContentsError> {
    let opened = open(text.as_bytes(), Kind::Bundle).unwrap();
    let mut payload: Value = serde_json::from_slice(&opened.payload).unwrap();
    change(&mut payload);
    let bytes = canonical::to_vec(&payload).unwrap();
    contents(&seal(Kind::Bundle, &bytes, &published_key()).unwrap())
}

#[test]
fn a_bundle_gives_back_the_very_entries() {
    let entries = chain(&published_key(), 7);
    for (from, to) in [(0, 7), (0, 1), (3, 7), (6, 7)] {
        let read = contents(&made(&entries[from..to])).unwrap();
        assert_eq!(read.entries, entries[from..to]);
        assert_eq!(read.faults, []);
        assert_eq!(read.payload.label, "blue phone");
    }
}

#[test]
fn a_withheld_body_shows_as_withheld_and_the_chain_holds() {
    let mut entries = chain(&published_key(), 4);
    entries[2] = entries[2].withhold();
    let read = contents(&made(&entries)).unwrap();
    assert_eq!(read.entries, entries);
    assert_eq!(read.faults, []);
}

#[test]
fn a_text_altered_on_the_phone_is_reported_and_the_rest_opens() {
    let mut entries = chain(&published_key(), 4);
    let Stored::Whole { text, .. } = &mut entries[1].stored else { panic!() };
    *text = text.replace("pink", "blue");
    let found = text.clone();
    let id = entries[1].id();
    let read = contents(&made(&entries)).unwrap();
    assert_eq!(read.faults, [Fault::Altered { id, found }]);
    assert_eq!(read.entries[1], entries[1].withhold());
    assert_eq!(read.entries[3], entries[3]);
    assert!(!read.chain_broken());
}

#[test]
fn what_was_spoilt_before_signing_shows() {
    let text = made(&chain(&published_key(), 5));
    let list = |payload: &mut Value, change: fn(&mut Vec<Value>)| {
        change(payload["chain"]["entries"].as_array_mut().unwrap());
    };
    for change in [
        |all: &mut Vec<Value>| drop(all.remove(2)),
        |all: &mut Vec<Value>| all.truncate(4),
        |all: &mut Vec<Value>| all.insert(2, all[2].clone()),
        |all: &mut Vec<Value>| all.swap(1, 2),
        |all: &mut Vec<Value>| all[4]["body"] = json!(all[4]["body"].as_str().unwrap().replace("white", "red")),
        |all: &mut Vec<Value>| all[0]["salt"] = json!(format!("Q{}", "A".repeat(21))),
    ] {
        assert!(spoilt(&text, |payload| list(payload, change)).unwrap().chain_broken());
    }
    assert!(spoilt(&text, |payload| payload["chain"]["head"] = json!("A".repeat(43))).unwrap().chain_broken());
    assert!(!spoilt(&text, |_| {}).unwrap().chain_broken());
}

#[test]
fn the_form_of_the_payload_is_checked() {
    let text = made(&chain(&published_key(), 2));
    let form = |change: fn(&mut Value)| spoilt(&text, change).unwrap_err();
    assert_eq!(form(|p| p["format"] = json!(2)), ContentsError::NewerForm(2));
    assert!(matches!(form(|p| p["format"] = json!("1")), ContentsError::Form(_)));
    assert!(matches!(form(|p| p["extra"] = json!(1)), ContentsError::Form(_)));
    assert!(matches!(form(|p| drop(p.as_object_mut().unwrap().remove("label"))), ContentsError::Form(_)));
    assert_eq!(form(|p| p["chain"]["device"] = json!("A".repeat(43))), ContentsError::OtherDevice);
    assert_eq!(form(|p| p["chain"]["first_seq"] = json!(0)), ContentsError::Start);
    assert_eq!(form(|p| p["chain"]["first_seq"] = json!(2)), ContentsError::Start);
    assert_eq!(form(|p| p["chain"]["prev"] = json!("A".repeat(43))), ContentsError::Start);
    assert_eq!(form(|p| p["chain"]["entries"] = json!([])), ContentsError::Start);
    let entry = |p: &mut Value, entry: Value| p["chain"]["entries"][1] = entry;
    for wrong in [json!({}), json!({"body": "x"}), json!({"salt": "x"}), json!({"body": "x", "salt": "AA"})] {
        let error = spoilt(&text, |p| entry(p, wrong)).unwrap_err();
        assert_eq!(error, ContentsError::EntryForm { seq: 2 });
    }
}

#[test]
fn a_body_of_no_known_form_is_reported_by_itself() {
    let mut entries = chain(&published_key(), 2);
    let head = Head::after(&entries[1]);
    let salt = Salt([5; 16]);
    let text = r#"{"schema":1,"act":{"kind":"answer"}}"#.to_owned();
    let header =
        Header { format: 1, device: head.device, seq: 3, prev: head.digest, body: Entry::body_digest(&text, salt) };
    entries.push(Entry { header, stored: Stored::Whole { text, salt } });
    let read = contents(&made(&entries)).unwrap();
    assert!(matches!(&read.faults[..], [Fault::Unreadable { id, .. }] if id.seq == 3));
    assert_eq!(read.entries, entries);
}

#[test]
fn extras_travel_with_the_entries() {
    let lost = DeviceKey::from_seed(&[1; 32]);
    let other = DeviceKey::from_seed(&[2; 32]);
    let carried = make(cover(), &chain(&other, 2), Extras::default(), &other).unwrap();
    let extras = Extras {
        adopted: vec![chain(&lost, 3)],
        photos: vec![Photo { sha256: Digest::of(&[b"jpeg"]), bytes: 4, media: "image/jpeg".into() }],
        readings: vec![PhoneReading { carcass: uuid_v7(1, [1; 10]), text: r#"{"age":2.5}"#.into() }],
        carried: vec![carried.clone(), carried.replace("payload", "payroll")],
    };
    let text = make(cover(), &chain(&published_key(), 2), extras.clone(), &published_key()).unwrap();
    let read = contents(&text).unwrap();
    assert_eq!(read.faults, []);
    assert_eq!(read.entries, [chain(&published_key(), 2), chain(&lost, 3)].concat());
    assert_eq!((&read.payload.photos, &read.payload.readings), (&extras.photos, &extras.readings));
    let within = |at: usize, payload_bytes: usize| {
        let limits = Limits { payload_bytes, ..Limits::default() };
        open_within(read.payload.carried[at].as_bytes(), Kind::Bundle, limits).map(|opened| opened.signer)
    };
    assert_eq!(within(0, 1 << 20), Ok(other.public()));
    assert!(within(1, 1 << 20).is_err());
    assert_eq!(within(0, 10), Err(OpenError::PayloadTooLarge { limit: 10 }));
}

#[test]
fn what_is_no_range_makes_no_bundle() {
    let key = published_key();
    let entries = chain(&key, 4);
    let refused = |range: &[Entry], key: &DeviceKey| make(cover(), range, Extras::default(), key).unwrap_err();
    assert_eq!(refused(&[], &key), MakeError::Empty);
    assert!(matches!(refused(&[entries[0].clone(), entries[2].clone()], &key), MakeError::NotOneRange(_)));
    assert!(matches!(refused(&[entries[1].clone(), entries[0].clone()], &key), MakeError::NotOneRange(_)));
    assert_eq!(refused(&entries, &DeviceKey::from_seed(&[1; 32])), MakeError::OtherKey);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    // Whatever single character of the payload changes before it is signed again: either the payload
    // is refused, or the chain shows it, or the change was outside the entries.
    #[test]
    fn no_changed_character_inside_the_entries_passes(place in any::<prop::sample::Index>(), with in "[a-zA-Z0-9]") {
        let text = made(&chain(&published_key(), 3));
        let payload = open(text.as_bytes(), Kind::Bundle).unwrap().payload;
        let start = payload.windows(9).position(|w| w == b"\"entries\"").unwrap();
        let end = payload.windows(7).position(|w| w == b"\"head\":").unwrap();
        let place = start + place.index(end - start);
        let mut changed = payload.clone();
        changed[place] = with.as_bytes()[0];
        prop_assume!(changed != payload && canonical::is_canonical(&changed));
        let read = contents(&seal(Kind::Bundle, &changed, &published_key()).unwrap());
        prop_assert!(read.is_err() || read.unwrap().chain_broken());
    }
}
