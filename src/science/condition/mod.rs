//! All evidence of fat put together: how far the reserves were used, and what does not fit.
//!
//! Stores empty from the skin inwards and marrow is last, with overlap. So each sign is a floor: an empty
//! depot says that the deer had used at least that much, a full one says nothing of those before it. The
//! word at the end is the fullest that the evidence still allows; it is never `good`, and never a cause.
//!
//! | file | holds |
//! |---|---|
//! | [`bones`] | looks and weighings of marrow, bone by bone, and their order |
//! | [`sources`] | what the rules rest on |

pub mod bones;
pub mod sources;

#[cfg(test)]
mod tests;

use serde::Serialize;

pub use bones::{BoneEvidence, BoneLine, BoneSays};

use super::fat::look::{Depot, DepotLook, Muscle, Stage, Turn};
use super::marrow::{AgeGroup, Word};
use crate::order::Short as _;

/// The words that an office may quote.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Ending {
    /// The last reserve was gone.
    Exhausted,
    /// The last reserve was below the level at which deer of that age live, or in use with all others gone.
    Depleted,
    /// Some reserve was used.
    PartlyUsed,
    /// The evidence gives no word.
    CannotSay,
}

/// Why that word.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Ground {
    /// Every reading of marrow that counts says that it was gone.
    MarrowGone,
    /// Marrow was below the level at which deer of that age live.
    MarrowDepleted,
    /// Marrow was in use and the stores before it were gone.
    MarrowInUseRestGone,
    /// Marrow was in use.
    MarrowInUse,
    /// A store that goes before the marrow was low or gone.
    OtherStoreUsed,
    /// The stores before the marrow were gone, and no marrow counts: it may be gone, too.
    RestGoneMarrowUnknown,
    /// The stores before the marrow were gone, and the marrow was full.
    RestGoneMarrowFull,
    /// Only marrow was looked at and it was full: other stores go first.
    OnlyFullMarrow,
    /// No store showed use. That is not yet good condition: not all was looked at, and no scale has that word.
    NoUseSeen,
    /// Something was looked at and nothing of it counts.
    NothingCounts,
    /// The evidence contradicts itself.
    Contradiction,
    /// The evidence allows an emptier word, too.
    MayBeEmptier,
    /// It rests on the jaw alone, which is used before the other bones.
    JawAlone,
    /// Muscle was wasted: protein is used beside the last fat.
    MuscleWasted,
}

/// What does not fit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Conflict {
    /// Plenty of fat under the skin or in the belly beside empty marrow: marrow frozen, decayed, or of
    /// another deer?
    FatBesideEmptyMarrow,
    /// Plenty of fat round kidney or heart beside empty marrow.
    KidneyBesideEmptyMarrow,
    /// Two readings of one bone do not touch.
    OneBoneTwoAnswers,
    /// A bone that empties early is full beside one that empties late and is low.
    BonesOutOfOrder,
    /// The look of the kidney and its index do not agree; the kidney is left out.
    KidneyLookAndIndex,
    /// Fat that goes first is there while fat that goes later is gone. Stores overlap, so the word stands.
    TurnsReversed,
    /// Wasted muscle beside plenty of fat: another look is wanted.
    WastedBesideFat,
}

impl Conflict {
    /// Whether it leaves no word.
    pub const fn is_grave(self) -> bool {
        match self {
            Self::FatBesideEmptyMarrow
            | Self::KidneyBesideEmptyMarrow
            | Self::OneBoneTwoAnswers
            | Self::BonesOutOfOrder => true,
            Self::KidneyLookAndIndex | Self::TurnsReversed | Self::WastedBesideFat => false,
        }
    }
}

/// Everything that was seen. Formulas from memory are not among it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Evidence {
    /// Depots looked at; each once.
    pub looks: Vec<(Depot, DepotLook)>,
    /// What the kidney fat index says, where there is one.
    pub kidney_index: Option<Stage>,
    /// Muscle.
    pub muscle: Option<Muscle>,
    /// Looks and weighings of marrow.
    pub marrow: Vec<BoneEvidence>,
    /// Age group; where it is not known the fuller of two verdicts counts.
    pub group: Option<AgeGroup>,
}

/// One depot and what it says of itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct DepotLine {
    /// Which.
    pub depot: Depot,
    /// Gone, low or there; `None` where its evidence contradicts itself.
    pub stage: Option<Stage>,
}

/// All put together.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Combined {
    /// The word.
    pub ending: Ending,
    /// The reasons, weightiest first.
    pub grounds: Vec<Ground>,
    /// What does not fit.
    pub conflicts: Vec<Conflict>,
    /// Depots outside the bones, in the order in which they empty.
    pub depots: Vec<DepotLine>,
    /// Bones, in the order in which they empty.
    pub bones: Vec<BoneLine>,
}

/// Puts all of it together. `None` where nothing was looked at.
pub fn combine(evidence: &Evidence) -> Option<Combined> {
    if evidence.looks.is_empty() && evidence.kidney_index.is_none() && evidence.marrow.is_empty() {
        return None;
    }
    let mut conflicts = Vec::new();
    let depots = depots(evidence, &mut conflicts);
    let bones = bones::lines(&evidence.marrow, evidence.group, &mut conflicts);
    let soft = Soft::of(&depots);
    let marrow = Marrow::of(&bones);
    find_conflicts(evidence, soft, marrow, &mut conflicts);
    conflicts.order();
    conflicts.dedup();
    let (ending, mut grounds) = if conflicts.iter().any(|c| c.is_grave()) {
        (Ending::CannotSay, vec![Ground::Contradiction])
    } else {
        settle(soft, marrow)
    };
    if ending != Ending::CannotSay {
        more_grounds(ending, marrow, &bones, &mut grounds);
    }
    if evidence.muscle == Some(Muscle::Wasted) {
        grounds.push(Ground::MuscleWasted);
    }
    Some(Combined { ending, grounds, conflicts, depots, bones })
}

/// What the depots outside the bones say together.
#[derive(Clone, Copy)]
#[allow(clippy::struct_excessive_bools)] // each is a question of its own
struct Soft {
    /// Anything low or gone.
    used: bool,
    /// All that was seen is gone, kidney or heart among it.
    gone: bool,
    /// Anything settled at all.
    seen: bool,
    /// Plenty under the skin or in the belly.
    outer_there: bool,
    /// Plenty round kidney or heart.
    inner_there: bool,
    /// An early depot is there and a later one gone.
    reversed: bool,
}

impl Soft {
    fn of(depots: &[DepotLine]) -> Self {
        let settled = || depots.iter().filter_map(|line| Some((line.depot.turn(), line.stage?)));
        let there = |inner: bool| settled().any(|(t, s)| (t == Turn::Third) == inner && s == Stage::Present);
        let latest_gone = settled().filter(|(_, s)| *s == Stage::Gone).map(|(t, _)| t).max();
        let earliest_there = settled().filter(|(_, s)| *s == Stage::Present).map(|(t, _)| t).min();
        Self {
            used: settled().any(|(_, s)| s < Stage::Present),
            gone: settled().all(|(_, s)| s == Stage::Gone) && settled().any(|(t, _)| t == Turn::Third),
            seen: settled().next().is_some(),
            outer_there: there(false),
            inner_there: there(true),
            reversed: latest_gone.zip(earliest_there).is_some_and(|(gone, there)| there < gone),
        }
    }
}

/// What the bones say together: the emptiest floor, and how empty it may be.
#[derive(Clone, Copy)]
struct Marrow {
    floor: Option<Word>,
    lowest: Option<Word>,
    full: bool,
    looked: bool,
}

impl Marrow {
    fn of(bones: &[BoneLine]) -> Self {
        let words = || {
            bones.iter().filter_map(|line| match line.says {
                BoneSays::Words { lowest, highest, .. } => Some((lowest, highest)),
                BoneSays::Nothing => None,
            })
        };
        Self {
            floor: words().map(|(_, highest)| highest).filter(|w| *w < Word::MarrowFull).min(),
            lowest: words().map(|(lowest, _)| lowest).min(),
            full: words().any(|(_, highest)| highest == Word::MarrowFull),
            looked: !bones.is_empty(),
        }
    }
}

fn depots(evidence: &Evidence, conflicts: &mut Vec<Conflict>) -> Vec<DepotLine> {
    let mut of = |depot| {
        let look = evidence.looks.iter().find(|(d, _)| *d == depot).map(|(_, look)| look.stage());
        let index = if depot == Depot::Kidney { evidence.kidney_index } else { None };
        let stage = match (look, index) {
            (Some(Stage::Present), Some(Stage::Gone)) | (Some(Stage::Gone), Some(Stage::Present)) => {
                conflicts.push(Conflict::KidneyLookAndIndex);
                None
            }
            // Scales beat the eye.
            (look, index) => Some(index.or(look)?),
        };
        Some(DepotLine { depot, stage })
    };
    Depot::ALL.into_iter().filter_map(&mut of).collect()
}

fn find_conflicts(evidence: &Evidence, soft: Soft, marrow: Marrow, conflicts: &mut Vec<Conflict>) {
    if marrow.floor == Some(Word::Exhausted) {
        if soft.outer_there {
            conflicts.push(Conflict::FatBesideEmptyMarrow);
        }
        if soft.inner_there {
            conflicts.push(Conflict::KidneyBesideEmptyMarrow);
        }
    }
    if soft.reversed {
        conflicts.push(Conflict::TurnsReversed);
    }
    if evidence.muscle == Some(Muscle::Wasted) && (soft.outer_there || soft.inner_there) {
        conflicts.push(Conflict::WastedBesideFat);
    }
}

fn settle(soft: Soft, marrow: Marrow) -> (Ending, Vec<Ground>) {
    let (ending, ground) = match marrow.floor {
        Some(Word::Exhausted) => (Ending::Exhausted, Ground::MarrowGone),
        Some(Word::Depleted) => (Ending::Depleted, Ground::MarrowDepleted),
        Some(_) if soft.gone => (Ending::Depleted, Ground::MarrowInUseRestGone),
        Some(_) => (Ending::PartlyUsed, Ground::MarrowInUse),
        None if soft.gone && marrow.full => (Ending::PartlyUsed, Ground::RestGoneMarrowFull),
        None if soft.gone => (Ending::PartlyUsed, Ground::RestGoneMarrowUnknown),
        None if soft.used => (Ending::PartlyUsed, Ground::OtherStoreUsed),
        None if soft.seen => (Ending::CannotSay, Ground::NoUseSeen),
        None if marrow.full => (Ending::CannotSay, Ground::OnlyFullMarrow),
        None => (Ending::CannotSay, Ground::NothingCounts),
    };
    let mut grounds = vec![ground];
    if ground == Ground::MarrowInUse && soft.used {
        grounds.push(Ground::OtherStoreUsed);
    }
    (ending, grounds)
}

fn more_grounds(ending: Ending, marrow: Marrow, bones: &[BoneLine], grounds: &mut Vec<Ground>) {
    let least = match ending {
        Ending::Exhausted | Ending::CannotSay => Word::Exhausted,
        Ending::Depleted => Word::Depleted,
        Ending::PartlyUsed => Word::PartlyUsed,
    };
    // Without marrow that counts, marrow that was not looked at may be emptier as well; that has words of its own.
    if marrow.looked && marrow.lowest.is_some_and(|lowest| lowest < least) {
        grounds.push(Ground::MayBeEmptier);
    }
    if marrow.floor.is_some() && bones::rests_on_the_jaw(bones) {
        grounds.push(Ground::JawAlone);
    }
}
