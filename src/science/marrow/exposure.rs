//! What happened to the marrow between death and the look at it.

use serde::Serialize;

/// Whether the shaft was closed before the crew opened it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Opened {
    /// Shaft closed: valid.
    Intact,
    /// Broken or gnawed open for less than a day.
    UnderADay,
    /// For more than a day.
    OverADay,
    /// Open, nobody knows how long; treated as more than a day.
    UnknownTime,
}

/// Frost.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Frost {
    /// Never frozen.
    NeverFrozen,
    /// Frozen when looked at: no class can be given until it has thawed.
    FrozenNow,
    /// Had been frozen, thawed before the look or the weighing.
    Thawed,
}

/// All of it. `None` is not asked, not looked or cannot tell.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Exposure {
    /// Open shaft and for how long.
    pub opened: Option<Opened>,
    /// Frost.
    pub frost: Option<Frost>,
    /// Marrow looks dried out.
    pub dried: Option<bool>,
    /// Rain-soaked, sour or mouldy.
    pub wet_or_mouldy: Option<bool>,
    /// Carcass past fresh when it was looked at.
    pub decomposed: Option<bool>,
}

impl Exposure {
    /// Whether water may have been lost to the air, which raises the apparent fat.
    pub const fn may_be_dried(self) -> bool {
        matches!(self.dried, Some(true)) || matches!(self.opened, Some(Opened::OverADay | Opened::UnknownTime))
    }
}
