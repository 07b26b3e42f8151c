//! Several carcasses in one place: from the fifth on each gets a short record. The first four tell what killed
//! them; the others are counted, aged by eye and bounded in time, and the crew gets home before dark. The number is
//! the project's own, no source.

use crate::record::{Answer, Why};

use super::{Phase, Step, View};

/// The carcass of an event from which on the record is short.
pub const SHORT_FROM: i64 = 5;

/// What is still asked at the carcass.
const ASKED: &[&str] = &[
    "body_state",
    "quick_class",
    "parts_eaten",
    "decay",
    "sex_evidence",
    "sex_called",
    "snow_over_body",
    "snow_depth",
    "tracks_by",
    "scene_photographed",
    "remark",
];

/// What is asked of scraps whose short record the crew chose: who was there, when, how old.
const ASKED_OF_SCRAPS: &[&str] = &[
    "body_state",
    "record_length",
    "snow_over_body",
    "snow_over_body_depth",
    "snow_readable",
    "snow_signs",
    "tracks_by",
    "tracks_main",
    "droppings_by",
    "bird_signs",
    "round_the_body",
    "quick_class",
    "decay",
    "rumen_lying_out",
    "bones_fed_on",
];

/// This carcass lies with at least four others that were recorded before it.
pub fn is_short(view: &View) -> bool {
    view.number("event_carcass_count").is_some_and(|n| n >= SHORT_FROM)
}

/// The answer that a short record gives to a step that it leaves out. Every step can still be answered from the
/// list of all questions.
pub(super) fn left_out(view: &View, step: &Step) -> Option<Answer> {
    // Of what may be evidence nothing is left out.
    if super::steps::is_evidence(view) {
        return None;
    }
    let of_the_body = matches!(step.phase, Phase::HandsOff | Phase::Outside | Phase::Opened | Phase::Samples);
    let (asked, why, leaves) = if is_short(view) {
        (ASKED, Why::OneOfMany, of_the_body)
    } else {
        // What may be taken of scraps, the jaw first of all, is still asked of those who may touch.
        let chosen = view.chose("record_length", "short_record") && view.body_is("bones_and_hair");
        (ASKED_OF_SCRAPS, Why::ShortRecord, chosen && step.phase == Phase::HandsOff)
    };
    (leaves && !asked.contains(&step.id)).then_some(Answer::NotLooked { why })
}
