//! Handing over, at the first signal.

use crate::guide::{ExamKind, Input, Phase, Step};

pub(super) const STEPS: &[Step] = &[
    Step::look("contact_told_back", Phase::HandOver, Input::ReadDo("contact_told_back"))
        .when(|v| v.kind == ExamKind::Field)
        .may_be_absent(),
    Step::look("handed_over", Phase::HandOver, Input::Text("handed_over")),
];
