//! The phone's rows that need no screen, as a wasm of their own, so that the form carries no benchmark.
//! `tests/bench/rows.mjs` loads it into a page whose processor is slowed down.
#![allow(clippy::expect_used, clippy::indexing_slicing, clippy::cast_possible_truncation, missing_docs)]

mod work;

use marrowbook::reading::{self, Given};
use marrowbook::record::{Carcass, Entry};
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

    /// Computes all readings of the first carcass, with their intervals; returns their written length.
    pub fn readings(&self) -> u32 {
        serde_json::to_string(&reading::all(&self.carcass, &Given::default())).expect("readings are written").len()
            as u32
    }
}

fn main() {}
