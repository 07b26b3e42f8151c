//! `office read`: readings recomputed from bundles and from plain tables. All cases are invented.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/kit.rs"]
mod kit;
#[path = "office/ran.rs"]
mod ran;

use marrowbook::bundle::{Extras, Kind, PhoneReading, make, open};
use marrowbook::card::Card;
use marrowbook::reading::{self, Given, Readings};
use marrowbook::record::{
    Act, Answer, Body, Carcass, CustodyStep, Digest, Entry, Head, Journal, Key, PersonCode, Salt, Site, Subject, fold,
};
use ran::{Office, Ran, folder};
use serde_json::Value;

const EXAMPLE: &[u8] = include_bytes!("office/findings-example.json");

fn lines(ran: &Ran) -> Vec<Value> {
    ran.out.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}

fn office(name: &str) -> Office {
    let office = Office::new(folder(name));
    office.put("keyring.json", kit::keyring().as_bytes());
    office
}

/// The readings that a phone with these entries would show.
fn on_the_phone(entries: &[Entry]) -> Readings {
    let mut journal = Journal::new();
    for entry in entries {
        journal.add(entry.clone()).unwrap();
    }
    reading::all(fold(&journal).carcasses.values().next().unwrap(), &Given::default())
}

fn bundle_with(readings: &str, carcass: uuid::Uuid) -> String {
    let phone = PhoneReading { carcass, text: readings.to_owned() };
    let extras = Extras { readings: vec![phone], ..Extras::default() };
    make(kit::cover(), &kit::entries(&kit::phone()), extras, &kit::phone()).unwrap()
}

#[test]
fn a_table_goes_through_the_science_without_a_phone() {
    let office = office("read-table");
    let ran = office.run_with(&["read", "-"], EXAMPLE, false);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let [line] = &lines(&ran)[..] else { panic!("{ran:?}") };
    assert_eq!(line["name"], "invented doe");
    // 1.27 g of 5.10 g is 24.9 % dry matter: arithmetic, whatever the methods make of it
    assert!(line["said"]["condition.marrow"].to_string().contains("24.9"), "{}", line["said"]);
    assert_eq!(line["readings"]["age"]["outcome"], "read");
    // the same table gives the same bytes
    assert_eq!(office.run_with(&["read", "-"], EXAMPLE, false).out, ran.out);
}

#[test]
fn rows_that_cannot_be_are_named_and_the_rest_is_read() {
    let office = office("read-rows");
    let text = String::from_utf8(EXAMPLE.to_vec()).unwrap();
    let text = text.replace(r#""value": 62 "#, r#""value": 6200 "#).replace("blood_on_snow", "bloody_snow");
    let file = office.put("table.json", text.as_bytes());
    let ran = office.run(&["read", &file]);
    assert_eq!(ran.code, 1);
    let [line] = &lines(&ran)[..] else { panic!("{ran:?}") };
    assert_eq!(line["set_aside"].as_array().unwrap().len(), 2);
    assert!(ran.err.contains("examination 1, row 2: 6200 lies outside"), "{}", ran.err);
    assert!(ran.err.contains("examination 1, row 3: `bloody_snow` is not a finding"), "{}", ran.err);
    assert_eq!(line["readings"]["age"]["outcome"], "read");
}

#[test]
fn what_is_no_table_says_what_to_do() {
    let office = office("read-no-table");
    for (text, words) in [
        (r#"{"format":"marrowbook-findings-2","carcasses":[]}"#, "this program reads"),
        (r#"{"format":"marrowbook-findings-1","carcasses":[{}]}"#, "missing field"),
    ] {
        let ran = office.run_with(&["read", "-"], text.as_bytes(), false);
        assert_eq!((ran.code, ran.out.as_str()), (1, ""));
        assert!(ran.err.contains(words) && ran.err.contains("next: office schema"), "{}", ran.err);
    }
    let ran = office.run_with(&["read", "-"], b"{\"carcasses\":[]}", false);
    assert_eq!(ran.code, 4);
}

#[test]
fn two_halves_of_a_chain_read_like_the_whole() {
    let office = office("read-halves");
    let all = kit::entries(&kit::phone());
    let half = |range: &[Entry]| make(kit::cover(), range, Extras::default(), &kit::phone()).unwrap();
    let first = office.put("first.txt", half(&all[..3]).as_bytes());
    let second = office.put("second.txt", half(&all[3..]).as_bytes());
    let whole = office.put("whole.txt", kit::good().as_bytes());
    let expected = office.run(&["read", &whole]);
    assert_eq!(expected.code, 0);
    assert_eq!(lines(&expected).len(), 1);
    for files in [vec![&first, &second], vec![&second, &first], vec![&whole, &first, &whole]] {
        let args: Vec<&str> = ["read"].into_iter().chain(files.iter().map(|file| file.as_str())).collect();
        assert_eq!(office.run(&args).out, expected.out);
    }
    // the second half alone does not say to which carcass its examination belongs
    let ran = office.run(&["read", &second]);
    assert_eq!(ran.out, "");
    assert!(ran.err.contains("1 of the examinations name no carcass"), "{}", ran.err);
}

#[test]
fn the_phones_own_readings_are_compared_to_the_last_digit() {
    let office = office("read-phone");
    let readings = on_the_phone(&kit::entries(&kit::phone()));
    let same = serde_json::to_string(&readings).unwrap();
    let other = same.replacen("\"outcome\":\"refused\"", "\"outcome\":\"read\"", 1);
    assert_ne!(same, other);
    for (text, agrees, because) in [
        (same.as_str(), true, None),
        (other.as_str(), false, Some("unexplained")),
        ("{\"older\":1}", false, Some("unknown_form")),
    ] {
        let file = office.put("bundle.txt", bundle_with(text, readings.carcass).as_bytes());
        let ran = office.run(&["read", &file]);
        let line = &lines(&ran)[0];
        assert_eq!(line["phones"][0]["agrees"], agrees, "{text}");
        assert_eq!(line["phones"][0]["differs"][0]["because"].as_str(), because);
        assert_eq!(serde_json::from_value::<Readings>(line["readings"].clone()).unwrap(), readings);
    }
}

/// A phone hands over published sources by name and mark; they are the office's own, and a wrong name is not.
#[test]
fn sources_travel_by_name_and_are_compared() {
    let readings = on_the_phone(&with_tracks());
    let text = readings.to_hand_over().unwrap();
    let full = serde_json::to_string(&readings).unwrap();
    let source = readings.each().into_iter().flat_map(|reading| &reading.sources).find(|s| s.mark != "ours").unwrap();
    assert!(full.contains(&*source.cite) && !text.contains(&*source.cite) && text.contains(&*source.id));
    let renamed = text.replacen(&format!("\"{}\"", source.id), "\"a-source-of-nobody\"", 1);
    for (text, agrees) in [(&text, true), (&full, true), (&renamed, false)] {
        let office = office("read-sources");
        let file = office.put("bundle.txt", handed_in_as(text, readings.carcass).as_bytes());
        let phone = &lines(&office.run(&["read", &file]))[0]["phones"][0];
        assert_eq!(phone["agrees"], agrees, "{phone}");
    }
}

#[test]
fn what_is_damaged_is_not_read_and_what_is_unknown_is() {
    let office = Office::new(folder("read-trust"));
    let good = office.put("good.txt", kit::good().as_bytes());
    let kit = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/kit");
    let damaged = kit.join("damaged-chain--entry-changed.txt").to_str().unwrap().to_owned();
    let ran = office.run(&["read", &good]);
    assert_eq!((ran.code, lines(&ran).len()), (3, 1));
    assert!(ran.err.contains("not enrolled (read all the same)"), "{}", ran.err);
    let ran = office.run(&["read", &damaged]);
    assert_eq!((ran.code, ran.out.as_str()), (4, ""));
    assert!(ran.err.contains("(not read)"), "{}", ran.err);
}

/// The demo card with other members; signed by the office, which keeps it. The signed text and its digest.
fn card(office: &Office, serial: u64, changed: &[(&str, Value)]) -> (String, Card, Digest) {
    let mut card: Value = serde_json::from_str(include_str!("../demo/card.json")).unwrap();
    card["serial"] = serial.into();
    for (member, value) in changed {
        card[*member] = value.clone();
    }
    let file = office.put("card.json", card.to_string().as_bytes());
    let ran = office.run(&["card", &file]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let payload = open(ran.out.as_bytes(), Kind::Card).unwrap().payload;
    let card = Card::from_json(std::str::from_utf8(&payload).unwrap()).unwrap();
    (ran.out, card, Digest::of(&[&payload]))
}

/// The kit's deer with tracks of a large canid beside it, so that a cause can be read.
fn with_tracks() -> Vec<Entry> {
    let mut all = kit::entries(&kit::phone());
    let first = all[0].body().unwrap().unwrap();
    let Act::Answer { key, .. } = first.act.clone() else { panic!() };
    for (n, (finding, option)) in (7..).zip([("species", "white_tailed_deer"), ("tracks_main", "large_canid")]) {
        let key = Key { finding: finding.into(), site: Site::NONE, ..key.clone() };
        let act = Act::Answer { key, answer: Answer::choice(option), supersedes: vec![] };
        let body = Body { act, ..first.clone() };
        all.push(Head::after(all.last().unwrap()).next(&body, Salt([n; 16])).unwrap());
    }
    all
}

fn handed_in(readings: &Readings) -> String {
    handed_in_as(&serde_json::to_string(readings).unwrap(), readings.carcass)
}

fn handed_in_as(text: &str, carcass: uuid::Uuid) -> String {
    let phone = PhoneReading { carcass, text: text.to_owned() };
    let extras = Extras { readings: vec![phone], ..Extras::default() };
    make(kit::cover(), &with_tracks(), extras, &kit::phone()).unwrap()
}

fn carcass_of(entries: &[Entry]) -> Carcass {
    let mut journal = Journal::new();
    for entry in entries {
        journal.add(entry.clone()).unwrap();
    }
    fold(&journal).carcasses.into_values().next().unwrap()
}

/// What explains each reading that differs, of the only carcass.
fn because(ran: &Ran) -> Vec<(String, String)> {
    let line = &lines(ran)[0];
    let differs = line["phones"][0]["differs"].as_array().cloned().unwrap_or_default();
    let text = |value: &Value| value.as_str().unwrap().to_owned();
    differs.iter().map(|one| (text(&one["method"]), text(&one["because"]))).collect()
}

fn office_with_key(name: &str) -> Office {
    let mut office = Office::new(folder(name));
    office.passphrase = Some("acorn basin cedar dolphin".into());
    assert_eq!(office.run(&["key", "new"]).code, 0);
    office
}

/// A phone's figures are worked out again with its own card, which the office kept when it signed it.
#[test]
fn the_phones_card_explains_a_difference() {
    let mut office = office_with_key("read-cards");
    let carcass = carcass_of(&with_tracks());
    let (_, of_phone, digest) = card(&office, 3, &[("cause", serde_json::json!({"area": "great_lakes"}))]);
    let phone = reading::all(&carcass, &Given::card(&of_phone, digest));
    let file = office.put("bundle.txt", handed_in(&phone).as_bytes());
    // The same card is in force today: nothing differs.
    let ran = office.run(&["read", &file]);
    assert_eq!(lines(&ran)[0]["phones"][0]["agrees"], true, "{ran:?}");
    assert_eq!(lines(&ran)[0]["readings"]["card"], digest.to_string().as_str());

    // A newer card names another area: the phone's card gives the phone's figures.
    let (_, _, newer) = card(&office, 4, &[("cause", serde_json::json!({"area": "northeast"}))]);
    let ran = office.run(&["read", &file]);
    assert_eq!(lines(&ran)[0]["readings"]["card"], newer.to_string().as_str(), "today's card");
    assert_eq!(because(&ran), [("cause.of_death".to_owned(), "other_card".to_owned())]);

    // The newest differs by its evidence table alone.
    let mut table = reading::built_in();
    table.name = "An invented office's table".into();
    card(&office, 5, &[("cause", serde_json::json!({"area": "great_lakes", "table": table}))]);
    assert_eq!(because(&office.run(&["read", &file])), [("cause.of_death".to_owned(), "other_table".to_owned())]);

    // Another version of the methods gave another age: the card explains the cause alone.
    let mut older = phone.clone();
    older.science = "0".into();
    older.age.title = "older".into();
    let older = office.put("older.txt", handed_in(&older).as_bytes());
    let ran = office.run(&["read", &older]);
    let age = phone.age.method.clone();
    assert!(because(&ran).contains(&(age, "other_science".to_owned())), "{ran:?}");
    assert!(because(&ran).contains(&("cause.of_death".to_owned(), "other_table".to_owned())), "{ran:?}");

    // Without a passphrase nothing is signed, and reading needs none.
    office.passphrase = None;
    assert_eq!(office.run(&["read", &file]).code, office.run(&["read", &older]).code);
}

/// An unknown card is said to be so; given by name it explains, but another office's is never today's.
#[test]
fn a_card_that_is_not_at_hand_is_named_and_may_be_given() {
    let theirs = office_with_key("read-cards-theirs");
    let (signed, of_phone, digest) = card(&theirs, 9, &[("cause", serde_json::json!({"area": "northeast"}))]);
    let office = office_with_key("read-cards-ours");
    let (_, _, ours) = card(&office, 3, &[]);
    let carcass = carcass_of(&with_tracks());
    let phone = reading::all(&carcass, &Given::card(&of_phone, digest));
    let file = office.put("bundle.txt", handed_in(&phone).as_bytes());
    let ran = office.run(&["read", &file]);
    assert_eq!(because(&ran), [("cause.of_death".to_owned(), "card_not_here".to_owned())]);
    assert!(ran.err.contains(&format!("card {digest}, which is not at hand")), "{}", ran.err);
    let given = office.put("theirs.txt", signed.as_bytes());
    let ran = office.run(&["read", "--card", &given, &file]);
    assert_eq!(because(&ran), [("cause.of_death".to_owned(), "other_card".to_owned())]);
    assert_eq!(lines(&ran)[0]["readings"]["card"], ours.to_string().as_str());
    assert!(ran.err.contains("not signed by this office"), "{}", ran.err);
    let ran = office.run(&["read", "--card", &file, &file]);
    assert!(ran.code == 1 && ran.err.contains("no signed local card"), "{}", ran.err);
}

/// Who had each thing is printed beside the readings: fields of reference `cause-and-time-of-death.md` 6.3.
#[test]
fn the_chain_of_custody_is_printed_with_its_gaps() {
    let office = office("read-custody");
    let mut all = kit::entries(&kit::phone());
    let first = all[0].body().unwrap().unwrap();
    let Act::Answer { key: Key { subject: Subject::Examination(exam), .. }, .. } = &first.act else { panic!() };
    let text = |text: &str| Answer::Seen { value: marrowbook::record::Value::Text(text.to_owned()) };
    let said = |finding: &str, site: Site, answer: Answer| Act::Answer {
        key: Key {
            subject: Subject::Examination(*exam),
            finding: finding.into(),
            site,
            observer: PersonCode::new("K7").unwrap(),
        },
        answer,
        supersedes: vec![],
    };
    let jaw = Site::item(1);
    let acts = [
        said("jaw_taken", Site::NONE, Answer::choice("whole_jaw")),
        said("sample_number", jaw, text("KDR-1")),
        said("sample_sealed", jaw, Answer::choice("there")),
        said("seal_number", jaw, text("S44")),
        Act::Custody {
            sample: "KDR-1".to_owned(),
            step: CustodyStep::Received,
            from: Some(PersonCode::new("K7").unwrap()),
            to: PersonCode::new("OFFICE").unwrap(),
            place: "Ranger station".to_owned(),
            seal: "S45".to_owned(),
            seal_intact: Some(true),
            condition: "frozen".to_owned(),
            note: "by hand".to_owned(),
        },
    ];
    for act in acts {
        let entry = Head::after(all.last().unwrap()).next(&Body { act, ..first.clone() }, Salt([9; 16])).unwrap();
        all.push(entry);
    }
    let file = office.put("bundle.txt", make(kit::cover(), &all, Extras::default(), &kit::phone()).unwrap().as_bytes());
    let ran = office.run(&["read", &file]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let line = &lines(&ran)[0];
    let [thing] = line["custody"].as_array().unwrap().as_slice() else { panic!("{line}") };
    assert_eq!((thing["number"].as_str(), thing["what"].as_str()), (Some("KDR-1"), Some("jaw")));
    let steps: Vec<&str> = thing["lines"].as_array().unwrap().iter().map(|l| l["step"].as_str().unwrap()).collect();
    assert_eq!(steps, ["taken", "sealed", "received"]);
    let last = &thing["lines"][2];
    for (member, value) in
        [("from", "K7"), ("to", "OFFICE"), ("place", "Ranger station"), ("seal", "S45"), ("condition", "frozen")]
    {
        assert_eq!(last[member], value);
    }
    assert_eq!(thing["gaps"], serde_json::json!(["other_seal"]), "sealed as S44, received as S45");
}
