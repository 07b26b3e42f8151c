//! Where a number comes from, and how far it may be trusted.
//!
//! Every estimate carries the list of what it rests on, and the mark of each travels to the screen
//! and the exports, so that a reader can tell a printed figure from a recollection.

use serde::Serialize;

/// How well a figure or rule is supported.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Mark {
    /// Read in a retrieved text (often its abstract).
    Seen,
    /// Arithmetic on figures that were read.
    Derived,
    /// Recalled and not confirmed; a biologist has to sign it off.
    Memory,
    /// A modelling choice; not published.
    Design,
    /// A rule put together here from cited evidence; not published as such.
    Ours,
}

impl Mark {
    /// The mark as one stable word, for message ids and exports.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Seen => "seen",
            Self::Derived => "derived",
            Self::Memory => "memory",
            Self::Design => "design",
            Self::Ours => "ours",
        }
    }

    /// Whether the screen has to say that nobody outside has confirmed the figure.
    pub const fn is_unconfirmed(self) -> bool {
        matches!(self, Self::Memory | Self::Design | Self::Ours)
    }
}

/// One thing that an estimate rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Source {
    /// Stable name, lower case with hyphens.
    pub id: &'static str,
    /// Author, year and journal or agency, or in a few words what was chosen and from what.
    pub cite: &'static str,
    /// How well it is supported.
    pub mark: Mark,
}

impl Source {
    /// A source, for the tables beside the constants.
    pub const fn new(id: &'static str, cite: &'static str, mark: Mark) -> Self {
        Self { id, cite, mark }
    }
}
