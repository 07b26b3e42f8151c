//! A phone's chain of entries and its signed file, for tests: one way to make them.

use uuid::Uuid;

use crate::bundle::{Cover, DeviceKey, Extras, FourVersions, make};
use crate::record::{
    Act, Answer, Body, ENTRY_SCHEMA, Entry, EntryId, Head, Journal, Key, Moment, PersonCode, Salt, Site, Subject,
    Versions, uuid_v7,
};

/// When it was, where a test does not say.
pub(in crate::office) fn noon() -> Moment {
    Moment::parse("2027-02-14T12:00:00-05:00").unwrap()
}

/// An answer of a person in an examination, at no place.
pub(in crate::office) fn answer(examination: Uuid, finding: &str, who: &str, answer: Answer) -> Act {
    let (subject, observer) = (Subject::Examination(examination), PersonCode::new(who).unwrap());
    let key = Key { subject, finding: finding.into(), site: Site::NONE, observer };
    Act::Answer { key, answer, supersedes: vec![] }
}

/// The chain of one device.
pub(in crate::office) struct TestChain {
    head: Head,
    pub(in crate::office) entries: Vec<Entry>,
}

impl TestChain {
    pub(in crate::office) fn of(key: &DeviceKey) -> Self {
        Self { head: Head::start(key.public().id()), entries: Vec::new() }
    }

    /// One more entry, typed at that moment.
    pub(in crate::office) fn add(&mut self, act: Act, typed_by: &str, at: Moment) -> EntryId {
        let body = Body {
            schema: ENTRY_SCHEMA,
            act,
            typed_by: PersonCode::new(typed_by).unwrap(),
            at,
            zone: String::new(),
            since_start_ms: None,
            versions: Versions { protocol: 1, step: None, card: None },
        };
        let entry = self.head.next(&body, Salt([1; 16])).unwrap();
        let id = entry.id();
        self.head = Head::after(&entry);
        self.entries.push(entry);
        id
    }

    pub(in crate::office) fn journal(&self) -> Journal {
        let mut journal = Journal::new();
        self.entries.iter().for_each(|entry| journal.add(entry.clone()).unwrap());
        journal
    }

    /// All of it as a file signed by its device.
    pub(in crate::office) fn bundle(&self, key: &DeviceKey, label: &str, extras: Extras) -> String {
        let cover = Cover {
            bundle: uuid_v7(3, [9; 10]),
            made_at: noon(),
            zone: String::new(),
            app: "0".to_owned(),
            versions: FourVersions { envelope: 1, entry_schema: ENTRY_SCHEMA, protocol: 1, science: 1 },
            label: label.to_owned(),
            crew: None,
            card: None,
        };
        make(cover, &self.entries, extras, key).unwrap()
    }
}
