//! The evidence table as the office writes it: a file of its own, signed, carried by the local card.
//!
//! The form is JSON. Every cell is text: percent and grade (`78Q`), or low, middle and high percent and
//! grade (`0.8/3.6/7.8J`). Grades: P counts in a source, J counts with ends of their own, Q direction from
//! a source, E expert judgement.

use serde::{Deserialize, Serialize};

use crate::order::decimal;
use crate::record::{JsonError, read_strict};

/// The causes' names, in column order of every row.
pub const COLUMNS: [&str; 12] = [
    "coyote",
    "wolf",
    "bobcat_or_lynx",
    "cougar",
    "dog",
    "bear",
    "starvation",
    "vehicle",
    "shot",
    "disease",
    "feed",
    "accident",
];

/// How far the middles of a column may lie from 100 %.
const SUM_SLACK_PERCENT: f64 = 0.5;

/// One state of a row.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct TableState {
    /// Its name.
    pub state: String,
    /// A cell a cause, in the order of `columns`.
    pub cells: Vec<String>,
}

/// One observation.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct TableRow {
    /// Its name.
    pub row: String,
    /// Its states, top to bottom.
    pub states: Vec<TableState>,
}

/// Shares of all deaths before anything is seen.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct TablePrior {
    /// Name of the area, as a local card chooses it.
    pub area: String,
    /// Thousandths, in the order of `columns`; 0 means that the cause does not occur.
    pub per_thousand: Vec<u32>,
}

/// An evidence table.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct EvidenceTable {
    /// Version of the form: 1.
    pub form: u32,
    /// What the office calls it; readings name it.
    pub name: String,
    /// Where its figures come from, in the office's words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// Names of the causes, in the order of all cells.
    pub columns: Vec<String>,
    /// By area.
    pub priors: Vec<TablePrior>,
    /// All observations.
    pub rows: Vec<TableRow>,
}

/// One cell as read: percent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TableCell {
    /// The 5 % end, where the cell has ends of its own.
    pub low: Option<f64>,
    /// Middle.
    pub mid: f64,
    /// The 95 % end, where the cell has ends of its own.
    pub high: Option<f64>,
    /// P, J, Q or E.
    pub grade: char,
}

impl TableCell {
    /// Reads a cell. `None` where it is not of the form, or its figures are not above 0, rising and below
    /// 100 percent; grade J needs ends, the other grades have none.
    pub fn read(text: &str) -> Option<Self> {
        let grade = text.chars().last().filter(|grade| "PJQE".contains(*grade))?;
        let figures = text.strip_suffix(grade)?;
        let read = |figure: &str| {
            let plain = !figure.is_empty() && figure.bytes().all(|b| b.is_ascii_digit() || b == b'.');
            decimal::read(figure).filter(|p| plain && *p > 0.0 && *p < 100.0)
        };
        let parts: Vec<&str> = figures.split('/').collect();
        match (parts.as_slice(), grade) {
            ([low, mid, high], 'J') => {
                let (low, mid, high) = (read(low)?, read(mid)?, read(high)?);
                (low < mid && mid < high).then_some(Self { low: Some(low), mid, high: Some(high), grade })
            }
            ([mid], 'P' | 'Q' | 'E') => Some(Self { low: None, mid: read(mid)?, high: None, grade }),
            _ => None,
        }
    }
}

/// What keeps a table from being used.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TableFlaw {
    /// Of a form that this version does not know.
    #[error("the evidence table is of form {0}, which this version does not know: update the program")]
    Form(u32),
    /// Without a name.
    #[error("the evidence table has no name; readings must be able to name it")]
    NoName,
    /// Other columns.
    #[error("the evidence table's columns must be, in this order: {}", COLUMNS.join(", "))]
    Columns,
    /// No shares at all.
    #[error("the evidence table has no shares for any area")]
    NoPriors,
    /// Shares that are not shares.
    #[error(
        "the shares of area `{0}` are not twelve thousandths that add to 1000 (995 to 1005); write one figure a cause"
    )]
    Prior(String),
    /// Two sets for one area, or two rows of one name.
    #[error("`{0}` stands twice in the evidence table")]
    Twice(String),
    /// A state with too few or too many cells.
    #[error("row `{row}`, state `{state}`: {count} cells where twelve must stand, one a cause")]
    Cells {
        /// Which row.
        row: String,
        /// Which state.
        state: String,
        /// How many there are.
        count: usize,
    },
    /// A cell that cannot be read.
    #[error(
        "row `{row}`, state `{state}`, cause `{cause}`: `{cell}` is not a cell; write such as 78Q, or 0.8/3.6/7.8J \
         (percent above 0 and below 100, rising, then the grade)"
    )]
    Cell {
        /// Which row.
        row: String,
        /// Which state.
        state: String,
        /// Which column.
        cause: String,
        /// What stands there.
        cell: String,
    },
    /// A column that does not add up.
    #[error("row `{row}`: the states of cause `{cause}` add to {tenths_of_percent} tenths of a percent, not to 1000")]
    Sum {
        /// Which row.
        row: String,
        /// Which column.
        cause: String,
        /// What they add to.
        tenths_of_percent: i64,
    },
    /// A row that the form does not have, or lacks.
    #[error("row `{0}` is not one of the table's observations, or its states are not as they must be; {1}")]
    Row(String, String),
    /// A row is missing.
    #[error("row `{0}` is missing")]
    Missing(String),
}

/// Why a table's text is not taken.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TableError {
    /// Not strict JSON, an unknown or repeated member, a wrong type, a missing part.
    #[error("the evidence table cannot be read: {0}")]
    Json(#[from] JsonError),
    /// Read, but not usable.
    #[error("{0}")]
    Flaw(#[from] TableFlaw),
}

impl EvidenceTable {
    /// Reads a table's JSON strictly and checks its figures. Whether its rows and states are those of the
    /// form is checked where they are used.
    ///
    /// # Errors
    /// Where the text is not strict JSON of a table, or a figure cannot be used; a row is named.
    pub fn from_json(text: &str) -> Result<Self, TableError> {
        let table: Self = read_strict(text)?;
        table.check()?;
        Ok(table)
    }

    /// Checks what every table must have.
    ///
    /// # Errors
    /// The first flaw found.
    pub fn check(&self) -> Result<(), TableFlaw> {
        if self.form != 1 {
            return Err(TableFlaw::Form(self.form));
        }
        if self.name.trim().is_empty() {
            return Err(TableFlaw::NoName);
        }
        if self.columns != COLUMNS {
            return Err(TableFlaw::Columns);
        }
        self.check_priors()?;
        for (n, row) in self.rows.iter().enumerate() {
            if self.rows.iter().skip(n + 1).any(|other| other.row == row.row) {
                return Err(TableFlaw::Twice(row.row.clone()));
            }
            row.check()?;
        }
        Ok(())
    }

    fn check_priors(&self) -> Result<(), TableFlaw> {
        if self.priors.is_empty() {
            return Err(TableFlaw::NoPriors);
        }
        for (n, prior) in self.priors.iter().enumerate() {
            if self.priors.iter().skip(n + 1).any(|other| other.area == prior.area) {
                return Err(TableFlaw::Twice(prior.area.clone()));
            }
            let sum: u64 = prior.per_thousand.iter().map(|share| u64::from(*share)).sum();
            if prior.per_thousand.len() != COLUMNS.len() || !(995..=1005).contains(&sum) {
                return Err(TableFlaw::Prior(prior.area.clone()));
            }
        }
        Ok(())
    }
}

impl TableRow {
    /// The cells as figures, one list a state.
    ///
    /// # Errors
    /// The first cell that cannot be used, or the first column that does not add up.
    pub fn cells(&self) -> Result<Vec<Vec<TableCell>>, TableFlaw> {
        self.states.iter().map(|state| self.cells_of(state)).collect()
    }

    fn cells_of(&self, state: &TableState) -> Result<Vec<TableCell>, TableFlaw> {
        let (row, name) = (self.row.clone(), state.state.clone());
        if state.cells.len() != COLUMNS.len() {
            return Err(TableFlaw::Cells { row, state: name, count: state.cells.len() });
        }
        let cell = |(text, cause): (&String, &str)| {
            TableCell::read(text).ok_or_else(|| TableFlaw::Cell {
                row: row.clone(),
                state: name.clone(),
                cause: cause.to_owned(),
                cell: text.clone(),
            })
        };
        state.cells.iter().zip(COLUMNS).map(cell).collect()
    }

    #[allow(clippy::cast_possible_truncation)] // within some hundreds of percent
    fn check(&self) -> Result<(), TableFlaw> {
        let states = self.cells()?;
        for (column, cause) in COLUMNS.into_iter().enumerate() {
            let sum: f64 = states.iter().filter_map(|cells| cells.get(column)).map(|cell| cell.mid).sum();
            if (sum - 100.0).abs() > SUM_SLACK_PERCENT {
                let tenths_of_percent = (sum * 10.0).round() as i64;
                return Err(TableFlaw::Sum { row: self.row.clone(), cause: cause.to_owned(), tenths_of_percent });
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cells_are_read_strictly() {
        let read = |text: &str| TableCell::read(text).map(|c| (c.low, c.mid, c.high, c.grade));
        assert_eq!(read("78Q"), Some((None, 78.0, None, 'Q')));
        assert_eq!(read("0.8/3.6/7.8J"), Some((Some(0.8), 3.6, Some(7.8), 'J')));
        for bad in
            ["", "Q", "78", "78X", "78J", "1/2/3E", "3/2/4J", "0E", "100E", "-1E", "1e1E", "nanE", "1/2J", "78 Q"]
        {
            assert_eq!(read(bad), None, "{bad}");
        }
    }
}
