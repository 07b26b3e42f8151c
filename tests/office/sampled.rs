//! An office with a crew's bundle of deer from which samples were taken.
#![allow(dead_code)]

use super::kit;
use super::ran::{Office, folder};
use marrowbook::bundle::{Extras, Fingerprint, make};
use marrowbook::record::sample_number::sample_number;
use marrowbook::record::{
    Act, Answer, Body, CustodyStep, ENTRY_SCHEMA, Entry, EntryId, Head, Key, Moment, PersonCode, Salt, Site, Subject,
    Value, Versions, links, uuid_v7,
};
use serde_json::Value as Json;
use std::fs;
use uuid::Uuid;

pub(crate) const PASSPHRASE: &str = "acorn basin cedar dolphin";

pub(crate) fn carcass(n: u8) -> Uuid {
    uuid_v7(1_802_618_640_000, [n; 10])
}

pub(crate) fn examination(n: u8) -> Uuid {
    uuid_v7(1_802_618_650_000, [n; 10])
}

pub(crate) fn outing(n: u8) -> Uuid {
    uuid_v7(1_802_618_630_000, [n; 10])
}

pub(crate) fn report(n: u8) -> Uuid {
    uuid_v7(1_802_618_620_000, [n; 10])
}

/// The number that the form proposes for a sample of deer `n`.
pub(crate) fn number(n: u8, item: u16) -> String {
    sample_number(examination(n), item)
}

/// A crew's chain of entries.
pub(crate) struct Chain {
    entries: Vec<Entry>,
    head: Head,
}

impl Chain {
    pub(crate) fn new() -> Self {
        Self { entries: Vec::new(), head: Head::start(kit::phone().public().id()) }
    }

    /// One answer of a person, asked by a step.
    pub(crate) fn put(&mut self, subject: Subject, who: &str, step: &str, finding: &str, site: Site, answer: Answer) {
        let observer = PersonCode::new(who).unwrap();
        let key = Key { subject, finding: finding.into(), site, observer };
        self.act(who, step, Act::Answer { key, answer, supersedes: Vec::new() });
    }

    /// An answer of a person in place of entries before: a slip that was mended.
    pub(crate) fn instead(
        &mut self,
        subject: Subject,
        who: &str,
        finding: &str,
        site: Site,
        answer: Answer,
        supersedes: Vec<EntryId>,
    ) -> EntryId {
        let observer = PersonCode::new(who).unwrap();
        let key = Key { subject, finding: finding.into(), site, observer };
        self.act(who, "", Act::Answer { key, answer, supersedes })
    }

    /// A sample given by one person to another, as a phone writes it: without a word of tests.
    pub(crate) fn hand_over(&mut self, sample: &str, from: &str, to: &str) {
        let act = Act::Custody {
            sample: sample.to_owned(),
            step: CustodyStep::Handed,
            from: Some(PersonCode::new(from).unwrap()),
            to: PersonCode::new(to).unwrap(),
            place: "counter".to_owned(),
            seal: String::new(),
            seal_intact: None,
            condition: "cool".to_owned(),
            note: String::new(),
        };
        self.act(from, "", act);
    }

    /// A test's result that a crew typed on its bench, in a bench examination of its own.
    pub(crate) fn bench(&mut self, n: u8, bench: u8, who: &str, findings: &[(&str, Answer)]) {
        let of = Subject::Examination(examination(bench));
        self.put(of, who, "", links::CARCASS, Site::NONE, Answer::Seen { value: Value::Ref(carcass(n)) });
        self.put(of, who, "", "examination_kind", Site::NONE, Answer::choice("bench"));
        for (finding, answer) in findings {
            self.put(of, who, "", finding, Site::NONE, answer.clone());
        }
    }

    pub(crate) fn act(&mut self, who: &str, step: &str, act: Act) -> EntryId {
        let person = PersonCode::new(who).unwrap();
        let body = Body {
            schema: ENTRY_SCHEMA,
            act,
            typed_by: person,
            at: Moment::parse("2027-02-14T10:00:00-05:00").unwrap(),
            zone: String::new(),
            since_start_ms: None,
            versions: Versions { protocol: 1, step: (!step.is_empty()).then(|| step.to_owned()), card: None },
        };
        let entry = self.head.next(&body, Salt([7; 16])).unwrap();
        self.head = Head::after(&entry);
        let id = entry.id();
        self.entries.push(entry);
        id
    }

    /// A deer with a jaw (1), a femur (2), a head part (3) and a swab (4), examined by K7 in the field.
    pub(crate) fn deer(&mut self, n: u8) {
        let of = Subject::Examination(examination(n));
        let mut put = |step: &str, finding: &str, site, answer| self.put(of, "K7", step, finding, site, answer);
        let text = |text: &str| Answer::Seen { value: Value::Text(text.to_owned()) };
        put("", links::CARCASS, Site::NONE, Answer::Seen { value: Value::Ref(carcass(n)) });
        put("", "examination_kind", Site::NONE, Answer::choice("field"));
        put("species", "species", Site::NONE, Answer::choice("white_tailed_deer"));
        put("jaw_taken", "jaw_taken", Site::NONE, Answer::choice("whole_jaw"));
        put("femur_taken", "femur_taken", Site::NONE, Answer::choice("whole"));
        put("sample_what", "sample_what", Site::item(3), Answer::choice("head_part"));
        put("sample_what", "sample_what", Site::item(4), Answer::choice("swab"));
        for item in 1..=4 {
            put("sample_number", "sample_number", Site::item(item), text(&number(n, item)));
        }
        put("sample_kept", "sample_kept", Site::item(1), Answer::choice("paper_dry"));
    }

    /// What was put so far.
    pub(crate) fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// The signed bundle.
    pub(crate) fn bundle(&self) -> String {
        make(kit::cover(), &self.entries, Extras::default(), &kit::phone()).unwrap()
    }
}

/// An office with its key, the demo's card signed, the crew's phone enrolled and its bundle kept.
pub(crate) fn office(name: &str, chain: &Chain) -> Office {
    office_with(name, chain, include_str!("../../demo/card.json"))
}

pub(crate) fn office_with(name: &str, chain: &Chain, card: &str) -> Office {
    let mut office = Office::new(folder(name));
    office.passphrase = Some(PASSPHRASE.into());
    assert_eq!(office.run(&["key", "new"]).code, 0);
    let card = office.put("card.json", card.as_bytes());
    let signed = office.run(&["card", &card]);
    assert_eq!(signed.code, 0, "{signed:?}");
    let file = office.put("crew.txt", chain.bundle().as_bytes());
    let words = Fingerprint::of(kit::phone().public().id()).to_string();
    assert_eq!(office.run(&["enrol", &file, "--name", "blue phone", "--words", &words]).code, 0);
    assert_eq!(office.run(&["open", "--keep", &file]).code, 0);
    office
}

/// Keeps what the chain holds by now.
pub(crate) fn keep(office: &Office, chain: &Chain) {
    let file = office.put("crew-later.txt", chain.bundle().as_bytes());
    let ran = office.run(&["open", "--keep", &file]);
    assert_eq!(ran.code, 0, "{ran:?}");
}

pub(crate) fn text(text: &str) -> Answer {
    Answer::Seen { value: Value::Text(text.to_owned()) }
}

pub(crate) fn received(office: &Office) -> Vec<String> {
    let files = fs::read_dir(office.folder.join("received")).unwrap();
    let mut files: Vec<String> = files.map(|entry| entry.unwrap().path().to_str().unwrap().to_owned()).collect();
    files.sort();
    files
}

/// The readings of every carcass, recomputed from everything that the archive holds.
pub(crate) fn read(office: &Office) -> Vec<Json> {
    let files = received(office);
    let mut args = vec!["read"];
    args.extend(files.iter().map(String::as_str));
    let ran = office.run(&args);
    assert_eq!(ran.code, 0, "{ran:?}");
    ran.out.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}

/// What a command prints with `--json`, line by line.
pub(crate) fn json_lines(office: &Office, args: &[&str]) -> Vec<Json> {
    let ran = office.run(args);
    assert_eq!(ran.code, 0, "{ran:?}");
    ran.out.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}
