//! Measures of tracks and droppings, hands off; of talon holes, with gloves.

use crate::guide::{Input, Phase, Step, Touch, View};
use crate::record::{Answer, Site, find};

use super::facts::{carcass_here, deer_here, wounds};
use super::rules;

/// Whether any animal but a deer left this: one that may have bitten or eaten.
pub(super) fn eater(v: &View, finding: &str) -> bool {
    let animals = find(finding).map_or(&[][..], |def| def.options());
    animals.iter().any(|animal| *animal != "deer" && v.chose(finding, animal))
}

/// At bare bones the tracks are of those who came later.
fn tracks_here(v: &View) -> bool {
    flesh_here(v) && eater(v, "tracks_by")
}

fn flesh_here(v: &View) -> bool {
    carcass_here(v) && !v.body_is("bones_and_hair")
}

fn crisp(v: &View) -> bool {
    tracks_here(v) && v.chose("track_edges", "crisp")
}

fn droppings_here(v: &View) -> bool {
    flesh_here(v) && eater(v, "droppings_by")
}

/// Wounds of which somebody said that talons made them.
fn talon_wounds(v: &View) -> Vec<Site> {
    let talons = |site: &Site| v.question("wound_form", *site).answer() == Answer::choice("talon_holes");
    wounds(v).into_iter().filter(talons).collect()
}

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::HandsOff, input).ground().when(tracks_here)
}

const fn talon(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::Outside, input)
        .touch(Touch::Handle)
        .when(deer_here)
        .group("talons")
        .sites(talon_wounds)
        .ruled_out(rules::soft_touching)
}

pub(super) const STEPS: &[Step] = &[
    row("track_edges", Input::Choice("track_edges")),
    row("track_toes", Input::Number("track_toes_count")).when(crisp),
    row("front_track_width", Input::Number("front_track_width_mm")).when(crisp),
    row("front_track_length", Input::Number("front_track_length_mm")).when(crisp),
    row("walking_stride", Input::Number("walking_stride_cm")),
    row("scat_width", Input::Number("scat_width_mm")).when(droppings_here),
];

pub(super) const TALONS: &[Step] =
    &[talon("talon_front", Input::Number("talon_front_mm")), talon("talon_hind", Input::Number("talon_hind_mm"))];
