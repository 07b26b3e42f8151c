//! What somebody saw before anybody went, and what was decided about it.

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, Shape, Sites, number};

/// Who may be called back about a report: kept on the phone unless a person lets it go along.
pub const REPORT_CALL_BACK: &str = "report_call_back";

pub(super) const FINDINGS: &[F] = &[
    F::report("report_seen_by", Shape::Choice(&["trail_user", "crew", "camera", "staff", "other"])),
    F::report("report_seen_at", Shape::Instant),
    F::report("report_place", Shape::Place),
    F::report("report_place_words", Shape::Text(300)),
    F::report("report_state", Shape::Choice(&["dead", "alive", "cannot_say"])),
    F::report("report_carcasses_count", number(Unit::Count, 0, 1, 999)),
    F::report("report_touched", Shape::Choice(&["touched", "not_touched"])),
    F::report("report_dog", Shape::Choice(&["dog_touched", "dog_near", "no_dog"])),
    // The last time that somebody passed and nothing lay there.
    F::report("report_clear_at", Shape::Instant),
    F::report("report_photo", Shape::Photo).at(Sites::Item).repeated(),
    F::report(REPORT_CALL_BACK, Shape::Text(200)),
    // What was decided.
    F::report("report_triage", Shape::Choice(&["send_crew", "refer", "close_trail", "no_visit"])),
    F::report("report_triage_why", Shape::Text(300)),
];
