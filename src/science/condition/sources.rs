//! What the rules for putting evidence together rest on.

use crate::science::source::{Mark, Source};

/// All of them.
pub static SOURCES: [Source; 7] = [
    Source::new(
        "depot-order",
        "Michigan DNR text on starvation; Austin 1984, Great Basin Nat. 44:178-181: skin, gut, kidney and heart, marrow",
        Mark::Seen,
    ),
    Source::new(
        "depot-overlap",
        "Torbit and others 1985 (authors and year from memory), mule deer: stores overlap, protein goes beside fat",
        Mark::Seen,
    ),
    Source::new(
        "white-tail-depots",
        "SEAFWA 1982, 98 white-tails, marrow against kidney r 0.78; kidney falls first",
        Mark::Seen,
    ),
    Source::new(
        "bone-order",
        "Davis and others 1987, J. Wildl. Manage. 51:365-371; Spears and others 2003, Alces 39:273-285; impala",
        Mark::Seen,
    ),
    Source::new(
        "mech-delgiudice-1985",
        "Mech and DelGiudice 1985, Wildl. Soc. Bull. 13:204-206: full marrow does not show good condition",
        Mark::Memory,
    ),
    Source::new("condition-words", "the four words and when each is said, as a floor under the evidence", Mark::Ours),
    Source::new("condition-conflicts", "which evidence contradicts which, and that no word is left then", Mark::Ours),
];
