//! A second person's look, without knowing the first one's: what is worth it, and how far the two agree.
//!
//! Age class, the look of marrow and bruises are calls, not measurements: two people who looked apart show how sure a
//! call is. Both answers stay, each under its own person.

use uuid::Uuid;

use crate::record::{Act, Body, PersonCode, Site, Subject};

use super::view::is_unasked;
use super::{Ask, AskState, Situation, Status, View};

/// The calls: a step that asks only of these is answered twice where there are two.
const CALLS: &[&str] = &[
    "quick_class",
    "bruising_outside",
    "bruise_under_skin",
    "wound_bleeding",
    "cheek_teeth_count",
    "third_tooth",
    "tooth_state",
    "dentine",
    "crest",
    "third_molar_back_cusp",
    "premolar_wear",
    "wear_class_called",
    "growth_plate",
    "marrow_consistency",
    "marrow_see_through",
    "marrow_colour",
    "marrow_spoiled",
];

/// Whether a body is another's call at this examination: folded without those, the guide asks this person and shows
/// nothing of it.
pub fn is_anothers_call(body: &Body, examination: Uuid, person: &PersonCode) -> bool {
    let Act::Answer { key, .. } = &body.act else { return false };
    key.subject == Subject::Examination(examination) && key.observer != *person && CALLS.contains(&key.finding.as_str())
}

/// Steps that ask for calls, as they stand for who holds the phone.
fn calls<'a>(view: &'a View, situation: &'a Situation) -> impl Iterator<Item = &'a AskState> {
    let asks_calls = |ask: &Ask| ask.questions(view).iter().all(|(finding, _)| CALLS.contains(finding));
    situation.asks.iter().filter(move |state| matches!(state.ask, Ask::Step { .. }) && asks_calls(&state.ask))
}

/// What the second person has still to look at.
pub fn open<'a>(view: &'a View, situation: &'a Situation) -> impl Iterator<Item = Ask> + 'a {
    calls(view, situation).filter(|state| state.status == Status::Open).map(|state| state.ask)
}

/// What this person has answered by hand; for the first one, what is worth a second look.
pub fn answered<'a>(view: &'a View, situation: &'a Situation) -> impl Iterator<Item = Ask> + 'a {
    let by_hand = |ask: &Ask| ask.questions(view).iter().any(|(f, s)| view.is_answered_by_hand(f, *s));
    calls(view, situation).map(|state| state.ask).filter(by_hand)
}

/// One question that two people or more answered by hand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Compared {
    /// The finding.
    pub finding: &'static str,
    /// Where.
    pub site: Site,
    /// Who said what, by person.
    pub said: Vec<(PersonCode, crate::record::Answer)>,
    /// Whether all said the same.
    pub agree: bool,
}

/// Every question of these findings with answers of more than one person.
pub fn compared(view: &View) -> Vec<Compared> {
    let mut all = Vec::new();
    for (code, site, standing) in view.exam.answers() {
        let Some(finding) = CALLS.iter().find(|finding| **finding == code.as_str()) else { continue };
        let said: Vec<_> =
            standing.iter().filter(|s| !is_unasked(s)).map(|s| (s.observer.clone(), s.answer.clone())).collect();
        if said.windows(2).any(|pair| matches!(pair, [(a, _), (b, _)] if a != b)) {
            let agree = said.windows(2).all(|pair| matches!(pair, [(_, a), (_, b)] if a == b));
            all.push(Compared { finding, site, said, agree });
        }
    }
    all
}
