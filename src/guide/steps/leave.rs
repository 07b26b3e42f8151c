//! Leaving: the record of this carcass is closed, and everybody is counted.

use crate::guide::{Input, Phase, Step};

use super::facts::{cut, touched};

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::Leave, input)
}

pub(super) const STEPS: &[Step] = &[
    row("examination_closed", Input::Choice("examination_closed")),
    row("left_early", Input::Choice("left_early")).when(|v| v.chose("examination_closed", "left_early")),
    row("hands", Input::Choice("hands")).when(touched),
    row("dirty_tools_aboard", Input::ReadDo("dirty_tools_aboard")).when(cut).may_be_absent(),
    row("heads_counted", Input::Number("heads_counted_count")),
    row("ticks_tonight", Input::Choice("ticks_checked_tonight")),
];
