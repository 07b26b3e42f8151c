//! What always holds, shown where the crew is about to touch.

/// Messages of the always-on baseline, in the order in which they are read.
pub const BASELINE: [&str; 8] = [
    "baseline.gloves_and_eyes",
    "baseline.head_and_spine",
    "baseline.field_tools",
    "baseline.hand_to_mouth",
    "baseline.stand_back",
    "baseline.ask_a_doctor",
    "baseline.dogs",
    "baseline.what_kills",
];
