//! The rumen on the bench: points under pins, volumes, what goes to the laboratory. And what of it is seen
//! where the deer lies.

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, Shape, Sites, number};

/// Most points of one frame of pins.
pub(super) const FRAME: usize = 10;

pub(super) const FINDINGS: &[F] = &[
    F::exam("rumen_moisture", Shape::Choice(&["dry", "normal", "watery"])),
    F::exam("rumen_grain", Shape::Choice(&["under_half", "half_or_more"])),
    F::sign("loose_droppings"),
    F::exam("rumen_method", Shape::Choice(&["point_count", "volume_ml", "volume_percent"])),
    // One item a frame: ten points are one entry, so that 400 points are 40.
    F::exam("rumen_points", Shape::Plants(FRAME)).at(Sites::Item),
    F::exam("rumen_point_count", Shape::Choice(&["counted"])),
    // One item a plant, by the plant's number.
    F::exam("rumen_plant_ml", number(Unit::Millilitre, 0, 0, 20_000)).at(Sites::Item),
    F::exam("rumen_plant_percent", number(Unit::Percent, 0, 0, 100)).at(Sites::Item),
    F::exam("rumen_sorting", Shape::Choice(&["sorted"])),
    // Names of the plants tapped as own 1 to 3.
    F::exam("rumen_own_plant", Shape::Text(60)).at(Sites::Item),
    F::exam("rumen_lab_sample", Shape::Choice(&["frozen", "in_spirit", "dried"])),
    F::exam("rumen_lab_number", Shape::Text(40)),
];
