//! Ranges of the figures, from the drawn table.

use super::case::Case;
use super::causes::{Cause, PerCause};
use super::combine::{Said, combine, ln_prior, scores, weights};
use super::draws::{DRAWS, Drawn};

/// The 150th smallest of 3,000, from 0.
const LOW: usize = DRAWS / 20 - 1;
/// The 2,851st smallest, from 0.
const HIGH: usize = DRAWS - DRAWS / 20;

/// The ends between which 90 of 100 draws lie.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ends {
    /// 5 % end, 0 to 1.
    pub low: f64,
    /// 95 % end, 0 to 1.
    pub high: f64,
}

/// Calls with the posterior of each draw in turn.
pub fn each_draw(drawn: &Drawn, case: &Case, mut take: impl FnMut(&PerCause)) {
    with_prior(drawn, case, |prior, said| take(&combine(prior, said)));
}

fn with_prior(drawn: &Drawn, case: &Case, mut take: impl FnMut(&PerCause, &[Said])) {
    let ln_prior = ln_prior(case);
    drawn.each(case, |moved, said: &[Said]| {
        let mut prior = ln_prior;
        for (prior, moved) in prior.iter_mut().zip(moved) {
            *prior += moved;
        }
        take(&prior, said);
    });
}

/// The ends of these causes' figures.
pub fn ends(drawn: &Drawn, case: &Case, causes: &[Cause]) -> Vec<Ends> {
    let mut all: Vec<Vec<f64>> = causes.iter().map(|_| Vec::with_capacity(DRAWS)).collect();
    with_prior(drawn, case, |prior, said| {
        let (weights, sum) = weights(&scores(prior, said));
        for (figures, cause) in all.iter_mut().zip(causes) {
            figures.push(cause.of(&weights) / sum);
        }
    });
    all.into_iter().map(ends_of).collect()
}

fn ends_of(mut figures: Vec<f64>) -> Ends {
    if figures.len() <= HIGH {
        return Ends { low: f64::NAN, high: f64::NAN };
    }
    let (_, low, above) = figures.select_nth_unstable_by(LOW, f64::total_cmp);
    let (_, high, _) = above.select_nth_unstable_by(HIGH - LOW - 1, f64::total_cmp);
    Ends { low: *low, high: *high }
}
