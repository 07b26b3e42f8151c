//! Weight lost against a reference weight, and for how many days fat would last: a figure for teaching.
//!
//! Every input is a range, and so is every result: its ends are reached at the ends of the inputs, because
//! each input moves the result one way only.
//!
//! | file | holds |
//! |---|---|
//! | [`loss`] | weight lost, and its bands |
//! | [`days`] | daily need, what is eaten, days of reserve |
//! | [`sources`] | what all of it rests on |

pub mod days;
pub mod loss;
pub mod sources;

#[cfg(test)]
mod tests;

use serde::{Deserialize, Serialize};

/// From the least to the most that an input may be.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Range {
    /// Least.
    pub low: f64,
    /// Most.
    pub high: f64,
}

impl Range {
    /// A range; `None` unless both ends are finite, not below zero and in order.
    pub fn new(low: f64, high: f64) -> Option<Self> {
        (low.is_finite() && high.is_finite() && low >= 0.0 && low <= high).then_some(Self { low, high })
    }

    /// For constants, whose ends are in order.
    const fn of(low: f64, high: f64) -> Self {
        Self { low, high }
    }

    /// Half way.
    pub const fn middle(self) -> f64 {
        f64::midpoint(self.low, self.high)
    }
}
