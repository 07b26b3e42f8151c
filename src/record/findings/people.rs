//! What an examination is about, and signs of people at the place.

use crate::record::finding::{FindingDef as F, Shape, Sites, number};
use crate::record::{EXAMINATION_KIND, Unit, links};

pub(super) const FINDINGS: &[F] = &[
    F::exam(EXAMINATION_KIND, Shape::Choice(&["field", "bench"])).of_occasion(),
    F::exam(links::CARCASS, Shape::Ref),
    F::exam(links::OUTING, Shape::Ref),
    F::exam(links::REPORT, Shape::Ref),
    F::exam(links::EVENT, Shape::Ref),
    // The how manieth carcass of its event this is, from one.
    F::exam("event_carcass_count", number(Unit::Count, 0, 1, 9_999)),
    // Typed in later from a sheet of paper: the clock of the entries is not that of the visit.
    F::sign("from_paper"),
    F::exam("examination_closed", Shape::Choice(&["complete", "left_early", "record_only"])).of_occasion(),
    // Code of the stop, colon, reason: every reason is kept.
    F::exam("reopened_by", Shape::Text(400)).repeated(),
    F::exam(
        "report_outcome",
        Shape::Choice(&["found", "not_found", "removed", "alive_or_injured", "other_species", "record_only"]),
    ),
    // What a witness saw of the living animal.
    F::exam(
        "witness_behaviour",
        Shape::Choices(&["stumbling", "unafraid", "aggressive", "circling", "part_paralysed"]),
    ),
    // Signs of people, looked for from the stand-off place.
    F::sign("bullet_or_arrow_wound"),
    F::sign("snare_or_trap"),
    F::sign("head_or_antlers_missing_only"),
    F::sign("meat_cut_off_neatly"),
    F::sign("dumped_here"),
    F::sign("vehicle_tracks_to_body"),
    F::sign("spotlight_or_shooting_litter"),
    F::sign("drug_or_bait_sign"),
    F::sign("do_not_eat_tag"),
    F::sign("owner_or_livestock_tag"),
    F::sign("study_tag_or_collar"),
    F::exam("tag_number", Shape::Text(60)),
    F::sign("human_remains_or_clothing"),
    F::sign("eagle_or_hawk_part"),
    F::exam("evidence_note", Shape::Text(1_000)).repeated(),
    F::exam("photo", Shape::Photo).at(Sites::Item).repeated(),
];
