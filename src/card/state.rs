//! Whether a card is there, and whether its dates hold.

use super::Card;
use crate::record::Moment;

/// How the local card stands. Only one in force opens anything.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CardState {
    /// None is loaded.
    None,
    /// Its last moment has passed.
    Expired,
    /// Its first moment has not come, or the phone's clock is behind.
    NotYet,
    /// Within its dates.
    InForce,
}

impl CardState {
    /// The code used in message ids (`card.state.<code>`).
    pub const fn code(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::Expired => "expired",
            Self::NotYet => "not_yet",
            Self::InForce => "in_force",
        }
    }
}

/// How a card stands at a moment.
pub fn card_state(card: Option<&Card>, at: Moment) -> CardState {
    let Some(card) = card else { return CardState::None };
    let now = at.unix_seconds();
    if now > card.valid_to.unix_seconds() {
        CardState::Expired
    } else if now < card.valid_from.unix_seconds() {
        CardState::NotYet
    } else {
        CardState::InForce
    }
}
