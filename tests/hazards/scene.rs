//! A visit made up of answers, written the way the form writes them.

use std::sync::OnceLock;

use marrowbook::card::{Call, CallFor, Card, Figures, Flags, Limits, Permit, Person, Units};
use marrowbook::guide::{
    Context, Draft, ExamKind, Fired, Grade, Situation, View, before, compose, situation, withdraw,
};
use marrowbook::record::{
    Answer, DeviceId, Digest, EntryId, Fold, Head, Journal, Moment, PersonCode, Place, PlaceSource, Salt, Scope, Shape,
    Sheet, Site, Subject, Value, Why, find, fold, links,
};
use uuid::Uuid;

pub(crate) const OUTING: Uuid = Uuid::from_u128(1);
pub(crate) const EXAM: Uuid = Uuid::from_u128(2);
pub(crate) const CARCASS: Uuid = Uuid::from_u128(3);

#[derive(Clone)]
pub(crate) struct Scene {
    head: Head,
    pub(crate) journal: Journal,
    pub(crate) exam: Uuid,
    pub(crate) kind: ExamKind,
    pub(crate) person: PersonCode,
    pub(crate) card: Option<Card>,
    pub(crate) now: Moment,
}

pub(crate) fn moment(text: &str) -> Moment {
    Moment::parse(text).unwrap()
}

/// A card that names K7 for everything, B2 for touching, D4 for nothing. Invented.
pub(crate) fn card() -> Card {
    let person = |code: &str, all: bool, touch: bool| Person {
        code: PersonCode::new(code).unwrap(),
        name: code.to_owned(),
        may_touch: touch,
        may_open: all,
        may_take_jaw: all,
        may_take_femur: all,
        may_take_head_parts: all,
        may_reopen_stops: all,
    };
    Card {
        form: 1,
        serial: 1,
        office: "Invented reserve".to_owned(),
        valid_from: moment("2026-10-01T00:00:00-05:00"),
        valid_to: moment("2027-06-30T00:00:00-04:00"),
        calls: [CallFor::Lead, CallFor::Officer, CallFor::Emergency, CallFor::Vet]
            .map(|call_for| Call { call_for, name: "invented".to_owned(), number: "none".to_owned() })
            .to_vec(),
        permits: vec![Permit { what: "jaws".to_owned(), number: "INV-1".to_owned() }],
        people: vec![person("K7", true, true), person("B2", false, true), person("D4", false, false)],
        flags: Flags::default(),
        limits: Limits::default(),
        units: Units::Metric,
        figures: Figures::default(),
        cause: None,
        trail_words: String::new(),
        laboratories: marrowbook::card::Laboratories::default(),
        disposal: String::new(),
    }
}

impl Scene {
    /// Nothing answered, no card, a quiet noon in February.
    pub(crate) fn empty() -> Self {
        Self {
            head: Head::start(DeviceId(Digest::of(&[b"phone"]))),
            journal: Journal::new(),
            exam: EXAM,
            kind: ExamKind::Field,
            person: PersonCode::new("K7").unwrap(),
            card: None,
            now: moment("2027-02-14T11:00:00-05:00"),
        }
    }

    /// A crew of two that left home as it should, with a card that lets it touch; a deer dead on old
    /// snow at -5 C without wind. Nothing that stops or has to be confirmed is there.
    pub(crate) fn ready() -> Self {
        static READY: OnceLock<Scene> = OnceLock::new();
        READY.get_or_init(Self::made_ready).clone()
    }

    fn made_ready() -> Self {
        let mut scene = Self::empty();
        scene.card = Some(card());
        scene.say(
            "contact_told=there backup_told=there late_action_agreed=there due_back=2027-02-14T15:00:00-05:00 \
             walk_out_min=60 crew_count=2 roles=recorder_and_handler air_temperature_c=-5 wind_km_h=0 \
             wind_read_at=forecast_or_mast gear_blades_and_sharps_tube=there permit_number=INV-1 hands=clean \
             thumb_to_finger=easy place=450000000,-740000000 land_leave=reserve_or_public species=white_tailed_deer alive=dead \
             body_state=whole body_frozen=not_frozen snow_under_body=old_snow touching_allowed=card_names_me \
             gloves_on=there eyes_and_mask_on=there opening_trained=card_names_me",
        );
        scene
    }

    /// Answers as `finding=value`, several apart by blanks; options of a choice of several apart by
    /// `+`; a site's item after `@`; a place is in 1e-7 degrees; `-` looked and not there, `?` cannot tell (frozen), `!` not looked.
    pub(crate) fn say(&mut self, text: &str) -> &mut Self {
        for word in text.split_whitespace() {
            let (name, value) = word.split_once('=').unwrap();
            let (name, site) = match name.split_once('@') {
                Some((name, item)) => (name, Site::item(item.parse().unwrap())),
                None => (name, Site::NONE),
            };
            self.answer(name, site, answer(name, value));
        }
        self
    }

    pub(crate) fn answer(&mut self, finding: &str, site: Site, answer: Answer) {
        let finding = find(finding).unwrap_or_else(|| panic!("no finding {finding}")).code;
        self.write(&[Draft { finding, site, answer, step: "scene" }]);
    }

    pub(crate) fn write(&mut self, drafts: &[Draft]) {
        let bodies = compose(&self.folded(), drafts, &self.context()).unwrap();
        for body in bodies {
            self.append(&body);
        }
    }

    fn append(&mut self, body: &marrowbook::record::Body) {
        let entry = self.head.next(body, Salt([0; 16])).unwrap();
        self.head = self.head.check(&entry).unwrap();
        self.journal.add(entry).unwrap();
    }

    /// Take back everything that stands on a finding.
    pub(crate) fn take_back(&mut self, finding: &str) {
        let ids: Vec<EntryId> = {
            let fold = self.folded();
            let subject = match find(finding).unwrap().scope {
                Scope::Outing => Subject::Outing(OUTING),
                _ => Subject::Examination(self.exam),
            };
            fold.sheet(subject).unwrap().question(finding, Site::NONE).standing.iter().map(|s| s.id).collect()
        };
        assert!(!ids.is_empty(), "nothing stands on {finding}");
        let body = withdraw(ids, &self.context());
        self.append(&body);
    }

    pub(crate) fn context(&self) -> Context {
        Context {
            outing: OUTING,
            examination: self.exam,
            report: None,
            observer: self.person.clone(),
            typed_by: self.person.clone(),
            at: self.now,
            zone: "America/Toronto".to_owned(),
            since_start_ms: None,
            card: None,
        }
    }

    pub(crate) fn folded(&self) -> Fold {
        fold(&self.journal)
    }

    pub(crate) fn with<T>(&self, look: impl FnOnce(&View) -> T) -> T {
        let fold = self.folded();
        let none = Sheet::default();
        let view = View {
            kind: self.kind,
            outing: fold.outings.get(&OUTING).unwrap_or(&none),
            exam: fold.examination(self.exam).map_or(&none, |e| &e.sheet),
            report: None,
            before: before(&fold, OUTING, self.exam),
            carcass: fold.carcass_of(self.exam),
            card: self.card.as_ref(),
            person: &self.person,
            now: self.now,
        };
        look(&view)
    }

    pub(crate) fn situation(&self) -> Situation {
        self.with(situation)
    }

    pub(crate) fn fired(&self) -> Vec<Fired> {
        self.situation().fired
    }

    /// Ids of what fires, in the order of the table, of one grade or harder.
    pub(crate) fn ids(&self, least: Grade) -> Vec<&'static str> {
        self.fired().iter().filter(|f| f.hazard.grade >= least).map(|f| f.hazard.id).collect()
    }

    pub(crate) fn fires(&self, id: &str) -> bool {
        self.fired().iter().any(|f| f.hazard.id == id)
    }

    /// Name the carcass of this examination.
    pub(crate) fn of_carcass(&mut self) -> &mut Self {
        self.answer(links::CARCASS, Site::NONE, Answer::Seen { value: Value::Ref(CARCASS) });
        self
    }

    pub(crate) fn person(&mut self, code: &str) -> &mut Self {
        self.person = PersonCode::new(code).unwrap();
        self
    }
}

fn answer(finding: &str, value: &str) -> Answer {
    match value {
        "-" => return Answer::NotSeen,
        "?" => return Answer::CantTell { why: Why::Frozen },
        "!" => return Answer::NotLooked { why: Why::Time },
        _ => {}
    }
    let seen = |value| Answer::Seen { value };
    match find(finding).unwrap_or_else(|| panic!("no finding {finding}")).shape {
        Shape::Presence | Shape::Choice(_) => Answer::choice(value),
        Shape::Choices(_) => seen(Value::choices(value.split('+'))),
        Shape::Number { .. } => Answer::number(value.parse().unwrap()),
        Shape::Text(_) | Shape::Plants(_) => seen(Value::Text(value.replace('_', " "))),
        Shape::Instant => seen(Value::Instant(moment(value))),
        Shape::Place => {
            let (lat, lon) = value.split_once(',').unwrap();
            seen(Value::Place(Place {
                lat_e7: lat.parse().unwrap(),
                lon_e7: lon.parse().unwrap(),
                accuracy_m_95: None,
                source: PlaceSource::Typed,
            }))
        }
        other => panic!("{finding}: {other:?}"),
    }
}
