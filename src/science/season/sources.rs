//! What the figures of a season rest on.

use crate::science::source::{Mark, Source};

/// Mixture of causes, or of ages and sexes.
pub static MIXTURE: [Source; 4] = [
    Source::new(
        "season-mixture",
        "shares by a mixture over each carcass's likelihood without damping, the prior entered once as 6 carcasses' worth of Dirichlet counts, the drawn table shared by all carcasses",
        Mark::Design,
    ),
    Source::new(
        "weighted-bootstrap",
        "Rubin 1981, Ann. Stat. 9:130-134; Newton and Raftery 1994, J. R. Stat. Soc. B 56:3-48",
        Mark::Memory,
    ),
    Source::new("gamma-variables", "Marsaglia and Tsang 2000, ACM Trans. Math. Softw. 26:363-372", Mark::Memory),
    Source::new("em", "Dempster, Laird and Rubin 1977, J. R. Stat. Soc. B 39:1-38", Mark::Memory),
];

/// Single shares.
pub static WILSON: Source =
    Source::new("newcombe-1998-one", "Newcombe 1998, Stat. Med. 17:857-872: score interval", Mark::Seen);

/// Two groups.
pub static TWO_GROUPS: [Source; 2] = [
    Source::new(
        "newcombe-hybrid",
        "Newcombe's hybrid score, as in the R package contingencytables; Newcombe 1998, Stat. Med. 17:873-890, pages from memory",
        Mark::Seen,
    ),
    Source::new("fisher-exact", "Fisher 1935, exact test, two-sided", Mark::Seen),
];

/// Survival from ages at death.
pub static SURVIVAL: [Source; 4] = [
    Source::new(
        "chapman-robson",
        "Chapman and Robson 1960; Robson and Chapman 1961; as printed in Miranda and Bettoli 2007, eqs 6.4 and 6.5",
        Mark::Seen,
    ),
    Source::new(
        "chapman-robson-pooled",
        "ages from nine on taken together: maximum of the likelihood of lifetimes cut off there",
        Mark::Derived,
    ),
    Source::new("rubin-rules", "Rubin 1987: variance within and between draws", Mark::Memory),
    Source::new("survival-limits", "at least 30 grown deer; refused where half of the draws fit poorly", Mark::Ours),
];

/// Density from distances to a line.
pub static TRANSECT: [Source; 3] = [
    Source::new(
        "line-transect",
        "Burnham, Anderson and Laake 1980, Wildl. Monogr. 72; Anderson and Pospahala 1970, J. Wildl. Manage. 34:141-146, as worked in a public course",
        Mark::Seen,
    ),
    Source::new(
        "half-normal-truncated",
        "half-normal cut off at the strip's half-width: equations for scale and effective width",
        Mark::Derived,
    ),
    Source::new("transect-limits", "counts only under 20 carcasses, of use from about 60", Mark::Ours),
];

/// Deaths by week.
pub static WEEKS: Source = Source::new(
    "death-weeks",
    "each window spread evenly over its days; windows over four weeks stand apart",
    Mark::Ours,
);

/// Likely doubles.
pub static DOUBLES: Source = Source::new(
    "doubles",
    "odds from place, days, age, sex and jaw; 2 in 100 taken as doubled before anything is compared",
    Mark::Ours,
);
