//! What a further look is worth: the expected fall of entropy.

use super::case::Case;
use super::causes::PerCause;
use super::combine::posterior_forced;
use super::table::{Row, Table, held};
use crate::order::Short as _;

/// Bits below which a look is not worth advising. Expert judgement.
pub const LEAST_GAIN_BITS: f64 = 0.03;
/// Minutes added to what a look takes, for the walk and the gloves. Expert judgement.
pub const MINUTES_BESIDE: f64 = 2.0;

/// Entropy in bits.
pub fn entropy_bits(shares: &PerCause) -> f64 {
    -shares.iter().filter(|p| **p > 0.0).map(|p| p * libm::log2(*p)).sum::<f64>()
}

/// One open row and what it is worth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gain {
    /// Row number.
    pub number: u8,
    /// Expected fall of entropy, bits; never below 0.
    pub bits: f64,
    /// Minutes that looking takes, about.
    pub minutes: u8,
    /// 0 look only, 1 touch, 2 cut.
    pub class: u8,
}

impl Gain {
    /// Bits for the time: what looks are ranked by.
    pub fn rate(&self) -> f64 {
        self.bits / (f64::from(self.minutes) + MINUTES_BESIDE)
    }
}

/// What every row without an answer is worth, the most first, ties by row number. Skips of the table's
/// rules are not applied.
pub fn gains(table: &Table, case: &Case) -> Vec<Gain> {
    gains_forced(table, case, 0)
}

/// The same with some rows used even where a rule leaves them out: one bit a row number.
pub(super) fn gains_forced(table: &Table, case: &Case, forced: u32) -> Vec<Gain> {
    let now = posterior_forced(table, case, forced);
    let entropy = entropy_bits(&now);
    let open = |row: &&Row| case.answers.get(row.number).is_none();
    let mut all: Vec<Gain> = table
        .rows
        .iter()
        .filter(open)
        .filter_map(|row| table.row(row.number, case.buck))
        .map(|row| Gain {
            number: row.number,
            bits: (entropy - expected_entropy(table, case, &now, row, forced)).max(0.0),
            minutes: row.minutes,
            class: row.class,
        })
        .collect();
    all.order_by(|a, b| b.bits.total_cmp(&a.bits).then(a.number.cmp(&b.number)));
    all
}

fn expected_entropy(table: &Table, case: &Case, now: &PerCause, row: &Row, forced: u32) -> f64 {
    let mut seen = *case;
    // The row's own worth, whatever rule may leave it out later.
    let forced = forced | 1 << row.number;
    (0_u8..)
        .zip(&row.states)
        .map(|(state, cells)| {
            let p: f64 = now.iter().zip(cells).map(|(p, cell)| p * held(cell.p)).sum();
            seen.answers = case.answers.with(row.number, state);
            p * entropy_bits(&posterior_forced(table, &seen, forced))
        })
        .sum()
}
