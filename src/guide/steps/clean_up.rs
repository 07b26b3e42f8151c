//! Clean-up at the carcass: what was touched, cut or taken decides what is asked.

use crate::guide::{Input, Phase, Step, View};

use super::facts::{carcass_here, cut, sampled, touched};

const fn line(id: &'static str) -> Step {
    Step::look(id, Phase::CleanUp, Input::ReadDo(id)).may_be_absent()
}

fn blades_were_out(v: &View) -> bool {
    touched(v) && v.number("blades_out_count").is_some_and(|n| n > 0)
}

pub(super) const STEPS: &[Step] = &[
    Step::look("blades_back", Phase::CleanUp, Input::Number("blades_back_count")).when(blades_were_out),
    line("bags_sealed").when(sampled),
    line("body_covered_with_snow").when(cut),
    line("litter_packed_out").when(carcass_here),
    Step::look("glove_torn", Phase::CleanUp, Input::Choice("glove_torn")).when(touched).may_be_absent(),
    line("gloves_off_inside_out").when(touched),
    line("phone_wiped").when(touched),
];
