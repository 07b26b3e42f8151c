//! The hands-off record, first part: the story that the snow tells. Own tracks are left out first.

use crate::guide::{Input, Phase, Step, View};

use super::facts::carcass_here;

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::HandsOff, input).when(carcass_here)
}

fn snow_lies_over(v: &View) -> bool {
    ["dusting", "part_covered", "covered"].iter().any(|how| v.chose("snow_over_body", how))
}

pub(super) const STEPS: &[Step] = &[
    row("own_tracks", Input::ReadDo("own_tracks_left_out")),
    // How much is left comes first: it settles most of what follows where nothing is.
    row("body_state", Input::Choice("body_state")),
    row("snow_over_body", Input::Choice("snow_over_body")),
    row("snow_over_body_depth", Input::Number("snow_over_body_cm")).when(|v| carcass_here(v) && snow_lies_over(v)),
    row("body_buried", Input::Choice("body_buried")),
    row("snow_under_body", Input::Choice("snow_under_body")),
    row("snow_depth", Input::Number("snow_depth_cm")),
    row("sinking_depth", Input::Number("sinking_depth_cm")),
    row("snow_crust", Input::Choice("snow_crust")),
    row("snow_signs", Input::Panel(&["blood_on_snow", "drag_marks", "hair_scattered", "chase_or_struggle_marks"])),
    row("blood_where", Input::Choices("blood_where")).when(|v| carcass_here(v) && v.there("blood_on_snow")),
    row("drag_length", Input::Number("drag_length_m")).when(|v| carcass_here(v) && v.there("drag_marks")),
    row("hair_state", Input::Choices("hair_state")).when(|v| carcass_here(v) && v.there("hair_scattered")),
    row("tracks_by", Input::Choices("tracks_by")).may_be_absent(),
    row("droppings_by", Input::Choices("droppings_by")).may_be_absent(),
    row("bird_signs", Input::Choices("bird_signs")).may_be_absent(),
    row("round_the_body", Input::Panel(&["bones_scattered", "browse_or_beds_by_body"])),
];
