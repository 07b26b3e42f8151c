//! Several shares of one count, with intervals that hold together.
//!
//! Quesenberry and Hurst 1964, with Goodman's 1965 constant beside it, which is the shorter and the one
//! preferred. For two groups Wilson's interval is used. Pins on one rumen are no independent animals: the
//! interval is for that rumen, not for the herd.

use crate::science::chi_square::chi_square_quantile;
use crate::science::special::{normal_quantile, wilson};

/// Coverage that is used throughout.
pub const COVERAGE: f64 = 0.95;
/// Below so many points of a group its interval is not to be leaned on: the formula is for counts that are
/// not tiny. Common practice, no source.
pub const TINY: u32 = 5;

/// Which constant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// Chi-square of one degree at one k-th of the error.
    Goodman,
    /// Chi-square of k - 1 degrees.
    QuesenberryHurst,
}

/// One share.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Share {
    /// Count over all counts, 0 to 1.
    pub best: f64,
    /// Lower end.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

/// Why there are no shares.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoShares {
    /// Nothing was counted.
    #[error("no point was counted")]
    NoPoints,
    /// The coverage is no share.
    #[error("the coverage must lie between 0 and 1")]
    NoCoverage,
}

/// Shares of each count with intervals that all hold at once with the stated coverage.
///
/// With one or two groups each is an ordinary share: Wilson's interval.
///
/// # Errors
/// [`NoShares`].
pub fn simultaneous(counts: &[u32], coverage: f64, method: Method) -> Result<Vec<Share>, NoShares> {
    if !(coverage > 0.0 && coverage < 1.0) {
        return Err(NoShares::NoCoverage);
    }
    let total =
        counts.iter().try_fold(0_u32, |sum, n| sum.checked_add(*n)).filter(|n| *n > 0).ok_or(NoShares::NoPoints)?;
    if counts.len() <= 2 {
        let one = |n: &u32| {
            let interval = wilson(*n, total, coverage).ok_or(NoShares::NoCoverage)?;
            Ok(Share { best: f64::from(*n) / f64::from(total), low: interval.low, high: interval.high })
        };
        return counts.iter().map(one).collect();
    }
    let a = constant(counts.len(), coverage, method).ok_or(NoShares::NoCoverage)?;
    let all = f64::from(total);
    let one = |n: &u32| {
        let n = f64::from(*n);
        let root = (a * (a + 4.0 * n * (all - n) / all)).sqrt();
        let of = |signed: f64| ((a + 2.0 * n + signed) / (2.0 * (all + a))).clamp(0.0, 1.0);
        Share { best: n / all, low: of(-root), high: of(root) }
    };
    Ok(counts.iter().map(one).collect())
}

/// The constant `A`. `None` where the coverage is none or there are no groups.
pub fn constant(groups: usize, coverage: f64, method: Method) -> Option<f64> {
    let k = u32::try_from(groups).ok().filter(|k| *k > 1)?;
    match method {
        Method::Goodman => normal_quantile(1.0 - (1.0 - coverage) / (2.0 * f64::from(k))).map(|z| z * z),
        Method::QuesenberryHurst => chi_square_quantile(coverage, k - 1),
    }
}
