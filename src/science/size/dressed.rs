//! Live weight from dressed weight (gutted, head and hide on), and back.

use super::Weight;

/// Live over dressed: lower end, best, upper end, 95 in 100 deer. Design, between the published 1.25, 1.26,
/// 1.276 and 1.28. Sex, age, milk and a full gut shift it (Maldonado 2023, 432 deer).
pub const LIVE_OVER_DRESSED: [f64; 3] = [1.20, 1.27, 1.34];
/// Oklahoma's printed example: 105 lb dressed is 134 lb live, between 126 and 141 in 95 of 100.
const OKLAHOMA: [f64; 3] = [126.0 / 105.0, 134.0 / 105.0, 141.0 / 105.0];

/// Live weight of a deer of so many dressed kilograms. `None` unless above zero.
pub fn live_from_dressed(dressed_kg: f64) -> Option<Weight> {
    scaled(dressed_kg, LIVE_OVER_DRESSED)
}

/// The same by Oklahoma's ratio alone.
pub fn live_from_dressed_oklahoma(dressed_kg: f64) -> Option<Weight> {
    scaled(dressed_kg, OKLAHOMA)
}

fn scaled(dressed_kg: f64, factors: [f64; 3]) -> Option<Weight> {
    (dressed_kg.is_finite() && dressed_kg > 0.0).then(|| Weight::scaled(dressed_kg, factors))
}

#[cfg(test)]
mod tests {
    use super::super::KG_PER_LB;
    use super::*;

    /// Noble Foundation 2012: 105 lb dressed, 134 lb live (126 to 141).
    #[test]
    fn oklahoma() {
        let live = live_from_dressed_oklahoma(105.0 * KG_PER_LB).unwrap();
        for (got, expected) in [(live.low_kg, 126.0), (live.best_kg, 134.0), (live.high_kg, 141.0)] {
            assert!((got / KG_PER_LB - expected).abs() < 1e-9);
        }
    }

    /// Published factors: West Virginia 1.25, two charts 1.26 and 1.28, Oklahoma 134 / 105.
    #[test]
    fn the_factor_lies_within_the_published_ones() {
        let [low, best, high] = LIVE_OVER_DRESSED;
        for factor in [1.25, 1.26, 1.28, 134.0 / 105.0] {
            assert!(low < factor && factor < high && (factor / best - 1.0).abs() < 0.025);
        }
        assert_eq!(live_from_dressed(0.0), None);
        assert_eq!(live_from_dressed(f64::NAN), None);
    }
}
