//! What was done: permissions to touch, gates, samples, cleaning up.

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, Shape, Sites, number};

pub(super) const FINDINGS: &[F] = &[
    // Deliberate facts before a gate opens.
    F::exam("touching_allowed", Shape::Choice(&["card_names_me", "office_said_yes"])).of_occasion(),
    // The form has them stated by its confirms; a table of findings may bring them.
    F::exam("gloves_on", Shape::Presence),
    F::exam("eyes_and_mask_on", Shape::Presence),
    F::exam("glove_torn", Shape::Choice(&["replaced_no_cut", "skin_cut"])).repeated(),
    // Cold is looked for at every carcass anew; the latest look is the one that counts.
    F::exam("thumb_to_finger", Shape::Choice(&["easy", "not_easy"])),
    F::exam("cold_signs", Shape::Choices(&["mumble", "fumble", "stumble", "grumble"])),
    F::exam("opening_trained", Shape::Choice(&["card_names_me", "trained_person_here"])),
    F::exam("belly_dents_under_fist", Shape::Choice(&["dents", "hard"])),
    F::exam("scene_photographed", Shape::Presence).of_occasion(),
    // Taken away.
    F::exam("jaw_taken", Shape::Choice(&["whole_jaw", "left_half", "right_half", "front_teeth_only"])),
    F::exam("femur_taken", Shape::Choice(&["whole", "broken"])),
    F::exam("other_samples_count", number(Unit::Count, 0, 0, 7)).of_occasion(),
    // Items: 1 is the jaw, 2 the long bone, 3 to 9 the others, 10 the kidneys, 11 the heart, so that no later
    // answer renumbers.
    F::exam("sample_number", Shape::Text(40)).at(Sites::Item),
    F::exam(
        "sample_what",
        Shape::Choice(&[
            "swab",
            "hide_piece",
            "hair",
            "scat",
            "muscle",
            "liver_or_kidney",
            "lung_or_lesion",
            "rumen",
            "head_part",
            "other_long_bone",
            "jaw",
            "femur",
            "kidneys",
            "heart",
            "other",
        ]),
    )
    .at(Sites::Item),
    F::exam("sample_sealed", Shape::Presence).at(Sites::Item),
    F::exam("sample_across_line", Shape::Choice(&["stays_inside", "allowed_across"])),
    F::exam("scat_collected", Shape::Presence),
    F::exam("head_work_wanted", Shape::Presence),
    // Cleaning up.
    F::exam("blades_back_count", number(Unit::Count, 0, 0, 20)).of_occasion(),
    F::exam("bags_sealed", Shape::Presence),
    F::exam("gloves_off_inside_out", Shape::Presence),
    F::exam("phone_wiped", Shape::Presence),
    F::exam("body_covered_with_snow", Shape::Presence),
    F::exam("litter_packed_out", Shape::Presence),
];
