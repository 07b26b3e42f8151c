//! Two scales that differ by seven points and are kept apart, the bands, and the words.

use serde::Serialize;

/// Percent dry weight of fresh marrow, `D = 100 * dry / wet`, 0 to 100. Many papers print this as
/// "percent marrow fat"; it is not [`FatPercent`].
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize)]
#[serde(transparent)]
pub struct DryPercent(f64);

/// Percent fat of fresh marrow, `F = D - 7` held within 0 to 100.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Serialize)]
#[serde(transparent)]
pub struct FatPercent(f64);

/// What fat is lower than dry weight by: the solids that are not fat. Seen in Sinclair, Fryxell and
/// Caughley 2006, citing Hanks 1981; holds for temperate and tropical ruminants as an approximation.
pub const DRY_MINUS_FAT: f64 = 7.0;

impl DryPercent {
    /// Held within 0 to 100; `None` if not a number.
    pub fn new(percent: f64) -> Option<Self> {
        (!percent.is_nan()).then(|| Self(percent.clamp(0.0, 100.0)))
    }

    /// The percentage.
    pub const fn get(self) -> f64 {
        self.0
    }

    /// The fat that this dry weight stands for.
    pub fn fat(self) -> FatPercent {
        FatPercent((self.0 - DRY_MINUS_FAT).clamp(0.0, 100.0))
    }
}

impl FatPercent {
    /// Held within 0 to 100; `None` if not a number.
    pub fn new(percent: f64) -> Option<Self> {
        (!percent.is_nan()).then(|| Self(percent.clamp(0.0, 100.0)))
    }

    /// A limit of a band.
    pub(super) const fn limit(percent: f64) -> Self {
        Self(percent)
    }

    /// The percentage.
    pub const fn get(self) -> f64 {
        self.0
    }

    /// The word for this fat in a deer of this age group.
    pub fn word(self, group: AgeGroup) -> Word {
        if self.0 < EXHAUSTED_BELOW {
            Word::Exhausted
        } else if self.0 < group.depleted_below() {
            Word::Depleted
        } else if self.0 < FULL_FROM {
            Word::PartlyUsed
        } else {
            Word::MarrowFull
        }
    }
}

/// Below this fat the marrow reserve is gone, any age. Seen: Sinclair, Fryxell and Caughley 2006.
pub const EXHAUSTED_BELOW: f64 = 15.0;
/// From this fat marrow is full, any age. Seen in the same table.
pub const FULL_FROM: f64 = 85.0;
/// Sika calves below this femur fat did not live through winter. Seen: Hokkaido, abstract of 2000.
pub const FAWN_DEPLETED_BELOW: f64 = 45.0;
/// Sika does below this femur fat did not live through winter. Seen in the same abstract.
pub const ADULT_DEPLETED_BELOW: f64 = 25.0;

/// The split that the limits make, at 12 months.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum AgeGroup {
    /// Under 12 months.
    Fawn,
    /// 12 months and older.
    Adult,
}

impl AgeGroup {
    /// Fat below which the group's marrow is called depleted.
    pub const fn depleted_below(self) -> f64 {
        match self {
            Self::Fawn => FAWN_DEPLETED_BELOW,
            Self::Adult => ADULT_DEPLETED_BELOW,
        }
    }

    /// The group to speak of, from the probability that the deer was a fawn; `None`: show both.
    /// Limits 0.8 and 0.2, as for a single age class.
    pub fn from_fawn_probability(p_fawn: f64) -> Option<Self> {
        if p_fawn >= 0.8 {
            Some(Self::Fawn)
        } else if p_fawn <= 0.2 {
            Some(Self::Adult)
        } else {
            None
        }
    }
}

/// What is said of the marrow reserve. None of the words says how the deer was.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Word {
    /// The reserve is gone.
    Exhausted,
    /// Below the level at which sika deer of that age lived through winter.
    Depleted,
    /// Some of it is used.
    PartlyUsed,
    /// Nothing of it is used yet; other stores may be gone.
    MarrowFull,
}

impl Word {
    /// The word as a stable id.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Exhausted => "exhausted",
            Self::Depleted => "depleted",
            Self::PartlyUsed => "partly_used",
            Self::MarrowFull => "marrow_full",
        }
    }
}
