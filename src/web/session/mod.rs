//! What the crew's form works on: the journal, what is in hand, and the acts that write.
//!
//! A plain struct without a browser in it. Acts give bodies; whoever calls puts them into the queue
//! and hands the entries back in with [`Session::take`].

mod bodies;
mod custody;
mod card_text;
mod hand_over;
mod lists;
mod notes;
mod now;
mod photos;
mod received;
#[cfg(test)]
mod pair_tests;
#[cfg(test)]
mod report_tests;
#[cfg(test)]
mod received_tests;
#[cfg(test)]
mod tests;
mod trail;
mod when;
pub(crate) mod winter;

use std::collections::BTreeMap;
use std::sync::Arc;

use uuid::Uuid;

use crate::card::Card;
use crate::guide::{Context, Draft, Situation, compose, second_look, withdraw};
use crate::keep::Seed;
use crate::reading::Given;
use crate::record::{
    Answer, Body, DeviceId, Digest, EXAMINATION_KIND, Entry, EntryId, Flaw, Fold, Journal, PersonCode, Site, Subject,
    Value, Why, links,
};

pub(crate) use bodies::Bodies;
pub(crate) use card_text::{ReceivedCard, Unread, read_card};
pub(crate) use hand_over::Made;
pub(crate) use lists::{OpenCarcass, WaitingReport, handed_text};
pub(crate) use now::{Here, Now};
pub(crate) use photos::Picture;
pub(crate) use received::{Came, Carried, Envelope, read_frames};
pub(crate) use trail::{Answered, Correction};
pub(crate) use when::{Source, When, at_clock};

/// The card in force with the digest of its text, as entries name it.
#[derive(Clone)]
pub(crate) struct HeldCard {
    /// What it says.
    pub(crate) card: Arc<Card>,
    /// Digest of its payload.
    pub(crate) digest: Digest,
}

impl HeldCard {
    /// As readings take it.
    pub(crate) fn given(held: Option<&Self>) -> Given<'_> {
        held.map(|held| Given::card(&held.card, held.digest)).unwrap_or_default()
    }
}

/// The crew's work on this phone.
pub(crate) struct Session {
    /// All entries.
    pub(crate) journal: Journal,
    /// Their bodies, read once.
    pub(crate) bodies: Bodies,
    /// This phone.
    pub(crate) device: DeviceId,
    /// What its key is made from; absent where this page only shows.
    pub(crate) seed: Option<Seed>,
    /// What is in hand.
    pub(crate) here: Here,
    /// The local card.
    pub(crate) card: Option<HeldCard>,
    begun: BTreeMap<Uuid, u64>,
}

impl Session {
    /// A session on what was read at the start.
    pub(crate) fn new(journal: Journal, device: DeviceId, seed: Option<Seed>) -> Self {
        let mut bodies = Bodies::default();
        for (id, body) in journal.bodies().0 {
            bodies.push(id, body);
        }
        Self { journal, bodies, device, seed, here: Here::default(), card: None, begun: BTreeMap::new() }
    }

    /// Take in entries that the queue has made.
    pub(crate) fn take(&mut self, entries: Vec<Entry>) {
        for entry in entries {
            if let Ok(Some(body)) = entry.body() {
                self.bodies.push(entry.id(), body);
            }
            // Made a moment ago over its own text: adding it cannot fail.
            let _ = self.journal.add(entry);
        }
    }

    /// How things stand.
    pub(crate) fn now(&self, when: &When) -> Now {
        let card = self.card.as_ref().map(|held| Arc::clone(&held.card));
        // With the carcass before it: what its crew knows already is not asked in full again.
        let before = self.here.examination.and_then(|exam| self.bodies.before(exam)).map(Subject::Examination);
        let around: Vec<Subject> = self.in_hand().into_iter().chain(before).collect();
        let hidden = self.here.looked_at_again();
        let fold = self.bodies.fold_shown(&around, &|body| {
            hidden.is_none_or(|exam| !second_look::is_anothers_call(body, exam, &self.here.person))
        });
        Now::new(self.here.clone(), fold, card, when.at)
    }

    /// Outing, report and examination in hand.
    pub(crate) fn in_hand(&self) -> Vec<Subject> {
        let outing = self.here.outing.into_iter().map(Subject::Outing);
        outing
            .chain(self.here.report.map(Subject::Report))
            .chain(self.here.examination.map(Subject::Examination))
            .collect()
    }

    /// Go back to an examination that was begun before.
    pub(crate) fn take_up(&mut self, examination: Uuid) {
        self.here.outing = self.bodies.outing_of(examination).or(self.here.outing);
        self.here.report = self.bodies.report_of(examination);
        self.here.examination = Some(examination);
    }

    /// Take up a report, to write it or to go out to it; `None` lays it aside.
    pub(crate) fn take_up_report(&mut self, report: Option<Uuid>) {
        self.here.report = report;
        self.here.examination = None;
        self.here.from_paper = false;
    }

    /// What is begun next is typed in from a sheet of paper.
    pub(crate) fn take_up_paper(&mut self) {
        self.take_up_report(None);
        self.here.from_paper = true;
    }

    /// Take up what was open last: after a restart the visit goes on where it stood. A crew that left
    /// early is still on its way out. Where nothing is open, another carcass of the same day joins the
    /// same outing.
    pub(crate) fn take_up_latest(&mut self, when: &When) {
        let all = Self::examinations(&self.bodies.fold_all());
        let is_today = |e: &OpenCarcass| e.last_at.is_some_and(|at| at.date() == when.at.date());
        if let Some(last) = all.first().filter(|e| is_today(e)) {
            self.take_up(last.examination);
            if last.closed && self.now(when).situation.next.is_none() {
                self.here.examination = None;
            }
        }
        if self.here.examination.is_none()
            && let Some(open) = all.iter().find(|e| !e.closed)
        {
            self.take_up(open.examination);
        }
    }

    /// Begin a day out with its first carcass.
    pub(crate) fn start_outing(&mut self, from: &impl Source) -> Result<Vec<Body>, Flaw> {
        self.here.outing = Some(from.id());
        self.begin("field", from.id(), from)
    }

    /// Begin with another carcass on the same day out, somewhere else.
    pub(crate) fn new_carcass(&mut self, from: &impl Source) -> Result<Vec<Body>, Flaw> {
        self.here.report = None;
        self.begin("field", from.id(), from)
    }

    /// Begin with another carcass at the same place as the one in hand: they are one event, and answer the
    /// same report.
    pub(crate) fn carcass_beside(&mut self, from: &impl Source) -> Result<Vec<Body>, Flaw> {
        let event = self.here.examination.and_then(|exam| self.bodies.event_around(exam));
        let mut bodies = self.begin("field", from.id(), from)?;
        if let Some((event, known)) = event {
            let number = Answer::number(i64::try_from(known + 1).unwrap_or_default());
            let joined = Answer::Seen { value: Value::Ref(event) };
            bodies
                .extend(self.note(&[draft(links::EVENT, joined), draft("event_carcass_count", number)], &from.when())?);
        }
        Ok(bodies)
    }

    /// Begin at the carcass of another phone, known by the code that it shows: the office joins the two.
    pub(crate) fn join_by_code(&mut self, code: &str, from: &impl Source) -> Result<Vec<Body>, Flaw> {
        self.here.report = None;
        if self.here.outing.is_none() {
            self.here.outing = Some(from.id());
        }
        let mut bodies = self.begin("field", from.id(), from)?;
        let said = Answer::Seen { value: Value::Text(code.to_owned()) };
        bodies.extend(self.note(&[draft("same_carcass_as_code", said)], &from.when())?);
        Ok(bodies)
    }

    /// Begin another examination of a carcass that is known: a second visit, or work on the bench.
    pub(crate) fn look_again(&mut self, carcass: Uuid, kind: &str, from: &impl Source) -> Result<Vec<Body>, Flaw> {
        if self.here.outing.is_none() {
            self.here.outing = Some(from.id());
        }
        self.begin(kind, carcass, from)
    }

    fn begin(&mut self, kind: &str, carcass: Uuid, from: &impl Source) -> Result<Vec<Body>, Flaw> {
        let examination = from.id();
        let when = from.when();
        self.here.examination = Some(examination);
        self.begun.insert(examination, when.steady_ms);
        let outing = self.here.outing.unwrap_or(examination);
        let reference = |finding, id| draft(finding, Answer::Seen { value: Value::Ref(id) });
        let mut drafts = vec![
            draft(EXAMINATION_KIND, Answer::choice(kind)),
            reference(links::CARCASS, carcass),
            reference(links::OUTING, outing),
        ];
        drafts.extend(self.here.report.map(|report| reference(links::REPORT, report)));
        // Once: the next carcass may be before the crew's eyes.
        if std::mem::take(&mut self.here.from_paper) {
            drafts.push(draft("from_paper", Answer::choice("there")));
        }
        self.note(&drafts, &when)
    }

    /// What a person answered.
    pub(crate) fn answer(&self, fold: &Fold, drafts: &[Draft], when: &When) -> Result<Vec<Body>, Flaw> {
        compose(fold, drafts, &self.context(when))
    }

    /// What the phone writes by itself: no step asked for it.
    fn note(&self, drafts: &[Draft], when: &When) -> Result<Vec<Body>, Flaw> {
        let fold = self.bodies.fold_around(&self.in_hand());
        let mut bodies = compose(&fold, drafts, &self.context(when))?;
        for body in &mut bodies {
            body.versions.step = None;
        }
        Ok(bodies)
    }

    /// Take back what this person answered to these questions; `None` where nothing of theirs stands.
    pub(crate) fn take_back(&self, now: &Now, questions: &[(&'static str, Site)], when: &When) -> Option<Body> {
        let view = now.view();
        let mine: Vec<EntryId> = questions
            .iter()
            .flat_map(|(finding, site)| view.question(finding, *site).standing)
            .filter(|standing| standing.observer == self.here.person)
            .map(|standing| standing.id)
            .collect();
        (!mine.is_empty()).then(|| withdraw(mine, &self.context(when)))
    }

    /// What is written when the crew leaves at once: the outing's reason, `not looked` for all that
    /// is open, and the closing.
    pub(crate) fn leave_now(now: &Now, reason: &str, why: &Why) -> Vec<Draft> {
        let rest = Situation::leave_now(&now.view(), why).into_iter().filter(|d| d.finding != "left_early");
        let reason = Draft { step: "leave_now", ..draft("left_early", Answer::choice(reason)) };
        std::iter::once(reason).chain(rest).collect()
    }

    /// The draft that closes the examination in hand.
    pub(crate) fn close(now: &Now) -> Draft {
        let view = now.view();
        let how = if view.choice("left_early").is_some() {
            "left_early"
        } else if now.situation.hands_on_closed() {
            "record_only"
        } else {
            "complete"
        };
        Draft { step: "close", ..draft("examination_closed", Answer::choice(how)) }
    }

    fn context(&self, when: &When) -> Context {
        let examination = self.here.examination.unwrap_or_default();
        Context {
            outing: self.here.outing.unwrap_or(examination),
            examination,
            report: self.here.report,
            observer: self.here.person.clone(),
            typed_by: self.here.person.clone(),
            at: when.at,
            zone: when.zone.clone(),
            since_start_ms: self.begun.get(&examination).map(|start| when.steady_ms.saturating_sub(*start)),
            card: self.card.as_ref().map(|held| held.digest),
        }
    }

    /// Set who holds the phone.
    pub(crate) fn is_held_by(&mut self, person: PersonCode) {
        self.here.person = person;
    }
}

/// A draft without a place.
pub(crate) fn draft(finding: &'static str, answer: Answer) -> Draft {
    Draft { finding, site: Site::NONE, answer, step: "" }
}
