//! What is taken to be likely before anything is seen.
//!
//! Order: the area's set (or the office's own), the cougar switch, the modifiers, one renormalisation.
//! A share of 0 stays 0. All figures but the directions are expert judgement.

use super::causes::{Cause, PerCause};

/// How hard the winter is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
#[allow(missing_docs)]
pub enum Winter {
    Mild,
    #[default]
    Usual,
    Severe,
}

/// Age as a modifier of the prior. Where it is used, the row of age classes is left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AgeModifier {
    /// Under a year.
    Fawn,
    /// 1 to 8 years.
    Prime,
}

/// What moves the shares of an area.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
#[allow(clippy::struct_excessive_bools)] // facts that stand alone
pub struct Modifiers {
    /// Cougars are verified here.
    pub cougar: bool,
    /// How hard the winter is.
    pub winter: Winter,
    /// Bears are in their dens.
    pub bears_denned: bool,
    /// Whether there is a feeding site within 2 km; `None` where nobody said.
    pub feed_site: Option<bool>,
    /// At most 30 days after any deer season.
    pub after_season: bool,
    /// The body was seen from a road.
    pub found_from_road: bool,
    /// Age, where it is used here and not as a row.
    pub age: Option<AgeModifier>,
}

/// Share of cougars where the switch is on and the set has none.
const COUGAR_SHARE: f64 = 0.02;

fn factor(cause: Cause, m: Modifiers) -> f64 {
    let winter = |mild, severe| match m.winter {
        Winter::Mild => mild,
        Winter::Usual => 1.0,
        Winter::Severe => severe,
    };
    match cause {
        Cause::Coyote => winter(0.7, 1.5),
        Cause::Wolf => winter(0.5, 1.8),
        Cause::Starvation => {
            let age = match m.age {
                Some(AgeModifier::Fawn) => 2.0,
                Some(AgeModifier::Prime) => 0.5,
                None => 1.0,
            };
            winter(0.3, 2.5) * age
        }
        Cause::Bear if m.bears_denned => 0.0,
        Cause::Feed => match m.feed_site {
            Some(true) => 3.0,
            Some(false) => 0.3,
            None => 1.0,
        },
        Cause::Shot if m.after_season => 2.0,
        Cause::Vehicle if m.found_from_road => 1.5,
        _ => 1.0,
    }
}

/// The shares after all that moves them, adding to 1. `None` where nothing is left.
pub fn prior(set: &PerCause, modifiers: Modifiers) -> Option<PerCause> {
    let mut shares = *set;
    let add_cougar = modifiers.cougar && Cause::Cougar.of(&shares) <= 0.0;
    for (share, cause) in shares.iter_mut().zip(Cause::ALL) {
        if add_cougar {
            *share = if cause == Cause::Cougar { COUGAR_SHARE } else { *share * (1.0 - COUGAR_SHARE) };
        }
        *share *= factor(cause, modifiers);
    }
    let sum: f64 = shares.iter().sum();
    (sum > 0.0 && sum.is_finite() && shares.iter().all(|s| *s >= 0.0)).then(|| shares.map(|share| share / sum))
}
