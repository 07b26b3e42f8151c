//! A phone with one journal, and a visit that is written to it.

use std::cell::OnceCell;

use marrowbook::card::Card;
use marrowbook::guide::{Ask, Context, Draft, ExamKind, Situation, View, before, compose, situation, withdraw};
use marrowbook::record::{
    Answer, Body, DeviceId, Digest, EntryId, Fold, Head, Journal, Moment, PersonCode, Salt, Scope, Sheet, Site,
    Subject, Value, find, fold, fold_bodies, links,
};
use uuid::Uuid;

use crate::answering::Answering;

pub(crate) const OUTING: Uuid = Uuid::from_u128(7);
pub(crate) const CARCASS: Uuid = Uuid::from_u128(11);

/// A card of an invented reserve.
pub(crate) fn card() -> Card {
    let text = r#"{
        "form": 1, "serial": 1, "office": "Pinegrove Reserve",
        "valid_from": "2026-12-01T00:00:00-05:00", "valid_to": "2027-04-30T23:59:59-05:00",
        "calls": [
            {"call_for": "lead", "name": "Lead", "number": "1"},
            {"call_for": "officer", "name": "Officer", "number": "2"},
            {"call_for": "emergency", "name": "Emergency", "number": "3"}
        ],
        "permits": [{"what": "salvage of parts", "number": "INV-1"}],
        "people": [
            {"code": "K7", "name": "Kim", "may_touch": true, "may_open": true, "may_take_jaw": true,
             "may_take_femur": true, "may_take_head_parts": true, "may_reopen_stops": true},
            {"code": "B2", "name": "Bo"}
        ]
    }"#;
    serde_json::from_str(text).unwrap()
}

pub(crate) fn moment(text: &str) -> Moment {
    Moment::parse(text).unwrap()
}

/// The phone and the visit in hand.
#[derive(Clone)]
pub(crate) struct Visit {
    head: Head,
    /// Each body read once, as a phone does: reading all of them anew after every tap takes longer than the rest.
    bodies: Vec<(EntryId, Body)>,
    folded: OnceCell<Fold>,
    pub(crate) journal: Journal,
    pub(crate) exam: Uuid,
    pub(crate) kind: ExamKind,
    pub(crate) person: PersonCode,
    pub(crate) card: Option<Card>,
    pub(crate) now: Moment,
    pub(crate) report: Option<Uuid>,
}

impl Visit {
    /// A field visit by a person whom the card names for everything, at noon.
    pub(crate) fn field(exam: u128) -> Self {
        Self::on(DeviceId(Digest::of(&[b"phone"])), exam)
    }

    /// The same on a phone of one's own.
    pub(crate) fn on(phone: DeviceId, exam: u128) -> Self {
        let mut visit = Self {
            head: Head::start(phone),
            bodies: Vec::new(),
            folded: OnceCell::new(),
            journal: Journal::new(),
            exam: Uuid::from_u128(exam),
            kind: ExamKind::Field,
            person: PersonCode::new("K7").unwrap(),
            card: Some(card()),
            now: moment("2027-02-14T11:00:00-05:00"),
            report: None,
        };
        visit.begin("field");
        visit
    }

    /// Another examination on the same phone.
    pub(crate) fn next_exam(&mut self, exam: u128, kind: ExamKind) {
        self.exam = Uuid::from_u128(exam);
        self.kind = kind;
        self.begin(if kind == ExamKind::Bench { "bench" } else { "field" });
    }

    /// What the phone writes by itself when an examination begins.
    fn begin(&mut self, kind: &str) {
        for (finding, answer) in [
            ("examination_kind", Answer::choice(kind)),
            (links::CARCASS, Answer::Seen { value: Value::Ref(CARCASS) }),
            (links::OUTING, Answer::Seen { value: Value::Ref(OUTING) }),
        ] {
            let draft = Draft { finding, site: Site::NONE, answer, step: "begin" };
            self.write(&[draft]);
        }
    }

    pub(crate) fn context(&self) -> Context {
        Context {
            outing: OUTING,
            examination: self.exam,
            report: self.report,
            observer: self.person.clone(),
            typed_by: self.person.clone(),
            at: self.now,
            zone: "America/Toronto".to_owned(),
            since_start_ms: None,
            card: None,
        }
    }

    /// The journal folded, kept until something is appended.
    pub(crate) fn fold(&self) -> &Fold {
        self.folded.get_or_init(|| fold_bodies(&self.bodies.iter().collect::<Vec<_>>()))
    }

    /// Look at the visit as it stands in this journal.
    pub(crate) fn look_in<T>(&self, fold: &Fold, look: impl FnOnce(&View) -> T) -> T {
        let none = Sheet::default();
        let view = View {
            kind: self.kind,
            outing: fold.outings.get(&OUTING).unwrap_or(&none),
            exam: fold.examination(self.exam).map_or(&none, |e| &e.sheet),
            report: self.report.map(|id| fold.reports.get(&id).unwrap_or(&none)),
            before: before(fold, OUTING, self.exam),
            carcass: fold.carcass_of(self.exam),
            card: self.card.as_ref(),
            person: &self.person,
            now: self.now,
        };
        look(&view)
    }

    pub(crate) fn look<T>(&self, look: impl FnOnce(&View) -> T) -> T {
        self.look_in(self.fold(), look)
    }

    pub(crate) fn situation(&self) -> Situation {
        self.look(situation)
    }

    pub(crate) fn write(&mut self, drafts: &[Draft]) {
        let bodies = compose(self.fold(), drafts, &self.context()).unwrap();
        for body in bodies {
            self.append(&body);
        }
    }

    pub(crate) fn append(&mut self, body: &Body) {
        let entry = self.head.next(body, Salt([0; 16])).unwrap();
        self.head = self.head.check(&entry).unwrap();
        self.bodies.push((entry.id(), body.clone()));
        self.journal.add(entry).unwrap();
        self.folded = OnceCell::new();
    }

    pub(crate) fn say(&mut self, finding: &str, site: Site, answer: Answer) {
        let finding = find(finding).unwrap().code;
        self.write(&[Draft { finding, site, answer, step: "by_hand" }]);
    }

    /// Take back everything that stands on a finding.
    pub(crate) fn take_back(&mut self, finding: &str) {
        let subject = match find(finding).unwrap().scope {
            Scope::Outing => Subject::Outing(OUTING),
            Scope::Examination => Subject::Examination(self.exam),
            Scope::Report => Subject::Report(self.report.unwrap()),
            Scope::WinterLog => unreachable!("no step asks for a log"),
        };
        let fold = self.fold();
        let standing = fold.sheet(subject).unwrap().question(finding, Site::NONE).standing;
        let ids: Vec<EntryId> = standing.iter().map(|s| s.id).collect();
        assert!(!ids.is_empty(), "nothing stands on {finding}");
        let body = withdraw(ids, &self.context());
        self.append(&body);
    }

    pub(crate) fn answer(&self, finding: &str, site: Site) -> Answer {
        self.look(|view| view.question(finding, site).answer())
    }

    /// One step of the visit: write what is settled, then answer what is asked. The ask, or `None`
    /// when nothing is open.
    pub(crate) fn step(&mut self, hand: &mut impl Answering) -> Option<Ask> {
        let now = self.situation();
        self.write(&now.to_write);
        if !now.to_write.is_empty() {
            let again = self.situation();
            assert_eq!(again.to_write, [], "what was settled is written once");
            assert_eq!(again.next, now.next, "writing what is settled changes nothing else");
        }
        let ask = now.next?;
        let drafts = self.look(|view| hand.answer(&ask, view));
        assert!(!drafts.is_empty(), "{} got no answer", ask.name());
        self.write(&drafts);
        Some(ask)
    }

    /// To the end. The names of what was asked, in turn.
    pub(crate) fn walk(&mut self, hand: &mut impl Answering) -> Vec<String> {
        let mut asked = Vec::new();
        while let Some(ask) = self.step(hand) {
            asked.push(ask.name());
            assert!(asked.len() < 400, "no end in sight: {:?}", &asked[asked.len() - 12..]);
        }
        assert!(fold(&self.journal) == *self.fold(), "what was written reads as what was said");
        asked
    }
}
