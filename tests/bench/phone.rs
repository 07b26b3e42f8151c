//! The phone's rows that need no screen, as a wasm of their own, so that the form carries no benchmark.
//! `tests/bench/rows.mjs` loads it into a page whose processor is slowed down.
#![allow(clippy::expect_used, clippy::indexing_slicing, clippy::cast_possible_truncation, missing_docs)]

mod work;

use marrowbook::reading::{self, Given};
use marrowbook::record::{Carcass, Entry};
use marrowbook::science::cause::{Answers, Case, Cause, Drawn, Table, ends};
use wasm_bindgen::prelude::*;

/// One phone with the entries of `count` carcasses.
#[wasm_bindgen]
pub struct Filled {
    entries: Vec<Entry>,
    carcass: Carcass,
}

#[wasm_bindgen]
impl Filled {
    /// Fills the phone; not timed.
    #[wasm_bindgen(constructor)]
    pub fn new(count: u32) -> Self {
        let entries = work::entries(u128::from(count), &work::key());
        let carcass = work::folded(&entries).carcasses.into_values().next().expect("one carcass at least");
        Self { entries, carcass }
    }

    /// Makes and signs a bundle of all; returns its length in bytes.
    pub fn bundle(&self) -> u32 {
        work::bundle(&self.entries, &work::key()).len() as u32
    }

    /// Computes all readings of the first carcass but the drawn ranges of the cause; returns their written
    /// length.
    pub fn readings(&self) -> u32 {
        serde_json::to_string(&reading::all(&self.carcass, &Given { without_cause: true, ..Given::default() }))
            .expect("readings are written")
            .len() as u32
    }

    /// All readings with the ranges of the cause, the table drawn before.
    pub fn with_cause(&self) -> u32 {
        serde_json::to_string(&reading::all(&self.carcass, &Given::default())).expect("readings are written").len()
            as u32
    }

    /// Draws what the first carcass needs of the table from nothing, part by part, then its ranges; returns
    /// how many parts.
    pub fn draw(&self) -> u32 {
        let drawn = Drawn::new(Table::built_in());
        let case = work::twelve_rows(drawn.table());
        let mut parts = 0;
        while !drawn.prepare_a_part(&case) {
            parts += 1;
        }
        std::hint::black_box(ends(&drawn, &case, &Cause::ALL[..3]));
        parts
    }

    /// One part, the longest that can stand between two taps: the row with the most states.
    pub fn one_part(&self) -> bool {
        let drawn = Drawn::new(Table::built_in());
        let seen = Answers::NONE.with(18, 1);
        drawn.prepare_a_part(&Case { answers: seen, ..work::twelve_rows(drawn.table()) })
    }
}

fn main() {}
