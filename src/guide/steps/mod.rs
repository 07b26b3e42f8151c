//! The protocol: every step, by phase.

mod hands_off;

use super::Step;

/// All steps, in the order in which they are asked within their phase.
pub const STEPS: [&[Step]; 1] = [hands_off::STEPS];
