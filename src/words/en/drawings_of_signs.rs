//! What the drawings of signs show, for a screen reader.

pub(super) const TEXTS: &[(&str, &str)] = &[
    (
        "drawing.wound_bleeding.clot_at_hole",
        "Skin folded back: a dark clot in the flesh round each hole, its edge blurred.",
    ),
    (
        "drawing.wound_bleeding.diffuse_or_stained",
        "Skin folded back: all the flesh evenly red, no darker round the holes.",
    ),
    ("drawing.wound_bleeding.clean_no_bruise", "Skin folded back: pale flesh, two clean holes."),
    ("drawing.bruise_under_skin.clot_at_hole", "Skin folded back: a dark clot round each hole, its edge blurred."),
    ("drawing.bruise_under_skin.diffuse_or_thawed", "Skin folded back: the flesh evenly red, no clot."),
    ("drawing.wound_zone_main.throat", "A deer, two holes under the throat."),
    ("drawing.wound_zone_main.nape_or_skull", "A deer, two holes behind the head."),
    ("drawing.wound_zone_main.rump_hind_leg_or_flank", "A deer, holes at rump, thigh and flank."),
    ("drawing.wound_zone_main.many_zones_mutilated", "A deer, holes and tears from head to rump."),
    ("drawing.feeding_began.rump_or_hams", "A deer, eaten open at the rump."),
    ("drawing.feeding_began.behind_ribs", "A deer, belly open behind the ribs, gut pulled out."),
    ("drawing.feeding_began.shoulder_or_neck", "A deer, eaten open at shoulder and neck."),
    ("drawing.feeding_began.eyes_mouth_anus", "A whole deer, pecked at eye, mouth and under the tail."),
    ("drawing.bones_fed_on.long_bones_crushed", "A leg bone bitten in two, splinters round it."),
    ("drawing.bones_fed_on.ribs_or_blades_gnawed", "Ribs with ragged ends, a shoulder blade with a chewed edge."),
    ("drawing.bones_fed_on.intact", "Leg bone, ribs and shoulder blade, all whole."),
    ("drawing.snow_over_body.none", "A deer on the snow, none on it."),
    ("drawing.snow_over_body.dusting", "A deer with flakes on its coat."),
    ("drawing.snow_over_body.part_covered", "A deer with a smooth cap of snow along its back."),
    ("drawing.snow_over_body.covered", "A smooth mound of fallen snow, a deer under it."),
    ("drawing.cover_with.snow_raked", "A heap of snow with furrows scraped towards it; a leg sticks out."),
    ("drawing.cover_with.leaves_or_soil", "A heap of leaves and soil; a leg sticks out."),
    ("drawing.cover_with.sticks", "A heap with sticks across it; a leg sticks out."),
    ("drawing.cover_with.plucked_hair", "A heap with tufts of plucked hair; a leg sticks out."),
];
