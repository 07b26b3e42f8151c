//! A phone: its key, its chain, and the bundles that it hands over.

use marrowbook::bundle::{Cover, DeviceKey, Extras, FourVersions, make};
use marrowbook::guide::PROTOCOL;
use marrowbook::record::{
    Act, Answer, Body, ENTRY_SCHEMA, Entry, EntryId, Head, Key, Moment, PersonCode, Salt, Site, Subject, Versions,
    uuid_v7, validate,
};
use uuid::Uuid;

use super::Made;
use super::dice::Dice;

/// A phone in the making.
pub(crate) struct Phone {
    pub(crate) key: DeviceKey,
    pub(crate) label: &'static str,
    pub(crate) crew: &'static str,
    pub(crate) dice: Dice,
    pub(crate) person: PersonCode,
    head: Head,
    entries: Vec<Entry>,
}

/// A moment so many minutes after another.
pub(crate) fn after(at: Moment, minutes: i64) -> Made<Moment> {
    Ok(Moment::from_unix(at.unix_seconds() + 60 * minutes, at.offset_minutes())?)
}

/// An id made at that moment.
pub(crate) fn id(at: Moment, dice: &mut Dice) -> Uuid {
    uuid_v7(u64::try_from(at.unix_seconds()).unwrap_or_default() * 1000, dice.bytes())
}

impl Phone {
    pub(crate) fn new(number: u8, label: &'static str, crew: &'static str, person: &str) -> Made<Self> {
        let mut dice = Dice::new(100 + u64::from(number));
        let key = DeviceKey::from_seed(&dice.bytes());
        let head = Head::start(key.public().id());
        Ok(Self { key, label, crew, dice, person: PersonCode::new(person)?, head, entries: Vec::new() })
    }

    /// Appends an answer; its entry.
    pub(crate) fn say(
        &mut self,
        subject: Subject,
        (finding, site, answer): (&str, Site, Answer),
        at: Moment,
    ) -> Made<EntryId> {
        self.correct(subject, (finding, site, answer), at, Vec::new())
    }

    /// Appends an answer in the place of earlier ones.
    pub(crate) fn correct(
        &mut self,
        subject: Subject,
        (finding, site, answer): (&str, Site, Answer),
        at: Moment,
        supersedes: Vec<EntryId>,
    ) -> Made<EntryId> {
        let key = Key { subject, finding: finding.into(), site, observer: self.person.clone() };
        validate(&key, &answer)?;
        self.act(Act::Answer { key, answer, supersedes }, at)
    }

    /// Appends an act; its entry.
    pub(crate) fn act(&mut self, act: Act, at: Moment) -> Made<EntryId> {
        let body = Body {
            schema: ENTRY_SCHEMA,
            act,
            typed_by: self.person.clone(),
            at,
            zone: "America/Chicago".to_owned(),
            since_start_ms: None,
            versions: Versions { protocol: PROTOCOL, step: None, card: None },
        };
        let entry = self.head.next(&body, Salt(self.dice.bytes()))?;
        self.head = Head::after(&entry);
        let id = entry.id();
        self.entries.push(entry);
        Ok(id)
    }

    /// How many entries it holds.
    pub(crate) fn held(&self) -> usize {
        self.entries.len()
    }

    /// A bundle of the entries from one to before another, in hundredths of the chain.
    pub(crate) fn hand_over(&mut self, from: usize, to: usize, at: Moment, carried: Vec<String>) -> Made<String> {
        let place = |hundredths: usize| self.held() * hundredths / 100;
        let range = self.entries.get(place(from)..place(to)).unwrap_or_default();
        let cover = Cover {
            bundle: id(at, &mut self.dice),
            made_at: at,
            zone: "America/Chicago".to_owned(),
            app: env!("CARGO_PKG_VERSION").to_owned(),
            versions: FourVersions { envelope: 1, entry_schema: ENTRY_SCHEMA, protocol: PROTOCOL, science: 1 },
            label: self.label.to_owned(),
            crew: Some(self.crew.to_owned()),
            card: None,
        };
        Ok(make(cover, range, Extras { carried, ..Extras::default() }, &self.key)?)
    }
}
