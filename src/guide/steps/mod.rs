//! The protocol: every step, by phase.
//!
//! A row says when in the visit a question is asked, how it is answered, what it does to the
//! carcass, to what it applies, and which answers the record settles without asking. A new question
//! is a new row, a new finding and its texts.

mod approach;
mod before_leaving;
mod bench;
mod bench_calipers;
mod bench_fat;
mod clean_up;
mod evidence;
mod death;
mod facts;
mod fat;
mod hand_over;
mod hands_off;
mod jaw;
mod leave;
mod marrow;
mod opened;
mod outside;
mod photos;
mod report;
mod rules;
mod rumen;
mod samples;
mod search;
mod signs;
mod sketch;
mod snow;
mod stand_off;
mod tracks;
mod wounds;

use super::Step;

pub(crate) use evidence::is_evidence;
pub(crate) use facts::{head_is_there, viscera_are_there};
pub(crate) use wounds::any_bite_with_clot;

/// All steps, in the order in which they are asked within their phase.
pub const STEPS: [&[Step]; 37] = [
    report::STEPS,
    before_leaving::STEPS,
    death::OUTING,
    search::OUTING,
    approach::STEPS,
    search::FOUND,
    death::TIMES,
    stand_off::STEPS,
    evidence::STEPS,
    snow::STEPS,
    tracks::STEPS,
    death::SNOW,
    hands_off::BODY,
    death::BODY,
    signs::STEPS,
    signs::SEARCH,
    photos::STEPS,
    sketch::STEPS,
    hands_off::STEPS,
    outside::STEPS,
    tracks::TALONS,
    death::OUTSIDE,
    jaw::STEPS,
    marrow::STEPS,
    opened::STEPS,
    fat::STEPS,
    samples::STEPS,
    clean_up::STEPS,
    leave::STEPS,
    search::WALKED,
    hand_over::STEPS,
    bench_fat::STEPS,
    bench::MARROW,
    bench_fat::LATER,
    bench::STEPS,
    rumen::STEPS,
    bench::END,
];

/// The step of an id.
pub fn step(id: &str) -> Option<&'static Step> {
    STEPS.iter().flat_map(|part| part.iter()).find(|step| step.id == id)
}

/// Whether a step asks whether the crew may go on to touch or to open. It is asked before the facts
/// that guard what it opens: nobody gloves up for what nobody may do.
pub(crate) fn asks_for_permission(step: &Step) -> bool {
    matches!(step.id, "touching_allowed" | "opening_trained")
}

/// Whether most crews are not trained or allowed to do this.
pub(crate) fn needs_permission(step: &Step) -> bool {
    asks_for_permission(step) || matches!(step.id, "jaw_taken" | "femur_taken")
}
