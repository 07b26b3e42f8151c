//! Ages by formulas whose constants are the office's own: heights of crowns, widths against heights.
//!
//! Such a measure divides grown deer and says nothing of fawn or yearling: they are told by their teeth.

use serde::{Deserialize, Serialize};

use crate::science::calipers::ln_bell;

/// How a formula errs.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LocalSpread {
    /// One standard deviation as a share of the age.
    Share(f64),
    /// One standard deviation, months.
    Months(f64),
}

/// What such a measure came to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct LocalAge {
    /// Best value, months.
    pub months: f64,
    /// How it errs.
    pub spread: LocalSpread,
}

/// Youngest class that is divided.
const ADULT_FROM: usize = 2;

impl LocalAge {
    /// How well each age fits, one at best. Fawns and yearlings are taken like deer of two, so that a
    /// larger age by the formula never makes a deer younger. A spread that grows with the age is even in
    /// the logarithm of the age, for the same reason.
    pub fn likelihood(&self, ages_years: &[f64; 10]) -> [f64; 10] {
        let youngest = ages_years.get(ADULT_FROM).copied().unwrap_or(0.0);
        ages_years.map(|years| {
            let months = 12.0 * years.max(youngest);
            let off = match self.spread {
                LocalSpread::Share(share) => (libm::log(self.months.max(1.0)) - libm::log(months)) / share,
                LocalSpread::Months(sd) => (self.months - months) / sd,
            };
            libm::exp(ln_bell(off))
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const AGES: [f64; 10] = [0.7, 1.7, 2.7, 3.7, 4.7, 5.7, 6.7, 7.7, 8.7, 11.2];

    #[test]
    fn the_age_itself_fits_best() {
        for spread in [LocalSpread::Share(0.25), LocalSpread::Months(14.0)] {
            let fits = LocalAge { months: 5.7 * 12.0, spread }.likelihood(&AGES);
            assert!((fits[5] - 1.0).abs() < 1e-12);
            assert!(fits.iter().enumerate().all(|(class, p)| class == 5 || *p < 1.0));
            // Two classes of young deer, told by their teeth, get what deer of two get.
            assert!((fits[0] - fits[2]).abs() < 1e-15 && (fits[1] - fits[2]).abs() < 1e-15);
        }
        // One standard deviation off: exp(-1/2).
        let off = LocalAge { months: 5.7 * 12.0 + 14.0, spread: LocalSpread::Months(14.0) }.likelihood(&AGES);
        assert!((off[5] - 0.606_530_659_712_633_4).abs() < 1e-12);
    }

    proptest! {
        /// A larger age by the formula never favours the younger of two classes.
        #[test]
        fn older_never_means_younger(months in 1.0..260.0_f64, more in 0.0..60.0_f64, share in any::<bool>()) {
            let spread = if share { LocalSpread::Share(0.25) } else { LocalSpread::Months(14.0) };
            let ln = |months| LocalAge { months, spread }.likelihood(&AGES).map(libm::log);
            let (before, after) = (ln(months), ln(months + more));
            for class in 0..9 {
                prop_assert!(after[class + 1] - after[class] >= before[class + 1] - before[class] - 1e-9);
            }
        }
    }
}
