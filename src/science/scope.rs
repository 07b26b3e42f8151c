//! What the methods are for: white-tailed deer that died from November to May.
//!
//! Age has further limits of its own; every other method of a carcass asks here first.

use serde::{Deserialize, Serialize};
use time::Month;

use super::age::{DeathWindow, Species};

/// Why a method is closed. The findings stay in the record.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, thiserror::Error)]
#[serde(rename_all = "snake_case")]
pub enum OutOfScope {
    /// Another species.
    #[error("the method is for white-tailed deer only")]
    NotWhiteTailed,
    /// Species not told.
    #[error("the species is not known")]
    SpeciesUnknown,
    /// Every day on which it can have died lies in June to October.
    #[error("the method is for deer that died from November to May")]
    OutsideSeason,
}

/// Whether a method is open for a deer of that species that died within the window, where one is known.
pub fn in_scope(species: Species, death: Option<DeathWindow>) -> Result<(), OutOfScope> {
    match species {
        Species::WhiteTailed => {}
        Species::Other => return Err(OutOfScope::NotWhiteTailed),
        Species::Unknown => return Err(OutOfScope::SpeciesUnknown),
    }
    match death {
        Some(window) if summer_only(window) => Err(OutOfScope::OutsideSeason),
        _ => Ok(()),
    }
}

/// Both ends in June to October of one summer.
fn summer_only(window: DeathWindow) -> bool {
    let summer = |month| (Month::June as u8..=Month::October as u8).contains(&(month as u8));
    let days = window.to.to_julian_day() - window.from.to_julian_day();
    summer(window.from.month()) && summer(window.to.month()) && days < 200
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    #[test]
    fn open_and_closed() {
        let window = |from, to| Some(DeathWindow { from, to });
        let white_tail = |death| in_scope(Species::WhiteTailed, death);
        assert_eq!(white_tail(None), Ok(()));
        assert_eq!(white_tail(window(date!(2026 - 01 - 01), date!(2026 - 02 - 01))), Ok(()));
        assert_eq!(white_tail(window(date!(2026 - 05 - 20), date!(2026 - 06 - 20))), Ok(()));
        assert_eq!(white_tail(window(date!(2025 - 10 - 01), date!(2026 - 06 - 20))), Ok(()));
        let july = window(date!(2026 - 06 - 20), date!(2026 - 07 - 20));
        assert_eq!(white_tail(july), Err(OutOfScope::OutsideSeason));
        assert_eq!(in_scope(Species::Other, july), Err(OutOfScope::NotWhiteTailed));
        assert_eq!(in_scope(Species::Unknown, None), Err(OutOfScope::SpeciesUnknown));
    }
}
