//! Who may touch, open and take. Hands-off is the default; touching is an extra that the card gives.
//!
//! The card decides, and only a card in force that names the person. A yes from the office by voice
//! or message can be recorded (`touching_allowed`), but nobody can check it on a phone without
//! signal, so it opens nothing by itself: the office sends a card. The person is the one whose code
//! the form is set to. Where one holds the phone and another handles the carcass, the handler's code
//! is set and the other is written down as typing.

use super::View;
use super::hazards::read::chose_any;
use crate::card::{CardState, Person, card_state};
use crate::record::Site;

/// Why nothing may be touched.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoTouch {
    /// No card is in force.
    #[error("no local card is in force, so the form stays hands-off")]
    Card(CardState),
    /// The card in force does not let this person touch.
    #[error("the local card does not let this person touch a carcass")]
    NotNamed,
    /// The crew was asked whether it may touch and did not say yes.
    #[error("the crew did not say that it may touch")]
    CrewSaysNo,
}

/// Whether the person may touch this carcass.
///
/// # Errors
/// The first reason that stands against it.
pub fn may_touch(view: &View) -> Result<(), NoTouch> {
    let state = card_state(view.card, view.now);
    if state != CardState::InForce {
        return Err(NoTouch::Card(state));
    }
    if !person_may(view, |p| p.may_touch) {
        return Err(NoTouch::NotNamed);
    }
    if view.is_answered("touching_allowed", Site::NONE) && !view.there("touching_allowed") {
        return Err(NoTouch::CrewSaysNo);
    }
    Ok(())
}

/// Whether the body may be opened: by the person, or by somebody here of whom the crew states that
/// the card lets them (it then has to name at least one such person).
pub fn may_open(view: &View) -> bool {
    let other_is_named = view.card_in_force().is_some_and(|c| c.people.iter().any(|p| p.may_open));
    person_may(view, |p| p.may_open) || (other_is_named && chose_any(view, "opening_trained", &["trained_person_here"]))
}

/// Whether the person may take the lower jaw.
pub fn may_take_jaw(view: &View) -> bool {
    person_may(view, |p| p.may_take_jaw)
}

/// Whether the person may take a femur or another long bone.
pub fn may_take_femur(view: &View) -> bool {
    person_may(view, |p| p.may_take_femur)
}

/// Whether the person may take lymph nodes, obex or the whole head.
pub fn may_take_head_parts(view: &View) -> bool {
    person_may(view, |p| p.may_take_head_parts)
}

fn person_may(view: &View, what: fn(&Person) -> bool) -> bool {
    view.person_on_card().is_some_and(what)
}
