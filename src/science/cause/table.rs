//! The evidence table: how often each state of each observation goes with each cause.

use super::causes::{CAUSES, Cause, PerCause};
use super::rows::{BOUNDS, PRIORS, ROWS};

/// Lowest and highest probability that one cell may have. Expert judgement.
const FLOOR: f64 = 0.001;
/// Width of a 5 to 95 % half interval in standard deviations, as the draws use it.
pub(super) const Z_95: f64 = 1.645;

/// What a cell rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Grade {
    /// Counts in a source.
    Published,
    /// Counts in a source, with bounds of their own.
    Counted,
    /// A source gives the direction; the number is expert judgement.
    Direction,
    /// Expert judgement.
    Expert,
}

impl Grade {
    /// The letter used in tables.
    pub const fn letter(self) -> char {
        match self {
            Self::Published => 'P',
            Self::Counted => 'J',
            Self::Direction => 'Q',
            Self::Expert => 'E',
        }
    }

    /// The grade of a letter.
    pub const fn of_letter(letter: char) -> Option<Self> {
        Some(match letter {
            'P' => Self::Published,
            'J' => Self::Counted,
            'Q' => Self::Direction,
            'E' => Self::Expert,
            _ => return None,
        })
    }

    /// By how much the 5 and 95 % ends lie off, on the logit scale. Expert judgement; [`Grade::Counted`]
    /// cells have bounds of their own.
    pub const fn half_width_logit(self) -> f64 {
        match self {
            Self::Published => 0.6,
            Self::Direction => 0.8,
            Self::Counted | Self::Expert => 1.1,
        }
    }
}

/// Log odds of a probability.
pub fn logit(p: f64) -> f64 {
    libm::log(p) - libm::log1p(-p)
}

/// Probability of log odds.
pub fn logistic(x: f64) -> f64 {
    1.0 / (1.0 + libm::exp(-x))
}

/// Holds a probability within what one cell may say.
pub(super) fn held(p: f64) -> f64 {
    p.clamp(FLOOR, 1.0 - FLOOR)
}

/// One cell: probability of a state given a cause, with its spread.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cell {
    /// Middle, 0 to 1.
    pub p: f64,
    /// Distance of the 5 % end on the logit scale.
    pub down: f64,
    /// Distance of the 95 % end on the logit scale.
    pub up: f64,
    /// What it rests on.
    pub grade: Grade,
}

impl Cell {
    /// A cell whose ends follow from its grade.
    pub const fn graded(p: f64, grade: Grade) -> Self {
        Self { p, down: grade.half_width_logit(), up: grade.half_width_logit(), grade }
    }

    /// A cell with ends of its own.
    pub fn bounded(low: f64, p: f64, high: f64) -> Self {
        Self { p, down: logit(p) - logit(low), up: logit(high) - logit(p), grade: Grade::Counted }
    }

    /// The 5 % end, 0 to 1.
    pub fn low(self) -> f64 {
        logistic(logit(self.p) - self.down)
    }

    /// The 95 % end, 0 to 1.
    pub fn high(self) -> f64 {
        logistic(logit(self.p) + self.up)
    }
}

/// A state as the table of the program holds it.
pub struct StateData {
    /// Stable name.
    pub code: &'static str,
    /// Tenths of a percent, by cause.
    pub tenths: [u16; CAUSES],
    /// Letters of the grades, by cause.
    pub grades: &'static str,
}

/// A row as the table of the program holds it.
pub struct RowData {
    /// 1 to 25.
    pub number: u8,
    /// Stable name.
    pub code: &'static str,
    /// 1 to 7: rows of one block say partly the same.
    pub block: u8,
    /// Minutes that looking takes, about.
    pub minutes: u8,
    /// 0 look only, 1 touch, 2 cut.
    pub class: u8,
    /// The state that `looked, it is not there` means.
    pub not_seen: Option<u8>,
    /// Top to bottom.
    pub states: &'static [StateData],
}

/// The rows of the program's own table: every table has these rows and states.
pub fn skeleton() -> &'static [RowData; 25] {
    &ROWS
}

/// One observation.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Number, 1 to 31: names the observation (O01 and on) and its random numbers.
    pub number: u8,
    /// 1 to 7.
    pub block: u8,
    /// Minutes that looking takes, about.
    pub minutes: u8,
    /// 0 look only, 1 touch, 2 cut.
    pub class: u8,
    /// One list of cells a state, top to bottom.
    pub states: Vec<[Cell; CAUSES]>,
    /// Natural logarithms of the middles, held: made once.
    ln_mid: Vec<PerCause>,
}

impl Row {
    /// A row of these cells.
    pub fn new(number: u8, block: u8, minutes: u8, class: u8, states: Vec<[Cell; CAUSES]>) -> Self {
        let ln_mid = states.iter().map(|cells| cells.map(|cell| libm::log(held(cell.p)))).collect();
        Self { number, block, minutes, class, states, ln_mid }
    }

    /// `ln p` of a state, by cause; `None` where there is no such state.
    pub fn ln_mid(&self, state: u8) -> Option<&PerCause> {
        self.ln_mid.get(usize::from(state))
    }
}

/// Shares of all deaths before anything is seen, for one kind of country.
#[derive(Clone, Debug, PartialEq)]
pub struct PriorSet {
    /// Stable name.
    pub code: String,
    /// By cause, adding to about 1; 0 means that the cause does not occur.
    pub shares: PerCause,
}

/// The names of the program's own sets: coyote and bobcat without wolf; great lakes with wolf; farm and
/// forest with roads and disease.
pub const AREAS: [&str; 3] = ["northeast", "great_lakes", "farm_forest"];

/// An evidence table.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// In order of their numbers.
    pub rows: Vec<Row>,
    /// Row 21 for bucks of two and a half years or more.
    pub head_abscess_of_bucks: Row,
    /// By area.
    pub priors: Vec<PriorSet>,
}

impl Table {
    /// The program's own.
    pub fn built_in() -> Self {
        let rows: Vec<Row> = ROWS.iter().map(row).collect();
        let head_abscess_of_bucks = buck_row(&rows);
        let priors = AREAS
            .into_iter()
            .zip(PRIORS)
            .map(|(code, shares)| PriorSet { code: code.to_owned(), shares: shares.map(|s| f64::from(s) / 1000.0) })
            .collect();
        Self { rows, head_abscess_of_bucks, priors }
    }

    /// A row by its number, with the buck's own in its place.
    pub fn row(&self, number: u8, buck: bool) -> Option<&Row> {
        if buck && number == self.head_abscess_of_bucks.number {
            return Some(&self.head_abscess_of_bucks);
        }
        self.rows.iter().find(|row| row.number == number)
    }

    /// The shares of an area.
    pub fn prior(&self, area: &str) -> Option<&PerCause> {
        self.priors.iter().find(|set| set.code == area).map(|set| &set.shares)
    }
}

/// Middle of a cell of the program's table, 0 to 1.
fn share(tenths: u16) -> f64 {
    f64::from(tenths) / 1000.0
}

fn row(data: &RowData) -> Row {
    let bounds = |state: usize, cause: usize| {
        BOUNDS.iter().find(|(r, s, c, _, _)| *r == data.number && usize::from(*s) == state && usize::from(*c) == cause)
    };
    let states = data.states.iter().enumerate().map(|(s, state)| {
        let mut cells = state.tenths.map(|tenths| Cell::graded(share(tenths), Grade::Expert));
        for (c, (cell, letter)) in cells.iter_mut().zip(state.grades.chars()).enumerate() {
            *cell = match bounds(s, c) {
                Some((_, _, _, low, high)) => Cell::bounded(share(*low), cell.p, share(*high)),
                None => Cell::graded(cell.p, Grade::of_letter(letter).unwrap_or(Grade::Expert)),
            };
        }
        cells
    });
    Row::new(data.number, data.block, data.minutes, data.class, states.collect())
}

/// Bucks of two and a half years or more: 20 % of the deaths from disease (10 to 35), three years of one
/// laboratory (Baumann and Davidson 1998; the share for them is expert judgement on those records).
fn buck_row(rows: &[Row]) -> Row {
    const ROW: u8 = 21;
    let of_all = rows.iter().find(|row| row.number == ROW);
    let mut states = of_all.map(|row| row.states.clone()).unwrap_or_default();
    for (cells, p) in states.iter_mut().zip([0.20, 0.80]) {
        if let Some(cell) = cells.get_mut(Cause::Disease as usize) {
            *cell = Cell::graded(p, Grade::Direction);
        }
    }
    let (block, minutes, class) = of_all.map_or((6, 15, 2), |row| (row.block, row.minutes, row.class));
    Row::new(ROW, block, minutes, class, states)
}
