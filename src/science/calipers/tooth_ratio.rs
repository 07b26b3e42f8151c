//! Widths of the molars' chewing faces against the heights of their crowns.
//!
//! Robinette, Jones, Rogers and Gashwiler 1957, J. Wildl. Manage. 21:134-153, for mule deer; recalled, not
//! retrieved. The ratio rises with age. Neither its landmarks nor its regression are known here, so the ratio
//! is recorded and has no age until the office enters a line found on its own deer.

use serde::{Deserialize, Serialize};

use super::{CaliperAge, CaliperRefusal, length};

/// A line that the office fitted on its own deer of known age.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct LocalLine {
    /// Months at a ratio of zero.
    pub intercept_months: f64,
    /// Months a unit of ratio.
    pub slope_months: f64,
    /// Spread about the line, months.
    pub sd_months: f64,
    /// Smallest ratio of the deer behind it.
    pub from: f64,
    /// Largest.
    pub to: f64,
}

/// Sum of the cheek-to-tongue widths of the three molars over the sum of their lingual crown heights, mm.
pub fn molar_ratio(widths_mm: [f64; 3], heights_mm: [f64; 3]) -> Result<f64, CaliperRefusal> {
    let sum = |all: [f64; 3]| all.into_iter().try_fold(0.0, |sum, mm| Ok(sum + length(mm)?));
    let (widths, heights) = (sum(widths_mm)?, sum(heights_mm)?);
    if widths > 0.0 && heights > 0.0 { Ok(widths / heights) } else { Err(CaliperRefusal::NotALength) }
}

/// Months from a ratio, by the office's own line and inside its range only.
pub fn ratio_months(ratio: f64, local: Option<&LocalLine>) -> Result<CaliperAge, CaliperRefusal> {
    let ratio = length(ratio)?;
    let line = local.ok_or(CaliperRefusal::NoConstants)?;
    let finite = [line.intercept_months, line.slope_months, line.sd_months, line.from, line.to];
    if finite.iter().any(|v| !v.is_finite())
        || line.sd_months <= 0.0
        || line.from >= line.to
        || line.slope_months <= 0.0
    {
        return Err(CaliperRefusal::BadConstants);
    }
    if ratio < line.from {
        return Err(CaliperRefusal::BelowRange);
    }
    if ratio > line.to {
        return Err(CaliperRefusal::AboveRange);
    }
    Ok(CaliperAge::about(line.intercept_months + line.slope_months * ratio, line.sd_months))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ratio_is_a_ratio_of_sums() {
        assert!((molar_ratio([8.0, 9.0, 10.0], [6.0, 6.0, 6.0]).unwrap() - 1.5).abs() < 1e-12);
        assert_eq!(molar_ratio([8.0, 9.0, 10.0], [0.0; 3]), Err(CaliperRefusal::NotALength));
        assert_eq!(molar_ratio([8.0, f64::NAN, 10.0], [6.0; 3]), Err(CaliperRefusal::NotALength));
    }

    #[test]
    fn no_age_without_a_line_of_the_offices_own() {
        assert_eq!(ratio_months(1.5, None), Err(CaliperRefusal::NoConstants));
        let line = LocalLine { intercept_months: 10.0, slope_months: 40.0, sd_months: 8.0, from: 0.8, to: 2.5 };
        assert!((ratio_months(1.5, Some(&line)).unwrap().best - 70.0).abs() < 1e-12);
        assert_eq!(ratio_months(0.5, Some(&line)), Err(CaliperRefusal::BelowRange));
        assert_eq!(ratio_months(3.0, Some(&line)), Err(CaliperRefusal::AboveRange));
        let falling = LocalLine { slope_months: -1.0, ..line };
        assert_eq!(ratio_months(1.5, Some(&falling)), Err(CaliperRefusal::BadConstants));
    }
}
