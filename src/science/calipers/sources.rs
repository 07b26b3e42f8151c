//! What the caliper measures rest on.

use crate::science::source::{Mark, Source};

/// Tooth row.
pub static TOOTH_ROW: [Source; 2] = [
    Source::new(
        "governo-2006",
        "Governo, Shea, Somers and Ditchkoff 2006, Wildl. Soc. Bull. 34:345-350, and Shea and others 2002: 41 captive deer of known age, Alabama and Florida stock, 12 to 24 months",
        Mark::Seen,
    ),
    Source::new("tooth-row-spread", "spread of 1.5 months for northern deer, lengths of 62 to 88 mm", Mark::Design),
];

/// Width of dentine.
pub static DENTINE_WIDTH: [Source; 2] = [
    Source::new(
        "cooper-2012",
        "Cooper and Sieckenius 2012, Texas AgriLife Uvalde, as told on secondary pages: known-age bucks of 2.5 to 7.5 years, south Texas",
        Mark::Seen,
    ),
    Source::new(
        "dentine-width-spread",
        "spread of 1.0 year, 1.3 for does and northern deer; deer under two taken like those of two",
        Mark::Design,
    ),
];

/// Height of a crown.
pub static CROWN_HEIGHT: [Source; 3] = [
    Source::new(
        "quadratic-crown-height",
        "Klein and others 1981 to 1983, Klein and Cruz-Uribe 1984: quadratic loss of crown height; formula recalled, no constants for this species",
        Mark::Memory,
    ),
    Source::new("spinage-1973", "Spinage 1973, E. Afr. Wildl. J. 11:165-187; formula recalled", Mark::Memory),
    Source::new("crown-height-spread", "spread of a quarter of the age", Mark::Design),
];

/// Widths against heights.
pub static TOOTH_RATIO: [Source; 1] = [Source::new(
    "robinette-1957",
    "Robinette, Jones, Rogers and Gashwiler 1957, J. Wildl. Manage. 21:134-153, mule deer; ratio recalled, its regression not",
    Mark::Memory,
)];
