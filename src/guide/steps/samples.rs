//! Samples: the lower jaw and a femur are steps of their own, also on a frozen carcass; then the
//! label and the seal of each thing taken.

use crate::guide::{Input, Phase, Step, Touch, may_take_head_parts};

use super::facts::{deer_here, sampled, samples, sealed_samples};
use super::rules;

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::Samples, input).touch(Touch::Handle).when(deer_here).ruled_out(rules::touching)
}

/// Of each sample, one sample after the other.
const fn of_sample(id: &'static str, input: Input) -> Step {
    row(id, input).visit().touch(Touch::Look).group("sample").sites(samples)
}

pub(super) const STEPS: &[Step] = &[
    // What spoils first is taken first.
    row("samples_worth", Input::ReadDo("samples_worth_read")).visit(),
    row("jaw_taken", Input::Choice("jaw_taken")).touch(Touch::Cut).ruled_out(rules::taking_jaw).may_be_absent(),
    row("femur_taken", Input::Choice("femur_taken")).touch(Touch::Cut).ruled_out(rules::taking_femur).may_be_absent(),
    row("head_work_wanted", Input::Panel(&["head_work_wanted"]))
        .visit()
        .when(|v| deer_here(v) && may_take_head_parts(v)),
    row("scat_collected", Input::Panel(&["scat_collected"])).ground().when(|v| deer_here(v) && v.there("droppings_by")),
    row("other_samples", Input::Number("other_samples_count")).visit(),
    of_sample("sample_what", Input::Choice("sample_what")).ruled_out(rules::sample_named),
    // Nothing leaves without a number: the form always has one to give.
    of_sample("sample_number", Input::Text("sample_number")).ruled_out(|_, _| None).insists(),
    of_sample("sample_sealed", Input::ReadDo("sample_sealed")).ruled_out(|_, _| None).may_be_absent(),
    of_sample("seal_number", Input::Text("seal_number"))
        .when(|v| deer_here(v) && sampled(v))
        .sites(sealed_samples)
        .ruled_out(|_, _| None)
        .may_be_absent(),
    of_sample("sample_kept", Input::Choice("sample_kept")).ruled_out(|_, _| None),
    row("sample_across_line", Input::Choice("sample_across_line"))
        .visit()
        .touch(Touch::Look)
        .when(sampled)
        .ruled_out(|_, _| None),
];
