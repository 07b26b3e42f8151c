//! Signs that speak of the cause of death and are asked nowhere else.
//!
//! Which finding answers which observation of `cause-and-time-of-death.md` 4.2 (the states are mapped in
//! `reading::observations`; what a crew wrote is kept as it wrote it):
//!
//! | observation | findings |
//! |---|---|
//! | O01 bite haemorrhage | `bruise_under_skin`; `wound_bleeding`, `clot_wiped` of each wound |
//! | O02 wound zone | `wound_zone_main`; `wounds_outside`, `wound_region` |
//! | O03 chase or struggle | `chase_or_struggle_marks`, where `snow_readable` |
//! | O04 blood on snow | `blood_on_snow`, `blood_where` |
//! | O05 posture | `body_position` |
//! | O06 covered | `cached_over`, `cover_with`, `snow_over_body` |
//! | O07 dragged | `drag_marks`, `drag_length_m` |
//! | O08 hair | `hair_scattered`, `hair_state` |
//! | O09 bone damage | `bones_fed_on`; `body_state` |
//! | O10 rumen | `rumen`; `body_state` |
//! | O11 feeding began | `feeding_began`; `parts_eaten`, `body_state` |
//! | O12 marrow look | `marrow_consistency`, `marrow_see_through`, `marrow_colour`, `marrow_frozen` |
//! | O13 fat | `rump_fat`, `inside_fat` |
//! | O14 fracture or rupture | `bled_fracture`, `organ_rupture`, `blood_in_cavity` |
//! | O15 projectile | `projectile_or_wound_track`, `bullet_or_arrow_wound`, `hole_hair_cut` |
//! | O16 road | `road_distance` |
//! | O17 rumen contents | `rumen_mostly`; `rumen_plants` |
//! | O18 tracks | `tracks_main`; `tracks_by`, where `snow_readable` |
//! | O19 canine spacing | `upper_canines_mm` of a wound with a clot |
//! | O20 lungs | `lungs` |
//! | O21 pedicles | `pedicle_pus_or_pits` |
//! | O22 dung on rump | `rump_stained` |
//! | O23 place | `death_place` |
//! | O24 age | `quick_class` and the age reading |
//! | O25 claw rakes | `claw_rakes` |

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, Shape, Sites, number};

pub(super) const FINDINGS: &[F] = &[
    // How far the snow can be trusted as a witness.
    F::exam("snow_readable", Shape::Choice(&["sharp", "snowed_over", "melted_or_blown", "trampled"])),
    F::exam(
        "tracks_main",
        Shape::Choice(&["large_canid", "medium_canid", "felid", "bear", "human_or_vehicle", "fox_fisher_bird_only"]),
    ),
    F::exam("road_distance", Shape::Choice(&["within_50_m", "within_500_m", "over_500_m"])),
    F::exam(
        "death_place",
        Shape::Choice(&[
            "woods_or_trail",
            "bed_under_cover",
            "on_or_in_ice",
            "roadside_or_yard",
            "fence_cliff_or_snag",
        ]),
    ),
    // How it was fed on; says who ate, not who killed.
    F::exam("feeding_began", Shape::Choice(&["rump_or_hams", "behind_ribs", "shoulder_or_neck", "eyes_mouth_anus"])),
    F::exam("bones_fed_on", Shape::Choice(&["long_bones_crushed", "ribs_or_blades_gnawed", "intact"])),
    F::sign("rump_stained"),
    F::sign("pedicle_pus_or_pits"),
    // Signs of people, looked for by eye before anybody touches.
    F::sign("boot_or_drag_trail"),
    F::sign("gut_pile_cut_out"),
    F::sign("clean_knife_cuts"),
    // The same, looked for again where what was seen calls for it.
    F::sign("case_wad_or_arrow"),
    F::sign("hole_hair_cut"),
    F::sign("cut_through_joint"),
    // On hide and flesh. Freezing and thawing stains flesh like a bruise.
    F::exam("body_thaw", Shape::Choice(&["never_thawed", "thawed_again"])),
    F::sign("claw_rakes"),
    F::sign("projectile_or_wound_track"),
    F::exam("clot_wiped", Shape::Choice(&["clot_stays", "wipes_off"])).at(Sites::Item),
    F::exam(
        "wound_zone_main",
        Shape::Choice(&["throat", "nape_or_skull", "rump_hind_leg_or_flank", "many_zones_mutilated"]),
    ),
    F::exam("upper_canines_mm", number(Unit::Millimetre, 0, 5, 110)).at(Sites::Item).repeated(),
    F::exam("lower_canines_mm", number(Unit::Millimetre, 0, 5, 110)).at(Sites::Item).repeated(),
    // Skinned and opened.
    F::exam("skinned", Shape::Choices(&["neck_and_head", "shoulders", "rump", "inner_thighs"])),
    F::exam("bruise_under_skin", Shape::Choice(&["clot_at_hole", "diffuse_or_thawed"])),
    F::sign("bled_fracture"),
    F::sign("organ_rupture"),
    F::sign("blood_in_cavity"),
    F::exam("inside_fat", Shape::Choice(&["plenty", "some", "none_or_gel"])),
    F::exam("lungs", Shape::Choice(&["normal", "froth_blood_water", "solid_or_pus"])),
    F::exam("rumen_mostly", Shape::Choice(&["woody_browse", "grain_or_fruit", "near_empty", "garden_shrub"])),
];
