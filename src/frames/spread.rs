//! The sender's half: the file cut into symbols, and any frame of it.

use crate::record::Digest;

use super::frame::{FileName, Frame};
use super::{MOST_BYTES, SYMBOL_BYTES, mix};

/// A file that can be shown.
#[derive(Clone, Debug)]
pub struct Spread {
    file: FileName,
    bytes: Vec<u8>,
}

/// The file is empty, or larger than what goes through a camera in bearable time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{0} bytes; between 1 and {MOST_BYTES} can be shown")]
pub struct TooLarge(pub usize);

impl Spread {
    /// Cut a file.
    ///
    /// # Errors
    /// Where it is empty or too large.
    pub fn new(mut bytes: Vec<u8>) -> Result<Self, TooLarge> {
        let length = bytes.len();
        if length == 0 || length > MOST_BYTES {
            return Err(TooLarge(length));
        }
        let file = FileName { digest: short_digest(&bytes), bytes: length };
        bytes.resize(file.symbols() * SYMBOL_BYTES, 0);
        Ok(Self { file, bytes })
    }

    /// Frames of one pass: as many as a reader that misses none needs.
    pub fn symbols(&self) -> usize {
        self.file.symbols()
    }

    /// A frame's bytes. Numbers from [`symbols`](Self::symbols) on are never the same twice, so a sender goes on
    /// and on and a reader may begin anywhere.
    pub fn frame(&self, number: u32) -> Vec<u8> {
        let number = number % super::frame::NUMBERS;
        let mut symbol = vec![0; SYMBOL_BYTES];
        let mask = mix::mixed(&self.file, number);
        for (place, part) in self.bytes.chunks_exact(SYMBOL_BYTES).enumerate() {
            if mask.get(place / 64).is_some_and(|word| word >> (place % 64) & 1 == 1) {
                mix::add(&mut symbol, part);
            }
        }
        Frame { file: self.file, number, symbol }.write()
    }
}

/// The first bytes of the SHA-256, by which frames know their file.
pub(super) fn short_digest(bytes: &[u8]) -> [u8; 8] {
    let Digest(all) = Digest::of(&[bytes]);
    all.first_chunk::<8>().copied().unwrap_or_default()
}
