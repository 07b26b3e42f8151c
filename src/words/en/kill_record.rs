//! Records that name the animal that killed, and the catching of a tagged deer.

use super::steps::steps;

pub(super) const STEPS: &[(&str, &str)] = steps! {
    "days_since_handling" {
        "How many days before it died was it last caught?"
        "A fresh catch can harm it, and its drugs stay in the meat."
        "Ask whoever owns the tag. Nobody eats it or feeds it."
    }
};

pub(super) const TEXTS: &[(&str, &str)] = &[
    ("finding.dna_of", "DNA of"),
    ("finding.dna_from", "Swab came from"),
    ("finding.dna_lab", "Lab of the DNA"),
    ("finding.dna_sample", "Sample of the DNA"),
    ("finding.dna_reported_at", "DNA report"),
    ("finding.kill_record_of", "Animal on record"),
    ("finding.kill_record_how", "Kind of record"),
    ("finding.kill_record_by", "Seen by"),
    ("finding.days_since_handling_count", "Days from last catch to death"),
    ("option.dna_from.clot_wound", "Wound with a clot"),
    ("option.dna_from.clean_wound", "Wound without a clot"),
    ("option.dna_from.wound_not_known", "Wound, clot not known"),
    ("option.dna_from.elsewhere", "Elsewhere"),
    ("option.kill_record_how.photo_or_camera", "Photo or camera"),
    ("option.kill_record_how.collar_record", "Collar"),
    ("option.kill_record_how.witness", "Witness"),
    ("cause.dna", "DNA ({lab}) from a wound that bled: {animal}. Its figure is not cut."),
    ("cause.dna_fed", "DNA ({lab}), {place}: {animal}. It may be from who ate; the figures stay cut."),
    ("cause.dna_none", "DNA ({lab}), {place}: no predator found. That rules none out."),
    ("cause.record", "{how} ({by}): killed by {animal}. Its figure is not cut."),
    ("cause.record_witness", "{how} ({by}): killed by {animal}. Word alone: the figures stay cut."),
    ("cause.by_nobody", "source not named"),
    (
        "cause.caution.dna_no_clot",
        "The lab's sheet says a wound with a clot; the record here has none. The figures stay cut: check the swab's number.",
    ),
    (
        "cause.caution.records_differ",
        "DNA, photo, collar or witness name different animals: the species is open. Check each.",
    ),
    (
        "cause.caution.record_differs",
        "What the signs favour is not the animal that DNA, photo, collar or witness names: the species is open.",
    ),
    (
        "cause.caution.record_unweighed",
        "DNA, photo and collar weigh nothing in the figures: they only say which figure is not cut.",
    ),
    (
        "cause.caution.caught",
        "Caught {n} {n?day|days} before it died: the catching may have led to it (of 652 does caught, 16 died of it within 14 days).",
    ),
];
