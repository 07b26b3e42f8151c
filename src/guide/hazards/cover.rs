//! Which steps a closing covers. Told by what a step asks and how it touches, so that a new step is
//! covered without a change here.

use crate::guide::{Closes, Input, Phase, Step, Touch};

/// Findings that say that something was taken from the carcass.
/// What is in the bag already is labelled even when a stop has come since: labels are not among them.
pub(super) const TAKEN: &[&str] =
    &["jaw_taken", "femur_taken", "organs_taken", "scat_collected", "bite_swabbed", "other_samples_count"];

/// Findings read with the fingers in the mouth.
const MOUTH: &[&str] = &[
    "jaw_in_view",
    "cheek_teeth_count",
    "tooth_state",
    "third_tooth",
    "dentine",
    "crest",
    "infundibulum",
    "third_molar_back_cusp",
    "premolar_wear",
    "front_teeth",
    "jaw_trouble",
    "mandible_mm",
    "diastema_mm",
];

/// What stays open when the place itself is closed: a short useful record, never a dead end. All of
/// it can be told from where one stands, or from memory once one is away.
const ALWAYS_OPEN: &[&str] = &[
    "place",
    "place_words",
    "arrived_at",
    "photo",
    "tag_number",
    "cover_with",
    "evidence_note",
    "exposure_note",
    "remark",
    "species",
    "alive",
    "report_outcome",
];

/// Whether a step asks one of these findings.
pub(super) fn asks_any(step: &Step, findings: &[&str]) -> bool {
    match step.input {
        Input::Choice(f)
        | Input::Choices(f)
        | Input::Number(f)
        | Input::Text(f)
        | Input::Instant(f)
        | Input::Place(f)
        | Input::ReadDo(f)
        | Input::Photo(f)
        | Input::Photos { finding: f, .. }
        | Input::Sweep { finding: f, .. }
        | Input::Points { done: f, .. }
        | Input::Volumes { done: f, .. } => findings.contains(&f),
        Input::Panel(signs) => signs.iter().any(|f| findings.contains(f)),
        Input::Jaw => findings.contains(&"tooth_state"),
    }
}

/// Whether a step takes the lower jaw or a femur.
pub(super) fn takes_bone(step: &Step) -> bool {
    asks_any(step, &["jaw_taken", "femur_taken"])
}

/// Whether a closing covers a step.
pub(super) fn covers(closes: Closes, step: &Step) -> bool {
    let touches = step.touch > Touch::Look;
    match closes {
        Closes::Nothing => false,
        Closes::Head => asks_any(step, &["head_work_wanted"]),
        Closes::Mouth => touches && step.phase != Phase::Bench && asks_any(step, MOUTH),
        Closes::Asking(findings) => asks_any(step, findings),
        Closes::Opening => step.touch == Touch::Cut && !takes_bone(step),
        Closes::Cutting => step.touch == Touch::Cut,
        Closes::HandsOn => touches || takes(step),
        Closes::GoingIn => touches || takes(step) || measures_at_body(step),
        Closes::Place => step.phase.is_at_carcass() && (touches || !asks_any(step, ALWAYS_OPEN)),
    }
}

/// On the bench the same findings only label what is already there.
fn takes(step: &Step) -> bool {
    step.phase.is_at_carcass() && asks_any(step, TAKEN)
}

/// A number cannot be read off from the shore or the boundary.
fn measures_at_body(step: &Step) -> bool {
    matches!(step.phase, Phase::HandsOff | Phase::Outside | Phase::Opened | Phase::Samples)
        && matches!(step.input, Input::Number(_))
}
