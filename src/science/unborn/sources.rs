//! What the ages of unborn young rest on.

use crate::science::source::{Mark, Source};

/// Age, conception and birth.
pub static SOURCES: [Source; 5] = [
    Source::new(
        "hamilton-1985",
        "Hamilton, Tobin and Moore 1985, Proc. SEAFWA 39: 64 fetuses of known age, South Carolina; straight with age",
        Mark::Seen,
    ),
    Source::new("fetus-equation", "age = 0.32 x forehead-rump mm + 36.82 days; recalled, not confirmed", Mark::Memory),
    Source::new("gestation", "200 days, spread 3; Johnson 2002 (LSU) 193 to 205 in 95 does", Mark::Design),
    Source::new("conception-spread", "spread of 5 days up to 100 days of age, 8 above", Mark::Design),
    Source::new(
        "thin-does",
        "Jordan 1973, Verme 1977: thin does carry small young; spread 1.5 times for them",
        Mark::Design,
    ),
];

/// Sexing.
pub static SEXING: [Source; 1] = [Source::new(
    "strickland-2011",
    "Strickland, Demarais, Zamorano, DeYoung and Dacus 2011, Wildl. Soc. Bull. 35(2): 143 fetuses sexed by eye, checked by DNA",
    Mark::Seen,
)];
