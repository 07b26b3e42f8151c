//! A place's winter log: one row of readings a day, typed in at the station or at home.
//!
//! Degrees are kept to the hundredth and centimetres to the thousandth, so that a reading in tenths of a
//! degree Fahrenheit or of an inch is found again exactly (`science::winter`): agencies count a day at
//! exactly 0 F one way or the other.

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, Shape, Sites, number};

const DEGREES: Shape = number(Unit::DegreeCelsius, 2, -7_500, 5_500);

pub(super) const FINDINGS: &[F] = &[
    F::winter("log_place_name", Shape::Text(60)),
    // A day's minimum read in the morning is mostly that of the night before; new snow fell since the
    // last reading.
    F::winter("log_read_at", Shape::Choice(&["morning", "evening", "midnight"])),
    // What is pushed or dropped into the snow: readings of different gauges are never mixed.
    F::winter("log_sink_gauge", Shape::Choice(&["quebec_2_kg", "copper_3_lb", "deer_tracks", "other"])),
    F::winter("day_minimum_c", DEGREES).at(Sites::Day),
    F::winter("day_maximum_c", DEGREES).at(Sites::Day),
    F::winter("day_mean_c", DEGREES).at(Sites::Day),
    F::winter("day_snow_depth_cm", number(Unit::Centimetre, 3, 0, 1_000_000)).at(Sites::Day),
    F::winter("day_new_snow_cm", number(Unit::Centimetre, 3, 0, 300_000)).at(Sites::Day),
    F::winter("day_sink_cm", number(Unit::Centimetre, 3, 0, 500_000)).at(Sites::Day),
    F::winter("day_crust", Shape::Choice(&["none", "breaks_under_deer", "holds_deer", "holds_predator_only"]))
        .at(Sites::Day),
];
