//! Approach: whose land, what ground, what was found there, where and when.

use crate::guide::{Input, Phase, Step, View};
use crate::record::{Answer, Site, Value};

use super::facts::something_here;

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::Approach, input)
}

/// Only one whom the card names may let the crew onto ice; they measure it first.
fn ice_is_measured(v: &View) -> bool {
    v.there("on_or_near_ice") && v.person_on_card().is_some_and(|person| person.may_reopen_stops)
}

/// Nobody could say by eye whether the slope is steep: it is measured.
fn slope_is_measured(v: &View) -> bool {
    matches!(v.answer("slope_30_here_or_above"), Answer::CantTell { .. })
}

/// The next carcass of a day out, of which nobody had reported: it was found by those who begin its record.
fn found_on_the_way(v: &View, _: Site) -> Option<Answer> {
    (v.before.is_some() && v.report.is_none()).then(|| Answer::choice("found"))
}

/// Who has the place from the phone's own position stands there. Of what is typed in from paper the clock says nothing.
fn arrived_with_the_fix(v: &View, _: Site) -> Option<Answer> {
    // A place that is corrected later moves no arrival.
    let ruled = v.question("arrived_at", Site::NONE).standing.into_iter().find(|s| crate::guide::is_unasked(s));
    let written = ruled.filter(|s| s.answer.value().is_some()).map(|s| s.answer.clone());
    let at = v.stood_at("place").filter(|_| !v.there("from_paper"))?;
    Some(written.unwrap_or(Answer::Seen { value: Value::Instant(at) }))
}

/// What is looked over in one at the next carcass.
const GROUND: &[&str] = &["ground", "road_and_people"];

pub(super) const STEPS: &[Step] = &[
    row("land_leave", Input::Choice("land_leave")),
    row("ground_again", Input::Sweep { finding: "ground_looked_over", steps: GROUND }).when(|v| v.went_through(GROUND)),
    row(
        "ground",
        Input::Panel(&[
            "on_or_near_ice",
            "moving_or_open_water",
            "slope_30_here_or_above",
            "slide_or_cracking_snow",
            "hung_or_broken_trees",
        ]),
    ),
    row("clear_ice", Input::Number("clear_ice_cm")).when(ice_is_measured),
    row("white_ice", Input::Number("white_ice_cm")).when(ice_is_measured),
    row("ice_items", Input::Choices("ice_items")).when(ice_is_measured).may_be_absent(),
    row("slope_here", Input::Number("slope_here_deg")).when(slope_is_measured),
    row("slope_above", Input::Number("slope_above_deg")).when(slope_is_measured),
    row(
        "road_and_people",
        Input::Panel(&["road_edge", "road_lane", "child_or_lone_worker", "known_carcass_revisited"]),
    ),
    row("report_outcome", Input::Choice("report_outcome")).ruled_out(found_on_the_way),
    row("place", Input::Place("place")).when(something_here),
    // Words only where there is no position.
    row("place_words", Input::Text("place_words"))
        .when(|v| something_here(v) && v.is_answered_by_hand("place", Site::NONE) && !v.there("place")),
    row("arrived", Input::Instant("arrived_at")).when(something_here).ruled_out(arrived_with_the_fix),
    row("walk_out", Input::Number("walk_out_min")).when(something_here),
];
