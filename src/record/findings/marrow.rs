//! Marrow: the raw look in the field, the thawed look and the scales on the bench.

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, Shape, Sites, number};

pub(super) const FINDINGS: &[F] = &[
    // The bone in hand; the looks below name it as their place.
    F::exam(
        "marrow_bone",
        Shape::Choice(&["femur", "tibia", "humerus", "radius", "metatarsus", "metacarpus", "mandible"]),
    ),
    F::exam("marrow_consistency", Shape::Choice(&["solid_waxy", "gelatinous_opaque", "gelatinous_wet", "watery"]))
        .at(Sites::Bone),
    F::exam("marrow_colour", Shape::Choice(&["white", "pink", "red", "yellow"])).at(Sites::Bone),
    F::exam("marrow_see_through", Shape::Choice(&["opaque", "translucent"])).at(Sites::Bone),
    F::exam("marrow_frozen", Shape::Choice(&["frozen", "thawed_after_freezing", "never_frozen"]))
        .at(Sites::Bone)
        .of_occasion(),
    F::exam("bone_opened", Shape::Choice(&["intact", "open_under_a_day", "open_over_a_day", "open_unknown"]))
        .at(Sites::Bone),
    F::exam("marrow_spoiled", Shape::Choices(&["dried", "mouldy", "sour", "rain_soaked"])).at(Sites::Bone),
    F::exam("marrow_wet_g", number(Unit::Gram, 2, 0, 20_000)).at(Sites::Bone).repeated(),
    F::exam("marrow_dry_g", number(Unit::Gram, 2, 0, 20_000)).at(Sites::Bone).repeated(),
];
