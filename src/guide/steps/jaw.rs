//! The lower jaw in the field. It is looked at only as it lies: mouth open, jaw bare or loose. An
//! intact head is not pried open, and a stop on the head closes all of it.

use crate::guide::{Input, Phase, Step, Touch};
use crate::record::Site;

use super::facts::{deer_here, jaw_in_view, jaw_sides, last_molar_up, premolars_changed};
use super::rules;

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::Outside, input).touch(Touch::Handle).when(jaw_in_view).ruled_out(rules::touching)
}

/// Asked of each side in view, one side after the other.
const fn side(id: &'static str, input: Input) -> Step {
    row(id, input).group("jaw").sites(jaw_sides)
}

pub(super) const STEPS: &[Step] = &[
    row("jaw_in_view", Input::Choice("jaw_in_view")).when(deer_here),
    side("cheek_teeth_count", Input::Number("cheek_teeth_count")),
    side("third_tooth", Input::Choice("third_tooth")),
    side("jaw", Input::Jaw),
    side("third_molar_back_cusp", Input::Choice("third_molar_back_cusp")).sites(last_molar_up),
    side("premolar_wear", Input::Choice("premolar_wear")).sites(premolars_changed),
    side("mandible", Input::Number("mandible_mm")),
    side("diastema", Input::Number("diastema_mm")),
    row("front_teeth", Input::Choice("front_teeth")),
    row("jaw_trouble", Input::Choices("jaw_trouble")).may_be_absent(),
    row("photo_jaw", Input::Photo("photo")).sites(|_| vec![Site::item(2)]),
];
