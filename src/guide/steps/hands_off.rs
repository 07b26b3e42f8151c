//! The hands-off record, second part: the body as it lies. Nothing is touched.

use crate::guide::{Input, Phase, Step, View};
use crate::record::{Answer, Site, Value, Why};

use super::facts::{carcass_here, some_eaten};
use super::rules;

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::HandsOff, input).when(carcass_here)
}

/// Something ate of it: the stomach may lie outside.
fn may_lie_out(v: &View) -> bool {
    carcass_here(v) && ["part_eaten", "mostly_eaten", "bones_and_hair"].iter().any(|state| v.body_is(state))
}

/// Of bones and hair nobody says how the body lay, nor how fresh it is.
fn bones_have_no_posture(v: &View, _: Site) -> Option<Answer> {
    v.body_is("bones_and_hair").then_some(Answer::PartGone { why: Why::Scavenged })
}

fn bones_are_bones(v: &View, _: Site) -> Option<Answer> {
    v.body_is("bones_and_hair").then(|| Answer::choice("bones_only"))
}

/// What tells the sex has been said; where it speaks with one voice nobody is asked again.
fn sex_known(v: &View, _: Site) -> Option<Answer> {
    let answer = v.answer("sex_evidence");
    let Some(Value::Choices(all)) = answer.value() else {
        return v.is_answered("sex_evidence", Site::NONE).then_some(Answer::CantTell { why: Why::NotGiven });
    };
    let has = |codes: &[&str]| all.iter().any(|c| codes.contains(&c.as_str()));
    let male = has(&["antlers", "pedicles_or_knobs", "scrotum_or_penis"]);
    let female = has(&["udder_or_vulva", "suckled_nipples"]);
    match (male, female) {
        (true, false) if !has(&["no_pedicles"]) => Some(Answer::choice("male")),
        (false, true) => Some(Answer::choice("female")),
        _ => None,
    }
}

pub(super) const BODY: &[Step] = &[
    row("body_position", Input::Choice("body_position")).ruled_out(bones_have_no_posture),
    row("body_frozen", Input::Choice("body_frozen")).ruled_out(rules::soft_parts),
    row("limp", Input::Panel(&["limp_not_frozen"]))
        .when(|v| carcass_here(v) && v.chose("body_frozen", "not_frozen"))
        .ruled_out(rules::soft_parts),
    row("quick_class", Input::Choice("quick_class")),
    row("parts_eaten", Input::Choices("parts_eaten")).when(some_eaten),
    row("decay", Input::Choice("decay")).ruled_out(bones_are_bones),
    row("rumen_lying_out", Input::Choice("rumen")).when(may_lie_out).may_be_absent(),
    row("rumen_plants_lying_out", Input::Choices("rumen_plants"))
        .when(|v| may_lie_out(v) && (v.chose("rumen", "torn_open") || v.chose("rumen", "spilled_only"))),
    row("sex_evidence", Input::Choices("sex_evidence")).may_be_absent(),
    row("sex_called", Input::Choice("sex_called")).ruled_out(sex_known),
];

pub(super) const STEPS: &[Step] = &[
    row("remark", Input::Text("remark")).visit().may_be_absent(),
    row("cold_signs", Input::Choices("cold_signs")).visit().may_be_absent(),
];
