//! An evidence record, and what goes with every sample: seal, keeping, label.

use crate::record::finding::{FindingDef as F, Shape, Sites};

pub(super) const FINDINGS: &[F] = &[
    F::exam("evidence_rules_read", Shape::Presence),
    F::exam("officer_told", Shape::Choice(&["officer_told", "no_signal", "no_reply"])).repeated(),
    F::exam("officer_asks", Shape::Choice(&["nothing_more", "more_photos", "wait_here", "leave_at_once"])),
    F::exam("officer_words", Shape::Text(1_000)).repeated(),
    // Read before anything is taken.
    F::exam("samples_worth_read", Shape::Presence),
    // Of a wound, before tape and fingers come near it.
    F::exam("bite_swabbed", Shape::Choice(&["swabs", "hide_piece"])).at(Sites::Item),
    // Of each sample.
    F::exam("seal_number", Shape::Text(40)).at(Sites::Item),
    F::exam(
        "sample_kept",
        Shape::Choice(&["paper_dry", "bag_frozen", "bag_cool", "jar_formalin", "tube_ethanol", "foil_or_jar_frozen"]),
    )
    .at(Sites::Item),
];
