//! The report that sent the crew, and signs of people at the place.

use crate::record::finding::{FindingDef as F, Shape, Sites};
use crate::record::{EXAMINATION_KIND, links};

pub(super) const FINDINGS: &[F] = &[
    F::exam(EXAMINATION_KIND, Shape::Choice(&["field", "bench"])),
    F::exam(links::CARCASS, Shape::Ref),
    F::exam(links::OUTING, Shape::Ref),
    F::exam(links::REPORT, Shape::Ref),
    F::exam("examination_closed", Shape::Choice(&["complete", "left_early", "record_only"])),
    // Code of the stop, colon, reason: every reason is kept.
    F::exam("reopened_by", Shape::Text(400)).repeated(),
    // What somebody saw before anybody went.
    F::report("report_seen_by", Shape::Choice(&["trail_user", "crew", "camera", "staff", "other"])),
    F::report("report_seen_at", Shape::Instant),
    F::report("report_place_words", Shape::Text(300)),
    F::report("report_state", Shape::Choice(&["dead", "alive", "cannot_say"])),
    F::report("report_touched", Shape::Choice(&["touched", "not_touched"])),
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
