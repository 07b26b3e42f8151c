//! Marrow bone by bone: several readings of one bone are put together, bones are never pooled.
//!
//! Loss runs from the body outwards along the limb, hind ahead of fore (impala; caribou, Davis and others
//! 1987; moose, Spears and others 2003), and the jaw goes before the femur (Nichols and Pelton 1974).

use serde::Serialize;

use super::Conflict;
use crate::order::Short as _;
use crate::science::marrow::{AgeGroup, Bone, Verdict, Word};

/// A look or a weighing of one bone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoneEvidence {
    /// Which bone; `None` where nobody said.
    pub bone: Option<Bone>,
    /// Tells two bones of a kind apart: side 0 where it was not told.
    pub side: u8,
    /// Verdict if the deer was a fawn.
    pub fawn: Verdict,
    /// Verdict if it was older.
    pub adult: Verdict,
    /// It may be decay: told, and not counted.
    pub doubtful: bool,
}

/// What a bone says for the deer's group.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum BoneSays {
    /// All words that its readings allow.
    Words {
        /// The emptiest.
        lowest: Word,
        /// The word of the best value of the last weighing, where there is one.
        best: Option<Word>,
        /// The fullest: the floor that it gives.
        highest: Word,
    },
    /// Nothing that counts.
    Nothing,
}

/// One bone.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct BoneLine {
    /// Which.
    pub bone: Option<Bone>,
    /// As in [`BoneEvidence`].
    pub side: u8,
    /// What it says.
    pub says: BoneSays,
}

/// Place in the order of emptying; the same for bones whose order is not known.
pub const fn turn(bone: Bone) -> u8 {
    match bone {
        Bone::Mandible => 0,
        Bone::Femur => 1,
        Bone::Tibia | Bone::Humerus => 2,
        Bone::Radius => 3,
        Bone::Metatarsus | Bone::Metacarpus => 4,
    }
}

/// The words for one group; where the group is not known, from the emptiest to the fullest of both.
fn words(evidence: &BoneEvidence, group: Option<AgeGroup>) -> Option<(Word, Option<Word>, Word)> {
    let of = |verdict| match verdict {
        Verdict::Words { lowest, best, highest } => Some((lowest, best, highest)),
        Verdict::CannotSay(_) => None,
    };
    if evidence.doubtful {
        return None;
    }
    match group {
        Some(AgeGroup::Fawn) => of(evidence.fawn),
        Some(AgeGroup::Adult) => of(evidence.adult),
        None => {
            let ((l1, b1, h1), (l2, b2, h2)) = of(evidence.fawn).zip(of(evidence.adult))?;
            Some((l1.min(l2), b1.filter(|_| b1 == b2), h1.max(h2)))
        }
    }
}

/// One line a bone, in the order in which they empty; bones that nobody named last.
pub(super) fn lines(all: &[BoneEvidence], group: Option<AgeGroup>, conflicts: &mut Vec<Conflict>) -> Vec<BoneLine> {
    let mut out: Vec<BoneLine> = Vec::new();
    for evidence in all {
        let says = words(evidence, group).map_or(BoneSays::Nothing, |(lowest, best, highest)| BoneSays::Words {
            lowest,
            best,
            highest,
        });
        let same = |line: &&mut BoneLine| line.bone == evidence.bone && line.side == evidence.side;
        match out.iter_mut().find(same) {
            Some(line) => line.says = both(line.says, says, conflicts),
            None => out.push(BoneLine { bone: evidence.bone, side: evidence.side, says }),
        }
    }
    out.order_by_key(|line| (line.bone.map_or(u8::MAX, turn), line.bone, line.side));
    if out_of_order(&out) {
        conflicts.push(Conflict::BonesOutOfOrder);
    }
    out
}

/// What two readings of one bone allow together.
fn both(a: BoneSays, b: BoneSays, conflicts: &mut Vec<Conflict>) -> BoneSays {
    let (BoneSays::Words { lowest: l1, best: b1, highest: h1 }, BoneSays::Words { lowest: l2, best: b2, highest: h2 }) =
        (a, b)
    else {
        return if a == BoneSays::Nothing { b } else { a };
    };
    let (lowest, highest) = (l1.max(l2), h1.min(h2));
    if lowest > highest {
        conflicts.push(Conflict::OneBoneTwoAnswers);
        return BoneSays::Nothing;
    }
    let best = b1.or(b2).filter(|best| (lowest..=highest).contains(best));
    BoneSays::Words { lowest, best, highest }
}

/// A bone that is full beside a low one that should have emptied no sooner than it.
fn out_of_order(lines: &[BoneLine]) -> bool {
    let place = |line: &BoneLine, wanted: fn(Word, Word) -> bool| match line.says {
        BoneSays::Words { lowest, highest, .. } if wanted(lowest, highest) => line.bone.map(turn),
        _ => None,
    };
    let earliest_full = lines.iter().filter_map(|l| place(l, |lowest, _| lowest == Word::MarrowFull)).min();
    let latest_low = lines.iter().filter_map(|l| place(l, |_, highest| highest <= Word::Depleted)).max();
    earliest_full.zip(latest_low).is_some_and(|(full, low)| full <= low)
}

/// Whether the emptiest floor comes from the jaw and from no other bone.
pub(super) fn rests_on_the_jaw(lines: &[BoneLine]) -> bool {
    let floor = |line: &BoneLine| match line.says {
        BoneSays::Words { highest, .. } if highest < Word::MarrowFull => Some(highest),
        _ => None,
    };
    let least = lines.iter().filter_map(floor).min();
    let mut at_least = lines.iter().filter(|line| least.is_some() && floor(line) == least).peekable();
    at_least.peek().is_some() && at_least.all(|line| line.bone == Some(Bone::Mandible))
}
