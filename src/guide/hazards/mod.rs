//! The hazard table, and which steps a confirm guards.

use super::{Hazard, Step, View};

/// All hazards, in the order in which they speak.
pub const HAZARDS: [&[Hazard]; 0] = [];

/// Whether a confirm must be said before this step.
pub(crate) fn guards(hazard: &Hazard, step: &Step) -> bool {
    let _ = (hazard, step);
    false
}

/// Whether an evidence hazard fires now or fired on an answer that was since taken back.
pub(crate) fn was_ever_fired(view: &View, hazard: &Hazard) -> bool {
    (hazard.fires)(view)
}
