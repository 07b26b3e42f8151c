//! Measures taken with calipers on the cleaned jaw.
//!
//! Each gives an age only where a source prints its constants, and only inside the range in which they
//! were fitted. The other formulas are here as they are documented and refuse until the office enters
//! constants that it found on its own deer.
//!
//! | file | holds | constants |
//! |---|---|---|
//! | [`tooth_row`] | months of a yearling from the length of its tooth row | printed |
//! | [`dentine_width`] | years from the width of one band of dentine | printed |
//! | [`crown_height`] | months from the height left of a crown | the office's own |
//! | [`tooth_ratio`] | widths against heights of the molars | the office's own |

pub mod crown_height;
pub mod dentine_width;
pub mod sources;
pub mod tooth_ratio;
pub mod tooth_row;

use serde::{Deserialize, Serialize};

/// Why a caliper measure gives no age. The measure itself stays in the record.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, thiserror::Error)]
#[serde(rename_all = "snake_case")]
pub enum CaliperRefusal {
    /// Not a number, or below zero.
    #[error("the measure is not a number that a length can have")]
    NotALength,
    /// Below the range in which the formula was fitted.
    #[error("the measure lies below the range of the formula")]
    BelowRange,
    /// Above it.
    #[error("the measure lies above the range of the formula")]
    AboveRange,
    /// The office has entered no constants of its own, and no source prints any for this species.
    #[error("no source prints constants for this species, and the office has entered none")]
    NoConstants,
    /// The office's constants cannot be: a height of zero, a crown worn out before it wears.
    #[error("the office's constants for this measure cannot be true")]
    BadConstants,
}

/// An age with the ends between which nine in ten deer should lie.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct CaliperAge {
    /// Best value.
    pub best: f64,
    /// 5 %.
    pub low: f64,
    /// 95 %.
    pub high: f64,
}

/// Standard deviations between the middle and either end of an interval that holds 90 %.
pub(crate) const NINETY: f64 = 1.6448536269514722;

impl CaliperAge {
    /// A normal spread about the best value, not below zero.
    pub(crate) fn about(best: f64, sd: f64) -> Self {
        Self { best, low: (best - NINETY * sd).max(0.0), high: best + NINETY * sd }
    }
}

/// A length, millimetres, or why it is none.
pub(crate) fn length(mm: f64) -> Result<f64, CaliperRefusal> {
    if mm.is_finite() && mm >= 0.0 { Ok(mm) } else { Err(CaliperRefusal::NotALength) }
}

/// Log of a normal density at `r` standard deviations, its peak at zero. Beyond two the tails are
/// straight, so that no single measure rules an age out; straight and not flat, because under a flat
/// floor a larger measure could make a deer younger.
pub(crate) fn ln_bell(r: f64) -> f64 {
    const STRAIGHT_FROM: f64 = 2.0;
    let r = r.abs();
    if r <= STRAIGHT_FROM { -0.5 * r * r } else { -STRAIGHT_FROM * (r - 0.5 * STRAIGHT_FROM) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::science::special::normal_quantile;

    #[test]
    fn ninety_is_the_quantile() {
        assert!((NINETY - normal_quantile(0.95).unwrap()).abs() < 1e-12);
    }

    #[test]
    fn tails_join_without_a_step() {
        assert!((ln_bell(2.0) - ln_bell(2.0 + 1e-12)).abs() < 1e-10);
        assert!((ln_bell(1.0) + 0.5).abs() < 1e-15);
        assert!((ln_bell(-4.0) + 6.0).abs() < 1e-12);
    }
}
