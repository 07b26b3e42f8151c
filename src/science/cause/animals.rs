//! A set of causes, for records that name the animal.

use super::causes::Cause;

/// Which animals a record names.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Animals(u16);

impl Animals {
    /// That one alone.
    pub const fn only(cause: Cause) -> Self {
        Self(1 << cause as u16)
    }

    /// Takes one in.
    pub const fn add(&mut self, cause: Cause) {
        self.0 |= 1 << cause as u16;
    }

    /// Whether it is named.
    pub const fn has(self, cause: Cause) -> bool {
        self.0 & (1 << cause as u16) != 0
    }

    /// None is named.
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }

    /// Two or more are named.
    pub const fn differ(self) -> bool {
        self.0.count_ones() > 1
    }

    /// Something is named, and not this alone.
    pub const fn contradict(self, cause: Cause) -> bool {
        !self.is_empty() && self.0 != Self::only(cause).0
    }
}
