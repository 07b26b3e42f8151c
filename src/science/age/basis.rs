//! Which parts of the evidence speak, and what they rest on.

use serde::{Deserialize, Serialize};

use super::evidence::{AgeEvidence, ClassCall};
use super::item::Item;
use super::local::LocalSpread;
use super::more::Measures;
use super::{sources, wear};
use crate::science::source::{Mark, Source};
use crate::science::{calipers, cementum, sex, skeleton};

/// Codes by which two sides of one look differ before the jaw counts as lopsided. Ours.
const LOPSIDED_CODES: u8 = 2;
/// Molar dentine looks from which itemised wear is used instead of a class call. Ours.
const LOOKS_BEFORE_CALL: usize = 2;

/// What an estimate used.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[allow(clippy::struct_excessive_bools)] // independent parts, each in or out
pub struct Basis {
    /// Which teeth are there.
    pub eruption: bool,
    /// How worn they are.
    pub wear: bool,
    /// A class called by a person.
    pub class_call: bool,
    /// Fawn or older at a glance.
    pub quick_class: bool,
    /// Length of the tooth row, within yearlings.
    pub tooth_row: bool,
    /// Width of dentine, among adults.
    pub dentine_width: bool,
    /// Crown height or molar ratio by the office's own constants, among adults.
    pub local_age: bool,
    /// Rings counted by a laboratory.
    pub cementum: bool,
    /// Growing ends of leg bones.
    pub growth_plate: bool,
    /// Main beam of an antler.
    pub antler_beam: bool,
    /// Size against a local mean.
    pub size: bool,
    /// A sign of sex that is not certain.
    pub sex_line: bool,
}

/// Which parts speak. Single looks at wear and a class call are one jaw read twice: only one is used.
pub(super) fn basis_of(evidence: &AgeEvidence) -> Basis {
    let sides = evidence.sides();
    let seen = |item: Item| sides.iter().any(|side| item.answered(side));
    let eruption = Item::ERUPTION.into_iter().any(seen);
    let any_wear = Item::WEAR.into_iter().any(seen);
    let dentine_looks =
        [Item::M1Dentine, Item::M2Dentine, Item::M3Dentine].into_iter().filter(|item| seen(*item)).count();
    // A fawn or yearling is called from the same teeth that eruption has.
    let call_repeats = eruption && evidence.class_call.is_some_and(|call| call <= ClassCall::Yearling);
    let enough = dentine_looks >= LOOKS_BEFORE_CALL;
    let class_call = evidence.class_call.is_some() && !enough && !call_repeats;
    let (more, measures) = (&evidence.more, Measures::of(evidence));
    Basis {
        eruption,
        wear: any_wear && !class_call,
        class_call,
        quick_class: evidence.quick_class.is_some(),
        tooth_row: measures.row().is_some(),
        dentine_width: measures.dentine().is_some(),
        local_age: more.local_age.is_some(),
        cementum: more.cementum.is_some(),
        growth_plate: more.cannon_plate.is_some() || more.radius_plate.is_some(),
        antler_beam: more.beam(evidence.sex).is_some(),
        size: more.size_z.is_some_and(|z| !z.is_nan()),
        sex_line: more.sex_line.is_some(),
    }
}

/// Whether left and right differ so much that the wear is to speak more softly.
pub(super) fn is_lopsided(evidence: &AgeEvidence) -> bool {
    let [left, right] = evidence.sides();
    let differs = |item: Item| match (item.wear_code(left), item.wear_code(right)) {
        (Some(l), Some(r)) => l.abs_diff(r) >= LOPSIDED_CODES,
        _ => false,
    };
    evidence.flags.sides_differ == Some(true) || Item::WEAR.into_iter().any(differs)
}

/// The sources of the parts used, each once.
pub(super) fn sources_of(evidence: &AgeEvidence, basis: Basis) -> Vec<&'static Source> {
    let crown = evidence.more.local_age.is_some_and(|age| matches!(age.spread, LocalSpread::Share(_)));
    let mut list: Vec<&'static Source> = sources::BASE.iter().collect();
    for (used, part) in [
        (basis.eruption, &sources::ERUPTION[..]),
        (basis.wear, &sources::WEAR[..]),
        (basis.class_call, &sources::CALL[..]),
        (basis.quick_class, &sources::QUICK[..]),
        (basis.tooth_row, &calipers::sources::TOOTH_ROW[..]),
        (basis.dentine_width, &calipers::sources::DENTINE_WIDTH[..]),
        (crown, &calipers::sources::CROWN_HEIGHT[..]),
        (basis.local_age && !crown, &calipers::sources::TOOTH_RATIO[..]),
        (basis.cementum, &cementum::SOURCES[..]),
        (evidence.more.cannon_plate.is_some(), &skeleton::PLATE_SOURCES[..]),
        (evidence.more.radius_plate.is_some(), &skeleton::RADIUS_SOURCES[..]),
        (basis.antler_beam, &skeleton::BEAM_SOURCES[..]),
        (basis.size, &skeleton::SIZE_SOURCES[..]),
        (basis.sex_line || basis.antler_beam, &sex::SOURCES[..]),
    ] {
        if used {
            list.extend(part);
        }
    }
    let from_memory = |scale: &wear::Scale| {
        scale.mark == Mark::Memory && evidence.sides().into_iter().any(|side| scale.item.answered(side))
    };
    if basis.wear && wear::SCALES.iter().any(from_memory) {
        list.push(&sources::WEAR_FROM_MEMORY);
    }
    list
}
