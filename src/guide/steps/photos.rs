//! The photos of the untouched body, as one list. An evidence record has its own.

use crate::guide::photos::{LIST, SIDES};
use crate::guide::{Input, Phase, Step, View};
use crate::record::{Answer, Site, Value, Why};

use super::evidence::is_evidence;
use super::facts::carcass_here;

fn asked(v: &View) -> bool {
    carcass_here(v) && !is_evidence(v)
}

/// The list has said it: all four sides are on this phone, or were left out. Another camera's are said on the list.
fn sides_are_told(v: &View, _: Site) -> Option<Answer> {
    let site = |n: &u16| Site::item(*n);
    let here = |n: &u16| matches!(v.question("photo", site(n)).answer(), Answer::Seen { value: Value::Photo(_) });
    if SIDES.iter().all(here) {
        return Some(Answer::choice("there"));
    }
    let told = SIDES.iter().all(|n| v.is_answered_by_hand("photo", site(n)));
    told.then_some(Answer::NotLooked { why: Why::NotGiven })
}

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::HandsOff, input).when(carcass_here)
}

pub(super) const STEPS: &[Step] = &[
    row("photos", Input::Photos { finding: "photo", items: LIST }).when(asked),
    row("scene_photographed", Input::ReadDo("scene_photographed")).visit().may_be_absent().ruled_out(sides_are_told),
];
