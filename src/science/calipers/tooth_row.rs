//! Months of a yearling from the length of its tooth row.
//!
//! Governo, Shea, Somers and Ditchkoff 2006, Wildl. Soc. Bull. 34:345-350; the equations with their signs
//! in Shea, Governo, Causey and Ditchkoff 2002. 23 bucks and 18 does of known age, captive, of Alabama
//! and Florida stock, 12 to 24 months. The length runs along the row from the front of the first premolar
//! to the FRONT edge of the third molar.

use serde::{Deserialize, Serialize};

use super::{CaliperAge, CaliperRefusal, length, ln_bell};
use crate::science::age::Sex;
use crate::science::age::birth::DAYS_PER_MONTH;

/// Shortest and longest row that the equations are used for, mm. Design: about 12 and 24 months.
pub const LENGTHS_MM: (f64, f64) = (62.0, 88.0);
/// Youngest and oldest age that the deer behind the equations had, months.
pub const FITTED_MONTHS: (f64, f64) = (12.0, 24.0);
/// One standard deviation for northern deer, months. Design.
pub const SD_MONTHS: f64 = 1.5;

/// Intercept and slope of ln(days) on ln(mm).
const fn line(sex: Sex) -> (f64, f64) {
    match sex {
        Sex::Male => (-4.34, 2.45),
        Sex::Female => (-4.62, 2.54),
    }
}

/// Age in days by the printed equation, whatever the length.
pub fn age_days(length_mm: f64, sex: Sex) -> f64 {
    let (intercept, slope) = line(sex);
    libm::exp(intercept + slope * libm::log(length_mm))
}

/// Length in mm at which the printed equation gives that age.
pub fn length_at_mm(age_days: f64, sex: Sex) -> f64 {
    let (intercept, slope) = line(sex);
    libm::exp((libm::log(age_days) - intercept) / slope)
}

/// Months by the equation of each sex that it may be, where they lie in the fitted range.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ToothRow {
    /// As a doe.
    pub female: Option<f64>,
    /// As a buck.
    pub male: Option<f64>,
}

/// Reads the length of a row; `sex` as far as it is known. Refused outside 62 to 88 mm, and where no
/// equation gives 12 to 24 months.
pub fn read_tooth_row(length_mm: f64, sex: Option<Sex>) -> Result<ToothRow, CaliperRefusal> {
    let mm = length(length_mm)?;
    if mm < LENGTHS_MM.0 {
        return Err(CaliperRefusal::BelowRange);
    }
    if mm > LENGTHS_MM.1 {
        return Err(CaliperRefusal::AboveRange);
    }
    let months = |of: Sex| {
        let asked = sex.is_none_or(|known| known == of);
        asked.then(|| age_days(mm, of) / DAYS_PER_MONTH)
    };
    let fitted = |m: &f64| (FITTED_MONTHS.0..=FITTED_MONTHS.1).contains(m);
    let all = [months(Sex::Female), months(Sex::Male)];
    let [female, male] = all.map(|m| m.filter(fitted));
    if female.is_none() && male.is_none() {
        let young = all.iter().flatten().any(|m| *m < FITTED_MONTHS.0);
        return Err(if young { CaliperRefusal::BelowRange } else { CaliperRefusal::AboveRange });
    }
    Ok(ToothRow { female, male })
}

impl ToothRow {
    /// Months with 90 % ends; where the sex is open, from the lower end of the one to the upper of the
    /// other.
    pub fn months(&self) -> CaliperAge {
        let ages = [self.female, self.male].map(|m| m.map(|m| CaliperAge::about(m, SD_MONTHS)));
        let both = ages.into_iter().flatten().reduce(|a, b| CaliperAge {
            best: f64::midpoint(a.best, b.best),
            low: a.low.min(b.low),
            high: a.high.max(b.high),
        });
        both.unwrap_or(CaliperAge { best: f64::NAN, low: f64::NAN, high: f64::NAN })
    }

    /// How well an age fits, one at best. A yearling's months only: a row says nothing of the class.
    pub fn likelihood(&self, months: f64) -> f64 {
        let fits = [self.female, self.male].into_iter().flatten();
        let (sum, n) =
            fits.fold((0.0, 0.0), |(sum, n), m| (sum + libm::exp(ln_bell((months - m) / SD_MONTHS)), n + 1.0));
        if n > 0.0 { sum / n } else { 1.0 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(got: f64, expected: f64, within: f64) {
        assert!((got - expected).abs() <= within, "{got} {expected}");
    }

    /// Shea and others 2002, worked from the printed equations.
    #[test]
    fn printed_equations() {
        close(age_days(75.0, Sex::Male), 511.8, 0.05);
        close(age_days(75.0, Sex::Male) / DAYS_PER_MONTH, 16.81, 0.006);
        close(age_days(80.0, Sex::Male), 599.4, 0.05);
        close(age_days(80.0, Sex::Male) / DAYS_PER_MONTH, 19.69, 0.006);
        close(length_at_mm(547.9, Sex::Male), 77.1, 0.05);
        close(length_at_mm(547.9, Sex::Female), 73.8, 0.05);
    }

    #[test]
    fn refused_outside_the_fitted_range() {
        for sex in [None, Some(Sex::Female), Some(Sex::Male)] {
            assert_eq!(read_tooth_row(61.9, sex), Err(CaliperRefusal::BelowRange));
            assert_eq!(read_tooth_row(88.1, sex), Err(CaliperRefusal::AboveRange));
            assert_eq!(read_tooth_row(f64::NAN, sex), Err(CaliperRefusal::NotALength));
            assert_eq!(read_tooth_row(-1.0, sex), Err(CaliperRefusal::NotALength));
        }
        // 63 mm is 11 months as a buck, 88 mm 28 months as a doe: not fitted there.
        assert_eq!(read_tooth_row(63.0, Some(Sex::Male)), Err(CaliperRefusal::BelowRange));
        assert_eq!(read_tooth_row(88.0, Some(Sex::Female)), Err(CaliperRefusal::AboveRange));
    }

    #[test]
    fn an_open_sex_widens() {
        let buck = read_tooth_row(77.0, Some(Sex::Male)).unwrap().months();
        let open = read_tooth_row(77.0, None).unwrap().months();
        assert!(open.low <= buck.low && open.high > buck.high && open.best > buck.best);
        close(buck.high - buck.best, 1.645 * 1.5, 0.001);
    }
}
