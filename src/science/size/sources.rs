//! What weights and measures rest on.

use crate::science::source::{Mark, Source};

/// South Carolina.
pub static CAROLINA: Source = Source::new(
    "carolina-girth-1976",
    "Proc. SEAFWA 1976: 545 deer, South Carolina, autumn 1965 and 1966; 229 fawns (R2 0.69, dressed 0.71), 316 adults (R2 0.74)",
    Mark::Seen,
);
/// West Virginia.
pub static WEST_VIRGINIA: Source = Source::new(
    "west-virginia-girth",
    "rule of West Virginia's biologists: dressed 46 lb at 26 inches and 6 lb an inch; live 1.25 times that",
    Mark::Seen,
);
/// Florida.
pub static FLORIDA: Source = Source::new(
    "bartareau-2019",
    "Bartareau 2019, Wildl. Res. 46(4): Florida, girth, body length, sex and age (R2 0.985); age held at 8.5 years or less, our choice",
    Mark::Seen,
);
/// What all girth rules share.
pub static GIRTH: [Source; 2] = [
    Source::new("girth-spread", "spread of 12 % about a weight from girth", Mark::Design),
    Source::new("girth-ranges", "girths that each rule is used for; none is printed with the rules", Mark::Ours),
];
/// Dressed to live.
pub static DRESSED: [Source; 3] = [
    Source::new(
        "oklahoma-dressed",
        "Noble Foundation 2012, Oklahoma: over 200 deer, October to January, 105 lb dressed 134 lb live (126 to 141)",
        Mark::Seen,
    ),
    Source::new("dressed-others", "West Virginia 1.25; two published charts 1.26 and 1.28", Mark::Seen),
    Source::new("dressed-factor", "1.27, between 1.20 and 1.34 in 95 of 100 deer", Mark::Design),
];
/// Sanity of a hind foot.
pub static HIND_FOOT: Source =
    Source::new("hind-foot-adult", "hind foot of grown deer about 45 to 54 cm", Mark::Memory);
/// No norms.
pub static NO_NORMS: Source = Source::new(
    "no-northern-norms",
    "no table of hind foot, mandible, diastema or femur by age for northern deer was found; kept for the reserve's own",
    Mark::Ours,
);
