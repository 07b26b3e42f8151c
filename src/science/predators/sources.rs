//! What the measures rest on.

use crate::science::source::{Mark, Source};

/// Canines.
pub static CANINES: &[Source] = &[
    Source::new(
        "canines-handbooks",
        "coyote, bobcat, cougar: damage handbooks and leaflets (Knight 1994 and others)",
        Mark::Seen,
    ),
    Source::new(
        "canines-marten-note",
        "marten, bobcat, coyote skulls, 9, 3 and 4 of them: note on killing among martens",
        Mark::Seen,
    ),
    Source::new(
        "canines-judged",
        "lynx, fisher, dog, the spread of all, 2 mm for the hide, 30 to 1 at most: expert judgement",
        Mark::Design,
    ),
    Source::new("canines-foxes", "red and gray fox", Mark::Memory),
];

/// Tracks.
pub static TRACKS: &[Source] = &[
    Source::new("tracks-moskowitz", "Moskowitz 2010: wolf and coyote feet, ranges", Mark::Seen),
    Source::new("tracks-guides", "fox, bobcat, lynx, fisher, bear: tracking guides on the web", Mark::Seen),
    Source::new(
        "tracks-judged",
        "a quarter of a range as spread, strides of wolf and cougar: expert judgement",
        Mark::Design,
    ),
];

/// Droppings.
pub static SCAT: &[Source] = &[
    Source::new("scat-danner-dodd", "diameters of 179 coyote and 95 gray fox droppings", Mark::Seen),
    Source::new(
        "scat-dellinger-2011",
        "Dellinger et al. 2011, Wildl. Soc. Bull. 35:416-420: red wolf and coyote by DNA",
        Mark::Seen,
    ),
    Source::new("scat-reid-2015", "Reid 2015, Wildl. Biol. 21: shape alone is right in 62 to 71 %", Mark::Seen),
    Source::new("scat-judged", "wolf, 3 to 1 at most among middling animals: expert judgement", Mark::Design),
    Source::new("scat-memory", "lynx, fisher, bear", Mark::Memory),
];

/// Talons.
pub static TALONS: &[Source] = &[Source::new("talons-agrilife", "Texas A&M AgriLife: eagle talon wounds", Mark::Seen)];
