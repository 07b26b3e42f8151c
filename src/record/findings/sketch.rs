//! The scene sketch: what lay where, as it was paced out. Raw: the bearing read, the paces counted, how long a pace
//! was taken to be. Each mark has a number, and each person's marks stand apart.

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, Shape, Sites, number};

pub(super) const FINDINGS: &[F] = &[
    // Which north the bearings were read from.
    F::exam("sketch_north", Shape::Choice(&["compass_needle", "true_north", "by_eye"])),
    // Where the head points, from the middle of the body.
    F::exam("sketch_head_deg", number(Unit::Degree, 0, 0, 359)),
    F::exam(
        "sketch_what",
        Shape::Choice(&["body_part", "blood", "hair", "bed", "tracks", "trail_to_body", "drag", "scat", "landmark"]),
    )
    .at(Sites::Item),
    // The number of the mark that it was paced from; 0 is the body.
    F::exam("sketch_from_count", number(Unit::Count, 0, 0, 999)).at(Sites::Item),
    F::exam("sketch_bearing_deg", number(Unit::Degree, 0, 0, 359)).at(Sites::Item),
    F::exam("sketch_paces_count", number(Unit::Count, 0, 0, 2_000)).at(Sites::Item),
    F::exam("sketch_pace_cm", number(Unit::Centimetre, 0, 20, 150)).at(Sites::Item),
    // Measured with a tape or a marked pole, in place of paces.
    F::exam("sketch_distance_m", number(Unit::Metre, 1, 0, 20_000)).at(Sites::Item),
    F::exam("sketch_drawn", Shape::Presence).of_occasion(),
];
