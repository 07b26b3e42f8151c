//! Where on the animal, or which one of several, or on which day of a log, a finding was made.

use serde::{Deserialize, Serialize};

use super::Day;

/// Side of the animal, as the animal would name it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)]
pub enum Side {
    Left,
    Right,
}

impl Side {
    /// The code used in records and message ids.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
        }
    }
}

/// A lower tooth by its zoological name, front to back. P2 to P4 are the crew's first to third
/// cheek tooth, whether the milk or the permanent one stands there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)]
pub enum Tooth {
    I1,
    I2,
    I3,
    C,
    P1,
    P2,
    P3,
    P4,
    M1,
    M2,
    M3,
}

impl Tooth {
    /// The six lower cheek teeth, front to back.
    pub const CHEEK: [Self; 6] = [Self::P2, Self::P3, Self::P4, Self::M1, Self::M2, Self::M3];
    /// The three lower molars, front to back.
    pub const MOLARS: [Self; 3] = [Self::M1, Self::M2, Self::M3];

    /// The zoological name as printed.
    pub const fn name(self) -> &'static str {
        match self {
            Self::I1 => "I1",
            Self::I2 => "I2",
            Self::I3 => "I3",
            Self::C => "C",
            Self::P1 => "P1",
            Self::P2 => "P2",
            Self::P3 => "P3",
            Self::P4 => "P4",
            Self::M1 => "M1",
            Self::M2 => "M2",
            Self::M3 => "M3",
        }
    }
}

/// A bone whose marrow may be looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)]
pub enum Bone {
    Femur,
    Tibia,
    Humerus,
    Radius,
    Metatarsus,
    Metacarpus,
    Mandible,
}

impl Bone {
    /// All bones, in the order in which they are preferred for a look at marrow.
    pub const ALL: [Self; 7] =
        [Self::Femur, Self::Tibia, Self::Humerus, Self::Radius, Self::Metatarsus, Self::Metacarpus, Self::Mandible];

    /// The bone of a code.
    pub fn of_code(code: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|bone| bone.code() == code)
    }

    /// The code used in records and message ids.
    pub const fn code(self) -> &'static str {
        match self {
            Self::Femur => "femur",
            Self::Tibia => "tibia",
            Self::Humerus => "humerus",
            Self::Radius => "radius",
            Self::Metatarsus => "metatarsus",
            Self::Metacarpus => "metacarpus",
            Self::Mandible => "mandible",
        }
    }
}

/// The place of a finding. All parts are optional; what a finding uses is in its definition.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Site {
    /// Side of the animal.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub side: Option<Side>,
    /// Lower tooth.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tooth: Option<Tooth>,
    /// Bone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bone: Option<Bone>,
    /// Which one of several of the same kind (wound, sample, photo), from 1.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub item: Option<u16>,
    /// Which day of a log kept day by day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub day: Option<Day>,
}

impl Site {
    /// No particular place.
    pub const NONE: Self = Self { side: None, tooth: None, bone: None, item: None, day: None };

    /// A tooth of one side.
    pub const fn tooth(side: Side, tooth: Tooth) -> Self {
        Self { side: Some(side), tooth: Some(tooth), ..Self::NONE }
    }

    /// A bone, side not told.
    pub const fn bone(bone: Bone) -> Self {
        Self { bone: Some(bone), ..Self::NONE }
    }

    /// A side.
    pub const fn side(side: Side) -> Self {
        Self { side: Some(side), ..Self::NONE }
    }

    /// One of several, numbered from 1.
    pub const fn item(item: u16) -> Self {
        Self { item: Some(item), ..Self::NONE }
    }

    /// A day of a log.
    pub const fn day(day: Day) -> Self {
        Self { day: Some(day), ..Self::NONE }
    }

    /// True where nothing is told.
    pub fn is_none(&self) -> bool {
        *self == Self::NONE
    }
}
