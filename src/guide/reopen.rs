//! Reopening a stop: by a person whom the card in force names, with a reason, never a fixed one.

use super::hazards::read::{chose_any, newest_numbers, seen_since};
use super::{Draft, Grade, Hazard, View, hazards};
use crate::record::{Answer, PersonCode, Site, Value};

/// New clear ice that holds one person on foot, cm (Minnesota Department of Natural Resources: 4 in).
const CLEAR_ICE_CM: i64 = 10;
/// White or snow ice is about half as strong (same source): twice that, cm.
const WHITE_ICE_CM: i64 = 20;
/// What has to be stated of the ice and the crew before anybody steps on it.
const ICE_ITEMS: [&str; 5] = ["measured_every_few_steps", "picks", "rope", "float_vest", "second_person"];

/// Why a stop stays closed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoReopen {
    /// It is not a stop.
    #[error("this is no stop")]
    NotAStop,
    /// Evidence, anthrax, poison, a live animal and the like: not in the field.
    #[error("this stop is not reopened in the field")]
    Fixed,
    /// It does not fire now.
    #[error("this stop is not in force")]
    NotInForce,
    /// No card, or none in force.
    #[error("no local card is in force: nobody is named who could reopen a stop")]
    NoCard,
    /// The card does not let this person reopen stops.
    #[error("the local card does not name this person for reopening stops")]
    NotNamed,
    /// Neither kind of ice was measured.
    #[error("the ice has not been measured")]
    IceNotMeasured,
    /// Measured, and too thin.
    #[error("the ice is thinner than 10 cm clear or 20 cm white")]
    IceTooThin,
    /// Picks, rope, float vest, second person or measuring on the way was not stated.
    #[error("not every item for going onto ice was confirmed")]
    IceItems,
    /// No reason was given.
    #[error("a stop is reopened with a reason, and none was given")]
    NoReason,
}

impl NoReopen {
    /// The message that says it.
    pub const fn message(self) -> &'static str {
        match self {
            Self::NotAStop => "reopen.no.not_a_stop",
            Self::Fixed => "reopen.no.fixed",
            Self::NotInForce => "reopen.no.not_in_force",
            Self::NoCard => "reopen.no.no_card",
            Self::NotNamed => "reopen.no.not_named",
            Self::IceNotMeasured => "reopen.no.ice_not_measured",
            Self::IceTooThin => "reopen.no.ice_too_thin",
            Self::IceItems => "reopen.no.ice_items",
            Self::NoReason => "reopen.no.no_reason",
        }
    }
}

/// Whether the person who holds the phone may reopen this stop now.
///
/// # Errors
/// The first thing that stands against it.
pub fn may_reopen(view: &View, hazard: &Hazard) -> Result<(), NoReopen> {
    match hazard.grade {
        Grade::Advise | Grade::Confirm => return Err(NoReopen::NotAStop),
        Grade::StopFixed => return Err(NoReopen::Fixed),
        Grade::Stop => {}
    }
    if !(hazard.fires)(view) {
        return Err(NoReopen::NotInForce);
    }
    if view.card_in_force().is_none() {
        return Err(NoReopen::NoCard);
    }
    if is_named(view, view.person) { Ok(()) } else { Err(NoReopen::NotNamed) }
}

/// What still keeps a stop closed that was reopened by word: ice is only open once it is measured,
/// thick enough, and every item for it is stated.
pub fn still_closed(view: &View, hazard: &Hazard) -> Option<NoReopen> {
    if hazard.id == "E01" && is_said_open(view, hazard) { ice_holds(view).err() } else { None }
}

/// What to write to reopen this stop: the stops that this person holds open, and the reason.
///
/// # Errors
/// As [`may_reopen`], or where the reason is empty.
pub fn reopen(view: &View, hazard: &'static Hazard, reason: &str) -> Result<[Draft; 2], NoReopen> {
    may_reopen(view, hazard)?;
    let reason = reason.trim();
    if reason.is_empty() {
        return Err(NoReopen::NoReason);
    }
    // Only what is open now is said again: a stop that has closed since must not ride along.
    let open = hazards::all().filter(|h| **h == *hazard || opened_by(view, h, view.person)).map(|h| h.code);
    let draft = |finding, value| Draft { finding, site: Site::NONE, answer: Answer::Seen { value }, step: hazard.id };
    Ok([
        draft("reopened_by", Value::Text(format!("{}: {reason}", hazard.code))),
        draft("reopened", Value::choices(open)),
    ])
}

/// Whether a stop stands reopened: said by a person whom the card in force names, with a reason,
/// knowing of every sign that fires it; and on ice, only while what was measured holds.
pub(crate) fn is_reopened(view: &View, hazard: &Hazard) -> bool {
    is_said_open(view, hazard) && still_closed(view, hazard).is_none()
}

/// Whether somebody who may said that a stop is reopened.
pub(crate) fn is_said_open(view: &View, hazard: &Hazard) -> bool {
    let people = view.card_in_force().map(|c| c.people.as_slice()).unwrap_or_default();
    people.iter().any(|p| opened_by(view, hazard, &p.code))
}

fn opened_by(view: &View, hazard: &Hazard, person: &PersonCode) -> bool {
    hazard.grade == Grade::Stop
        && is_named(view, person)
        && view
            .question("reopened", Site::NONE)
            .standing
            .iter()
            .any(|s| s.observer == *person && names(&s.answer, hazard.code) && !seen_since(view, hazard.signs, s.id))
        && has_reason(view, hazard, person)
}

fn names(answer: &Answer, code: &str) -> bool {
    matches!(answer, Answer::Seen { value: Value::Choices(all) } if all.iter().any(|c| c == code))
}

fn has_reason(view: &View, hazard: &Hazard, person: &PersonCode) -> bool {
    view.question("reopened_by", Site::NONE).standing.iter().any(|s| {
        s.observer == *person
            && matches!(&s.answer, Answer::Seen { value: Value::Text(text) }
                if text.split_once(": ").is_some_and(|(code, reason)| code == hazard.code && !reason.is_empty()))
    })
}

fn is_named(view: &View, person: &PersonCode) -> bool {
    view.card_in_force().and_then(|c| c.person(person)).is_some_and(|p| p.may_reopen_stops)
}

/// Every kind of ice that was measured is thick enough, at least one was, and every item is stated.
fn ice_holds(view: &View) -> Result<(), NoReopen> {
    let clear = newest_numbers(view, "clear_ice_cm");
    let white = newest_numbers(view, "white_ice_cm");
    if clear.is_empty() && white.is_empty() {
        return Err(NoReopen::IceNotMeasured);
    }
    if clear.iter().any(|cm| *cm < CLEAR_ICE_CM) || white.iter().any(|cm| *cm < WHITE_ICE_CM) {
        return Err(NoReopen::IceTooThin);
    }
    if ICE_ITEMS.iter().all(|item| chose_any(view, "ice_items", &[item])) { Ok(()) } else { Err(NoReopen::IceItems) }
}
