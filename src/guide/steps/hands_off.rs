//! The hands-off record, second part: the body as it lies. Nothing is touched.

use crate::guide::{Input, Phase, Step};

use super::facts::{carcass_here, gut_pile_only, some_eaten};
use super::rules;

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::HandsOff, input).when(carcass_here)
}

pub(super) const STEPS: &[Step] = &[
    row("body_position", Input::Choice("body_position")),
    row("body_frozen", Input::Choice("body_frozen")).ruled_out(rules::soft_parts),
    row("limp", Input::Panel(&["limp_not_frozen"]))
        .when(|v| carcass_here(v) && v.chose("body_frozen", "not_frozen"))
        .ruled_out(rules::soft_parts),
    row("quick_class", Input::Choice("quick_class")),
    row("parts_eaten", Input::Choices("parts_eaten")).when(some_eaten),
    row("decay", Input::Choice("decay")),
    row("rumen_lying_out", Input::Choice("rumen")).when(|v| carcass_here(v) && gut_pile_only(v)).may_be_absent(),
    row("rumen_plants_lying_out", Input::Choices("rumen_plants"))
        .when(|v| carcass_here(v) && gut_pile_only(v) && v.there("rumen")),
    row("sex_evidence", Input::Choices("sex_evidence")).may_be_absent(),
    row("sex_called", Input::Choice("sex_called")),
    row("scene_photographed", Input::ReadDo("scene_photographed")).may_be_absent(),
    row("remark", Input::Text("remark")).may_be_absent(),
    row("cold_signs", Input::Choices("cold_signs")).may_be_absent(),
];
