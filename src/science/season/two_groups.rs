//! A finding that was seen or not, in two groups of carcasses: the difference with its interval, and whether it
//! may be chance.
//!
//! Only for what was looked at and seen or properly not there. What a model inferred is compared by draws
//! ([`super::mixture::Draws::less`]): its counts are no counts.

use super::COVERAGE;
use crate::science::fisher::fisher_two_sided;
use crate::science::special::wilson;

/// A difference of two shares.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Difference {
    /// Share of the first less that of the second, -1 to 1.
    pub difference: f64,
    /// 95 % interval: Newcombe's hybrid score.
    pub low: f64,
    /// Its upper end.
    pub high: f64,
    /// Fisher's exact test, two-sided.
    pub fisher_p: f64,
}

/// `hits_a` of `n_a` against `hits_b` of `n_b`. `None` where a group has nobody, or more hits than carcasses.
pub fn difference(hits_a: u32, n_a: u32, hits_b: u32, n_b: u32) -> Option<Difference> {
    let [difference, low, high] = newcombe(hits_a, n_a, hits_b, n_b, COVERAGE)?;
    Some(Difference { difference, low, high, fisher_p: fisher_two_sided(hits_a, n_a, hits_b, n_b)? })
}

/// Newcombe's hybrid score interval: the difference and its two ends. `None` as in [`difference`], or for a
/// coverage that is none.
pub fn newcombe(hits_a: u32, n_a: u32, hits_b: u32, n_b: u32, coverage: f64) -> Option<[f64; 3]> {
    let (a, b) = (wilson(hits_a, n_a, coverage)?, wilson(hits_b, n_b, coverage)?);
    let (p_a, p_b) = (f64::from(hits_a) / f64::from(n_a), f64::from(hits_b) / f64::from(n_b));
    let d = p_a - p_b;
    Some([d, d - libm::hypot(p_a - a.low, b.high - p_b), d + libm::hypot(a.high - p_a, p_b - b.low)])
}
