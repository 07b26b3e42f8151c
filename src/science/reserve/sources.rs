//! What weight loss and reserve rest on.

use crate::science::source::{Mark, Source};

/// Weight loss.
pub static LOSS: [Source; 3] = [
    Source::new(
        "loss-normal",
        "Woods-N-Water 2013: 10 to 15 % loss is normal in well-fed does and fawns; Ontario 10 to 20 %",
        Mark::Seen,
    ),
    Source::new("loss-limit", "Michigan DNR text on starvation: 25 to 30 % can be survived", Mark::Seen),
    Source::new("loss-bands", "bands at 15, 25 and 30 % put together from these", Mark::Ours),
];

/// Days of reserve.
pub static RESERVE: [Source; 4] = [
    Source::new(
        "worden-pekins-1995",
        "Worden and Pekins 1995, Can. J. Zool.: five captive does, fasting 79 to 90, spent 1.7 times that, eaten 0.9 to 1.1",
        Mark::Seen,
    ),
    Source::new("robbins-1974", "Robbins and others 1974, J. Anim. Sci.: fat 9.490 kcal/g, 23 white-tails", Mark::Seen),
    Source::new(
        "tarr-pekins-2002",
        "Tarr and Pekins 2002: fed wild fawns spend 758.4 kJ (535.9 to 1032.8), 12.1 % fat",
        Mark::Seen,
    ),
    Source::new("reserve-formula", "days from those constants; that fawns eat as does do for their size", Mark::Ours),
];
