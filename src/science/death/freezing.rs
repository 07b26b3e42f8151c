//! The freezing-degree clock: how far frost has come into a frozen body.
//!
//! Plank's freezing time of a long cylinder, as degree days below -1.5 C. Not tested on deer, so what
//! it needs is given as a wide range: a part found frozen has had at least the low sum, one found not
//! frozen at most the high one.

use super::weather::{DayTemp, Weather};
use super::{Bound, Found, Looked, Rule, Silent};

/// Heat that freezing flesh gives off, J/m3: density times latent heat.
const HEAT: f64 = 1_050.0 * 250_000.0;
/// Heat conducted by frozen flesh, W/(m K).
const CONDUCTS: f64 = 1.3;
/// Cooling to the freezing point comes on top.
const COOLING_TOO: f64 = 1.4;
/// Low and high sums over the middle one.
const LOW_HIGH: [f64; 2] = [0.4, 1.6];
/// An opened, scattered or skinned body freezes so many times faster.
const OPENED: f64 = 3.0;
/// Days that rise above this have thawed, C.
const THAW_ABOVE_C: f64 = 0.0;

/// A part that is pressed to find whether it is frozen hard through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Part {
    LowerLeg,
    Neck,
    Thigh,
    Trunk,
}

impl Part {
    /// All parts, the thinnest first.
    pub const ALL: [Self; 4] = [Self::LowerLeg, Self::Neck, Self::Thigh, Self::Trunk];

    /// Thickness in m, and heat given to the air through hide and hair, W/(m2 K).
    const fn shape(self) -> (f64, f64) {
        match self {
            Self::LowerLeg => (0.04, 8.0),
            Self::Neck => (0.12, 3.0),
            Self::Thigh => (0.16, 3.0),
            Self::Trunk => (0.30, 2.5),
        }
    }

    /// The rule.
    pub const fn rule(self) -> Rule {
        match self {
            Self::LowerLeg => Rule::LegFrozen,
            Self::Neck => Rule::NeckFrozen,
            Self::Thigh => Rule::ThighFrozen,
            Self::Trunk => Rule::TrunkFrozen,
        }
    }

    /// Degree hours by which a long cylinder of that shape freezes through, from its freezing point.
    pub fn plank_degree_hours(self) -> f64 {
        let (a, h) = self.shape();
        HEAT * (0.25 * a / h + 0.0625 * a * a / CONDUCTS) / 3_600.0
    }

    /// Degree days needed in the middle.
    pub fn middle_degree_days(self) -> f64 {
        self.plank_degree_hours() / 24.0 * COOLING_TOO
    }

    /// Degree days needed: low and high.
    pub fn degree_days(self, opened: bool) -> [f64; 2] {
        let by = if opened { OPENED } else { 1.0 };
        LOW_HIGH.map(|share| self.middle_degree_days() * share / by)
    }
}

/// The bound from one part, frozen hard through or not.
pub fn bound(part: Part, frozen: bool, opened: bool, snow_over: bool, weather: &Weather, look: Looked) -> Found {
    let [low, high] = part.degree_days(opened);
    let rule = part.rule();
    let mut found = Found::default();
    let reached = if frozen {
        weather.back_to(look.to, low, DayTemp::most_frost).map(|at| Bound::high(rule, at, false))
    } else if snow_over {
        Err(Silent::UnderSnow)
    } else {
        not_frozen(rule, high, weather, look)
    };
    match reached {
        Ok(bound) => found.bound(bound),
        Err(why) => found.silent(rule, why),
    }
    found
}

fn not_frozen(rule: Rule, high: f64, weather: &Weather, look: Looked) -> Result<Bound, Silent> {
    let at = weather.back_to(look.from, high, DayTemp::least_frost)?;
    if weather.may_rise_above(at, THAW_ABOVE_C) {
        return Err(Silent::Thawed);
    }
    Ok(Bound::low(rule, at, false))
}
