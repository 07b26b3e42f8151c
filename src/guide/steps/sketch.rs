//! The scene sketch, after the photos: whoever paces leaves tracks.

use crate::guide::{Input, Phase, Step, View, sketch};

use super::facts::carcass_here;

fn asked(v: &View) -> bool {
    carcass_here(v) && sketch::has_something_to_draw(v)
}

pub(super) const STEPS: &[Step] =
    &[Step::look("sketch", Phase::HandsOff, Input::ReadDo("sketch_drawn")).visit().when(asked)];
