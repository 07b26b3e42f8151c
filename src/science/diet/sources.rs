//! What the diet methods rest on.

use crate::science::source::{Mark, Source};

/// Points counted in one rumen.
pub static POINTS: [Source; 4] = [
    Source::new(
        "rumen-point-frame",
        "Chamrad and Box 1964, J. Wildl. Manage. 28:473-477, as named by Anthony and Smith 1974, J. Wildl. Manage. 38:535-540",
        Mark::Seen,
    ),
    Source::new(
        "rumen-how-many-points",
        "at least 100 points, better 200 to 400; from a microscopic point method, J. Anim. Sci. 1964, 23(2):465-469",
        Mark::Ours,
    ),
    Source::new(
        "goodman-1965",
        "Goodman 1965, intervals for several proportions at once; as printed by public R functions",
        Mark::Seen,
    ),
    Source::new(
        "quesenberry-hurst-1964",
        "Quesenberry and Hurst 1964, intervals for several proportions at once; as printed by a public R function",
        Mark::Seen,
    ),
];

/// Volumes sorted from one rumen.
pub static VOLUME: [Source; 1] = [Source::new(
    "rumen-volume",
    "volume by displaced water, one of the two standard rumen methods; Anthony and Smith 1974, J. Wildl. Manage. 38:535-540",
    Mark::Seen,
)];

/// Fill is not condition.
pub static FILL: [Source; 2] = [
    Source::new(
        "rumen-fill-duarte",
        "Duarte, Luna and Weckerly 2011: 84 does, those in lower condition held larger amounts (abstract)",
        Mark::Seen,
    ),
    Source::new(
        "rumen-fill-agencies",
        "Michigan and Montana wildlife agencies: deer die with full stomachs",
        Mark::Seen,
    ),
];

/// Tiers of browse.
pub static TIERS: [Source; 3] = [
    Source::new(
        "browse-new-york",
        "New York State, Department of Environmental Conservation, list of winter deer foods in four tiers",
        Mark::Seen,
    ),
    Source::new(
        "browse-wisconsin-pens",
        "Dahlberg and Guettinger 1956, Wisconsin, foods as rated in pens (text read from a scan; title and year from memory)",
        Mark::Seen,
    ),
    Source::new("browse-latin", "Latin names of the browse list", Mark::Memory),
];

/// Soft food goes first.
pub static BIAS: [Source; 1] = [Source::new(
    "rumen-soft-first",
    "soft leaves go before twigs, needles and acorn shell; Holechek, Vavra and Pieper (review, of dung); of the rumen from memory",
    Mark::Memory,
)];

/// Grain.
pub static GRAIN: [Source; 2] = [
    Source::new(
        "grain-overload",
        "grain at least half, contents sour or watery or loose droppings, marrow not spent: send to a laboratory",
        Mark::Ours,
    ),
    Source::new(
        "grain-overload-ph",
        "acid rumen after much grain, also in fat deer; agency and laboratory columns",
        Mark::Seen,
    ),
];

/// Pooling deer.
pub static POOLED: [Source; 2] = [
    Source::new(
        "aggregate-percent-volume",
        "Martin, Gensch and Brown 1946, J. Wildl. Manage. 10:8-12: aggregate volume and aggregate percentage (definitions from memory)",
        Mark::Memory,
    ),
    Source::new(
        "pooled-resampled",
        "whole deer drawn again at random; ends at 2.5 and 97.5 in 100 of the draws",
        Mark::Design,
    ),
];
