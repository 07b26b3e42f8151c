//! How much fat is seen at a depot, and what that says of the depot alone.

use serde::Serialize;

/// A depot outside the bones, in the order in which they empty: under the skin, in the belly, round kidney
/// and heart. Seen: Michigan DNR text on starvation; Austin 1984, Great Basin Nat. 44:178-181.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Depot {
    /// Under the skin of back and rump.
    Rump,
    /// Under the skin of the breast.
    Brisket,
    /// The apron and the folds that hold the gut.
    Gut,
    /// Round the kidneys.
    Kidney,
    /// In the groove round the heart.
    Heart,
    /// On the bag of the heart.
    Pericardium,
}

/// Place in the order of emptying, first to last; marrow comes after all of these.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Turn {
    /// Under the skin.
    First,
    /// In the belly.
    Second,
    /// Round kidney and heart.
    Third,
}

impl Depot {
    /// All, in the order in which they empty.
    pub const ALL: [Self; 6] = [Self::Rump, Self::Brisket, Self::Gut, Self::Kidney, Self::Heart, Self::Pericardium];

    /// When its turn comes.
    pub const fn turn(self) -> Turn {
        match self {
            Self::Rump | Self::Brisket => Turn::First,
            Self::Gut => Turn::Second,
            Self::Kidney | Self::Heart | Self::Pericardium => Turn::Third,
        }
    }
}

/// How much is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Amount {
    /// None.
    None,
    /// Slight.
    Slight,
    /// Moderate.
    Moderate,
    /// Heavy.
    Heavy,
}

/// A depot as it was seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct DepotLook {
    /// How much.
    pub amount: Amount,
    /// Watery or jelly-like: what is left is no fat any more (serous atrophy).
    pub watery: bool,
}

/// What a depot says of itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    /// Nothing is left, or nothing that is fat.
    Gone,
    /// Little is left.
    Low,
    /// There is fat.
    Present,
}

impl DepotLook {
    /// The amount that counts: watery fat counts as none. Recalled rule of a score, taken over as ours.
    pub const fn counted(self) -> Amount {
        if self.watery { Amount::None } else { self.amount }
    }

    /// What it says of the depot.
    pub const fn stage(self) -> Stage {
        match self.counted() {
            Amount::None => Stage::Gone,
            Amount::Slight => Stage::Low,
            Amount::Moderate | Amount::Heavy => Stage::Present,
        }
    }
}

/// Muscle along back and rump.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Muscle {
    /// Wasted.
    Wasted,
    /// Lean.
    Lean,
    /// Full.
    Full,
}
