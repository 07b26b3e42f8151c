//! What was seen of the jaw, as the age method takes it.
//!
//! `None` is not looked at, cannot tell or gone: no evidence. That a tooth is absent is a value.
//! Teeth carry their zoological names; the crews' "third cheek tooth" is P4 (milk: dP4).

use serde::{Deserialize, Serialize};
use time::Date;

use super::more::MoreEvidence;

/// An ordered scale whose codes run from 0.
macro_rules! ordinal {
    ($(#[$meta:meta])* $name:ident { $($(#[$vmeta:meta])* $variant:ident = $code:literal,)+ }) => {
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        pub enum $name { $($(#[$vmeta])* $variant,)+ }

        impl $name {
            /// Every value, least advanced first.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)+];

            /// Its place on the scale.
            pub const fn code(self) -> u8 {
                match self { $(Self::$variant => $code,)+ }
            }
        }
    };
}

/// The species, as far as it was told.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Species {
    /// Odocoileus virginianus: the only one the method is for.
    WhiteTailed,
    /// Another species.
    Other,
    /// Not told.
    #[default]
    Unknown,
}

/// Sex.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sex {
    /// Doe.
    Female,
    /// Buck.
    Male,
}

ordinal! {
    /// State of the third cheek tooth.
    P4State {
        /// Milk tooth with three cusps.
        MilkThreeCusps = 0,
        /// Milk tooth loose or gone.
        MilkLooseOrGone = 1,
        /// Permanent tooth through the gum, below the row.
        PermanentBelowRow = 2,
        /// Permanent, full height, two cusps, white.
        PermanentWhite = 3,
        /// Permanent, stained or with a dentine line.
        PermanentStained = 4,
    }
}

ordinal! {
    /// State of one molar.
    MolarState {
        /// Nothing to be seen.
        NotVisible = 0,
        /// In the bone or the gum.
        InGum = 1,
        /// Some cusps through.
        CuspsThrough = 2,
        /// Full height, last cusp unworn.
        FullHeight = 3,
        /// In wear.
        InWear = 4,
    }
}

ordinal! {
    /// State of a front tooth.
    IncisorState {
        /// Milk tooth.
        Milk = 0,
        /// Milk tooth lost, or the permanent one coming.
        Erupting = 1,
        /// Permanent.
        Permanent = 2,
    }
}

ordinal! {
    /// Width of the brown dentine against the white enamel on the tongue-side crest.
    Dentine {
        /// No dentine line.
        None = 0,
        /// Narrower than the enamel.
        Narrower = 1,
        /// About as wide, 0.75 to 1.25.
        AsWide = 2,
        /// Wider, less than twice.
        Wider = 3,
        /// Twice as wide or more.
        TwiceAsWide = 4,
        /// The ridge is gone, the tooth dished or smooth.
        Smooth = 5,
    }
}

ordinal! {
    /// The tongue-side crest.
    Crest {
        /// Sharp.
        Sharp = 0,
        /// Slightly blunt.
        SlightlyBlunt = 1,
        /// Blunt.
        Blunt = 2,
        /// Rounded, nearly gone.
        Rounded = 3,
        /// Gone.
        Gone = 4,
    }
}

ordinal! {
    /// The funnel between the crests.
    Infundibulum {
        /// Open and deep.
        Open = 0,
        /// Narrow.
        Narrow = 1,
        /// A remnant.
        Remnant = 2,
        /// Gone.
        Gone = 3,
    }
}

ordinal! {
    /// Wear of the permanent premolars as a group.
    PremolarWear {
        /// None.
        None = 0,
        /// Light.
        Light = 1,
        /// Moderate.
        Moderate = 2,
        /// Heavy.
        Heavy = 3,
        /// Stumps.
        Stumps = 4,
    }
}

/// The last cusp of M3.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum M3Posterior {
    /// The third column is missing, peg-like or reduced: an anomaly, no evidence of age.
    AbsentOrPeg,
    /// Below the gum.
    BelowGum,
    /// An unworn cone.
    UnwornCone,
    /// Pointed, a trace of wear.
    TraceOfWear,
    /// Flat or hollow.
    FlatOrHollow,
    /// Slopes to the cheek.
    SlopesToCheek,
    /// Level with the rest of the tooth or below it.
    LevelOrBelow,
}

impl M3Posterior {
    /// Place on the wear scale 0 to 4; `None` for the anomaly.
    pub const fn code(self) -> Option<u8> {
        match self {
            Self::AbsentOrPeg => None,
            Self::BelowGum | Self::UnwornCone => Some(0),
            Self::TraceOfWear => Some(1),
            Self::FlatOrHollow => Some(2),
            Self::SlopesToCheek => Some(3),
            Self::LevelOrBelow => Some(4),
        }
    }
}

/// One side of the lower jaw.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct JawSide {
    /// Cheek teeth present, as counted.
    pub cheek_teeth: Option<u8>,
    /// A tiny extra P1 in front of the row, included in the count.
    pub extra_p1: Option<bool>,
    /// P2 missing from a jaw that otherwise has its row.
    pub p2_missing: Option<bool>,
    /// Third cheek tooth.
    pub p4: Option<P4State>,
    /// M1, M2, M3.
    pub molars: [Option<MolarState>; 3],
    /// First incisor.
    pub i1: Option<IncisorState>,
    /// I2, I3, C.
    pub other_front: [Option<IncisorState>; 3],
    /// Dentine of P4, only used where P4 is permanent.
    pub p4_dentine: Option<Dentine>,
    /// Dentine of M1, M2, M3.
    pub dentine: [Option<Dentine>; 3],
    /// Crests of M1, M2, M3.
    pub crest: [Option<Crest>; 3],
    /// Last cusp of M3.
    pub m3_posterior: Option<M3Posterior>,
    /// Funnels of M1, M2, M3.
    pub infundibulum: [Option<Infundibulum>; 3],
    /// Wear of P2 to P4, only used where P4 is permanent.
    pub premolar_wear: Option<PremolarWear>,
}

impl JawSide {
    /// Cheek teeth that belong to the row: the count less an extra P1 and with a missing P2 put back.
    /// Seven without a word on P1 is taken as six and P1 (2 of 401 jaws had one). `None` where the
    /// count cannot be that of a whole row, which is 3 to 6.
    pub fn row_count(&self) -> Option<u8> {
        let counted = self.cheek_teeth?;
        let less = u8::from(self.extra_p1 == Some(true) || (counted == 7 && self.extra_p1.is_none()));
        let more = u8::from(self.p2_missing == Some(true));
        let row = counted.checked_sub(less)?.checked_add(more)?;
        (3..=6).contains(&row).then_some(row)
    }
}

/// First and last day on which the deer can have died.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DeathWindow {
    /// First day.
    pub from: Date,
    /// Last day.
    pub to: Date,
}

/// A class called by a person from the whole jaw.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ClassCall {
    /// Fawn.
    Fawn,
    /// Yearling.
    Yearling,
    /// 2.5 in the hunters' reckoning: two completed birthdays.
    Two,
    /// 3.5.
    Three,
    /// 4.5.
    Four,
    /// 5.5.
    Five,
    /// 6.5.
    Six,
    /// 7.5.
    Seven,
    /// 8.5.
    Eight,
    /// 9.5.
    Nine,
    /// 10.5 and older: a wear class a reader may give, not a state of the model.
    TenPlus,
}

impl ClassCall {
    /// Every call, youngest first.
    pub const ALL: [Self; 11] = [
        Self::Fawn,
        Self::Yearling,
        Self::Two,
        Self::Three,
        Self::Four,
        Self::Five,
        Self::Six,
        Self::Seven,
        Self::Eight,
        Self::Nine,
        Self::TenPlus,
    ];

    /// Place in [`Self::ALL`].
    pub const fn index(self) -> usize {
        self as usize
    }
}

/// The hands-off call from size and shape.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum QuickClass {
    /// Looks like a fawn.
    Fawn,
    /// Looks older.
    Older,
}

/// Things about the jaw that widen or warn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct JawFlags {
    /// Crew saw that left and right differ.
    pub sides_differ: Option<bool>,
    /// Lump, swelling or necrosis.
    pub swelling: Option<bool>,
    /// Broken teeth.
    pub broken_teeth: Option<bool>,
    /// Cooked, bleached or weathered.
    pub weathered: Option<bool>,
    /// Read from a photo only.
    pub photo_only: Option<bool>,
}

/// All that the age method is given about one deer.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct AgeEvidence {
    /// Species; anything but white-tailed is refused.
    pub species: Species,
    /// When it can have died.
    pub death: Option<DeathWindow>,
    /// Latitude north, degrees, where known: the birth dates hold north of about 38.
    pub latitude_deg: Option<f64>,
    /// Sex, where known.
    pub sex: Option<Sex>,
    /// Left side of the lower jaw.
    pub left: JawSide,
    /// Right side.
    pub right: JawSide,
    /// A class called from the whole jaw.
    pub class_call: Option<ClassCall>,
    /// Fawn or older at a glance.
    pub quick_class: Option<QuickClass>,
    /// Warnings about the jaw.
    pub flags: JawFlags,
    /// Calipers, rings, growing ends, antlers, size, signs of sex.
    pub more: MoreEvidence,
}

impl AgeEvidence {
    /// Both sides.
    pub(super) const fn sides(&self) -> [&JawSide; 2] {
        [&self.left, &self.right]
    }

    /// The larger row count of the two sides: a missing tooth on one side does not make a fawn.
    pub(super) fn row_count(&self) -> Option<u8> {
        self.sides().into_iter().filter_map(JawSide::row_count).max()
    }

    /// The less advanced third cheek tooth of the two sides.
    pub(super) fn p4(&self) -> Option<P4State> {
        self.sides().into_iter().filter_map(|s| s.p4).min()
    }

    /// The more advanced state of a molar (0 for M1).
    pub(super) fn molar(&self, molar: usize) -> Option<MolarState> {
        self.sides().into_iter().filter_map(|s| s.molars.get(molar).copied().flatten()).max()
    }

    /// The wider dentine of a molar.
    pub(super) fn dentine(&self, molar: usize) -> Option<Dentine> {
        self.sides().into_iter().filter_map(|s| s.dentine.get(molar).copied().flatten()).max()
    }

    /// The blunter crest of a molar.
    pub(super) fn crest(&self, molar: usize) -> Option<Crest> {
        self.sides().into_iter().filter_map(|s| s.crest.get(molar).copied().flatten()).max()
    }

    /// The less advanced first incisor.
    pub(super) fn i1(&self) -> Option<IncisorState> {
        self.sides().into_iter().filter_map(|s| s.i1).min()
    }

    /// Whether the third column of M3 is missing, peg-like or reduced on either side.
    pub(super) fn third_column_anomaly(&self) -> bool {
        self.sides().into_iter().any(|s| s.m3_posterior == Some(M3Posterior::AbsentOrPeg))
    }

    /// Clear wear on a molar: dentine wider than enamel, or the crest blunt or worse.
    pub(super) fn clearly_worn(&self, molar: usize) -> bool {
        self.dentine(molar).is_some_and(|d| d >= Dentine::Wider) || self.crest(molar).is_some_and(|c| c >= Crest::Blunt)
    }

    /// Whether anything at all was seen of the wear of a molar.
    pub(super) fn wear_seen(&self, molar: usize) -> bool {
        self.dentine(molar).is_some() || self.crest(molar).is_some()
    }
}
