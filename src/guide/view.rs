//! What the tables are read against: the standing record, the card, the person and the time.

use uuid::Uuid;

use crate::card::{Card, Person};
use crate::record::{
    Answer, Carcass, Fold, Moment, PersonCode, PlaceSource, Question, Scope, Sheet, Site, Standing, Value, find, links,
};

use super::{Input, LEFT, RULED_OUT};

/// What is in hand: one of the two kinds of examination, or a report before any.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum ExamKind {
    Report,
    Field,
    Bench,
}

/// What the tables are read against.
#[derive(Clone, Copy)]
pub struct View<'a> {
    /// Field or bench.
    pub kind: ExamKind,
    /// The crew's day out.
    pub outing: &'a Sheet,
    /// The examination.
    pub exam: &'a Sheet,
    /// The report that sent the crew, where there is one.
    pub report: Option<&'a Sheet>,
    /// The examination before this one on the same day out, where there is one: what its crew knows already is
    /// not asked in full again.
    pub before: Option<&'a Sheet>,
    /// The carcass over all examinations, where it is known.
    pub carcass: Option<&'a Carcass>,
    /// The local card, where one is loaded and its signature held.
    pub card: Option<&'a Card>,
    /// Who holds the phone.
    pub person: &'a PersonCode,
    /// Now, by the phone's clock.
    pub now: Moment,
}

/// Written by a rule or by the leaving, not by somebody who was asked.
pub(crate) fn is_unasked(standing: &Standing) -> bool {
    matches!(standing.step.as_deref(), Some(RULED_OUT | LEFT))
}

impl<'a> View<'a> {
    /// The sheet on which a finding is asked; a report's findings on an empty sheet where none is.
    pub(super) fn sheet(&self, finding: &str) -> Option<&'a Sheet> {
        match find(finding)?.scope {
            Scope::Outing => Some(self.outing),
            Scope::Examination => Some(self.exam),
            Scope::Report => self.report,
            // A log has its own page; no step of a visit asks for it.
            Scope::WinterLog => None,
        }
    }

    /// All that stands on a question.
    pub fn question(&self, finding: &str, site: Site) -> Question<'a> {
        self.sheet(finding).map(|s| s.question(finding, site)).unwrap_or_default()
    }

    /// The answer on a question without a place.
    pub fn answer(&self, finding: &str) -> Answer {
        self.question(finding, Site::NONE).answer()
    }

    /// True where any of the five answers was given by hand; once the examination is closed, also
    /// where a rule or the leaving gave one. Until then such an answer is open to being asked.
    pub fn is_answered(&self, finding: &str, site: Site) -> bool {
        let question = self.question(finding, site);
        question.standing.iter().any(|s| !is_unasked(s)) || (question.is_answered() && self.is_closed())
    }

    /// True where any of the five answers was given by hand, and by no rule and no leaving.
    pub(crate) fn is_answered_by_hand(&self, finding: &str, site: Site) -> bool {
        self.question(finding, site).standing.iter().any(|s| !is_unasked(s))
    }

    /// True where a rule has written this very answer here and it stands.
    pub(crate) fn is_ruled(&self, finding: &str, site: Site, answer: &Answer) -> bool {
        let question = self.question(finding, site);
        question.standing.iter().any(|s| s.step.as_deref() == Some(RULED_OUT) && s.answer == *answer)
    }

    /// True once somebody said that the examination is done or was left. A cause of death is shown
    /// only then.
    pub fn is_closed(&self) -> bool {
        self.there("examination_closed")
    }

    /// True where this option was seen.
    pub fn chose(&self, finding: &str, code: &str) -> bool {
        self.sheet(finding).is_some_and(|s| s.chose(finding, code))
    }

    /// True where this much is left of the body: as was said of it, or as was seen from afar already.
    pub(crate) fn body_is(&self, state: &str) -> bool {
        let afar = !self.is_answered_by_hand("body_state", Site::NONE) && self.chose("alive", "bones_and_hair");
        if afar { state == "bones_and_hair" } else { self.chose("body_state", state) }
    }

    /// True where a sign was seen.
    pub fn there(&self, sign: &str) -> bool {
        self.sheet(sign).is_some_and(|s| s.is_seen(sign))
    }

    /// True where a sign was once seen, even if taken back since.
    pub fn was_ever_there(&self, sign: &str) -> bool {
        self.sheet(sign).is_some_and(|s| s.was_ever_seen(sign))
    }

    /// The option seen.
    pub fn choice(&self, finding: &str) -> Option<String> {
        self.sheet(finding).and_then(|s| s.choice(finding))
    }

    /// The number seen, as a stored integer.
    pub fn number(&self, finding: &str) -> Option<i64> {
        self.sheet(finding).and_then(|s| s.number(finding))
    }

    /// True where this person looked for each of these signs at the carcass before, on the same day out, and could
    /// tell whether it was there.
    fn looked_before(&self, findings: &[&str]) -> bool {
        let by_me = |s: &&Standing| s.observer == *self.person && s.answer.is_informative() && !is_unasked(s);
        self.before.is_some_and(|sheet| {
            findings.iter().all(|finding| sheet.question(finding, Site::NONE).standing.iter().any(by_me))
        })
    }

    /// True where this person went through all of these steps at the carcass before: a sweep reads them out again.
    pub(crate) fn went_through(&self, steps: &[&str]) -> bool {
        let all = || steps.iter().filter_map(|id| super::steps::step(id));
        self.before.is_some()
            && all().all(|step| match step.input {
                Input::Panel(signs) => self.looked_before(signs),
                Input::ReadDo(line) => self.looked_before(&[line]),
                _ => false,
            })
    }

    /// When a place was given by hand from the phone's own position; `None` where it was typed or is not known.
    pub(crate) fn stood_at(&self, finding: &str) -> Option<Moment> {
        let question = self.question(finding, Site::NONE);
        let fix = |s: &&&Standing| {
            let place = s.answer.value();
            !is_unasked(s) && matches!(place, Some(Value::Place(p)) if p.source == PlaceSource::Device)
        };
        question.standing.iter().find(fix).map(|s| s.at)
    }

    /// The card, while its dates hold.
    pub fn card_in_force(&self) -> Option<&'a Card> {
        self.card.filter(|c| c.holds_at(self.now))
    }

    /// What the card in force says of the person who holds the phone.
    pub fn person_on_card(&self) -> Option<&'a Person> {
        self.card_in_force().and_then(|c| c.person(self.person))
    }
}

/// The examination in the field before this one on the same day out. Ids are made in order of time.
pub fn before(fold: &Fold, outing: Uuid, examination: Uuid) -> Option<&Sheet> {
    let of_the_day = |sheet: &Sheet| sheet.answer(links::OUTING) == Answer::Seen { value: Value::Ref(outing) };
    let earlier = fold.carcasses.values().flat_map(|c| c.examinations.range(..examination)).map(|(_, e)| e);
    let field = earlier.filter(|e| e.kind.as_deref() == Some("field") && of_the_day(&e.sheet));
    field.max_by_key(|e| e.id).map(|e| &e.sheet)
}
