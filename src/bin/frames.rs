//! The part that shows and reads frames: what `public/parts/frames.js` calls. Thin: everything is in the library.

use marrowbook::frames::{Gather, NotOurs, Spread, Taken, paint, read};
use wasm_bindgen::prelude::wasm_bindgen;

/// A file to be shown.
#[wasm_bindgen]
pub struct Sender(Spread);

#[wasm_bindgen]
impl Sender {
    /// Nothing where the file is empty or too large.
    pub fn of(bytes: Vec<u8>) -> Option<Sender> {
        Spread::new(bytes).ok().map(Sender)
    }

    /// Frames of one pass.
    pub fn symbols(&self) -> u32 {
        u32::try_from(self.0.symbols()).unwrap_or(u32::MAX)
    }

    /// A frame's code: a byte a module, row by row, 1 is dark.
    pub fn modules(&self, number: u32) -> Vec<u8> {
        let rows = paint::modules(&self.0.frame(number)).unwrap_or_default();
        rows.into_iter().flatten().map(u8::from).collect()
    }
}

/// The code of a text: a byte a module, row by row, 1 is dark; empty where the text is longer than a code holds.
#[wasm_bindgen]
pub fn text_modules(text: &str) -> Vec<u8> {
    let rows = paint::text_modules(text).unwrap_or_default();
    rows.into_iter().flatten().map(u8::from).collect()
}

/// What the codes in a picture hold, one after the other, each behind its length in two bytes. From red, green,
/// blue and opacity.
#[wasm_bindgen]
pub fn codes(width: usize, height: usize, rgba: &[u8]) -> Vec<u8> {
    let mut all = Vec::new();
    for code in read::codes(width, height, &read::luma(rgba)) {
        let Ok(length) = u16::try_from(code.len()) else { continue };
        all.extend_from_slice(&length.to_be_bytes());
        all.extend_from_slice(&code);
    }
    all
}

/// Files on their way.
#[wasm_bindgen]
#[derive(Default)]
pub struct Receiver {
    gather: Gather,
    /// How far the file is whose frame came last.
    pub have: u32,
    /// How many it needs.
    pub need: u32,
    whole: Option<Vec<u8>>,
}

#[wasm_bindgen]
impl Receiver {
    /// Nothing yet.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Receiver {
        Receiver::default()
    }

    /// Take what a code holds; what it was good for, in a word: `more`, `same`, `whole`, `false`, `foreign`,
    /// `version`, `damaged` or `large`.
    pub fn take(&mut self, code: &[u8]) -> String {
        let far = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        let word = match self.gather.take(code) {
            Ok(Taken::More { have, need }) => {
                (self.have, self.need) = (far(have), far(need));
                "more"
            }
            Ok(Taken::Nothing { have, need }) => {
                (self.have, self.need) = (far(have), far(need));
                "same"
            }
            Ok(Taken::Whole(bytes)) => {
                self.whole = Some(bytes);
                "whole"
            }
            Ok(Taken::False) => "false",
            Err(NotOurs::Foreign) => "foreign",
            Err(NotOurs::OtherVersion(_)) => "version",
            Err(NotOurs::Damaged) => "damaged",
            Err(NotOurs::Length(_)) => "large",
        };
        word.to_owned()
    }

    /// The file, once.
    pub fn whole(&mut self) -> Option<Vec<u8>> {
        self.whole.take()
    }
}

fn main() {}
