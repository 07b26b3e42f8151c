//! A measure of bone against a mean of the reserve's own deer.
//!
//! No table by age and sex for northern deer was found. Hind foot, mandible, diastema and femur are recorded
//! so that the reserve can make one; until then they say nothing of age or sex.

use serde::{Deserialize, Serialize};

use crate::science::age::Sex;

/// Mean and spread of a measure in grown deer of the reserve, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Norm {
    /// Mean of grown deer.
    pub mean_mm: f64,
    /// Their standard deviation.
    pub sd_mm: f64,
}

/// Odds that size alone may give a sex, at most. Design.
pub const MOST_SEX_ODDS: f64 = 3.0;
/// Hind foot of a grown deer, mm. From memory; a sanity check only.
pub const HIND_FOOT_ADULT_MM: (f64, f64) = (450.0, 540.0);
/// Longest hind foot that is taken for true, mm: one web page's 73 to 84 cm is wrong for this species.
pub const HIND_FOOT_LONGEST_MM: f64 = 600.0;

impl Norm {
    /// Standard deviations from the mean. `None` where the norm or the measure is none.
    pub fn z(&self, measure_mm: f64) -> Option<f64> {
        let sound = self.mean_mm.is_finite() && self.sd_mm.is_finite() && self.sd_mm > 0.0;
        (sound && measure_mm.is_finite() && measure_mm > 0.0).then(|| (measure_mm - self.mean_mm) / self.sd_mm)
    }
}

/// Odds of male to female from one measure against the norms of both sexes, never beyond three to one.
pub fn male_odds_of_size(measure_mm: f64, female: &Norm, male: &Norm) -> Option<f64> {
    let ln = |norm: &Norm| norm.z(measure_mm).map(|z| -0.5 * z * z - libm::log(norm.sd_mm));
    let odds = libm::exp(ln(male)? - ln(female)?);
    Some(odds.clamp(1.0 / MOST_SEX_ODDS, MOST_SEX_ODDS))
}

/// The sex that a measure leans to, for its words.
pub const fn leans_to(male_odds: f64) -> Sex {
    if male_odds >= 1.0 { Sex::Male } else { Sex::Female }
}

#[cfg(test)]
mod tests {
    use super::*;

    const DOE: Norm = Norm { mean_mm: 480.0, sd_mm: 15.0 };
    const BUCK: Norm = Norm { mean_mm: 505.0, sd_mm: 17.0 };

    #[test]
    fn size_alone_gives_three_to_one_at_most() {
        assert!((male_odds_of_size(600.0, &DOE, &BUCK).unwrap() - 3.0).abs() < 1e-12);
        assert!((male_odds_of_size(420.0, &DOE, &BUCK).unwrap() - 1.0 / 3.0).abs() < 1e-12);
        let middle = male_odds_of_size(492.0, &DOE, &BUCK).unwrap();
        assert!((0.5..2.0).contains(&middle));
        assert_eq!(leans_to(middle.max(1.1)), Sex::Male);
    }

    #[test]
    fn no_norm_no_word() {
        assert_eq!(Norm { mean_mm: 480.0, sd_mm: 0.0 }.z(480.0), None);
        assert_eq!(DOE.z(f64::NAN), None);
        assert!((DOE.z(465.0).unwrap() + 1.0).abs() < 1e-12);
    }
}
