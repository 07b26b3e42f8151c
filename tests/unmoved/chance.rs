//! An archive of answers by chance: every finding that the form has, at any place, in any of its states, about carcasses
//! that nobody ever saw. Half of them are told of by one inclination, so that what is asked thrice is said thrice alike and
//! most methods come to a result; the others as the dice fall, which is mostly refused.

use std::path::Path;

use marrowbook::bundle::{
    Cover, DeviceKey, Extras, Fingerprint, FourVersions, Kind, PhoneReading, canonical, make, seal,
};
use marrowbook::card::Card;
use marrowbook::office::archive::Archive;
use marrowbook::office::key_file::{KeyFile, Randomness};
use marrowbook::office::keyring::Keyring;
use marrowbook::office::own_chain::LABEL;
use marrowbook::reading::{self, Given};
use marrowbook::record::{
    Act, Answer, Body, Bone, CustodyStep, Day, ENTRY_SCHEMA, Entry, FINDINGS, FindingDef, Head, Journal, Keeping, Key,
    Moment, PersonCode, Place, PlaceSource, Salt, Scope, Shape, Side, Site, Sites, Subject, Tooth, Value, Versions,
    Why, fold, links, uuid_v7, validate,
};
use uuid::Uuid;

use crate::make::dice::Dice;

/// When the first of them was found, and how long until the next, s.
const BEGUN: i64 = 1_798_800_000;
const NEXT_S: i64 = 3 * 86_400;
const OBSERVERS: [&str; 3] = ["K7", "B2", "M3"];
const WORDS: [&str; 5] = ["near the creek", "=1+1", "two ravens, <b>one</b> eagle", "R-17", "12"];
const PLANTS: [&str; 6] = ["white_cedar", "hemlock", "red_maple", "grass", "corn", "acorn"];

struct Teller {
    dice: Dice,
    key: DeviceKey,
    head: Head,
    entries: Vec<Entry>,
    /// 0 to 99: where on each scale its answers lie; `None` where they lie anywhere.
    leaning: Option<u64>,
    now: i64,
}

/// Writes the archive.
pub(crate) fn archive(folder: &Path, passphrase: &str, carcasses: i64) {
    let archive = Archive::at(folder);
    let mut dice = Dice::new(77);
    let seed: [u8; 32] = dice.bytes();
    let file = KeyFile::make(passphrase, Randomness { seed, salt: dice.bytes(), nonce: dice.bytes() }).unwrap();
    let office = DeviceKey::from_seed(&seed);
    let at = moment(BEGUN - 86_400);
    let mut ring = Keyring::default();
    let phone = DeviceKey::from_seed(&dice.bytes());
    for (label, key) in [("phone of chance", &phone), (LABEL, &office)] {
        ring.enrol(label, Fingerprint::of(key.public().id()), Some(key.public().id()), at).unwrap();
    }
    archive.take_office_key(&file, &office, &Keyring::default()).unwrap();
    archive.save_keyring(&ring, Some(&office)).unwrap();
    let card: Card = Card::from_json(include_str!("../../demo/card.json")).unwrap();
    archive.keep_card(seal(Kind::Card, &canonical::to_vec(&card).unwrap(), &office).unwrap().as_bytes()).unwrap();
    let head = Head::start(phone.public().id());
    let mut teller = Teller { dice, key: phone, head, entries: Vec::new(), leaning: None, now: BEGUN };
    teller.winter_log();
    for n in 0..carcasses {
        teller.carcass(n);
    }
    archive.keep(teller.bundle().as_bytes()).unwrap();
}

fn moment(unix: i64) -> Moment {
    Moment::from_unix(unix, -360).unwrap()
}

impl Teller {
    fn id(&mut self) -> Uuid {
        uuid_v7(u64::try_from(self.now).unwrap() * 1000, self.dice.bytes())
    }

    fn carcass(&mut self, n: i64) {
        self.now = BEGUN + n * NEXT_S;
        self.leaning = (n % 2 == 0).then(|| self.dice.below(100));
        let [carcass, outing, report] = [self.id(), self.id(), self.id()];
        if n % 3 == 0 {
            self.asked(Subject::Report(report), Scope::Report);
        }
        self.asked(Subject::Outing(outing), Scope::Outing);
        let bench = i64::from(self.dice.chance(50));
        let looks = self.dice.between(1, 2) + bench;
        for look in 0..looks {
            let exam = self.id();
            let subject = Subject::Examination(exam);
            let tie = |to| Answer::Seen { value: Value::Ref(to) };
            self.say(subject, links::CARCASS, Site::NONE, tie(carcass), 0);
            let is_bench = look + bench >= looks;
            let kind = if is_bench { "bench" } else { "field" };
            self.say(subject, "examination_kind", Site::NONE, Answer::choice(kind), 0);
            self.say(subject, links::OUTING, Site::NONE, tie(outing), 0);
            if n % 3 == 0 {
                self.say(subject, links::REPORT, Site::NONE, tie(report), 0);
            }
            if self.dice.chance(85) {
                self.say(subject, "species", Site::NONE, Answer::choice("white_tailed_deer"), 0);
            }
            self.asked(subject, Scope::Examination);
            self.now += self.dice.between(3_600, 2 * 86_400);
        }
    }

    /// Half of the findings of this scope, in some groups most and in some none.
    fn asked(&mut self, subject: Subject, scope: Scope) {
        for group in FINDINGS {
            let share = [0, 25, 60, 90][usize::try_from(self.dice.below(4)).unwrap()];
            let here = group.iter().filter(|def| def.scope == scope && !is_link(def.code));
            for def in here {
                if !self.dice.chance(share) {
                    continue;
                }
                for site in self.sites(def) {
                    let who = usize::from(self.dice.chance(12)) + usize::from(self.dice.chance(4));
                    let answer = self.answer(def);
                    self.say(subject, def.code, site, answer, who);
                    if def.keeping == Keeping::Repeated && self.dice.chance(60) || self.dice.chance(4) {
                        let again = self.answer(def);
                        let who = usize::try_from(self.dice.below(3)).unwrap();
                        self.say(subject, def.code, site, again, who);
                    }
                    if def.code == "sample_number" && self.dice.chance(50) {
                        self.custody();
                    }
                }
            }
        }
    }

    fn sites(&mut self, def: &FindingDef) -> Vec<Site> {
        let side = if self.dice.chance(50) { Side::Left } else { Side::Right };
        match def.sites {
            Sites::None | Sites::Day => vec![Site::NONE],
            Sites::Side => vec![if self.dice.chance(30) { Site::NONE } else { Site::side(side) }],
            Sites::Tooth => {
                let teeth = Tooth::CHEEK.into_iter().filter(|_| self.dice.chance(80)).collect::<Vec<_>>();
                teeth.into_iter().map(|tooth| Site::tooth(side, tooth)).collect()
            }
            Sites::Bone => {
                let many = if self.dice.chance(30) { 2 } else { 1 };
                let from = usize::try_from(self.dice.below(6)).unwrap();
                Bone::ALL
                    .into_iter()
                    .skip(if self.dice.chance(60) { 0 } else { from })
                    .take(many)
                    .map(Site::bone)
                    .collect()
            }
            Sites::Item => (1..=u16::try_from(self.dice.between(1, 4)).unwrap()).map(Site::item).collect(),
        }
    }

    /// A place on a scale of so many steps.
    fn step(&mut self, steps: i64) -> i64 {
        let last = (steps - 1).max(0);
        match self.leaning {
            None if self.dice.chance(50) => self.dice.between(0, last),
            // Most of what is measured lies low on its scale.
            None => {
                let most = self.dice.between(0, last);
                self.dice.between(0, most)
            }
            Some(leaning) => {
                let at = i64::try_from(leaning).unwrap() * last / 99;
                (at + self.dice.between(-(steps / 12), steps / 12)).clamp(0, last)
            }
        }
    }

    fn option(&mut self, options: &[&'static str]) -> &'static str {
        let at = self.step(i64::try_from(options.len()).unwrap());
        options[usize::try_from(at).unwrap()]
    }

    fn answer(&mut self, def: &FindingDef) -> Answer {
        let why = Why::PLAIN[usize::try_from(self.dice.below(17)).unwrap()].clone();
        match self.dice.below(100) {
            0..5 => return Answer::CantTell { why },
            5..9 => return Answer::NotLooked { why },
            9..12 => return Answer::PartGone { why },
            12..18 => return Answer::NotSeen,
            _ => {}
        }
        let value = match def.shape {
            Shape::Presence if self.dice.chance(40) => return Answer::NotSeen,
            Shape::Presence => Value::Choice("there".to_owned()),
            Shape::Choice(options) => Value::Choice(self.option(options).to_owned()),
            Shape::Choices(options) => Value::choices([self.option(options), self.option(options)]),
            Shape::Number { min, max, .. } => Value::Number(min + self.step(max - min + 1)),
            Shape::Text(most) => {
                let words = WORDS[usize::try_from(self.dice.below(5)).unwrap()];
                Value::Text(words.chars().take(most).collect())
            }
            Shape::Plants(most) => {
                let plants = (0..most.min(10)).map(|_| PLANTS[usize::try_from(self.dice.below(6)).unwrap()]);
                Value::Text(plants.collect::<Vec<_>>().join(" "))
            }
            Shape::Instant => Value::Instant(moment(self.now - self.dice.between(0, 20 * 86_400))),
            Shape::Place => {
                let (north, east) = (self.dice.between(0, 400_000), self.dice.between(0, 400_000));
                let source = if self.dice.chance(80) { PlaceSource::Device } else { PlaceSource::Typed };
                let accuracy_m_95 = self.dice.chance(80).then_some(20);
                Value::Place(Place { lat_e7: 465_000_000 + north, lon_e7: -920_000_000 + east, accuracy_m_95, source })
            }
            // Files and ties are no answers by chance.
            Shape::Photo | Shape::Ref => return Answer::NotSeen,
        };
        Answer::Seen { value }
    }

    /// An answer, where the record takes it.
    fn say(&mut self, subject: Subject, finding: &str, site: Site, answer: Answer, who: usize) {
        let observer = PersonCode::new(OBSERVERS[who]).unwrap();
        let key = Key { subject, finding: finding.into(), site, observer };
        if validate(&key, &answer).is_ok() {
            self.write(Act::Answer { key, answer, supersedes: Vec::new() });
        }
    }

    fn custody(&mut self) {
        let sample = WORDS[usize::try_from(self.dice.below(5)).unwrap()].to_owned();
        let to = PersonCode::new(OBSERVERS[usize::try_from(self.dice.below(3)).unwrap()]).unwrap();
        let steps = [CustodyStep::Taken, CustodyStep::Sealed, CustodyStep::Handed, CustodyStep::Received];
        let step = steps[usize::try_from(self.dice.below(4)).unwrap()];
        let from = (step == CustodyStep::Handed).then(|| PersonCode::new("K7").unwrap());
        let seal_intact = self.dice.chance(50).then_some(true);
        let (place, seal, condition) = ("shed".to_owned(), "S1".to_owned(), "frozen".to_owned());
        self.write(Act::Custody { sample, step, from, to, place, seal, seal_intact, condition, note: String::new() });
    }

    /// Four months of one place, day by day, with gaps.
    fn winter_log(&mut self) {
        let log = Subject::WinterLog(self.id());
        let first = Day::parse("2026-11-20").unwrap();
        for n in 0..120 {
            let day = first.shifted(n).unwrap();
            self.now = BEGUN - 40 * 86_400 + n * 86_400;
            self.leaning = Some(if n < 60 { 10 } else { 4 });
            for def in FINDINGS.iter().flat_map(|group| group.iter()).filter(|def| def.scope == Scope::WinterLog) {
                if n == 0 && def.sites == Sites::None {
                    let answer = self.answer(def);
                    self.say(log, def.code, Site::NONE, answer, 0);
                } else if def.sites == Sites::Day && self.dice.chance(90) {
                    let answer = self.answer(def);
                    self.say(log, def.code, Site::day(day), answer, 0);
                }
            }
        }
    }

    fn write(&mut self, act: Act) {
        self.now += 20;
        let body = Body {
            schema: ENTRY_SCHEMA,
            act,
            typed_by: PersonCode::new("B2").unwrap(),
            at: moment(self.now),
            zone: "America/Chicago".to_owned(),
            since_start_ms: None,
            versions: Versions { protocol: 1, step: None, card: None },
        };
        let entry = self.head.next(&body, Salt(self.dice.bytes())).unwrap();
        self.head = Head::after(&entry);
        self.entries.push(entry);
    }

    /// With what the phone says of every second of them.
    fn bundle(&mut self) -> String {
        let mut journal = Journal::new();
        for entry in &self.entries {
            journal.add(entry.clone()).unwrap();
        }
        let read = |carcass: &marrowbook::record::Carcass| PhoneReading {
            carcass: carcass.id,
            text: reading::all(carcass, &Given::default()).to_hand_over().unwrap(),
        };
        let readings = fold(&journal).carcasses.values().step_by(2).map(read).collect();
        let cover = Cover {
            bundle: self.id(),
            made_at: moment(self.now + 60),
            zone: "America/Chicago".to_owned(),
            app: env!("CARGO_PKG_VERSION").to_owned(),
            versions: FourVersions { envelope: 1, entry_schema: ENTRY_SCHEMA, protocol: 1, science: 1 },
            label: "phone of chance".to_owned(),
            crew: Some("north".to_owned()),
            card: None,
        };
        make(cover, &self.entries, Extras { readings, ..Extras::default() }, &self.key).unwrap()
    }
}

fn is_link(code: &str) -> bool {
    [links::CARCASS, links::OUTING, links::REPORT, links::EVENT, "examination_kind", "species"].contains(&code)
}
