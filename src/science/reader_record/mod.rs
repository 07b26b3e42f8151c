//! A reader's own record: what they called jaws of which the age is known, and what that makes of a call.
//!
//! Where the office knows true ages, from tags or from rings of cementum, every reader and all readers
//! together have a table of calls against true classes. Rings are not the truth: a jaw of which only they
//! are known counts towards every class that they allow, in the shares that the ring count's own error, the
//! starting point and the reader's calls give. The published table stands behind each row with the weight of
//! twenty readings, so that a new reader starts there and moves with experience.
//!
//! | file | holds |
//! |---|---|
//! | [`tally`] | counting calls against known ages and ring counts |
//! | [`learn`] | the rows with their intervals, and the model made of them |
//! | [`direct`] | what exactly known ages alone say |
//! | [`model`] | a reader model that can be stored and read with |

pub mod direct;
pub mod learn;
pub mod model;
pub mod tally;

#[cfg(test)]
mod tests;

use super::source::{Mark, Source};

pub use direct::{Direct, Right};
pub use learn::{Cell, Learned, LearnedRow, learn};
pub use model::{BadModel, ReaderModel};
pub use tally::{Tally, Truth};

/// Readings that the published table is worth, a row. Ruled.
pub const PUBLISHED_WORTH: f64 = 20.0;

/// What a record rests on.
pub static SOURCES: [Source; 2] = [
    Source::new("reader-record", "calls by readers of the reserve against known ages and ring counts", Mark::Derived),
    Source::new(
        "reader-record-prior",
        "the published table worth 20 readings a row; ring counts with their own error",
        Mark::Design,
    ),
];
