//! The office enters what a laboratory sent back, and makes the readers' table from known ages.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/kit.rs"]
mod kit;
#[path = "office/ran.rs"]
mod ran;

use marrowbook::bundle::{Extras, Fingerprint, make};
use marrowbook::card::Card;
use marrowbook::record::{
    Act, Answer, Body, ENTRY_SCHEMA, Entry, Head, Key, Moment, PersonCode, Salt, Side, Site, Subject, Tooth, Value,
    Versions, links, short_code::short_code, uuid_v7,
};
use ran::{Office, folder};
use serde_json::{Value as Json, json};
use std::fs;
use uuid::Uuid;

const PASSPHRASE: &str = "acorn basin cedar dolphin";

fn carcass(n: u8) -> Uuid {
    uuid_v7(1_802_618_640_000, [n; 10])
}

/// A crew's bundle: so many deer, their jaws read on the bench by K7 as grown deer of the class given.
fn bundle(calls: &[(u8, &str)]) -> String {
    let key = kit::phone();
    let mut head = Head::start(key.public().id());
    let mut entries: Vec<Entry> = Vec::new();
    for (n, call) in calls {
        let examination = uuid_v7(1_802_618_650_000, [*n; 10]);
        let mut put = |finding: &str, site: Site, answer: Answer| {
            let key = Key {
                subject: Subject::Examination(examination),
                finding: finding.into(),
                site,
                observer: PersonCode::new("K7").unwrap(),
            };
            let body = Body {
                schema: ENTRY_SCHEMA,
                act: Act::Answer { key, answer, supersedes: Vec::new() },
                typed_by: PersonCode::new("K7").unwrap(),
                at: Moment::parse("2027-02-14T10:00:00-05:00").unwrap(),
                zone: String::new(),
                since_start_ms: None,
                versions: Versions { protocol: 1, step: None, card: None },
            };
            let entry = head.next(&body, Salt([*n; 16])).unwrap();
            head = Head::after(&entry);
            entries.push(entry);
        };
        put(links::CARCASS, Site::NONE, Answer::Seen { value: Value::Ref(carcass(*n)) });
        put("examination_kind", Site::NONE, Answer::choice("bench"));
        put("species", Site::NONE, Answer::choice("white_tailed_deer"));
        put("third_tooth", Site::side(Side::Left), Answer::choice("two_cusps_stained"));
        put("dentine", Site::tooth(Side::Left, Tooth::M1), Answer::choice("narrower"));
        put("wear_class_called", Site::NONE, Answer::choice(call));
    }
    make(kit::cover(), &entries, Extras::default(), &key).unwrap()
}

/// An office with its key, the crew's phone enrolled and its bundle kept.
fn office(name: &str, calls: &[(u8, &str)]) -> Office {
    let mut office = Office::new(folder(name));
    office.passphrase = Some(PASSPHRASE.into());
    assert_eq!(office.run(&["key", "new"]).code, 0);
    let file = office.put("crew.txt", bundle(calls).as_bytes());
    let words = Fingerprint::of(kit::phone().public().id()).to_string();
    assert_eq!(office.run(&["enrol", &file, "--name", "blue phone", "--words", &words]).code, 0);
    assert_eq!(office.run(&["open", "--keep", &file]).code, 0);
    office
}

fn received(office: &Office) -> Vec<String> {
    let mut files: Vec<String> = fs::read_dir(office.folder.join("received"))
        .unwrap()
        .map(|entry| entry.unwrap().path().to_str().unwrap().to_owned())
        .collect();
    files.sort();
    files
}

/// The readings of the one carcass, recomputed from everything that the archive holds.
fn read(office: &Office) -> Json {
    let files = received(office);
    let mut args = vec!["read"];
    args.extend(files.iter().map(String::as_str));
    let ran = office.run(&args);
    assert_eq!(ran.code, 0, "{ran:?}");
    ran.json()
}

fn said(json: &Json) -> String {
    json["said"]["age.lower_jaw"].as_array().unwrap().iter().map(|s| s.as_str().unwrap()).collect::<Vec<_>>().join("\n")
}

#[test]
fn a_lab_result_is_signed_by_the_office_and_joined_to_the_teeth() {
    let office = office("lab-joined", &[(1, "y3")]);
    let before = read(&office);
    let id = carcass(1).to_string();
    let ran = office.run(&[
        "lab",
        &id,
        "--by",
        "OFF",
        "--years",
        "8",
        "--grade",
        "A",
        "--lab",
        "Root Lab (invented)",
        "--tooth",
        "first_incisor",
        "--sample",
        "S-1",
        "--reported",
        "2027-04-02T12:00:00-05:00",
    ]);
    assert_eq!(ran.code, 0, "{ran:?}");
    assert!(ran.out.contains("Rings say 8 years; all else alone says"), "{}", ran.out);
    assert!(ran.err.contains("the office's own key is on the keyring now"), "{}", ran.err);
    // Two files now, both intact and of enrolled devices; the crew's is untouched.
    let files = received(&office);
    assert_eq!(files.len(), 2);
    let mut args = vec!["open"];
    args.extend(files.iter().map(String::as_str));
    assert_eq!(office.run(&args).code, 0);
    let after = read(&office);
    let share = |json: &Json, class: usize| {
        json["readings"]["age"]["estimates"][0]["shares"][class]["probability"].as_f64().unwrap()
    };
    assert!(share(&after, 8) > share(&before, 8) && share(&after, 2) > 0.0, "joined, not put in its place");
    assert!(said(&after).contains("Rings read by Root Lab (invented): First incisor"), "{}", said(&after));
}

#[test]
fn the_same_again_is_refused_corrected_or_kept_beside() {
    let office = office("lab-again", &[(1, "y3")]);
    let code = short_code(carcass(1));
    let lab = |more: &[&str]| {
        let mut args = vec!["lab", &code, "--by", "OFF"];
        args.extend(more);
        office.run(&args)
    };
    assert_eq!(lab(&["--years", "8"]).code, 0);
    let again = lab(&["--years", "4"]);
    assert!(again.code == 1 && again.err.contains("before") && again.err.contains("--correct"), "{}", again.err);
    assert_eq!(received(&office).len(), 2, "nothing was written");
    assert_eq!(lab(&["--years", "4", "--correct"]).code, 0);
    let one = read(&office);
    assert!(said(&one).contains("Rings say 4 years") && one["readings"]["age"]["variants"].is_null(), "{one}");
    assert_eq!(lab(&["--years", "6", "--another"]).code, 0);
    let two = read(&office);
    assert_eq!(two["readings"]["age"]["variants"].as_array().unwrap().len(), 2);
}

#[test]
fn what_cannot_be_is_refused_and_nothing_is_written() {
    let office = office("lab-refused", &[(1, "y3")]);
    let id = carcass(1).to_string();
    let stranger = carcass(9).to_string();
    for (args, code, words) in [
        (&["lab", &id, "--by", "OFF"][..], 2, "nothing is given"),
        (&["lab", &id, "--by", "OFF", "--years", "33"], 2, "33 lies outside 0 to 22"),
        (&["lab", &id, "--by", "OFF", "--years", "5", "--grade", "D"], 2, "`D` is not A, B or C"),
        (&["lab", &id, "--by", "OFF", "--years", "5", "--tooth", "tusk"], 2, "`tusk` is not one of first_incisor"),
        (&["lab", &id, "--by", "OFF", "--known-age", "4"], 2, "--how"),
        (&["lab", &id, "--by", "not a code", "--years", "5"], 2, "--by"),
        (&["lab", &id, "--by", "OFF", "--known-age", "31", "--how", "tagged_as_fawn"], 1, "31 lies outside 0 to 30"),
        (&["lab", &stranger, "--by", "OFF", "--years", "5"], 1, "no carcass"),
        (&["lab", "QQQQQQ", "--by", "OFF", "--years", "5"], 1, "no carcass `QQQQQQ`"),
    ] {
        let ran = office.run(args);
        assert!(ran.code == code && ran.err.contains(words), "{args:?}: {ran:?}");
    }
    assert_eq!(received(&office).len(), 1);
}

#[test]
fn without_an_office_key_nothing_is_entered() {
    let office = Office::new(folder("lab-no-key"));
    let ring = office.put("keyring.json", kit::keyring().as_bytes());
    let file = office.put("crew.txt", bundle(&[(1, "y3")]).as_bytes());
    assert_eq!(office.run(&["open", "--keep", &file]).code, 0, "{ring}");
    let ran = office.run(&["lab", &carcass(1).to_string(), "--by", "OFF", "--years", "8"]);
    assert!(ran.code == 1 && ran.err.contains("no office key"), "{}", ran.err);
}

#[test]
fn known_ages_make_the_readers_table_and_the_card_takes_it() {
    let calls: Vec<(u8, &str)> = (1..=8).map(|n| (n, if n <= 6 { "y6" } else { "y4" })).collect();
    let office = office("reader-table", &calls);
    let none = office.run(&["reader"]);
    assert!(none.code == 1 && none.err.contains("office lab"), "{}", none.err);
    for (n, _) in &calls {
        let id = carcass(*n).to_string();
        let ran = office.run(&["lab", &id, "--by", "OFF", "--known-age", "4", "--how", "tagged_as_fawn"]);
        assert_eq!(ran.code, 0, "{ran:?}");
    }
    let text = office.run(&["reader"]);
    assert!(text.out.contains("all readers together: 8 calls of known age, 0 by rings"), "{}", text.out);
    assert!(text.out.contains("reader K7"), "{}", text.out);
    // Wilson's interval of 2 of 8: SciPy, tests/reference/special.csv.
    assert!(text.out.contains("the very class: 2 of 8: 25 in 100 (7 to 59, Wilson 95 in 100)"), "{}", text.out);
    let lines = office.run(&["reader", "--json"]).out;
    let pool: Json = serde_json::from_str(lines.lines().next().unwrap()).unwrap();
    assert_eq!((&pool["reader"], &pool["direct"]["calls"][4][6]), (&json!(null), &json!(6)));
    let cell = &pool["intervals"][4][4];
    assert!((cell[0].as_f64().unwrap() - 0.071_5).abs() < 1e-4 && (cell[1].as_f64().unwrap() - 0.590_7).abs() < 1e-4);
    // Ruled: the published table is worth 20 readings a row, so 6 of 8 calls weigh 6 in 28.
    let mean = pool["learned"]["rows"][4]["cells"][6]["mean"].as_f64().unwrap();
    assert!(mean > 6.0 / 28.0 && mean < 6.0 / 28.0 + 20.0 / 28.0 * 0.06, "{mean}");

    let card = office.put("card.json", include_str!("../demo/card.json").as_bytes());
    let serial = Card::from_json(include_str!("../demo/card.json")).unwrap().serial;
    for version in 1..=2 {
        let ran = office.run(&["reader", "--onto", &card]);
        assert!(ran.code == 0 && ran.out.contains(&format!("version {version}")), "{ran:?}");
    }
    let made = Card::from_json(&fs::read_to_string(&card).unwrap()).unwrap();
    let table = made.figures.reader_model.unwrap();
    assert_eq!((made.serial, table.version, table.readers_count, table.known_count), (serial + 2, 2, 1, 8));
    assert!((f64::from(table.rows_millionths[4][6]) / 1e6 - mean).abs() < 2e-6);
    let signed = office.run(&["card", &card]);
    assert_eq!(signed.code, 0, "{signed:?}");
    let flawed = office.put("flawed.json", b"{\"form\":1}");
    assert!(office.run(&["reader", "--onto", &flawed]).err.contains("no local card"));
}

/// A device that nobody enrolled has no say in what goes onto the card.
#[test]
fn strangers_do_not_make_the_table() {
    let office = office("reader-stranger", &[(1, "y6")]);
    let id = carcass(1).to_string();
    assert_eq!(office.run(&["lab", &id, "--by", "OFF", "--known-age", "4", "--how", "other_record"]).code, 0);
    assert_eq!(office.run(&["reader"]).code, 0);
    assert_eq!(office.run(&["retire", "blue phone", "--since", "2027-01-01T00:00:00-05:00"]).code, 0);
    let ran = office.run(&["reader"]);
    assert!(ran.code == 1 && ran.err.contains("is not enrolled"), "{ran:?}");
}

/// DNA of a swab, a camera's record and a catch go the way of any laboratory's sheet.
#[test]
fn dna_and_records_of_the_kill_are_entered_and_said() {
    let office = office("lab-dna", &[(1, "y3")]);
    let id = carcass(1).to_string();
    let lab = |more: &[&str]| {
        let mut args = vec!["lab", &id, "--by", "OFF"];
        args.extend(more);
        office.run(&args)
    };
    for (args, code, words) in [
        (&["--dna", "wolf"][..], 2, "--dna-from"),
        (&["--dna", "fox", "--dna-from", "clot_wound"], 2, "`fox` is not one of coyote, wolf"),
        (&["--dna", "wolf", "--dna-from", "tongue"], 2, "`tongue` is not one of clot_wound"),
        (&["--killer", "wolf", "--killer-how", "photo_or_camera"], 2, "--killer-by"),
        (
            &["--killer", "wolf", "--killer-how", "guess", "--killer-by", "C3"],
            2,
            "`guess` is not one of photo_or_camera",
        ),
        (&["--handled-days", "10000"], 1, "10000 lies outside 0 to 9999"),
    ] {
        let ran = lab(args);
        assert!(ran.code == code && ran.err.contains(words), "{args:?}: {ran:?}");
    }
    assert_eq!(received(&office).len(), 1, "nothing was written");
    let ran =
        lab(&["--dna", "wolf", "--dna-from", "elsewhere", "--dna-lab", "Root Lab (invented)", "--dna-sample", "S-2"]);
    assert!(ran.code == 0 && ran.out.contains("DNA (Root Lab (invented)), Elsewhere: wolf."), "{ran:?}");
    let ran = lab(&["--dna", "none", "--dna-from", "clot_wound", "--another"]);
    assert!(ran.code == 0 && ran.out.contains("no predator found"), "{ran:?}");
    let ran = lab(&["--killer", "coyote", "--killer-how", "photo_or_camera", "--killer-by", "C3"]);
    assert!(ran.code == 0 && ran.out.contains("Photo or camera (C3): killed by coyote."), "{ran:?}");
    let ran = lab(&["--handled-days", "10"]);
    assert!(ran.code == 0 && ran.out.contains("Caught 10 days before it died"), "{ran:?}");
    let json = read(&office);
    let all = json["readings"]["cause"]["statements"].as_array().unwrap();
    for wanted in ["cause.dna_fed", "cause.dna_none", "cause.record"] {
        assert!(all.iter().any(|s| s["id"] == wanted), "{wanted}: {all:?}");
    }
}
