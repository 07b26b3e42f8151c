//! The single looks that the model can take, so that it can say which one is still worth most.

use serde::{Deserialize, Serialize};

use super::evidence::JawSide;

/// A tooth of one side of the lower jaw.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[allow(missing_docs)] // zoological names
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

/// One look.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the names say tooth and scale
pub enum Item {
    CheekTeeth,
    P4State,
    M1State,
    M2State,
    M3State,
    I1State,
    OtherFront,
    P4Dentine,
    M1Dentine,
    M2Dentine,
    M3Dentine,
    M1Crest,
    M2Crest,
    M3Crest,
    M3Posterior,
    M1Infundibulum,
    M2Infundibulum,
    M3Infundibulum,
    PremolarWear,
    CannonPlate,
}

impl Item {
    /// Looks at which teeth are there.
    pub const ERUPTION: [Self; 7] =
        [Self::CheekTeeth, Self::P4State, Self::M1State, Self::M2State, Self::M3State, Self::I1State, Self::OtherFront];

    /// Looks at how worn they are, in the order of [`super::wear::SCALES`].
    pub const WEAR: [Self; 12] = [
        Self::P4Dentine,
        Self::M1Dentine,
        Self::M2Dentine,
        Self::M3Dentine,
        Self::M1Crest,
        Self::M2Crest,
        Self::M3Crest,
        Self::M3Posterior,
        Self::M1Infundibulum,
        Self::M2Infundibulum,
        Self::M3Infundibulum,
        Self::PremolarWear,
    ];

    /// Looks beside the teeth.
    pub const SKELETON: [Self; 1] = [Self::CannonPlate];

    /// The tooth that the look is at, where it is one tooth.
    pub const fn tooth(self) -> Option<Tooth> {
        match self {
            Self::CheekTeeth | Self::OtherFront | Self::PremolarWear | Self::CannonPlate => None,
            Self::I1State => Some(Tooth::I1),
            Self::P4State | Self::P4Dentine => Some(Tooth::P4),
            Self::M1State | Self::M1Dentine | Self::M1Crest | Self::M1Infundibulum => Some(Tooth::M1),
            Self::M2State | Self::M2Dentine | Self::M2Crest | Self::M2Infundibulum => Some(Tooth::M2),
            Self::M3State | Self::M3Dentine | Self::M3Crest | Self::M3Posterior | Self::M3Infundibulum => {
                Some(Tooth::M3)
            }
        }
    }

    /// The look as a stable id.
    pub const fn id(self) -> &'static str {
        match self {
            Self::CheekTeeth => "cheek_teeth",
            Self::P4State => "p4_state",
            Self::M1State => "m1_state",
            Self::M2State => "m2_state",
            Self::M3State => "m3_state",
            Self::I1State => "i1_state",
            Self::OtherFront => "other_front",
            Self::P4Dentine => "p4_dentine",
            Self::M1Dentine => "m1_dentine",
            Self::M2Dentine => "m2_dentine",
            Self::M3Dentine => "m3_dentine",
            Self::M1Crest => "m1_crest",
            Self::M2Crest => "m2_crest",
            Self::M3Crest => "m3_crest",
            Self::M3Posterior => "m3_posterior",
            Self::M1Infundibulum => "m1_infundibulum",
            Self::M2Infundibulum => "m2_infundibulum",
            Self::M3Infundibulum => "m3_infundibulum",
            Self::PremolarWear => "premolar_wear",
            Self::CannonPlate => "cannon_plate",
        }
    }

    /// The wear code seen on one side; `None` for a look at eruption and where nothing was seen.
    /// Premolar wear counts only on permanent teeth: milk premolars wear too.
    pub(super) fn wear_code(self, side: &JawSide) -> Option<u8> {
        let [d1, d2, d3] = side.dentine;
        let [c1, c2, c3] = side.crest;
        let [f1, f2, f3] = side.infundibulum;
        let permanent = side.p4 >= Some(super::evidence::P4State::PermanentWhite);
        match self {
            Self::P4Dentine => side.p4_dentine.filter(|_| permanent).map(super::evidence::Dentine::code),
            Self::M1Dentine => d1.map(super::evidence::Dentine::code),
            Self::M2Dentine => d2.map(super::evidence::Dentine::code),
            Self::M3Dentine => d3.map(super::evidence::Dentine::code),
            Self::M1Crest => c1.map(super::evidence::Crest::code),
            Self::M2Crest => c2.map(super::evidence::Crest::code),
            Self::M3Crest => c3.map(super::evidence::Crest::code),
            Self::M3Posterior => side.m3_posterior.and_then(super::evidence::M3Posterior::code),
            Self::M1Infundibulum => f1.map(super::evidence::Infundibulum::code),
            Self::M2Infundibulum => f2.map(super::evidence::Infundibulum::code),
            Self::M3Infundibulum => f3.map(super::evidence::Infundibulum::code),
            Self::PremolarWear => side.premolar_wear.filter(|_| permanent).map(super::evidence::PremolarWear::code),
            _ => None,
        }
    }

    /// Whether a side answers this look.
    pub(super) fn answered(self, side: &JawSide) -> bool {
        let [m1, m2, m3] = side.molars;
        match self {
            Self::CheekTeeth => side.row_count().is_some(),
            Self::P4State => side.p4.is_some(),
            Self::M1State => m1.is_some(),
            Self::M2State => m2.is_some(),
            Self::M3State => m3.is_some(),
            Self::I1State => side.i1.is_some(),
            Self::OtherFront => side.other_front.iter().any(Option::is_some),
            wear => wear.wear_code(side).is_some(),
        }
    }
}
