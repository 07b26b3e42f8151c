//! The animal: what it is, in what state, seen from outside and, once allowed, handled and opened.

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, Shape, Sites, number};

const REGIONS: &[&str] =
    &["throat", "nape", "head", "shoulder_or_chest", "belly_or_flank", "rump_or_hind_legs", "legs", "other"];

const SEX: &[&str] =
    &["antlers", "pedicles_or_knobs", "no_pedicles", "scrotum_or_penis", "udder_or_vulva", "suckled_nipples"];

pub(super) const FINDINGS: &[F] = &[
    F::exam("species", Shape::Choice(&["white_tailed_deer", "other_deer", "other_animal"])),
    F::exam("alive", Shape::Choice(&["dead", "bones_and_hair", "alive"])),
    F::exam("quick_class", Shape::Choice(&["fawn", "older"])),
    F::exam("body_state", Shape::Choice(&["whole", "part_eaten", "mostly_eaten", "bones_and_hair"])),
    F::exam("body_frozen", Shape::Choice(&["not_frozen", "part_frozen", "frozen_solid"])).of_occasion(),
    F::exam("body_buried", Shape::Choice(&["on_top", "part_buried", "mostly_buried"])).of_occasion(),
    F::exam("body_position", Shape::Choice(&["on_left_side", "on_right_side", "on_chest", "on_back", "scattered"])),
    F::exam(
        "parts_eaten",
        Shape::Choices(&["rump", "belly", "chest", "shoulder", "neck", "head", "eyes_or_anus", "all"]),
    ),
    F::exam("decay", Shape::Choice(&["fresh", "bloated_or_soft", "dried", "bones_only"])),
    // Danger signs seen without touching.
    F::sign("blood_at_openings"),
    F::sign("swollen_belly"),
    F::sign("limp_not_frozen"),
    F::sign("very_thin"),
    F::sign("wet_chin"),
    F::sign("live_ticks"),
    F::sign("flat_flies"),
    // Sex, hands off or on.
    F::exam("sex_evidence", Shape::Choices(SEX)),
    F::exam("sex_evidence_handled", Shape::Choices(SEX)),
    F::exam("sex_called", Shape::Choice(&["female", "male"])),
    // Outside, gloved. How much was looked over bounds what may be said not to be there.
    F::exam("body_looked_over", Shape::Choice(&["both_sides", "upper_side_only", "part_only"])).of_occasion(),
    F::exam("wound_region", Shape::Choice(REGIONS)).at(Sites::Item),
    F::exam(
        "wound_form",
        Shape::Choice(&["paired_holes", "single_hole", "tear", "cut_straight", "scrape", "talon_holes"]),
    )
    .at(Sites::Item),
    F::exam("wound_bleeding", Shape::Choice(&["clot_at_hole", "diffuse_or_stained", "clean_no_bruise"]))
        .at(Sites::Item),
    F::sign("wounds_outside"),
    F::exam("wounds_count", number(Unit::Count, 0, 1, 9)),
    F::exam("bruising_outside", Shape::Choices(REGIONS)),
    F::exam("bones_broken", Shape::Choices(&["skull", "neck", "ribs", "leg", "pelvis"])),
    F::exam("leg_disease", Shape::Choices(&["swollen_joint", "old_break", "open_sore", "hoof_damage"])),
    F::exam("hind_foot_mm", number(Unit::Millimetre, 0, 150, 650)).at(Sites::Side).repeated(),
    F::exam("growth_plate", Shape::Choice(&["open", "line", "closed"])).at(Sites::Bone),
    // Opened.
    F::sign("lumps_inside"),
    F::sign("clear_bladder_inside"),
    F::sign("fetus"),
    F::sign("urine_contact"),
    F::exam("rumen", Shape::Choice(&["present", "pulled_out", "torn_open", "spilled_only"])),
    F::exam("rumen_fill", Shape::Choice(&["empty", "quarter", "half", "three_quarters", "full"])),
    F::exam("rumen_smell", Shape::Choice(&["normal", "sour", "rotten"])),
    F::exam(
        "rumen_plants",
        Shape::Choices(&[
            "conifer",
            "hardwood_twigs",
            "buds_or_bark",
            "grass_or_herbs",
            "leaves_dry",
            "lichen",
            "corn_or_grain",
            "hay",
            "other",
            "not_named",
        ]),
    ),
    F::exam("remark", Shape::Text(1_000)).repeated(),
];
