//! The look: solid and waxy, jelly-like, or wet.
//!
//! Three classes are what the evidence supports; the finer colour scales that circulate have no
//! source. Bischoff (1954) trusted consistency only, so it decides; opacity and then colour only
//! tell the two jelly-like classes apart.

use serde::Serialize;

use super::{AgeGroup, Bone, Caution, Exposure, FatPercent, Frost, Reason, Verdict, Word, settle, shared_cautions};
use crate::order::Short as _;

/// How the marrow holds together, warmed by hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Consistency {
    /// Stands on its own, waxy.
    Solid,
    /// Jelly that sags.
    Gelatinous,
    /// Wet, runs.
    Wet,
}

/// Whether light comes through.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Opacity {
    /// No light comes through.
    Opaque,
    /// Glassy.
    Translucent,
}

/// The colour that prevails.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Colour {
    /// White to cream.
    White,
    /// Pink.
    Pink,
    /// Red.
    Red,
    /// Yellow.
    Yellow,
}

/// What was seen. `None` is not looked at or cannot tell.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct MarrowLook {
    /// Asked first; without it there is no class.
    pub consistency: Option<Consistency>,
    /// Tells M2 from M3.
    pub opacity: Option<Opacity>,
    /// Only used where opacity is not known.
    pub colour: Option<Colour>,
}

/// The three classes, and what is left where two cannot be told apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub enum MarrowClass {
    /// Solid, white, waxy: 85 to 98 % fat.
    M1,
    /// White or pink, opaque, jelly-like: 15 to 85 %.
    M2,
    /// Yellow or red, translucent, jelly-like or wet: under 15 %, often about 1.
    M3,
    /// Jelly-like, nothing else seen: 0 to 85 %.
    M2OrM3,
}

impl MarrowClass {
    /// Range of fat, percent of fresh marrow.
    pub const fn fat_range(self) -> (FatPercent, FatPercent) {
        let (low, high) = match self {
            Self::M1 => (85.0, 98.0),
            Self::M2 => (15.0, 85.0),
            Self::M3 => (0.0, 15.0),
            Self::M2OrM3 => (0.0, 85.0),
        };
        (FatPercent::limit(low), FatPercent::limit(high))
    }

    /// The words of that range; the same for both age groups, since their limits fall inside M2.
    const fn words(self) -> Verdict {
        let (best, lowest, highest) = match self {
            Self::M1 => (Some(Word::MarrowFull), Word::MarrowFull, Word::MarrowFull),
            Self::M2 => (None, Word::Depleted, Word::PartlyUsed),
            Self::M3 => (Some(Word::Exhausted), Word::Exhausted, Word::Exhausted),
            Self::M2OrM3 => (None, Word::Exhausted, Word::PartlyUsed),
        };
        Verdict::Words { best, lowest, highest }
    }
}

/// A class, its range and its words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LookReading {
    /// The class of the look.
    pub class: MarrowClass,
    /// The look may be decay rather than the deer's state: print the class with a question mark.
    pub doubtful: bool,
    /// Lower end of the class, fat percent.
    pub fat_low: FatPercent,
    /// Upper end of the class, fat percent.
    pub fat_high: FatPercent,
    /// Verdict if the deer was a fawn.
    pub fawn: Verdict,
    /// Verdict if it was older.
    pub adult: Verdict,
    /// What has to be said beside it.
    pub cautions: Vec<Caution>,
}

impl LookReading {
    /// The verdict for one age group.
    pub const fn verdict(&self, group: AgeGroup) -> Verdict {
        match group {
            AgeGroup::Fawn => self.fawn,
            AgeGroup::Adult => self.adult,
        }
    }

    /// Whether the look supports poor condition in either group.
    pub const fn supports_poor_condition(&self) -> bool {
        !self.doubtful && self.fawn.supports_poor_condition() && self.adult.supports_poor_condition()
    }
}

/// Why a look has no class. The look itself stays in the record.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, thiserror::Error)]
#[serde(rename_all = "snake_case")]
pub enum LookRefusal {
    /// Frozen marrow looks solid whatever it holds; class it on the bench after thawing.
    #[error("the marrow was frozen when it was looked at")]
    Frozen,
    /// Consistency was not looked at or could not be told; colour alone decides nothing.
    #[error("the consistency of the marrow is not known")]
    NoConsistency,
}

/// Classes a look.
pub fn read_look(look: MarrowLook, bone: Option<Bone>, exposure: Exposure) -> Result<LookReading, LookRefusal> {
    if exposure.frost == Some(Frost::FrozenNow) {
        return Err(LookRefusal::Frozen);
    }
    let class = class_of(look).ok_or(LookRefusal::NoConsistency)?;
    let verdict = if class == MarrowClass::M1 && exposure.frost.is_none() {
        Verdict::CannotSay(Reason::FrozenNotAsked)
    } else {
        settle(class.words(), bone, exposure)
    };
    let (fat_low, fat_high) = class.fat_range();
    Ok(LookReading {
        class,
        doubtful: exposure.decomposed == Some(true) && matches!(class, MarrowClass::M3 | MarrowClass::M2OrM3),
        fat_low,
        fat_high,
        fawn: verdict,
        adult: verdict,
        cautions: cautions(class, look, bone, exposure),
    })
}

fn class_of(look: MarrowLook) -> Option<MarrowClass> {
    Some(match (look.consistency?, look.opacity, look.colour) {
        (Consistency::Solid, ..) => MarrowClass::M1,
        (Consistency::Gelatinous, Some(Opacity::Opaque), _)
        | (Consistency::Gelatinous, None, Some(Colour::White | Colour::Pink)) => MarrowClass::M2,
        (Consistency::Wet, ..)
        | (Consistency::Gelatinous, Some(Opacity::Translucent), _)
        | (Consistency::Gelatinous, None, Some(Colour::Red | Colour::Yellow)) => MarrowClass::M3,
        (Consistency::Gelatinous, None, None) => MarrowClass::M2OrM3,
    })
}

/// Whether the colour is one that the class table gives for that class.
const fn colour_fits(class: MarrowClass, colour: Colour) -> bool {
    match class {
        MarrowClass::M1 => matches!(colour, Colour::White),
        MarrowClass::M2 => matches!(colour, Colour::White | Colour::Pink),
        MarrowClass::M3 => matches!(colour, Colour::Red | Colour::Yellow),
        MarrowClass::M2OrM3 => true,
    }
}

fn cautions(class: MarrowClass, look: MarrowLook, bone: Option<Bone>, exposure: Exposure) -> Vec<Caution> {
    let mut list = shared_cautions(bone, exposure);
    match class {
        MarrowClass::M1 => list.push(Caution::FullIsNotGood),
        MarrowClass::M2 | MarrowClass::M2OrM3 => list.push(Caution::MiddleIsWide),
        MarrowClass::M3 => {}
    }
    if look.colour.is_some_and(|c| !colour_fits(class, c)) {
        list.push(Caution::ColourDisagrees);
    }
    match exposure.frost {
        None => list.push(Caution::FrostNotKnown),
        Some(Frost::Thawed) => list.push(Caution::FrozenThawed),
        Some(_) => {}
    }
    list.order();
    list
}
