//! What is about to be written: a finding, its place and an answer. Subject, person, time and
//! versions are added where it is written.

use crate::record::{Answer, Site};

/// An answer about to be written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Draft {
    /// The finding's code.
    pub finding: &'static str,
    /// Its place.
    pub site: Site,
    /// The answer.
    pub answer: Answer,
    /// The step that asked.
    pub step: &'static str,
}
