//! The snow story, tracks and signs round the body, nothing touched.

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, Shape, number};

/// Animals whose tracks or droppings may lie at a carcass. Which are about is the local card's.
const ANIMALS: &[&str] = &[
    "wolf",
    "coyote",
    "dog",
    "fox",
    "bobcat_or_lynx",
    "cougar",
    "bear",
    "marten_or_fisher",
    "wolverine",
    "deer",
    "other",
    "not_named",
];

pub(super) const FINDINGS: &[F] = &[
    F::exam("own_tracks_left_out", Shape::Presence),
    F::exam("snow_depth_cm", number(Unit::Centimetre, 0, 0, 500)).repeated().of_occasion(),
    F::exam("sinking_depth_cm", number(Unit::Centimetre, 0, 0, 300)).repeated().of_occasion(),
    F::exam("snow_crust", Shape::Choice(&["none", "breaks_under_deer", "holds_predator_only", "holds_deer"]))
        .of_occasion(),
    F::exam("snow_over_body", Shape::Choice(&["none", "dusting", "part_covered", "covered"])).of_occasion(),
    F::exam("snow_over_body_cm", number(Unit::Centimetre, 0, 0, 300)).repeated().of_occasion(),
    F::exam("snow_under_body", Shape::Choice(&["old_snow", "new_snow", "melted_to_ice", "bare_ground"])),
    F::sign("blood_on_snow"),
    F::exam("blood_where", Shape::Choices(&["trail_to_body", "sprayed", "at_body", "pooled", "at_nose_or_anus"])),
    F::sign("drag_marks"),
    F::exam("drag_length_m", number(Unit::Metre, 0, 0, 2_000)),
    F::sign("cached_over"),
    F::exam("cover_with", Shape::Choices(&["snow_raked", "leaves_or_soil", "sticks", "plucked_hair"])),
    F::sign("hair_scattered"),
    F::exam("hair_state", Shape::Choices(&["plucked_clean", "bitten_off", "slipped", "clumps_with_skin"])),
    F::sign("chase_or_struggle_marks"),
    F::exam("tracks_by", Shape::Choices(ANIMALS)),
    F::exam("droppings_by", Shape::Choices(ANIMALS)),
    F::exam("bird_signs", Shape::Choices(&["whitewash", "pellets", "wing_marks", "feathers", "birds_present"])),
    F::sign("bones_scattered"),
    F::sign("browse_or_beds_by_body"),
];
