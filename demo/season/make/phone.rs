//! A phone: its key, what its crew does with it, its chain in order of time, and the bundles that it hands over.

use marrowbook::bundle::{Cover, DeviceKey, Extras, FourVersions, make};
use marrowbook::guide::PROTOCOL;
use marrowbook::record::{
    Act, Answer, Body, ENTRY_SCHEMA, Entry, EntryId, Head, Key, Moment, PersonCode, Salt, Site, Subject, Versions,
    uuid_v7, validate,
};
use uuid::Uuid;

use super::Made;
use super::dice::Dice;
use super::people::{May, may};

/// Where the reserve lies.
const ZONE: &str = "America/Chicago";
/// When its clocks go an hour on: 14 March 2027, 02:00.
const SUMMER_FROM: i64 = 1_805_011_200;

/// What somebody will tap: the answer as it stands, and which earlier ones it replaces.
struct Tap {
    at: Moment,
    act: Act,
    replaces: Vec<Tapped>,
}

/// Which tap, by its place among all that are planned.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Tapped(usize);

/// A clock that stood back for a while.
struct Slow {
    from: i64,
    until: i64,
    by_s: i64,
}

/// A phone of which is known what its crew will do with it. Carcass after carcass is made up here, and what is looked at on
/// the bench days later with it; the chain is written when all of it is known.
pub(crate) struct Phone {
    key: DeviceKey,
    label: &'static str,
    crew: &'static str,
    pub(crate) dice: Dice,
    pub(crate) person: PersonCode,
    pub(crate) may: May,
    /// Its crew is about to type a figure too many.
    pub(crate) slips: bool,
    taps: Vec<Tap>,
    slow: Option<Slow>,
}

/// A phone's chain as it was written.
pub(crate) struct Chain {
    pub(crate) key: DeviceKey,
    pub(crate) label: &'static str,
    crew: &'static str,
    dice: Dice,
    /// When each entry was truly made.
    entries: Vec<(i64, Entry)>,
}

/// A moment by the reserve's clocks.
fn local(unix: i64) -> Made<Moment> {
    Ok(Moment::from_unix(unix, if unix < SUMMER_FROM { -360 } else { -300 })?)
}

/// A moment so many minutes after another.
pub(crate) fn after(at: Moment, minutes: i64) -> Made<Moment> {
    seconds_after(at, 60 * minutes)
}

pub(crate) fn seconds_after(at: Moment, seconds: i64) -> Made<Moment> {
    local(at.unix_seconds() + seconds)
}

/// An id made at that moment.
pub(crate) fn id(at: Moment, dice: &mut Dice) -> Uuid {
    uuid_v7(u64::try_from(at.unix_seconds()).unwrap_or_default() * 1000, dice.bytes())
}

impl Phone {
    pub(crate) fn new(number: u8, label: &'static str, crew: &'static str, person: &str) -> Made<Self> {
        let mut dice = Dice::new(100 + u64::from(number));
        let key = DeviceKey::from_seed(&dice.bytes());
        Ok(Self {
            key,
            label,
            crew,
            dice,
            person: PersonCode::new(person)?,
            may: may(person),
            slips: false,
            taps: Vec::new(),
            slow: None,
        })
    }

    /// Its clock stands at another time for so many minutes, until the phone finds the network again.
    pub(crate) fn clock_stands_at(&mut self, shown: Moment, at: Moment, minutes: i64) {
        let from = at.unix_seconds();
        self.slow = Some(Slow { from, until: from + 60 * minutes, by_s: from - shown.unix_seconds() });
    }

    /// Taps an answer.
    pub(crate) fn say(
        &mut self,
        subject: Subject,
        (finding, site, answer): (&str, Site, Answer),
        at: Moment,
    ) -> Made<Tapped> {
        self.correct(subject, (finding, site, answer), at, Vec::new())
    }

    /// Taps an answer in the place of earlier ones.
    pub(crate) fn correct(
        &mut self,
        subject: Subject,
        (finding, site, answer): (&str, Site, Answer),
        at: Moment,
        replaces: Vec<Tapped>,
    ) -> Made<Tapped> {
        let key = Key { subject, finding: finding.into(), site, observer: self.person.clone() };
        validate(&key, &answer)?;
        Ok(self.tap(Tap { at, act: Act::Answer { key, answer, supersedes: Vec::new() }, replaces }))
    }

    /// Does something else.
    pub(crate) fn act(&mut self, act: Act, at: Moment) {
        self.tap(Tap { at, act, replaces: Vec::new() });
    }

    fn tap(&mut self, tap: Tap) -> Tapped {
        self.taps.push(tap);
        Tapped(self.taps.len() - 1)
    }

    /// What the phone's own clock shows.
    fn shows(&self, at: Moment) -> Made<Moment> {
        let true_s = at.unix_seconds();
        let slow = self.slow.as_ref().filter(|slow| (slow.from..slow.until).contains(&true_s));
        local(true_s - slow.map_or(0, |slow| slow.by_s))
    }

    /// Writes the chain: nobody taps today what is looked at in three days.
    pub(crate) fn written(mut self) -> Made<Chain> {
        let mut taps: Vec<(Tapped, Tap)> =
            std::mem::take(&mut self.taps).into_iter().enumerate().map(|(place, tap)| (Tapped(place), tap)).collect();
        taps.sort_by_key(|(_, tap)| tap.at.unix_seconds());
        let mut head = Head::start(self.key.public().id());
        let mut ids: Vec<(Tapped, EntryId)> = Vec::new();
        let mut entries = Vec::new();
        for (which, tap) in taps {
            let mut act = tap.act;
            if let Act::Answer { supersedes, .. } = &mut act {
                supersedes.extend(ids.iter().filter(|(one, _)| tap.replaces.contains(one)).map(|(_, id)| *id));
            }
            let body = Body {
                schema: ENTRY_SCHEMA,
                act,
                typed_by: self.person.clone(),
                at: self.shows(tap.at)?,
                zone: ZONE.to_owned(),
                since_start_ms: None,
                versions: Versions { protocol: PROTOCOL, step: None, card: None },
            };
            let entry = head.next(&body, Salt(self.dice.bytes()))?;
            head = Head::after(&entry);
            ids.push((which, entry.id()));
            entries.push((tap.at.unix_seconds(), entry));
        }
        Ok(Chain { key: self.key, label: self.label, crew: self.crew, dice: self.dice, entries })
    }
}

impl Chain {
    /// A bundle of what was written from one moment to another, made then.
    pub(crate) fn hand_over(&mut self, from: Option<Moment>, at: Moment, carried: Vec<String>) -> Made<String> {
        let from = from.map_or(i64::MIN, Moment::unix_seconds);
        let until = at.unix_seconds();
        let range: Vec<Entry> = self
            .entries
            .iter()
            .filter(|(made, _)| (from..until).contains(made))
            .map(|(_, entry)| entry.clone())
            .collect();
        let cover = Cover {
            bundle: id(at, &mut self.dice),
            made_at: at,
            zone: ZONE.to_owned(),
            app: env!("CARGO_PKG_VERSION").to_owned(),
            versions: FourVersions {
                envelope: 1,
                entry_schema: ENTRY_SCHEMA,
                protocol: PROTOCOL,
                science: marrowbook::science::VERSION.parse()?,
            },
            label: self.label.to_owned(),
            crew: Some(self.crew.to_owned()),
            card: None,
        };
        Ok(make(cover, &range, Extras { carried, ..Extras::default() }, &self.key)?)
    }
}
