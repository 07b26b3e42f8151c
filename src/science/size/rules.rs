//! Each rule that gives a weight from chest girth, with the herd it was made on.

use serde::{Deserialize, Serialize};

use super::{CM_PER_INCH, KG_PER_LB, sources};
use crate::science::age::Sex;
use crate::science::source::Source;

/// A published rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Rule {
    /// South Carolina, fawns.
    CarolinaFawn,
    /// South Carolina, yearlings and older.
    CarolinaAdult,
    /// West Virginia, any deer.
    WestVirginia,
    /// Florida; wants body length, sex and age.
    Florida,
}

/// Oldest age that the Florida equation is given, years: its square term turns down at 5.14. Design.
const FLORIDA_OLDEST: f64 = 8.5;

impl Rule {
    /// All rules.
    pub const ALL: [Self; 4] = [Self::CarolinaFawn, Self::CarolinaAdult, Self::WestVirginia, Self::Florida];

    /// Girths that the rule is used for, cm. Ours: no source prints a range.
    pub const fn girths_cm(self) -> (f64, f64) {
        match self {
            Self::CarolinaFawn => (50.0, 90.0),
            Self::CarolinaAdult => (60.0, 115.0),
            Self::WestVirginia => (60.0, 120.0),
            Self::Florida => (55.0, 115.0),
        }
    }

    /// Where it comes from.
    pub const fn source(self) -> &'static Source {
        match self {
            Self::CarolinaFawn | Self::CarolinaAdult => &sources::CAROLINA,
            Self::WestVirginia => &sources::WEST_VIRGINIA,
            Self::Florida => &sources::FLORIDA,
        }
    }
}

/// Live weight of a South Carolina deer, pounds; girth in inches, as printed.
pub fn carolina_live_lb(girth_in: f64, fawn: bool) -> f64 {
    if fawn { 5.3003 * girth_in - 74.1489 } else { 6.5520 * girth_in - 95.0128 }
}

/// Dressed weight of a South Carolina deer ("hog-dressed": gutted, head and hide on), pounds; inches.
pub fn carolina_dressed_lb(girth_in: f64, fawn: bool) -> f64 {
    if fawn { 3.9499 * girth_in - 55.6158 } else { 5.6037 * girth_in - 94.0982 }
}

/// Dressed weight by West Virginia's rule, pounds; inches.
pub fn west_virginia_dressed_lb(girth_in: f64) -> f64 {
    46.0 + 6.0 * (girth_in - 26.0)
}

/// Live weight by the same rule, pounds.
pub fn west_virginia_live_lb(girth_in: f64) -> f64 {
    1.25 * west_virginia_dressed_lb(girth_in)
}

/// Live weight of a Florida deer, kg: girth and body length in cm, age in years.
pub fn florida_live_kg(girth_cm: f64, body_length_cm: f64, sex: Sex, age_years: f64) -> f64 {
    let male = f64::from(u8::from(sex == Sex::Male));
    let age = age_years.clamp(0.0, FLORIDA_OLDEST);
    -18.41 + 6.53 * male + 5.04 * age - 0.49 * age * age + 0.00476 * girth_cm * girth_cm + 0.12 * body_length_cm
}

/// Inches of so many centimetres.
pub(super) fn inches(cm: f64) -> f64 {
    cm / CM_PER_INCH
}

/// Kilograms of so many pounds.
pub(super) fn kg(lb: f64) -> f64 {
    lb * KG_PER_LB
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(got: f64, expected: f64, within: f64) {
        assert!((got - expected).abs() <= within, "{got} {expected}");
    }

    /// Proc. SEAFWA 1976, worked from the printed equations.
    #[test]
    fn south_carolina() {
        close(carolina_live_lb(30.0, true), 84.86, 0.005);
        close(carolina_dressed_lb(30.0, true), 62.88, 0.005);
        close(carolina_live_lb(30.0, false), 6.5520 * 30.0 - 95.0128, 1e-9);
    }

    /// West Virginia's printed rule: 46 lb dressed at 26 inches, 106 at 36; live 57.5 and 132.5.
    #[test]
    fn west_virginia() {
        for (girth, dressed, live) in [(26.0, 46.0, 57.5), (36.0, 106.0, 132.5)] {
            close(west_virginia_dressed_lb(girth), dressed, 1e-9);
            close(west_virginia_live_lb(girth), live, 1e-9);
        }
    }

    /// Bartareau 2019: a doe of 2.5 years, girth 80 cm, body length 150 cm.
    #[test]
    fn florida() {
        close(florida_live_kg(80.0, 150.0, Sex::Female, 2.5), 39.592, 0.0005);
        // The square term peaks at 5.04 / (2 x 0.49) = 5.14 years; the age is held at 8.5.
        let at = |age| florida_live_kg(80.0, 150.0, Sex::Female, age);
        assert!(at(5.14) > at(5.0) && at(5.14) > at(5.3));
        close(at(14.0), at(8.5), 1e-12);
    }

    /// Inside its range no rule gives less than a newborn weighs.
    #[test]
    fn every_rule_gives_a_deer_inside_its_range() {
        for rule in Rule::ALL {
            let (low, high) = rule.girths_cm();
            for girth in [low, high] {
                let live = match rule {
                    Rule::CarolinaFawn => kg(carolina_live_lb(inches(girth), true)),
                    Rule::CarolinaAdult => kg(carolina_live_lb(inches(girth), false)),
                    Rule::WestVirginia => kg(west_virginia_live_lb(inches(girth))),
                    Rule::Florida => florida_live_kg(girth, 150.0, Sex::Male, 4.5),
                };
                assert!((5.0..140.0).contains(&live), "{rule:?} {girth}: {live}");
            }
        }
    }
}
