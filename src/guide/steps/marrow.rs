//! Marrow in the field: which long bone is open, for how long, frozen or not; then how the marrow
//! holds together, and only after that its look.

use crate::guide::{Input, Phase, Step, Touch, View};
use crate::record::Site;

use super::facts::{bones_bare, cannon_bone, deer_here, leg_bone, marrow_bone};
use super::rules;

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::Outside, input).touch(Touch::Handle).when(deer_here).ruled_out(rules::touching)
}

const fn of_bone(id: &'static str, input: Input) -> Step {
    row(id, input).group("marrow").sites(marrow_bone)
}

fn photo_of_marrow(v: &View) -> Vec<Site> {
    if marrow_bone(v).is_empty() { Vec::new() } else { vec![Site::item(3)] }
}

pub(super) const STEPS: &[Step] = &[
    row("marrow_bone", Input::Choice("marrow_bone")).may_be_absent(),
    of_bone("bone_opened", Input::Choice("bone_opened")),
    of_bone("marrow_frozen", Input::Choice("marrow_frozen")),
    of_bone("marrow_consistency", Input::Choice("marrow_consistency")).ruled_out(rules::frozen_or_untouched_marrow),
    of_bone("marrow_see_through", Input::Choice("marrow_see_through")),
    of_bone("marrow_colour", Input::Choice("marrow_colour")),
    of_bone("marrow_spoiled", Input::Choices("marrow_spoiled")).may_be_absent(),
    row("photo_marrow", Input::Photo("photo")).sites(photo_of_marrow),
    row("growth_plate", Input::Choice("growth_plate")).sites(leg_bone),
    row("cannon_plate", Input::Choice("growth_plate")).when(bones_bare).sites(cannon_bone),
];
