//! A reader model that the office makes and phones read with.

use serde::{Deserialize, Serialize};

use crate::science::age::ClassCall;

/// Cells are whole numbers of millionths: a card holds no fractions, and every phone reads the same.
const WHOLE: u32 = 1_000_000;
const CALLS: usize = 11;

/// Calls by true class, in millionths.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Written", into = "Written")]
pub struct ReaderModel {
    rows: [[u32; CALLS]; 10],
    known: u32,
    by_rings: u32,
}

/// As it is stored.
#[derive(Clone, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    rows: [[u32; CALLS]; 10],
    known: u32,
    by_rings: u32,
}

/// A row that does not add up to a million.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the calls of a deer of {birthdays} completed birthdays do not add up to a million")]
pub struct BadModel {
    /// Which row.
    pub birthdays: u8,
}

impl ReaderModel {
    /// From rows in millionths and the number of readings behind them.
    pub fn new(rows: [[u32; CALLS]; 10], known: u32, by_rings: u32) -> Result<Self, BadModel> {
        for (birthdays, row) in (0_u8..).zip(&rows) {
            let total: u64 = row.iter().copied().map(u64::from).sum();
            if total != u64::from(WHOLE) {
                return Err(BadModel { birthdays });
            }
        }
        Ok(Self { rows, known, by_rings })
    }

    /// From probabilities; the rest of rounding goes to the largest cell of each row.
    pub(super) fn of_rows(rows: &[[f64; CALLS]; 10], known: u32, by_rings: u32) -> Self {
        Self { rows: rows.map(millionths), known, by_rings }
    }

    /// Probability of a call for a deer of so many completed birthdays, nine for nine and more.
    pub fn probability(&self, birthdays: u8, call: ClassCall) -> f64 {
        let row = self.rows.get(usize::from(birthdays.min(9)));
        let millionths = row.and_then(|row| row.get(call.index())).copied().unwrap_or(0);
        f64::from(millionths) / f64::from(WHOLE)
    }

    /// The cells, in millionths.
    pub const fn rows(&self) -> &[[u32; CALLS]; 10] {
        &self.rows
    }

    /// Readings of jaws of exactly known age behind it.
    pub const fn known(&self) -> u32 {
        self.known
    }

    /// Readings of jaws of which the rings were counted behind it.
    pub const fn by_rings(&self) -> u32 {
        self.by_rings
    }
}

fn millionths(row: [f64; CALLS]) -> [u32; CALLS] {
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // a probability times a million
    let mut cells = row.map(|p| (p.clamp(0.0, 1.0) * f64::from(WHOLE)).floor() as u32);
    let short = WHOLE.saturating_sub(cells.iter().sum());
    if let Some(largest) = cells.iter_mut().max() {
        *largest += short;
    }
    cells
}

impl TryFrom<Written> for ReaderModel {
    type Error = BadModel;

    fn try_from(written: Written) -> Result<Self, BadModel> {
        Self::new(written.rows, written.known, written.by_rings)
    }
}

impl From<ReaderModel> for Written {
    fn from(model: ReaderModel) -> Self {
        Self { rows: model.rows, known: model.known, by_rings: model.by_rings }
    }
}
