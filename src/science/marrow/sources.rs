//! What the marrow methods rest on.

use crate::science::source::{Mark, Source};

/// Sources of a classed look.
pub static LOOK: [Source; 6] = [
    Source::new(
        "marrow-classes",
        "Sinclair, Fryxell and Caughley 2006, Wildlife Ecology, Conservation and Management, ch. 4, after Cheatum 1949 (three looks and fat ranges seen; the book's identity from memory)",
        Mark::Seen,
    ),
    Source::new("bischoff-1954", "Bischoff 1954 in Greer 1968, J. Wildl. Manage.: consistency, not colour", Mark::Seen),
    Source::new(
        "distal-last",
        "Davis and others 1987, J. Wildl. Manage. 51:365-371; Spears and others 2003, Alces 39:273-285",
        Mark::Seen,
    ),
    Source::new(
        "mech-delgiudice-1985",
        "Mech and DelGiudice 1985, Wildl. Soc. Bull. 13:204-206: full marrow does not show good condition",
        Mark::Memory,
    ),
    Source::new("marrow-exposure", "rules for opened, dried, wet, frozen and decayed marrow", Mark::Ours),
    Source::new(
        "marrow-mandible",
        "Cederlund and others 1986, J. Wildl. Manage. 50:719-726 (moose jaws); the rule drawn from it is ours",
        Mark::Ours,
    ),
];

/// Sources of a weighing.
pub static WEIGHING: [Source; 8] = [
    Source::new("neiland-1970", "Neiland 1970, J. Wildl. Manage. 34:904-907, dry-weight method", Mark::Memory),
    Source::new(
        "dry-minus-7",
        "fat is dry weight less 7: Hanks 1981 in Sinclair, Fryxell and Caughley 2006",
        Mark::Seen,
    ),
    Source::new(
        "greer-1968",
        "Greer 1968, J. Wildl. Manage., abstract: fresh against frozen, up to 10 percent",
        Mark::Seen,
    ),
    Source::new("drying-points", "5 points for the drying", Mark::Ours),
    Source::new("sika-limits", "sika deer, Hokkaido, abstract of 2000: femur 45 % (calves), 25 % (does)", Mark::Seen),
    Source::new("marrow-bands", "bands on fat percent put together from published limits", Mark::Ours),
    Source::new("plug-1-g", "least wet plug 1 g", Mark::Memory),
    Source::new(
        "mech-delgiudice-1985",
        "Mech and DelGiudice 1985, Wildl. Soc. Bull. 13:204-206: full marrow does not show good condition",
        Mark::Memory,
    ),
];
