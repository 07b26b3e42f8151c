//! The hands-off record: nothing is touched.

use crate::guide::{Input, Phase, Step};

pub(super) const STEPS: &[Step] = &[Step::look("body_state", Phase::HandsOff, Input::Choice("body_state"))];
