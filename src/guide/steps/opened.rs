//! Opened, by somebody trained only. Lumps and bladders first: they end the cutting.

use crate::guide::{Input, Phase, Step, Touch};
use crate::record::Site;

use super::facts::{deer_here, fetuses, gut_pile_only};
use super::rules;
use super::wounds::{bruise_known, rumen_known, skinned_all};

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::Opened, input).touch(Touch::Cut).when(deer_here).ruled_out(rules::inside)
}

/// Of the rumen, where it still lies in the body.
const fn of_rumen(id: &'static str, input: Input) -> Step {
    row(id, input).when(|v| {
        deer_here(v) && (v.there("rumen") || !v.is_answered("rumen", Site::NONE)) && !v.chose("rumen", "spilled_only")
    })
}

/// Of each unborn young, one after the other.
const fn of_fetus(id: &'static str, input: Input) -> Step {
    row(id, input).when(|v| deer_here(v) && v.there("fetus")).sites(fetuses)
}

pub(super) const STEPS: &[Step] = &[
    // Only where nobody can say by looking whether the body is frozen through.
    row("belly_dents", Input::Choice("belly_dents_under_fist"))
        .touch(Touch::Handle)
        .when(|v| deer_here(v) && !v.chose("body_frozen", "not_frozen"))
        .ruled_out(rules::opening),
    // Not a cut itself: the answer decides whether the cutting opens.
    row("opening_trained", Input::Choice("opening_trained"))
        .visit()
        .touch(Touch::Handle)
        .ruled_out(rules::opening_tested)
        .may_be_absent(),
    // Skin before belly: what bled lies between hide and flesh.
    row("skinned", Input::Choices("skinned")).may_be_absent(),
    row("bruise_under_skin", Input::Choice("bruise_under_skin"))
        .when(|v| deer_here(v) && v.there("skinned"))
        .ruled_out(bruise_known)
        .absent_when(skinned_all),
    row("lumps_and_bladders", Input::Panel(&["lumps_inside", "clear_bladder_inside"])),
    row("trauma_inside", Input::Panel(&["bled_fracture", "organ_rupture", "blood_in_cavity"])),
    row("lungs", Input::Choice("lungs")),
    row("rumen", Input::Choice("rumen")).when(|v| deer_here(v) && !gut_pile_only(v)).may_be_absent(),
    of_rumen("rumen_fill", Input::Choice("rumen_fill")),
    of_rumen("rumen_smell", Input::Choice("rumen_smell")),
    of_rumen("rumen_moisture", Input::Choice("rumen_moisture")),
    of_rumen("rumen_grain", Input::Choice("rumen_grain")).may_be_absent(),
    row("loose_droppings", Input::Panel(&["loose_droppings"])).when(|v| deer_here(v) && v.there("rumen_grain")),
    row("rumen_plants", Input::Choices("rumen_plants"))
        .when(|v| deer_here(v) && !gut_pile_only(v) && (v.there("rumen") || !v.is_answered("rumen", Site::NONE))),
    row("rumen_mostly", Input::Choice("rumen_mostly"))
        .when(|v| deer_here(v) && v.there("rumen_plants"))
        .ruled_out(rumen_known),
    row("fetus", Input::Panel(&["fetus"])).when(|v| deer_here(v) && !v.chose("sex_called", "male")),
    of_fetus("fetuses_count", Input::Number("fetuses_count")).sites(|_| vec![Site::NONE]),
    of_fetus("fetus_length", Input::Number("fetus_length_mm")).group("fetus"),
    of_fetus("fetus_sex", Input::Choice("fetus_sex")).group("fetus"),
    row("urine", Input::Panel(&["urine_contact"])),
];
