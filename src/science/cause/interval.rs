//! Ranges of the figures, from the drawn table.

use super::case::Case;
use super::causes::{Cause, PerCause};
use super::combine::{Said, combine, ln_prior};
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
    let (ln_prior, closed) = (ln_prior(case), case.closed());
    drawn.each(case, |moved, said: &[Said]| {
        let mut prior = ln_prior;
        for (prior, moved) in prior.iter_mut().zip(moved) {
            *prior += moved;
        }
        take(&combine(&prior, &closed, said));
    });
}

/// The ends of these causes' figures.
pub fn ends(drawn: &Drawn, case: &Case, causes: &[Cause]) -> Vec<Ends> {
    let mut all: Vec<Vec<f64>> = causes.iter().map(|_| Vec::with_capacity(DRAWS)).collect();
    each_draw(drawn, case, |posterior| {
        for (figures, cause) in all.iter_mut().zip(causes) {
            figures.push(cause.of(posterior));
        }
    });
    all.into_iter().map(ends_of).collect()
}

fn ends_of(mut figures: Vec<f64>) -> Ends {
    let mut nth = |n: usize| match figures.get(n) {
        Some(_) => *figures.select_nth_unstable_by(n, f64::total_cmp).1,
        None => f64::NAN,
    };
    Ends { low: nth(LOW), high: nth(HIGH) }
}
