//! What bounds the time of death and is asked nowhere else.

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, Shape, Sites, number};

/// A snowfall's layer, counted back from the look.
const LAYERS: &[&str] = &["last_fall", "second_last_fall", "third_last_fall", "older_fall"];

/// Probe temperature, to the tenth of a degree.
const PROBE: Shape = number(Unit::DegreeCelsius, 1, -500, 450);

pub(super) const FINDINGS: &[F] = &[
    // Dates of snowfalls as the crew knows them, once an outing: 1 is the last one.
    F::outing("snowfalls_dated_count", number(Unit::Count, 0, 0, 3)),
    F::outing("snowfall_began_at", Shape::Instant).at(Sites::Item),
    F::outing("snowfall_ended_at", Shape::Instant).at(Sites::Item),
    // What people, cameras and collars know.
    F::exam("times_known", Shape::Choices(&["place_without_body", "seen_alive", "seen_to_die", "collar_signal"])),
    F::exam("place_clear_at", Shape::Instant),
    F::exam("seen_alive_at", Shape::Instant),
    F::exam("collar_switched_at", Shape::Instant),
    F::exam("collar_delay_min", number(Unit::Minute, 0, 0, 10_080)),
    // Layers over, under and at the body.
    F::exam("fall_over", Shape::Choice(LAYERS)),
    F::exam("fall_over_lie", Shape::Choice(&["two_sides", "one_side", "drifted"])),
    F::exam("fall_under", Shape::Choice(LAYERS)),
    F::exam("event_tracks_cut", Shape::Choice(LAYERS)),
    F::exam("event_tracks_filled", Shape::Choice(LAYERS)),
    F::exam("blood_layer", Shape::Choice(LAYERS)),
    F::sign("crust_over_body"),
    F::sign("on_pedestal"),
    F::exam("eaters_count", number(Unit::Count, 0, 1, 60)),
    // The freshly dead.
    F::exam("eyes", Shape::Choice(&["clear_and_round", "sunken_or_cloudy", "eyes_gone"])),
    F::exam("blood_state", Shape::Choice(&["liquid_or_smears", "frozen_or_dry"])),
    F::exam("stiffness", Shape::Choice(&["limp", "jaw_only", "all_over"])),
    F::sign("body_warm"),
    F::sign("muscle_twitch"),
    F::exam("thigh_c", PROBE).of_occasion(),
    F::exam("belly_c", PROBE).of_occasion(),
    F::exam("nose_c", PROBE).of_occasion(),
    F::exam("air_now_c", PROBE).of_occasion(),
    F::exam("probed_at", Shape::Instant).of_occasion(),
    // The frozen: pressed with the gloved fist.
    F::sign("leg_frozen_hard"),
    F::sign("neck_frozen_hard"),
    F::sign("thigh_frozen_hard"),
    F::sign("trunk_frozen_hard"),
    // The thawed, and what lies bare in spring.
    F::sign("fly_eggs_or_maggots"),
    F::exam("bone_weathering", Shape::Choice(&["stage_0", "stage_1", "stage_2", "stage_3", "stage_4", "stage_5"])),
    F::sign("bones_greasy"),
    F::sign("hair_mat_left"),
    F::sign("plants_pressed"),
    F::sign("plants_grown_through"),
    F::sign("moss_on_bones"),
];
