//! What is about to be written: a finding, its place and an answer. Subject, person, time and
//! versions are added where it is written.

use crate::record::{Answer, Site};

/// Stands for the step in an answer that the record settled without anybody being asked. It counts
/// as long as the same rule gives the same answer; when what it rested on is corrected, the question
/// is open again.
pub const RULED_OUT: &str = "ruled_out";

/// Stands for the step in an answer that was written because the crew left. It counts while the
/// examination is closed; taking the closing back opens the question again.
pub const LEFT: &str = "left";

pub use crate::record::sample_number::UNLABELLED;

/// An answer about to be written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Draft {
    /// The finding's code.
    pub finding: &'static str,
    /// Its place.
    pub site: Site,
    /// The answer.
    pub answer: Answer,
    /// The step that asked; or [`RULED_OUT`], [`LEFT`].
    pub step: &'static str,
}
