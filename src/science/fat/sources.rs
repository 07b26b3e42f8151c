//! What the fat methods rest on.

use crate::science::source::{Mark, Source};

/// Looks at depots.
pub static LOOKS: [Source; 2] = [
    Source::new(
        "depot-order",
        "Michigan DNR text on starvation; Austin 1984, Great Basin Nat. 44:178-181: skin, gut, kidney and heart, marrow",
        Mark::Seen,
    ),
    Source::new("depot-steps", "four steps of fat at a depot; watery fat counts as none", Mark::Ours),
];

/// Kidney fat.
pub static KIDNEY: [Source; 5] = [
    Source::new(
        "kidney-index",
        "Riney 1955, two trimmings in Sinclair, Fryxell and Caughley 2006, ch. 4; definition in Arkansas deer report 2006-07",
        Mark::Seen,
    ),
    Source::new(
        "kidney-40",
        "red deer stags, J. Zool. 1983: below about 40 the index stops tracking condition",
        Mark::Seen,
    ),
    Source::new(
        "kidney-mass",
        "Anderson and others 1990, J. Wildl. Manage. 54:550-556, mule deer: mass is the cleaner index",
        Mark::Seen,
    ),
    Source::new("kidney-sika", "sika deer, Hokkaido, abstract of 2000: marrow falls below 20 g kidney fat", Mark::Seen),
    Source::new("kidney-bands", "bands 40 and 20 of the index; the 20 is recalled", Mark::Ours),
];

/// The jaw's hollow.
pub static CAVITY: [Source; 2] = [
    Source::new(
        "jaw-cavity",
        "Nichols and Pelton 1972 and 1974, SEAFWA (authors from memory): used before femur marrow, sides differ",
        Mark::Seen,
    ),
    Source::new(
        "jaw-moose",
        "Cederlund and others 1986, J. Wildl. Manage. 50:719-726: moose jaws in autumn 38 to 78 %",
        Mark::Seen,
    ),
];

/// The score from memory.
pub static SCORE: Source = Source::new(
    "kistner-1980",
    "Kistner, Trainer and Hartmann 1980, Wildl. Soc. Bull. 8:11-17: layout recalled, wording of the steps not found",
    Mark::Memory,
);

/// The combined index from memory.
pub static CONINDEX: Source =
    Source::new("conindex", "CONINDEX, Connolly 1981, as used by Cook and others 2001: form recalled", Mark::Memory);

/// The rule for rump fat from memory.
pub static RUMP_RULE: Source =
    Source::new("rump-rule", "Stephenson and others 2002, mule deer: 5.68 + 5.93 x cm, recalled", Mark::Memory);
