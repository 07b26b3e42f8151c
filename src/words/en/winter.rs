//! The winter log.

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("finding.log_place_name", "Place"),
    ("finding.log_read_at", "Read at"),
    ("finding.log_sink_gauge", "Sinking gauge"),
    ("finding.day_minimum_c", "Lowest temperature"),
    ("finding.day_maximum_c", "Highest temperature"),
    ("finding.day_mean_c", "Mean temperature"),
    ("finding.day_snow_depth_cm", "Snow on the ground"),
    ("finding.day_new_snow_cm", "New snow"),
    ("finding.day_sink_cm", "Gauge sinks"),
    ("finding.day_crust", "Crust"),
    ("option.log_read_at.morning", "Morning"),
    ("option.log_read_at.evening", "Evening"),
    ("option.log_read_at.midnight", "Midnight to midnight"),
    ("option.log_sink_gauge.quebec_2_kg", "Quebec gauge, about 2 kg"),
    ("option.log_sink_gauge.copper_3_lb", "Copper tube, 3 lb (1.36 kg)"),
    ("option.log_sink_gauge.deer_tracks", "Depth of deer tracks"),
    ("option.day_crust.breaks_under_deer", "Breaks under deer"),
    ("option.day_crust.holds_deer", "Bears deer"),
    ("option.day_crust.holds_predator_only", "Bears predators only"),
];
