//! Measures of tracks, droppings and talon holes.

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, Shape, Sites, number};

pub(super) const FINDINGS: &[F] = &[
    // Melt makes a track larger: its size counts only where the edges of the pads are crisp.
    F::exam("track_edges", Shape::Choice(&["crisp", "melted_or_blurred"])),
    F::exam("front_track_width_mm", number(Unit::Millimetre, 0, 10, 300)).repeated(),
    F::exam("front_track_length_mm", number(Unit::Millimetre, 0, 10, 400)).repeated(),
    F::exam("walking_stride_cm", number(Unit::Centimetre, 0, 5, 300)).repeated(),
    F::exam("track_toes_count", number(Unit::Count, 0, 2, 5)),
    F::exam("scat_width_mm", number(Unit::Millimetre, 0, 2, 100)).repeated(),
    // Holes of talons: between two neighbours of the three in a row, and from the middle one to the hole opposite.
    F::exam("talon_front_mm", number(Unit::Millimetre, 0, 5, 200)).at(Sites::Item).repeated(),
    F::exam("talon_hind_mm", number(Unit::Millimetre, 0, 5, 300)).at(Sites::Item).repeated(),
];
