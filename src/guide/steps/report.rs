//! A report: what somebody saw, and what is done about it. Taken at a desk or on the trail, before anybody
//! goes out to look.

use crate::guide::{Input, Phase, Step, View};
use crate::record::Site;

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::Report, input)
}

/// A live deer has no body to have been without.
fn not_alive(v: &View) -> bool {
    !v.chose("report_state", "alive")
}

fn by_people(v: &View) -> bool {
    !v.chose("report_seen_by", "camera")
}

fn no_crew_goes(v: &View) -> bool {
    ["refer", "close_trail", "no_visit"].iter().any(|what| v.chose("report_triage", what))
}

pub(super) const STEPS: &[Step] = &[
    row("report_seen_by", Input::Choice("report_seen_by")),
    row("report_state", Input::Choice("report_state")),
    row("report_seen_at", Input::Instant("report_seen_at")),
    row("report_place_words", Input::Text("report_place_words")),
    row("report_place", Input::Place("report_place")),
    row("report_count", Input::Number("report_carcasses_count")).when(not_alive),
    row("report_touched", Input::Choice("report_touched")).when(by_people),
    row("report_dog", Input::Choice("report_dog")).when(by_people),
    row("report_clear", Input::Instant("report_clear_at")).when(not_alive).may_be_absent(),
    row("report_photo", Input::Photo("report_photo")).sites(|_| vec![Site::item(1)]).may_be_absent(),
    row("report_call_back", Input::Text("report_call_back")).when(by_people).may_be_absent(),
    row("report_triage", Input::Choice("report_triage")),
    row("report_triage_why", Input::Text("report_triage_why")).when(no_crew_goes),
];
