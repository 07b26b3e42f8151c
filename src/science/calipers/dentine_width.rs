//! Years from the width of the dentine on the front cheek-side cusp of the right lower first molar.
//!
//! Cooper and Sieckenius, Texas AgriLife Uvalde, 2012; arithmetic and landmark as secondary pages tell
//! them. Known-age bucks of 2.5 to 7.5 years from south Texas, jaws boiled clean. No error was printed but
//! "always within 2 years".

use serde::{Deserialize, Serialize};

use super::{CaliperAge, CaliperRefusal, length, ln_bell};
use crate::science::special::normal_cdf;

/// Below this width the answer is "2.5 years or less", mm.
pub const NARROWEST_MM: f64 = 0.4;
/// Ages that the formula is used for, years.
pub const AGES_YEARS: (f64, f64) = (2.5, 8.0);

/// Which deer: the spread differs. Design.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Herd {
    /// Bucks on southern soils, as those behind the formula.
    SouthernBuck,
    /// Does, and every northern deer.
    Other,
}

impl Herd {
    /// One standard deviation, years.
    pub const fn sd_years(self) -> f64 {
        match self {
            Self::SouthernBuck => 1.0,
            Self::Other => 1.3,
        }
    }
}

/// What a width says.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum DentineAge {
    /// Narrower than the formula reaches.
    TwoAndAHalfOrLess,
    /// Years.
    Years(CaliperAge),
}

/// Years by the printed arithmetic, whatever the width.
pub fn age_years(width_mm: f64) -> f64 {
    1.8 * width_mm + 1.8
}

/// Reads a width. Refused where the formula would give more than eight years.
pub fn read_dentine_width(width_mm: f64, herd: Herd) -> Result<DentineAge, CaliperRefusal> {
    let mm = length(width_mm)?;
    if mm < NARROWEST_MM {
        return Ok(DentineAge::TwoAndAHalfOrLess);
    }
    let years = age_years(mm);
    if years > AGES_YEARS.1 {
        return Err(CaliperRefusal::AboveRange);
    }
    Ok(DentineAge::Years(CaliperAge::about(years, herd.sd_years())))
}

/// How well an adult's age fits what the width says, one at best.
pub fn likelihood(seen: DentineAge, adult_years: f64, herd: Herd) -> f64 {
    match seen {
        DentineAge::Years(age) => libm::exp(ln_bell((age.best - adult_years) / herd.sd_years())),
        DentineAge::TwoAndAHalfOrLess => normal_cdf((AGES_YEARS.0 - adult_years) / herd.sd_years()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn years(width_mm: f64) -> f64 {
        match read_dentine_width(width_mm, Herd::Other).unwrap() {
            DentineAge::Years(age) => age.best,
            DentineAge::TwoAndAHalfOrLess => panic!("{width_mm}"),
        }
    }

    /// The printed arithmetic: 1.5 mm 4.5 years, 0.4 mm 2.52, 2.5 mm 6.3.
    #[test]
    fn printed_arithmetic() {
        for (width, expected) in [(1.5, 4.5), (0.4, 2.52), (2.5, 6.3)] {
            assert!((years(width) - expected).abs() < 1e-12);
        }
    }

    #[test]
    fn ends() {
        assert_eq!(read_dentine_width(0.39, Herd::Other), Ok(DentineAge::TwoAndAHalfOrLess));
        assert_eq!(read_dentine_width(0.0, Herd::Other), Ok(DentineAge::TwoAndAHalfOrLess));
        assert_eq!(read_dentine_width(3.5, Herd::Other), Err(CaliperRefusal::AboveRange));
        assert_eq!(read_dentine_width(-0.1, Herd::Other), Err(CaliperRefusal::NotALength));
        assert_eq!(read_dentine_width(f64::INFINITY, Herd::Other), Err(CaliperRefusal::NotALength));
    }

    #[test]
    fn northern_deer_and_does_are_wider() {
        let width = |herd| match read_dentine_width(1.5, herd).unwrap() {
            DentineAge::Years(age) => age.high - age.low,
            DentineAge::TwoAndAHalfOrLess => 0.0,
        };
        assert!((width(Herd::SouthernBuck) - 2.0 * 1.644853627).abs() < 1e-6);
        assert!((width(Herd::Other) / width(Herd::SouthernBuck) - 1.3).abs() < 1e-12);
    }

    /// A wider band never favours a younger age over an older one.
    #[test]
    fn wider_never_favours_the_younger() {
        for (young, old) in [(2.7, 3.7), (2.7, 10.0), (5.7, 9.7)] {
            let mut last = 0.0;
            for step in 0..34 {
                let seen = read_dentine_width(f64::from(step) / 10.0, Herd::Other).unwrap();
                let ratio = likelihood(seen, old, Herd::Other) / likelihood(seen, young, Herd::Other);
                assert!(ratio >= last * (1.0 - 1e-12), "{step}: {ratio} after {last}");
                last = ratio;
            }
        }
    }
}
