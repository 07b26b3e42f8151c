//! A crew's day out: plan, weather, roles, coming back.

use crate::record::finding::{FindingDef as F, Shape, number};
use crate::record::{DUE_BACK, Unit};

pub(super) const FINDINGS: &[F] = &[
    // The plan, one tick each: what a person at home knows.
    F::outing("contact_told", Shape::Presence),
    F::outing("backup_told", Shape::Presence),
    F::outing("late_action_agreed", Shape::Presence),
    F::outing(DUE_BACK, Shape::Instant),
    F::outing("walk_out_min", number(Unit::Minute, 0, 0, 1_440)),
    F::outing("crew_count", number(Unit::Count, 0, 1, 30)),
    F::outing("roles", Shape::Choice(&["recorder_and_handler", "alone"])),
    F::outing("people_out", Shape::Text(200)),
    // Weather at leaving and later.
    F::outing("air_temperature_c", number(Unit::DegreeCelsius, 0, -60, 30)).repeated(),
    F::outing("wind_km_h", number(Unit::KilometreAnHour, 0, 0, 150)).repeated(),
    F::outing("wind_read_at", Shape::Choice(&["forecast_or_mast", "at_face_height"])),
    // Gear, read and done line by line.
    F::outing("gear_warmth", Shape::Presence),
    F::outing("gear_light_and_whistle", Shape::Presence),
    F::outing("gear_gloves", Shape::Presence),
    F::outing("gear_eyes_and_masks", Shape::Presence),
    F::outing("gear_blades_and_sharps_tube", Shape::Presence),
    F::outing("gear_bags_and_labels", Shape::Presence),
    F::outing("gear_scale_card", Shape::Presence),
    F::outing("gear_water_and_soap", Shape::Presence),
    F::outing("gear_first_aid", Shape::Presence),
    F::outing("gear_paper_and_power", Shape::Presence),
    F::outing("blades_out_count", number(Unit::Count, 0, 0, 20)),
    // The card's permission as the crew has it in the hand.
    F::outing("permit_number", Shape::Text(60)),
    // Coming back.
    F::outing("hands", Shape::Choice(&["clean", "dirty"])),
    F::outing("heads_counted_count", number(Unit::Count, 0, 0, 30)),
    F::outing("ticks_checked_tonight", Shape::Choice(&["will_do", "done"])),
    F::outing("contact_told_back", Shape::Presence),
    F::outing("left_early", Shape::Choice(&["unsafe_here", "time", "cold", "weather", "person_unwell", "other"])),
    F::outing("dirty_tools_aboard", Shape::Presence),
    // Who hurt what; kept on the device unless the person agrees.
    F::outing("exposure_note", Shape::Text(2_000)).repeated(),
    F::outing("handed_over", Shape::Text(120)).repeated(),
];
