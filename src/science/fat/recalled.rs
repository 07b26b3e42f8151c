//! Formulas from memory. No retrieved text prints them: they are worked out for whoever wants them, always
//! with that mark, and no reading leans on them.

use serde::Serialize;

use super::look::{Amount, Depot, DepotLook, Muscle};
use crate::science::marrow::FatPercent;

/// Points of a scored carcass (Kistner, Trainer and Hartmann 1980, Wildl. Soc. Bull. 8:11-17, layout from
/// memory): six depots of up to 15 and muscle of up to 10. Lines that nobody could score are left out and
/// the sum is never scaled up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Score {
    /// Lines scored, of seven.
    pub lines: u8,
    /// Their points.
    pub sum: u8,
    /// The most that these lines can give.
    pub possible: u8,
}

impl Score {
    /// All seven lines were scored: the sum is out of 100.
    pub const fn is_whole(self) -> bool {
        self.lines == 7
    }
}

const fn points(amount: Amount) -> u8 {
    match amount {
        Amount::None => 0,
        Amount::Slight => 5,
        Amount::Moderate => 10,
        Amount::Heavy => 15,
    }
}

const fn muscle_points(muscle: Muscle) -> u8 {
    match muscle {
        Muscle::Wasted => 0,
        Muscle::Lean => 5,
        Muscle::Full => 10,
    }
}

/// The score over these looks. `None` where no line could be scored.
pub fn score(looks: &[(Depot, DepotLook)], muscle: Option<Muscle>) -> Option<Score> {
    let mut out = Score { lines: 0, sum: 0, possible: 0 };
    for depot in Depot::ALL {
        if let Some((_, look)) = looks.iter().find(|(d, _)| *d == depot) {
            out = Score { lines: out.lines + 1, sum: out.sum + points(look.counted()), possible: out.possible + 15 };
        }
    }
    if let Some(muscle) = muscle {
        out = Score { lines: out.lines + 1, sum: out.sum + muscle_points(muscle), possible: out.possible + 10 };
    }
    (out.lines > 0).then_some(out)
}

/// Kidney fat index up to which the combined index counts marrow alone.
const CONINDEX_SWITCH: f64 = 20.0;

/// CONINDEX (Connolly 1981, as used again by Cook and others 2001; from memory): femur marrow fat, plus what
/// the kidney fat index has above 20. For ranking within a reserve; no class limits were ever found.
/// `None` for an index that is no number or below zero.
pub fn conindex(kidney_fat_index: f64, femur_fat: FatPercent) -> Option<f64> {
    if !(kidney_fat_index.is_finite() && kidney_fat_index >= 0.0) {
        return None;
    }
    Some(femur_fat.get() + (kidney_fat_index - CONINDEX_SWITCH).max(0.0))
}

/// Body fat from the greatest thickness of rump fat (Stephenson and others 2002, mule deer; from memory).
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RumpRule {
    /// Fat, percent of the body without gut fill.
    pub percent: f64,
    /// No fat was measured, so the figure is only an upper end.
    pub at_most: bool,
}

/// `None` for a thickness that is no number or below zero.
pub fn rump_rule(thickness_cm: f64) -> Option<RumpRule> {
    (thickness_cm.is_finite() && thickness_cm >= 0.0)
        .then_some(RumpRule { percent: 5.68 + 5.93 * thickness_cm, at_most: thickness_cm <= 0.0 })
}
