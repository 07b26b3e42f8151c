//! Condition from bone marrow: the look in the field, the weighing on the bench.
//!
//! Three rules stand above the rest. The evidence is one-way: empty marrow supports poor condition,
//! full marrow never proves good condition, because other stores go first. Condition is not cause: a
//! killed deer may be depleted and a starved one eaten. The raw look and the raw weights are what is
//! stored; everything here is recomputed from them.
//!
//! | file | holds |
//! |---|---|
//! | [`scale`] | dry percent and fat percent as two types that do not mix, bands, words |
//! | [`exposure`] | what air, frost, rain and decay do to a reading |
//! | [`look`] | consistency first, then opacity, then colour |
//! | [`weighing`] | the dry-weight method |
//! | [`sources`] | what all of it rests on |

pub mod exposure;
pub mod look;
pub mod scale;
pub mod sources;
pub mod weighing;

use serde::Serialize;

pub use exposure::{Exposure, Frost, Opened};
pub use look::{Colour, Consistency, LookReading, LookRefusal, MarrowClass, MarrowLook, Opacity, read_look};
pub use scale::{AgeGroup, DryPercent, FatPercent, Word};
pub use weighing::{DryWeighing, LabScale, LossRow, WeighingReading, WeighingRefusal, read_lab, read_weighing};

/// The bone that the marrow came from. Never pooled: each empties at its own time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Bone {
    /// Preferred: the middle of the shaft.
    Femur,
    /// Second best.
    Tibia,
    /// Second best.
    Humerus,
    /// Between.
    Radius,
    /// Distal, empties late.
    Metacarpus,
    /// Distal, empties late.
    Metatarsus,
    /// Used before the femur; differs left and right in young deer.
    Mandible,
}

impl Bone {
    /// All bones, preferred first.
    pub const ALL: [Self; 7] =
        [Self::Femur, Self::Tibia, Self::Humerus, Self::Radius, Self::Metacarpus, Self::Metatarsus, Self::Mandible];

    /// Whether fat goes from this bone last, so that a normal look clears nothing.
    pub const fn is_distal(self) -> bool {
        matches!(self, Self::Metacarpus | Self::Metatarsus)
    }
}

/// What the marrow says about its own reserve, for one age group.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// One word, or all words from the lowest to the highest that the evidence allows.
    Words {
        /// The word of the best value, where there is one.
        best: Option<Word>,
        /// The emptiest word allowed.
        lowest: Word,
        /// The fullest word allowed.
        highest: Word,
    },
    /// No word can be given; the raw look or weights stay in the record.
    CannotSay(Reason),
}

impl Verdict {
    /// Whether every word allowed says that the reserve was low or gone. There is no counterpart for
    /// good condition, on purpose.
    pub const fn supports_poor_condition(self) -> bool {
        match self {
            Self::Words { highest, .. } => matches!(highest, Word::Exhausted | Word::Depleted),
            Self::CannotSay(_) => false,
        }
    }
}

/// Why no word can be given.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Reason {
    /// Solid, and nobody said whether it was frozen: frozen empty marrow looks solid too.
    FrozenNotAsked,
    /// Dried in the air: drying raises the apparent fat, so a high reading means nothing.
    MayBeDried,
    /// Rain-soaked, sour or mouldy: wrong either way.
    WetOrMouldy,
    /// Full marrow in a lower leg bone; the femur may be empty already.
    DistalBoneOnly,
    /// Full marrow, and the bone is not known: it may be one that empties last.
    BoneUnknown,
}

/// What has to be said beside a marrow reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Caution {
    /// Full marrow does not show good condition: back, kidney and belly fat go first.
    FullIsNotGood,
    /// Condition is not cause.
    NotCause,
    /// The middle class spans 70 points of fat.
    MiddleIsWide,
    /// Colour and consistency point to different classes; consistency decided.
    ColourDisagrees,
    /// Which bone it was is not known.
    BoneNotKnown,
    /// A lower leg bone empties last: low marrow here is strong evidence, normal marrow is none.
    DistalBone,
    /// A jaw shows that some reserve was used; 38 % in a jaw is not starvation.
    MandibleOnly,
    /// Not the femur; bones are not compared one for one.
    NotFemur,
    /// Nobody said whether the bone was open before the crew came.
    OpenedNotAsked,
    /// The bone had lain open for more than a day, or for nobody knows how long.
    LongOpen,
    /// Frozen and thawed: the width is doubled.
    FrozenThawed,
    /// Whether it had been frozen is not known: the width is doubled.
    FrostNotKnown,
    /// Past fresh: greasy yellow marrow may be decay.
    Decomposed,
    /// The fawn and adult limits come from sika deer; none exist for white-tailed deer.
    SikaLimits,
}

/// Whether the look and the weighing of the same marrow cannot both be right: their fat ranges do
/// not touch. Both are then reported; neither wins.
pub fn disagree(look: &LookReading, weighing: &WeighingReading) -> bool {
    look.fat_low.get() > weighing.fat_high.get() || weighing.fat_low.get() > look.fat_high.get()
}

/// Applies the rules of exposure and of the bone to the words that the marrow alone would allow.
fn settle(mut verdict: Verdict, bone: Option<Bone>, exposure: Exposure) -> Verdict {
    if exposure.wet_or_mouldy == Some(true) {
        return Verdict::CannotSay(Reason::WetOrMouldy);
    }
    let dried = exposure.may_be_dried();
    if let Verdict::Words { best, lowest, highest } = &mut verdict {
        let reading = best.unwrap_or(*highest);
        if dried && reading >= Word::PartlyUsed {
            return Verdict::CannotSay(Reason::MayBeDried);
        }
        let lower_leg = bone.is_some_and(Bone::is_distal);
        if reading == Word::MarrowFull && lower_leg {
            return Verdict::CannotSay(Reason::DistalBoneOnly);
        }
        if reading == Word::MarrowFull && bone.is_none() {
            return Verdict::CannotSay(Reason::BoneUnknown);
        }
        // True fat is at most what dried marrow shows, and the femur holds at most what a lower leg
        // bone shows, so the lower end opens.
        if dried || lower_leg {
            *lowest = Word::Exhausted;
        }
        // A jaw uses its fat before the femur does: between the two extremes it only says "some".
        if bone == Some(Bone::Mandible) {
            for word in [&mut *lowest, &mut *highest].into_iter().chain(best.as_mut()) {
                if *word == Word::Depleted {
                    *word = Word::PartlyUsed;
                }
            }
        }
    }
    verdict
}

/// Cautions that depend on the bone and on what happened to it.
fn shared_cautions(bone: Option<Bone>, exposure: Exposure) -> Vec<Caution> {
    let mut list = vec![Caution::NotCause];
    match bone {
        None => list.push(Caution::BoneNotKnown),
        Some(Bone::Femur) => {}
        Some(Bone::Mandible) => list.push(Caution::MandibleOnly),
        Some(b) if b.is_distal() => list.push(Caution::DistalBone),
        Some(_) => list.push(Caution::NotFemur),
    }
    if exposure.opened.is_none() {
        list.push(Caution::OpenedNotAsked);
    }
    if exposure.may_be_dried() {
        list.push(Caution::LongOpen);
    }
    if exposure.decomposed == Some(true) {
        list.push(Caution::Decomposed);
    }
    list
}

#[cfg(test)]
mod tests;
