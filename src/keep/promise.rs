//! What can be promised about an answer that was just given.

/// What an answer survives. Ordered from least to most.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Promise {
    /// Nothing but this page's memory holds it: closing the page loses it.
    MemoryOnly,
    /// It survives a crashed or closed tab; a phone that dies in the next seconds may lose it.
    CrashedTabOnly,
    /// It survives a crash and a dead battery.
    CrashAndPowerLoss,
}
