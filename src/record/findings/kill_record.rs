//! What names the animal that killed beside the signs at the body: a laboratory's DNA, a photo or camera, a
//! collar, a witness. The office enters them; no crew is asked before its examination is closed.

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, Shape, number};

const ANIMALS: &[&str] = &["coyote", "wolf", "bobcat_or_lynx", "cougar", "dog", "bear"];

pub(super) const FINDINGS: &[F] = &[
    // A laboratory's sheet: looked for and no predator typed is `NotSeen`.
    F::exam("dna_of", Shape::Choice(ANIMALS)),
    // Only a wound that bled in life speaks of who killed; who ate later leaves spit as well.
    F::exam("dna_from", Shape::Choice(&["clot_wound", "clean_wound", "wound_not_known", "elsewhere"])).of_occasion(),
    F::exam("dna_lab", Shape::Text(80)).of_occasion(),
    // As on the sample's label.
    F::exam("dna_sample", Shape::Text(40)).of_occasion(),
    F::exam("dna_reported_at", Shape::Instant).of_occasion(),
    // A record of the kill itself, not of who ate.
    F::exam("kill_record_of", Shape::Choice(ANIMALS)),
    F::exam("kill_record_how", Shape::Choice(&["photo_or_camera", "collar_record", "witness"])),
    // Code of the person, camera or collar.
    F::exam("kill_record_by", Shape::Text(80)),
    // Of a tagged deer: whole days from its last catching to its death.
    F::exam("days_since_handling_count", number(Unit::Count, 0, 0, 9_999)),
];
