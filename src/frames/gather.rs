//! The reader's half: frames in any order, until the file is whole.

use super::frame::{FileName, Frame, NotOurs};
use super::{mix, spread};

/// Files that are gathered at a time. Two senders may stand side by side; more is no use at a trailhead.
const FILES: usize = 2;

/// What a frame was good for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Taken {
    /// It brought something new.
    More {
        /// How far its file is.
        have: usize,
        /// How many it needs.
        need: usize,
    },
    /// Nothing new: seen before, or its content follows from what is here.
    Nothing {
        /// How far its file is.
        have: usize,
        /// How many it needs.
        need: usize,
    },
    /// The file is whole and has the digest that its frames name.
    Whole(Vec<u8>),
    /// All symbols are here and the digest is another: a frame was false. All of this file is dropped.
    False,
}

/// Files on their way.
#[derive(Clone, Debug, Default)]
pub struct Gather {
    /// The one fed last stands last.
    files: Vec<One>,
}

/// One file: equations over its symbols, each solved for its lowest symbol. At most 1 MB of symbols and 1.1 MB of bits.
#[derive(Clone, Debug)]
struct One {
    file: FileName,
    /// By the symbol that it is solved for: which symbols are mixed, and their sum.
    rows: Vec<Option<(Vec<u64>, Vec<u8>)>>,
    have: usize,
}

impl Gather {
    /// Nothing yet.
    pub fn new() -> Self {
        Self::default()
    }

    /// Take what a code holds.
    ///
    /// # Errors
    /// Why it is no frame to be used. Nothing is changed then.
    pub fn take(&mut self, code: &[u8]) -> Result<Taken, NotOurs> {
        let frame = Frame::read(code)?;
        let place = self.files.iter().position(|one| one.file == frame.file);
        let mut one = match place {
            Some(place) => self.files.remove(place),
            None => One::new(frame.file),
        };
        let new = one.add(&frame);
        let (have, need) = (one.have, one.rows.len());
        if have == need {
            let bytes = one.solve();
            return Ok(if spread::short_digest(&bytes) == frame.file.digest {
                Taken::Whole(bytes)
            } else {
                Taken::False
            });
        }
        self.files.push(one);
        if self.files.len() > FILES {
            self.files.remove(0);
        }
        Ok(if new { Taken::More { have, need } } else { Taken::Nothing { have, need } })
    }
}

impl One {
    fn new(file: FileName) -> Self {
        Self { file, rows: vec![None; file.symbols()], have: 0 }
    }

    /// True where the frame brought something new.
    fn add(&mut self, frame: &Frame) -> bool {
        let mut mask = mix::mixed(&self.file, frame.number);
        let mut symbol = frame.symbol.clone();
        while let Some(lowest) = lowest(&mask) {
            match self.rows.get_mut(lowest) {
                Some(Some((other, sum))) => {
                    mask.iter_mut().zip(&*other).for_each(|(a, b)| *a ^= b);
                    mix::add(&mut symbol, sum);
                }
                Some(empty) => {
                    *empty = Some((mask, symbol));
                    self.have += 1;
                    return true;
                }
                None => return false,
            }
        }
        false
    }

    /// From the last symbol to the first, each freed of those behind it.
    fn solve(self) -> Vec<u8> {
        let mut solved: Vec<Vec<u8>> = Vec::with_capacity(self.rows.len());
        let last = self.rows.len().saturating_sub(1);
        for (place, row) in self.rows.into_iter().enumerate().rev() {
            let Some((mask, mut symbol)) = row else { continue };
            for behind in place + 1..=last {
                let mixed = mask.get(behind / 64).is_some_and(|word| word >> (behind % 64) & 1 == 1);
                if mixed && let Some(other) = solved.get(last - behind) {
                    mix::add(&mut symbol, other);
                }
            }
            solved.push(symbol);
        }
        let mut bytes: Vec<u8> = solved.into_iter().rev().flatten().collect();
        bytes.truncate(self.file.bytes);
        bytes
    }
}

fn lowest(mask: &[u64]) -> Option<usize> {
    mask.iter().position(|word| *word != 0).map(|at| {
        let bit = mask.get(at).copied().unwrap_or_default().trailing_zeros() as usize;
        at * 64 + bit
    })
}

#[cfg(test)]
#[path = "gather_tests.rs"]
mod tests;
