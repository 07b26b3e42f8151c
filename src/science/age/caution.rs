//! What has to be said beside an estimate.

use serde::{Deserialize, Serialize};
use time::Month;

use super::basis::is_lopsided;
use super::evidence::{AgeEvidence, DeathWindow, JawSide, P4State, Sex};
use super::item::Item;
use super::key::{KeyClass, KeyFlag, KeyRefusal};
use super::{AgeEstimate, Broad};
use crate::order::Short as _;

/// From this probability on, late teeth are said of a fawn or yearling. Ours.
const LATE_SAID_FROM: f64 = 0.8;

/// What has to be said beside an estimate.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Caution {
    /// Only the look from afar: next to nothing.
    QuickClassOnly,
    /// A wear age is a guess: readers differ, soils differ, the base is small.
    WearIsAGuess,
    /// Teeth contradict each other.
    TeethContradict,
    /// Milk teeth kept late: born late or badly nourished; the class stands, the months are wide.
    DelayedTeeth,
    /// Four cheek teeth after 1 February.
    LateFawn,
    /// Five teeth with an adult's wear: P2 may be missing, look at the other side.
    P2MayBeMissing,
    /// One tooth counted is a P1.
    ExtraP1,
    /// The third column of M3 is short or lacking: no proof of a yearling.
    ThirdColumnOdd,
    /// The count is not one of a whole row and was not used.
    CountNotUsed,
    /// Left and right differ: the answer is wider.
    SidesDiffer,
    /// Lump, swelling or necrosis: the answer is wider.
    JawDiseased,
    /// Broken teeth.
    BrokenTeeth,
    /// Cooked, bleached or weathered jaw.
    Weathered,
    /// Read from a photo.
    PhotoOnly,
    /// A class was called, but the single looks were used instead of it.
    CallSetAside,
    /// Too few single looks at wear; the class called was used instead of them.
    WearSetAside,
    /// Wear of premolars that are not known to be permanent was left out.
    PremolarWearSetAside,
    /// The window was cut to November to May.
    WindowCut,
    /// Died in May: near its birthday.
    BirthdayAtHand,
    /// The hard key and the distribution point to different classes.
    KeyDiffers,
    /// A laboratory's count is evidence, not the truth.
    CementumNotTruth,
    /// The count and the rest lie far apart: look at both again.
    CementumDiffers,
    /// The width of dentine is read by a formula for southern bucks.
    DentineWidthSouthern,
    /// The tooth row is read by a formula for captive southern deer.
    ToothRowSouthern,
    /// A caliper measure lies outside the range of its formula and has no say.
    MeasureNotUsed,
    /// A beam was measured on a deer told to be a doe, and has no say.
    BeamOnDoe,
    /// Keep a lower jaw and both first incisors: a laboratory can count the rings.
    KeepJawAndIncisors,
}

/// Every caution that applies, each once, in the order of [`Caution`].
pub(super) fn cautions(evidence: &AgeEvidence, estimate: &AgeEstimate, window: DeathWindow, cut: bool) -> Vec<Caution> {
    let basis = estimate.basis;
    let flag = |value: Option<bool>| value == Some(true);
    let key_flags = estimate.key.as_ref().map_or(&[][..], |k| &k.flags[..]);
    let has = |wanted| key_flags.contains(&wanted);
    let sides = evidence.sides();
    let any_side = |test: fn(&JawSide) -> bool| sides.iter().any(|side| test(side));
    let late = estimate.late_teeth.is_some_and(|p| p >= LATE_SAID_FROM);
    let key_class = estimate.key.as_ref().ok().map(|k| k.class);
    let Broad { fawn, yearling, .. } = estimate.broad;
    let key_differs = match key_class {
        Some(KeyClass::Fawn) => fawn < 0.5,
        Some(KeyClass::Yearling) => yearling < 0.5,
        Some(KeyClass::Adult) => fawn + yearling > 0.5,
        None => false,
    };
    let young = fawn + yearling > 0.95;
    let measures = estimate.measures;
    let not_used = measures.tooth_row.is_some_and(|r| r.is_err()) || measures.dentine_width.is_some_and(|r| r.is_err());
    let beam_on_doe = evidence.more.antler_beam_mm.is_some() && evidence.sex == Some(Sex::Female);
    let wear_matters = (basis.wear || basis.class_call) && fawn + yearling < 0.5;
    let one_side_differs = evidence.left.p4.zip(evidence.right.p4).is_some_and(|(l, r)| l != r);
    let premolar_left_out =
        any_side(|s| (s.p4_dentine.is_some() || s.premolar_wear.is_some()) && s.p4 < Some(P4State::PermanentWhite));
    let mut list: Vec<Caution> = [
        (basis.only_quick(), Caution::QuickClassOnly),
        (wear_matters, Caution::WearIsAGuess),
        (!estimate.contradictions.is_empty(), Caution::TeethContradict),
        (late || has(KeyFlag::DelayedTeeth), Caution::DelayedTeeth),
        (has(KeyFlag::LateFawn), Caution::LateFawn),
        (estimate.key == Err(KeyRefusal::P2MayBeMissing), Caution::P2MayBeMissing),
        (any_side(|s| s.cheek_teeth == Some(7) || s.extra_p1 == Some(true)), Caution::ExtraP1),
        (evidence.third_column_anomaly(), Caution::ThirdColumnOdd),
        (any_side(|s| s.cheek_teeth.is_some() && s.row_count().is_none()), Caution::CountNotUsed),
        (is_lopsided(evidence) || one_side_differs || estimate.sides_apart.is_some(), Caution::SidesDiffer),
        (flag(evidence.flags.swelling), Caution::JawDiseased),
        (flag(evidence.flags.broken_teeth), Caution::BrokenTeeth),
        (flag(evidence.flags.weathered), Caution::Weathered),
        (flag(evidence.flags.photo_only), Caution::PhotoOnly),
        (evidence.class_call.is_some() && !basis.class_call, Caution::CallSetAside),
        (
            basis.class_call && Item::WEAR.into_iter().any(|i| sides.iter().any(|s| i.answered(s))),
            Caution::WearSetAside,
        ),
        (premolar_left_out, Caution::PremolarWearSetAside),
        (cut, Caution::WindowCut),
        (window.to.month() == Month::May, Caution::BirthdayAtHand),
        (key_differs, Caution::KeyDiffers),
        (basis.cementum, Caution::CementumNotTruth),
        (estimate.lab.is_some_and(|lab| lab.is_far()), Caution::CementumDiffers),
        (basis.dentine_width && !young, Caution::DentineWidthSouthern),
        (basis.tooth_row && yearling >= 0.05, Caution::ToothRowSouthern),
        (not_used, Caution::MeasureNotUsed),
        (beam_on_doe, Caution::BeamOnDoe),
        (fawn < 0.8 && !basis.cementum, Caution::KeepJawAndIncisors),
    ]
    .into_iter()
    .filter_map(|(applies, caution)| applies.then_some(caution))
    .collect();
    list.order();
    list
}
