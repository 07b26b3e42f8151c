//! Whom to call, once there is a signal. The phone cannot summon help and never sounds as if it could.

use super::{Situation, View};
use crate::card::{Call, CallFor};

/// Whom the hazards that fire ask to call, with the card's entry where it has one; emergencies
/// first, then in the order in which the hazards speak. A card that has run out still names its
/// people: an old number is better than none, and the form says that the card is old.
///
/// A stop that was reopened, a fact that was confirmed and evidence that was taken back are told all
/// the same: somebody should know.
pub fn calls<'a>(view: &View<'a>, situation: &Situation) -> Vec<(CallFor, Option<&'a Call>)> {
    let fired = situation.fired.iter().map(|f| f.hazard);
    let mut all: Vec<CallFor> = Vec::new();
    for call in fired.chain(situation.evidence.iter().copied()).filter_map(|h| h.call) {
        if !all.contains(&call) {
            all.push(call);
        }
    }
    let (first, rest): (Vec<_>, Vec<_>) = all.into_iter().partition(|call| *call == CallFor::Emergency);
    first.into_iter().chain(rest).map(|call| (call, view.card.and_then(|card| card.call(call)))).collect()
}

/// The message to show where no card is loaded.
pub const NO_CARD_TO_CALL: &str = "calls.none_loaded";
/// The one line that stands under every stop and every due-back time.
pub const CANNOT_CALL: &str = "phone.cannot_call";
