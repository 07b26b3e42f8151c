//! Exit codes, see the table of the room.

use crate::office::opening::Outcome;

/// How the program ends. Ordered from best to worst.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Exit {
    /// 0
    Done,
    /// 3
    UnknownDevice,
    /// 5
    Newer,
    /// 1
    Failed,
    /// 4
    Damaged,
    /// 2
    Usage,
}

impl Exit {
    /// The code.
    pub fn code(self) -> i32 {
        match self {
            Self::Done => 0,
            Self::Failed => 1,
            Self::Usage => 2,
            Self::UnknownDevice => 3,
            Self::Damaged => 4,
            Self::Newer => 5,
        }
    }
}

impl From<Outcome> for Exit {
    fn from(outcome: Outcome) -> Self {
        match outcome {
            Outcome::Intact => Self::Done,
            Outcome::UnknownDevice => Self::UnknownDevice,
            Outcome::Newer => Self::Newer,
            Outcome::Damaged => Self::Damaged,
        }
    }
}
