//! What snow rests on.

use crate::science::source::{Mark, Source};

/// Chest height and the depth that impedes.
pub static CHEST: [Source; 3] = [
    Source::new(
        "kelsall-1969",
        "Kelsall 1969, J. Mammal. 50:302-310, as quoted in USDA Forest Service Research Paper NC-52: 20 to 24 in; snow 30 % less than chest height impedes",
        Mark::Seen,
    ),
    Source::new(
        "chest-by-age",
        "56 cm for older deer (middle of the measured range), 51 cm for fawns (its low end)",
        Mark::Ours,
    ),
    Source::new("chest-recheck", "a chest under 40 cm or over 70 cm is asked to be measured again", Mark::Ours),
];
/// Sinking.
pub static SINKING: [Source; 1] = [Source::new(
    "mattfeld-1974",
    "Mattfeld 1974, thesis, State University of New York: five white-tailed deer; cost rose steeply once they sank more than 25 to 40 cm",
    Mark::Seen,
)];
/// Depth and sinking are two things.
pub static DEPTH: [Source; 2] = [
    Source::new(
        "depth-predicts-poorly",
        "critical snow density for Dall's sheep (abstract): depth explained 2 % of sinking; other species",
        Mark::Seen,
    ),
    Source::new(
        "nc52-running",
        "USDA Forest Service Research Paper NC-52, 1971, chapter 3: running deer plunge where walking deer are held",
        Mark::Seen,
    ),
];
/// Crust.
pub static CRUST: [Source; 1] = [Source::new(
    "crust-two-animals",
    "newspaper, northern Minnesota, 27 February 2020: crust that holds predators and breaks under deer",
    Mark::Seen,
)];
/// The cost of walking.
pub static TRAVEL: [Source; 2] = [
    Source::new(
        "parker-1984-equation",
        "Parker, Robbins and Hanley 1984, J. Wildl. Manage. 48(2):474-488: the equation, mule deer and elk; no text read prints it",
        Mark::Memory,
    ),
    Source::new("parker-1984", "the same, abstract: cost rises in a curve with depth and density", Mark::Seen),
];
