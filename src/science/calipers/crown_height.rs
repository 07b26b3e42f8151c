//! Months from the height left of a crown, lingual, mm.
//!
//! Klein and others 1981 to 1983, Klein and Cruz-Uribe 1984, and as a special case Spinage 1973
//! (E. Afr. Wildl. J. 11:165-187). Both formulas are recalled, not retrieved, and no constants for this
//! species were found: the unworn height has to be measured on the reserve's own deer, so both refuse until
//! the office has entered it.

use serde::{Deserialize, Serialize};

use super::{CaliperAge, CaliperRefusal, length};

/// One standard deviation as a share of the age. Design.
pub const SD_SHARE: f64 = 0.25;

/// What the office has to know of a tooth.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Wearing {
    /// A milk tooth.
    Milk {
        /// Age at which it is shed, months.
        shed_months: f64,
    },
    /// A permanent tooth.
    Permanent {
        /// Age at which it comes into wear, months.
        in_wear_months: f64,
        /// Age at which the crown is worn out, months.
        worn_out_months: f64,
    },
}

/// The office's own constants for one tooth.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct LocalTooth {
    /// Height of the unworn crown, mm.
    pub unworn_mm: f64,
    /// When it wears.
    pub wearing: Wearing,
}

impl LocalTooth {
    fn check(&self) -> Result<(), CaliperRefusal> {
        let above_zero = |v: f64| v.is_finite() && v > 0.0;
        let times = match self.wearing {
            Wearing::Milk { shed_months } => above_zero(shed_months),
            Wearing::Permanent { in_wear_months, worn_out_months } => {
                in_wear_months.is_finite()
                    && in_wear_months >= 0.0
                    && above_zero(worn_out_months)
                    && worn_out_months > in_wear_months
            }
        };
        if above_zero(self.unworn_mm) && times { Ok(()) } else { Err(CaliperRefusal::BadConstants) }
    }
}

/// Months by quadratic loss of height. Refused without the office's constants, and for a crown higher than
/// its unworn height.
pub fn quadratic_months(height_mm: f64, local: Option<&LocalTooth>) -> Result<CaliperAge, CaliperRefusal> {
    let mm = length(height_mm)?;
    let tooth = local.ok_or(CaliperRefusal::NoConstants)?;
    tooth.check()?;
    if mm > tooth.unworn_mm {
        return Err(CaliperRefusal::AboveRange);
    }
    let lost = 1.0 - mm / tooth.unworn_mm;
    let months = match tooth.wearing {
        Wearing::Milk { shed_months } => shed_months * lost * lost,
        Wearing::Permanent { in_wear_months, worn_out_months } => {
            in_wear_months + (worn_out_months - in_wear_months) * lost * lost
        }
    };
    Ok(CaliperAge::about(months, SD_SHARE * months))
}

/// Months by Spinage's form, in which wear begins at birth and ends with life at `lifespan_months`.
pub fn spinage_months(
    height_mm: f64,
    unworn_mm: Option<f64>,
    lifespan_months: f64,
) -> Result<CaliperAge, CaliperRefusal> {
    let wearing = Wearing::Permanent { in_wear_months: 0.0, worn_out_months: lifespan_months };
    let tooth = unworn_mm.map(|unworn_mm| LocalTooth { unworn_mm, wearing });
    quadratic_months(height_mm, tooth.as_ref())
}

#[cfg(test)]
mod tests {
    use super::*;

    const EXAMPLE: LocalTooth =
        LocalTooth { unworn_mm: 12.0, wearing: Wearing::Permanent { in_wear_months: 6.0, worn_out_months: 192.0 } };

    /// Worked by hand from the recalled formula (from memory), illustrative constants.
    #[test]
    fn worked_examples() {
        for (height, months) in [(12.0, 6.0), (9.0, 17.625), (6.0, 52.5), (3.0, 110.625), (0.0, 192.0)] {
            let got = quadratic_months(height, Some(&EXAMPLE)).unwrap();
            assert!((got.best - months).abs() < 1e-9, "{height}: {got:?}");
        }
        assert!((spinage_months(5.0, Some(10.0), 192.0).unwrap().best - 48.0).abs() < 1e-9);
    }

    /// The long form of the same formula, as an identity.
    #[test]
    fn both_ways_of_writing_it_agree() {
        let (unworn, start, end) = (12.0, 6.0, 192.0);
        for tenth in 0..=120 {
            let height = f64::from(tenth) / 10.0;
            let x = height / unworn;
            let long = end - 2.0 * (end - start) * x + (end - start) * x * x;
            assert!((quadratic_months(height, Some(&EXAMPLE)).unwrap().best - long).abs() < 1e-9);
        }
    }

    #[test]
    fn refused_without_constants_of_the_offices_own() {
        assert_eq!(quadratic_months(6.0, None), Err(CaliperRefusal::NoConstants));
        assert_eq!(spinage_months(6.0, None, 192.0), Err(CaliperRefusal::NoConstants));
        assert_eq!(quadratic_months(12.5, Some(&EXAMPLE)), Err(CaliperRefusal::AboveRange));
        let with = |unworn_mm, wearing| quadratic_months(1.0, Some(&LocalTooth { unworn_mm, wearing }));
        for bad in [
            with(0.0, EXAMPLE.wearing),
            with(12.0, Wearing::Permanent { in_wear_months: 200.0, worn_out_months: 192.0 }),
            with(12.0, Wearing::Milk { shed_months: f64::NAN }),
        ] {
            assert_eq!(bad, Err(CaliperRefusal::BadConstants));
        }
    }

    #[test]
    fn a_milk_tooth_ends_when_it_is_shed() {
        let tooth = LocalTooth { unworn_mm: 8.0, wearing: Wearing::Milk { shed_months: 18.0 } };
        assert!((quadratic_months(0.0, Some(&tooth)).unwrap().best - 18.0).abs() < 1e-12);
        assert!(quadratic_months(8.0, Some(&tooth)).unwrap().best.abs() < 1e-12);
    }
}
