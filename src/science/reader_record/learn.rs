//! From counts to the rows of a reader's table.
//!
//! Row `a` is Dirichlet about the published row, worth [`super::PUBLISHED_WORTH`] readings. A jaw known by
//! its rings has a latent true class: its shares over the classes are taken under the rows as they stand, the
//! rows are made anew from the shares, and so on until nothing moves (expectation and maximisation, with the
//! rows' posterior means).

use serde::Serialize;

use super::PUBLISHED_WORTH;
use super::model::ReaderModel;
use super::tally::{Tally, lab_of};
use crate::science::age::{ClassCall, Reader};
use crate::science::special::beta_quantile;

/// Calls a row can hold.
const CALLS: usize = 11;
/// Rounds at most; a season's jaws settle in some dozens.
const MOST_ROUNDS: u32 = 2_000;
/// The rows have settled when no cell moves by more than this.
const SETTLED: f64 = 1e-12;
/// Coverage of each cell's interval.
pub const COVERAGE: f64 = 0.9;

type Rows = [[f64; CALLS]; 10];

/// One cell of a row.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Cell {
    /// Probability of the call.
    pub mean: f64,
    /// 5 %.
    pub low: f64,
    /// 95 %.
    pub high: f64,
}

/// The calls of one true class.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LearnedRow {
    /// Readings that fall to the class: whole ones of known age, shares of those known by rings.
    pub readings: f64,
    /// What those readings are worth: a share `s` of a jaw tells as much as `s` squared of one, so that
    /// jaws of doubtful age narrow less than they count.
    pub worth: f64,
    /// Each call, youngest first.
    pub cells: [Cell; CALLS],
}

/// What a record makes of a reader.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Learned {
    /// By class of completed birthdays, the last nine and more.
    pub rows: [LearnedRow; 10],
    /// The means as a model to read with.
    pub model: ReaderModel,
}

/// Learns from a tally. `published` is the reader that is taken before any experience; `prior` the classes
/// among the jaws whose rings were counted, before they were.
pub fn learn(tally: &Tally, published: &Reader, prior: &[f64; 10]) -> Learned {
    let base = base_rows(published);
    let mut rows = base;
    let mut counts = expected(tally, &rows, prior);
    for _ in 0..MOST_ROUNDS {
        let next = means(&base, &counts.sums);
        let moved = rows.iter().flatten().zip(next.iter().flatten()).map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
        rows = next;
        counts = expected(tally, &rows, prior);
        if moved <= SETTLED {
            break;
        }
    }
    let mut learned = [LearnedRow { readings: 0.0, worth: 0.0, cells: [Cell::default(); CALLS] }; 10];
    for (((slot, row), sums), worth) in learned.iter_mut().zip(&rows).zip(&counts.sums).zip(counts.worth) {
        *slot = LearnedRow { readings: sums.iter().sum(), worth, cells: row.map(|mean| cell(mean, worth)) };
    }
    let model = ReaderModel::of_rows(&rows, tally.known_readings(), tally.lab_readings());
    Learned { rows: learned, model }
}

/// The published rows, floored as they are when read with, each brought to one.
fn base_rows(published: &Reader) -> Rows {
    let mut rows = [[0.0; CALLS]; 10];
    for (call, column) in ClassCall::ALL.iter().zip(0..) {
        for (row, p) in rows.iter_mut().zip(published.likelihood(*call)) {
            if let Some(slot) = row.get_mut::<usize>(column) {
                *slot = p;
            }
        }
    }
    rows.map(|row| {
        let total: f64 = row.iter().sum();
        row.map(|p| p / total)
    })
}

/// Expected counts, and what they are worth a row.
struct Counts {
    sums: Rows,
    worth: [f64; 10],
}

fn expected(tally: &Tally, rows: &Rows, prior: &[f64; 10]) -> Counts {
    let mut counts = Counts { sums: tally.known.map(|row| row.map(f64::from)), worth: [0.0; 10] };
    for (slot, row) in counts.worth.iter_mut().zip(&tally.known) {
        *slot = row.iter().copied().map(f64::from).sum();
    }
    for (key, calls) in &tally.lab {
        let given = lab_of(*key).probabilities();
        for (column, n) in calls.iter().enumerate().filter(|(_, n)| **n > 0) {
            let mut shares = [0.0; 10];
            for (((slot, p), l), row) in shares.iter_mut().zip(prior).zip(given).zip(rows) {
                *slot = p * l * row.get(column).copied().unwrap_or(0.0);
            }
            let total: f64 = shares.iter().sum();
            if total <= 0.0 {
                continue;
            }
            for ((share, sums), worth) in shares.iter().zip(&mut counts.sums).zip(&mut counts.worth) {
                let share = share / total;
                if let Some(slot) = sums.get_mut(column) {
                    *slot += share * f64::from(*n);
                }
                *worth += share * share * f64::from(*n);
            }
        }
    }
    counts
}

fn means(base: &Rows, sums: &Rows) -> Rows {
    let mut rows = *base;
    for (row, counted) in rows.iter_mut().zip(sums) {
        let total = PUBLISHED_WORTH + counted.iter().sum::<f64>();
        for (slot, n) in row.iter_mut().zip(counted) {
            *slot = (PUBLISHED_WORTH * *slot + n) / total;
        }
    }
    rows
}

/// One cell of a Dirichlet is a beta.
fn cell(mean: f64, worth: f64) -> Cell {
    let weight = PUBLISHED_WORTH + worth;
    let at = |p: f64| beta_quantile(p, mean * weight, (1.0 - mean) * weight).unwrap_or(mean);
    let tail = (1.0 - COVERAGE) / 2.0;
    Cell { mean, low: at(tail), high: at(1.0 - tail) }
}
