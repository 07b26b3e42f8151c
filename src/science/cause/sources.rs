//! What the cause reading rests on.

use crate::science::source::{Mark, Source};

/// All of it, what most rests on first.
pub static SOURCES: &[Source] = &[
    Source::new(
        "cause-cells-expert",
        "845 of the 972 likelihood cells, the block weights and the thresholds of the words: expert judgement, no source",
        Mark::Design,
    ),
    Source::new(
        "cause-cells-direction",
        "102 cells take their direction from predator damage guides, wolf, coyote and bobcat studies and agency notes; the numbers are expert judgement",
        Mark::Ours,
    ),
    Source::new(
        "labisky-boulay-1998",
        "Labisky and Boulay 1998, Am. Midl. Nat. 139:275: 39 deer killed by bobcats, Everglades, no snow",
        Mark::Seen,
    ),
    Source::new(
        "mech-1971",
        "Mech et al. 1971, USDA Forest Service Res. Pap. NC-52: marrow, fat and ages of wolf-killed deer",
        Mark::Derived,
    ),
    Source::new("nettles-1976", "Nettles et al. 1976, SEAFWA: old injuries in 76 of 1,002 deer", Mark::Derived),
    Source::new("baumann-davidson-1998", "head abscess: 24 of 683 deer, 88 % male, laboratory records", Mark::Seen),
    Source::new(
        "patterson-messier-2003",
        "Patterson and Messier 2003, Can. J. Zool.: of 81 deer that coyotes ate and whose cause was known, 69 were killed by them",
        Mark::Seen,
    ),
    Source::new(
        "mumma-2014",
        "Mumma et al. 2014, Mol. Ecol. Resour.: DNA named the predator on 94 %, people in the field on 62.5 %",
        Mark::Seen,
    ),
    Source::new(
        "cause-priors",
        "shares by area shaped by 17 published counts of deaths; half and double as ends: expert judgement",
        Mark::Design,
    ),
];
