//! Ground, ice, trees, road and animals on the way in and at the place.

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, Shape, number};

pub(super) const FINDINGS: &[F] = &[
    F::exam(
        "land_leave",
        Shape::Choice(&[
            "reserve_or_public",
            "private_with_leave",
            "private_no_leave",
            "tribal_with_leave",
            "tribal_no_leave",
        ]),
    ),
    F::exam("place", Shape::Place).repeated(),
    F::exam("place_words", Shape::Text(300)),
    F::exam("arrived_at", Shape::Instant).of_occasion(),
    F::sign("on_or_near_ice"),
    F::exam("clear_ice_cm", number(Unit::Centimetre, 0, 0, 200)),
    F::exam("white_ice_cm", number(Unit::Centimetre, 0, 0, 200)),
    // Stated before anybody whom the card names lets the crew onto ice.
    F::exam("ice_items", Shape::Choices(&["measured_every_few_steps", "picks", "rope", "float_vest", "second_person"])),
    F::sign("moving_or_open_water"),
    F::sign("slope_30_here_or_above"),
    F::exam("slope_here_deg", number(Unit::Degree, 0, 0, 90)),
    F::exam("slope_above_deg", number(Unit::Degree, 0, 0, 90)),
    F::sign("slide_or_cracking_snow"),
    F::sign("hung_or_broken_trees"),
    F::sign("road_edge"),
    F::sign("road_lane"),
    F::sign("child_or_lone_worker"),
    // Who may still be about.
    F::sign("predator_in_sight"),
    F::sign("growl_or_movement"),
    F::sign("fresh_mammal_tracks_now"),
    F::sign("mammal_bed_by_body"),
    F::sign("birds_feeding_now"),
    F::sign("known_carcass_revisited"),
    // Sick or dead animals near by.
    F::sign("dead_bird_or_scavenger"),
    F::sign("dead_small_mammal"),
    F::sign("other_dead_grazers"),
    F::sign("sick_live_animal"),
    F::sign("mangy_carnivore"),
];
