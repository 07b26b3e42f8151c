//! The lower jaw: which teeth stand, in what state, how worn.

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, Shape, Sites, number};

pub(super) const FINDINGS: &[F] = &[
    // Which rows of cheek teeth can be seen as the jaw lies, nothing pried open.
    F::exam("jaw_in_view", Shape::Choice(&["both", "left", "right", "neither"])),
    F::exam("cheek_teeth_count", number(Unit::Count, 0, 0, 8)).at(Sites::Side),
    F::exam(
        "tooth_state",
        Shape::Choice(&[
            "not_there",
            "in_gum",
            "part_up",
            "up_unworn",
            "in_wear",
            "milk",
            "milk_loose",
            "milk_shed",
            "lost_in_life",
            "lost_after_death",
        ]),
    )
    .at(Sites::Tooth),
    // The third cheek tooth tells milk from permanent: three cusps or two.
    F::exam(
        "third_tooth",
        Shape::Choice(&["three_cusps", "loose_or_gone", "two_cusps_below_row", "two_cusps_white", "two_cusps_stained"]),
    )
    .at(Sites::Side),
    F::exam("dentine", Shape::Choice(&["none", "narrower", "about_equal", "wider", "twice_or_more", "smooth"]))
        .at(Sites::Tooth),
    F::exam("crest", Shape::Choice(&["sharp", "slightly_blunt", "blunt", "rounded", "gone"])).at(Sites::Tooth),
    F::exam("infundibulum", Shape::Choice(&["open_deep", "narrow", "remnant", "gone"])).at(Sites::Tooth),
    F::exam(
        "third_molar_back_cusp",
        Shape::Choice(&[
            "in_gum_or_unworn",
            "pointed",
            "flat_or_hollow",
            "slopes_to_cheek",
            "level_or_below",
            "cusp_missing",
        ]),
    )
    .at(Sites::Side),
    F::exam("premolar_wear", Shape::Choice(&["none", "light", "moderate", "heavy", "stumps"])).at(Sites::Side),
    F::exam(
        "front_teeth",
        Shape::Choice(&["all_milk", "first_pair_changing", "first_pair_permanent", "all_permanent"]),
    ),
    F::exam(
        "jaw_trouble",
        Shape::Choices(&["swelling", "bone_eaten_away", "broken", "sides_differ", "weathered_or_boiled", "photo_only"]),
    ),
    F::exam("wear_class_called", Shape::Choice(&["y2", "y3", "y4", "y5", "y6", "y7", "y8", "y9", "y10"])),
    F::exam("mandible_mm", number(Unit::Millimetre, 0, 80, 320)).at(Sites::Side).repeated(),
    F::exam("diastema_mm", number(Unit::Millimetre, 0, 20, 130)).at(Sites::Side).repeated(),
];
