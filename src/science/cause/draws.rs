//! The drawn table: every cell of the evidence table 3,000 times, shared by all carcasses.
//!
//! A column (one state of one row) is drawn when it is first asked for, in parts, so that a phone can do
//! it between taps. Held is what was asked for; the office, which meets every state, holds whole rows.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use super::case::Case;
use super::causes::{CAUSES, PerCause};
use super::combine::{Said, strength};
use super::random::normal;
use super::table::{Cell, Row, Table, Z_95, held, logit};
use crate::order::Short as _;

/// How many times the table is drawn. Forty other sets of so many moved the ends of case E9 (44 and 81 in
/// 100) with standard deviations of 0.5 and 0.3 in 100; 1,000 draws 0.8 and 0.4, 10,000 draws 0.3 and 0.1
/// (`tests/reference/make_cause_draws.py --how-many`): more would hardly be told apart beside a range of
/// 37, and would cost as many times more.
pub const DRAWS: usize = 3_000;
/// Draws of one part.
const PART: usize = 125;
const PARTS: usize = DRAWS / PART;
/// A wasm memory never shrinks: a phone holds only the states that it met.
const WHOLE_ROWS: bool = !cfg!(target_arch = "wasm32");

/// `ln p` of one state by cause, one a draw, in parts.
pub(super) type Column = [OnceLock<Box<[PerCause]>>; PARTS];
/// How strongly one state speaks, one a draw, in parts.
type Strengths = [OnceLock<Box<[f64]>>; PARTS];
/// Row, whether of an older buck, state.
pub(super) type Place = (u8, bool, u8);

/// A drawn evidence table.
pub struct Drawn {
    table: Table,
    columns: Mutex<BTreeMap<Place, Arc<Column>>>,
    /// By place, and by the causes that occur: a card closes some, so there are few such sets.
    strengths: Mutex<BTreeMap<(Place, u16), Arc<Strengths>>>,
    priors: Column,
}

impl std::fmt::Debug for Drawn {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Drawn")
    }
}

fn empty<T>() -> [OnceLock<T>; PARTS] {
    std::array::from_fn(|_| OnceLock::new())
}

/// The one at this place, made where there is none.
fn shared<K: Ord, T>(all: &Mutex<BTreeMap<K, Arc<[OnceLock<T>; PARTS]>>>, at: K) -> Arc<[OnceLock<T>; PARTS]> {
    let mut all = all.lock().unwrap_or_else(PoisonError::into_inner);
    Arc::clone(all.entry(at).or_insert_with(|| Arc::new(empty())))
}

impl Drawn {
    /// Nothing is drawn yet.
    pub fn new(table: Table) -> Self {
        Self { table, columns: Mutex::default(), strengths: Mutex::default(), priors: empty() }
    }

    /// The table that is drawn.
    pub const fn table(&self) -> &Table {
        &self.table
    }

    /// The program's own, drawn once for the whole process.
    pub fn built_in() -> &'static Self {
        static BUILT_IN: OnceLock<Drawn> = OnceLock::new();
        BUILT_IN.get_or_init(|| Self::new(Table::built_in()))
    }

    pub(super) fn column(&self, place: Place) -> Arc<Column> {
        shared(&self.columns, place)
    }

    /// Draws one part of what a case needs and lacks. `true` where nothing is lacking.
    pub fn prepare_a_part(&self, case: &Case) -> bool {
        let used = case.used(&self.table);
        let columns: Vec<_> = used.iter().map(|(row, state)| self.column(place(row, *state, case))).collect();
        for (row_state, column) in used.iter().zip(&columns) {
            if let Some(part) = column.iter().position(|part| part.get().is_none()) {
                self.draw_part(row_state.0, row_state.1, case.buck, part);
                return false;
            }
        }
        if let Some((part, slot)) = self.priors.iter().enumerate().find(|(_, part)| part.get().is_none()) {
            slot.get_or_init(|| prior_part(part));
            return false;
        }
        true
    }

    /// Calls with each draw in turn: the logarithms by which it moves the prior, and what each used row of
    /// the case says, by blocks.
    pub(super) fn each(&self, case: &Case, mut take: impl FnMut(&PerCause, &[Said])) {
        let mut used = case.used(&self.table);
        used.order_by_key(|(row, _)| row.block);
        let closed = case.closed();
        let occurring = closed.iter().fold(0, |bits, c| bits << 1 | u16::from(*c >= 0.0));
        let columns: Vec<_> = used
            .iter()
            .map(|(row, state)| {
                let place = place(row, *state, case);
                (*row, *state, self.column(place), shared(&self.strengths, (place, occurring)))
            })
            .collect();
        for part in 0..PARTS {
            let Some(moved) = self.priors.get(part).map(|slot| slot.get_or_init(|| prior_part(part))) else { continue };
            let held: Vec<(u8, &[PerCause], &[f64])> = columns
                .iter()
                .filter_map(|(row, state, column, strengths)| {
                    let slot = column.get(part)?;
                    if slot.get().is_none() {
                        self.draw_part(row, *state, case.buck, part);
                    }
                    let cells = slot.get()?;
                    let all = || cells.iter().map(|ln_p| strength(ln_p, &closed)).collect();
                    Some((row.block, &**cells, &**strengths.get(part)?.get_or_init(all)))
                })
                .collect();
            let mut said: Vec<Said> = Vec::with_capacity(held.len());
            for (draw, moved) in moved.iter().enumerate() {
                said.clear();
                said.extend(held.iter().filter_map(|(block, cells, strengths)| {
                    Some(Said { block: *block, strength: *strengths.get(draw)?, ln_p: cells.get(draw)? })
                }));
                take(moved, &said);
            }
        }
    }

    /// One draw of a place's column, drawn where it is lacking; `None` beyond the last draw.
    pub(super) fn cells<'c>(&self, column: &'c Column, row: &Row, place: Place, draw: usize) -> Option<&'c PerCause> {
        let (part, within) = (draw / PART, draw % PART);
        let slot = column.get(part)?;
        if slot.get().is_none() {
            self.draw_part(row, place.2, place.1, part);
        }
        slot.get()?.get(within)
    }

    /// By how much a draw moves the logarithm of each share of the prior; `None` beyond the last draw.
    pub(super) fn moved(&self, draw: usize) -> Option<&PerCause> {
        let part = draw / PART;
        self.priors.get(part)?.get_or_init(|| prior_part(part)).get(draw % PART)
    }

    /// Draws one part of a row and keeps the state asked for; in the office every state.
    fn draw_part(&self, row: &Row, state: u8, buck: bool, part: usize) {
        for (s, cells) in row_part(row, part, |s| WHOLE_ROWS || s == state) {
            if let Some(slot) = self.column((row.number, buck, s)).get(part) {
                slot.get_or_init(|| cells);
            }
        }
    }
}

pub(super) fn place(row: &Row, state: u8, case: &Case) -> Place {
    (row.number, case.buck, state)
}

fn numbers(part: usize) -> impl Iterator<Item = u64> {
    (part * PART..(part + 1) * PART).map(|draw| draw as u64)
}

/// By how much each draw moves the logarithm of each share: half and double are the 5 and 95 % ends.
fn prior_part(part: usize) -> Box<[PerCause]> {
    let of = |draw| {
        let mut moved = [0.0; CAUSES];
        for (moved, cause) in moved.iter_mut().zip(0_u8..) {
            *moved = f64::from(normal(draw, 0, 0, cause)) * core::f64::consts::LN_2 / Z_95;
        }
        moved
    };
    numbers(part).map(of).collect()
}

/// One state's cells on the logit scale, by cause: middle, and what one standard deviation goes down and up.
struct Spread {
    middle: [f32; CAUSES],
    down: [f32; CAUSES],
    up: [f32; CAUSES],
}

#[allow(clippy::cast_possible_truncation)] // log odds within -30 and 30, widths of a few
fn spread(cells: &[Cell; CAUSES]) -> Spread {
    Spread {
        middle: cells.map(|cell| logit(cell.p) as f32),
        down: cells.map(|cell| (cell.down / Z_95) as f32),
        up: cells.map(|cell| (cell.up / Z_95) as f32),
    }
}

/// One part of the states that are kept: all of the row are drawn on the logit scale, each cause's column is
/// then made to add to one. In single precision, as [`normal`] is.
#[allow(clippy::cast_possible_truncation)] // bounds of a probability
fn row_part(row: &Row, part: usize, kept: impl Fn(u8) -> bool) -> Vec<(u8, Box<[PerCause]>)> {
    let spreads: Vec<Spread> = row.states.iter().map(spread).collect();
    let mut states: Vec<(u8, Vec<PerCause>)> =
        (0_u8..).take(spreads.len()).filter(|s| kept(*s)).map(|s| (s, Vec::with_capacity(PART))).collect();
    let mut drawn = vec![[0.0_f32; CAUSES]; spreads.len()];
    for draw in numbers(part) {
        let mut sums = [0.0_f32; CAUSES];
        for ((of, drawn), s) in spreads.iter().zip(&mut drawn).zip(0_u8..) {
            let cells = of.middle.iter().zip(&of.down).zip(&of.up).zip(drawn).zip(&mut sums);
            for (((((middle, down), up), q), sum), c) in cells.zip(0_u8..) {
                let z = normal(draw, row.number, s, c);
                let off = z * if z < 0.0 { *down } else { *up };
                *q = 1.0 / (1.0 + libm::expf(-(middle + off)));
                *sum += *q;
            }
        }
        for (s, out) in &mut states {
            let Some(drawn) = drawn.get(usize::from(*s)) else { continue };
            let mut ln_p = [0.0; CAUSES];
            for ((ln_p, q), sum) in ln_p.iter_mut().zip(drawn).zip(&sums) {
                *ln_p = f64::from(libm::logf(held(f64::from(q / sum)) as f32));
            }
            out.push(ln_p);
        }
    }
    states.into_iter().map(|(s, cells)| (s, cells.into_boxed_slice())).collect()
}
