//! From what was seen to probabilities: rows of one block say partly the same and are damped together.

use super::case::Case;
use super::causes::{CAUSES, Cause, PerCause};
use super::table::{Row, Table};
use crate::order::Short as _;

/// How much a further row of a block that speaks as strongly takes off its weight. Expert judgement.
const DAMPING: f64 = 0.3;
/// Mean of `ln p` a row below which no cause of the list fits. Expert judgement.
const POOR_FIT: f64 = -1.6;

/// One used row in one drawing of the table.
#[derive(Clone, Copy)]
pub(super) struct Said<'a> {
    pub(super) block: u8,
    pub(super) strength: f64,
    pub(super) ln_p: &'a PerCause,
}

/// How strongly a row speaks: the spread of `ln p` over the causes that occur.
pub(super) fn strength(ln_p: &PerCause, closed: &PerCause) -> f64 {
    let (mut high, mut low) = (f64::NEG_INFINITY, f64::INFINITY);
    for (ln_p, closed) in ln_p.iter().zip(closed) {
        high = high.max(ln_p + closed);
        low = low.min(ln_p - closed);
    }
    high - low
}

/// Weight of a block from the strengths of its used rows: by their effective number.
fn weight(sum: f64, squares: f64) -> f64 {
    let effective = if squares > 0.0 { sum * sum / squares } else { 1.0 };
    1.0 / (1.0 + DAMPING * (effective - 1.0))
}

/// Logarithms that the prior and the rows add up to. `said` by blocks, within one by row numbers.
pub(super) fn scores(ln_prior: &PerCause, said: &[Said]) -> PerCause {
    let mut score = *ln_prior;
    for block in said.chunk_by(|a, b| a.block == b.block) {
        // A row alone in its block weighs one.
        if let [one] = block {
            if one.strength > 0.0 {
                for (score, ln) in score.iter_mut().zip(one.ln_p) {
                    *score += ln;
                }
            }
            continue;
        }
        let (mut sum, mut squares, mut ln) = (0.0, 0.0, [0.0; CAUSES]);
        for one in block {
            sum += one.strength;
            squares += one.strength * one.strength;
            for (total, part) in ln.iter_mut().zip(one.ln_p) {
                *total += part;
            }
        }
        if sum > 0.0 {
            let w = weight(sum, squares);
            for (score, ln) in score.iter_mut().zip(&ln) {
                *score += w * ln;
            }
        }
    }
    score
}

/// Posterior, adding to 1. `said` as [`scores`] takes it.
pub(super) fn combine(ln_prior: &PerCause, said: &[Said]) -> PerCause {
    let (weights, sum) = weights(&scores(ln_prior, said));
    weights.map(|w| w / sum)
}

/// Shares before they are divided by their sum, and the sum.
pub(super) fn weights(score: &PerCause) -> (PerCause, f64) {
    let top = score.iter().fold(f64::NEG_INFINITY, |a, b| a.max(*b));
    let weights = score.map(|s| if s > f64::NEG_INFINITY { libm::exp(s - top) } else { 0.0 });
    (weights, weights.iter().sum())
}

pub(super) fn ln_prior(case: &Case) -> PerCause {
    case.prior.map(|share| if share > 0.0 { libm::log(share) } else { f64::NEG_INFINITY })
}

/// The middle figures, adding to 1. They need no draw.
pub fn posterior(table: &Table, case: &Case) -> PerCause {
    posterior_forced(table, case, 0)
}

/// The same with some rows used even where a rule leaves them out: one bit a row number.
pub(super) fn posterior_forced(table: &Table, case: &Case, forced: u32) -> PerCause {
    let used = case.used_with(table, forced);
    combine(&ln_prior(case), &said(&used, &case.closed()))
}

/// What the middles of these rows say, by blocks (wounds, feeding, fat, scene, trauma, pathology, age).
pub(super) fn said<'t>(used: &[(&'t Row, u8)], closed: &PerCause) -> Vec<Said<'t>> {
    let of = |(row, state): &(&'t Row, u8)| {
        let ln_p = row.ln_mid(*state)?;
        Some(Said { block: row.block, strength: strength(ln_p, closed), ln_p })
    };
    let mut said: Vec<Said> = used.iter().filter_map(of).collect();
    said.order_by_key(|one| one.block);
    said
}

/// What one row did: weight of its block times `ln p` of one cause over another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pull {
    /// Row number.
    pub number: u8,
    /// Its answered state.
    pub state: u8,
    /// Above 0 it speaks for the first cause; natural logarithm of odds.
    pub ln_odds: f64,
}

/// Each used row's pull between two causes, the strongest first, ties by row number.
pub fn pulls(table: &Table, case: &Case, cause: Cause, against: Cause) -> Vec<Pull> {
    pulls_by(table, case, |ln_p| cause.of(ln_p) - against.of(ln_p))
}

/// Each used row's pull for one cause against the mean of all others, weighed as they stand.
pub fn pulls_for(table: &Table, case: &Case, posterior: &PerCause, cause: Cause) -> Vec<Pull> {
    let others = 1.0 - cause.of(posterior);
    pulls_by(table, case, |ln_p| {
        let all = Cause::ALL.into_iter().filter(|c| *c != cause && c.of(&case.prior) > 0.0);
        // The others' share where they stand at nothing is taken from what was likely before.
        let (mut sum, mut weights) = (0.0, 0.0);
        for c in all {
            let w = if others > 1e-9 { c.of(posterior) } else { c.of(&case.prior) };
            sum += w * libm::exp(c.of(ln_p));
            weights += w;
        }
        if weights > 0.0 { cause.of(ln_p) - libm::log(sum / weights) } else { 0.0 }
    })
}

fn pulls_by(table: &Table, case: &Case, of: impl Fn(&PerCause) -> f64) -> Vec<Pull> {
    let (used, closed) = (case.used(table), case.closed());
    let mut all: Vec<Pull> = used
        .iter()
        .filter_map(|(row, state)| {
            let (mut sum, mut squares) = (0.0, 0.0);
            for (other, state) in used.iter().filter(|(other, _)| other.block == row.block) {
                let s = strength(other.ln_mid(*state)?, &closed);
                sum += s;
                squares += s * s;
            }
            Some(Pull { number: row.number, state: *state, ln_odds: weight(sum, squares) * of(row.ln_mid(*state)?) })
        })
        .collect();
    all.order_by(|a, b| b.ln_odds.abs().total_cmp(&a.ln_odds.abs()).then(a.number.cmp(&b.number)));
    all
}

/// How well the best-fitting cause fits, without block weights.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fit {
    /// The largest sum of `ln p` over the used rows, of causes that occur.
    pub g: f64,
    /// Below this the cause may be absent from the list.
    pub limit: f64,
}

impl Fit {
    /// No listed cause fits well.
    pub fn is_poor(self) -> bool {
        self.g < self.limit
    }
}

/// The fit of a case.
pub fn fit(table: &Table, case: &Case) -> Fit {
    let used = case.used(table);
    let mut sums = case.closed();
    for ln_p in used.iter().filter_map(|(row, state)| row.ln_mid(*state)) {
        for (sum, ln_p) in sums.iter_mut().zip(ln_p) {
            *sum += ln_p;
        }
    }
    Fit { g: sums.iter().fold(f64::NEG_INFINITY, |a, b| a.max(*b)), limit: POOR_FIT * used.len() as f64 }
}
