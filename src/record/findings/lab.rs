//! What comes to the office later: a laboratory's sheet, and an age or a day of death known otherwise.

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, Shape, number};

pub(super) const FINDINGS: &[F] = &[
    // The laboratory's sheet; the count and its grade stand with the measures.
    F::exam("cementum_lab", Shape::Text(80)).of_occasion(),
    F::exam("cementum_tooth", Shape::Choice(&["first_incisor", "other_incisor", "canine", "cheek_tooth"]))
        .of_occasion(),
    // As on the sample's label.
    F::exam("cementum_sample", Shape::Text(40)).of_occasion(),
    F::exam("cementum_reported_at", Shape::Instant).of_occasion(),
    // Completed birthdays, known from the animal and not from its teeth.
    F::exam("known_age_years_count", number(Unit::Count, 0, 0, 30)),
    F::exam("known_age_how", Shape::Choice(&["tagged_as_fawn", "kept_from_birth", "other_record"])),
    // From a collar or a witness.
    F::exam("death_known_at", Shape::Instant),
];
