//! Points under the pins of a frame, as they stand in the record: codes of plants apart by one blank, in
//! the order in which they were tapped, at most ten to a frame.

use crate::order::Short as _;
use std::collections::BTreeMap;

/// Most points of one frame. Ten pins to a frame: common practice, no source. One frame is one entry, so
/// that a count of 400 points is 40 entries.
pub const FRAME: usize = 10;
/// Fewest points that are asked for. Ours, from a microscopic point method.
pub const FEWEST: u32 = 100;
/// Points that are better. Ours.
pub const BETTER: u32 = 200;
/// Longest code of a plant.
const LONGEST: usize = 40;

/// Why a frame cannot be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum FrameError {
    /// No point in it.
    #[error("a frame without a point says nothing: tap a plant for each pin, or take the frame back")]
    Empty,
    /// More points than a frame has pins.
    #[error("a frame has at most {FRAME} points; this one has {0}: begin the next frame")]
    TooMany(usize),
    /// A word that no plant's code can be.
    #[error("a plant's code is one word of small letters, digits and underscores, at most {LONGEST} long")]
    NoCode,
}

/// The codes of a frame, in order. Codes that this version does not know are kept as they stand.
///
/// # Errors
/// [`FrameError`].
pub fn frame(text: &str) -> Result<Vec<&str>, FrameError> {
    let codes: Vec<&str> = text.split(' ').filter(|code| !code.is_empty()).collect();
    let plain = |code: &&str| {
        code.len() <= LONGEST && code.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'_')
    };
    match codes.len() {
        0 => Err(FrameError::Empty),
        n if n > FRAME => Err(FrameError::TooMany(n)),
        _ if codes.iter().all(plain) => Ok(codes),
        _ => Err(FrameError::NoCode),
    }
}

/// Points by plant.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Points of each code.
    pub points: BTreeMap<String, u32>,
    /// Frames that they came from.
    pub frames: u32,
}

impl Tally {
    /// Adds a frame.
    ///
    /// # Errors
    /// Where the frame cannot be read; then nothing is added.
    pub fn add(&mut self, text: &str) -> Result<(), FrameError> {
        for code in frame(text)? {
            *self.points.entry(code.to_owned()).or_default() += 1;
        }
        self.frames += 1;
        Ok(())
    }

    /// All points.
    pub fn total(&self) -> u32 {
        self.points.values().sum()
    }

    /// Plants and their points, most points first; of as many, by code.
    pub fn ranked(&self) -> Vec<(&str, u32)> {
        let mut all: Vec<(&str, u32)> = self.points.iter().map(|(code, n)| (code.as_str(), *n)).collect();
        all.order_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(b.0)));
        all
    }
}
