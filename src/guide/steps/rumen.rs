//! The rumen on the bench: how it is measured, the count or the sorting, what goes to the laboratory. A
//! rumen that is gone passes in one step.

use crate::guide::{Input, Phase, Step, View, rumen};
use crate::record::{Answer, Site, Why};

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::Bench, input).ruled_out(gone)
}

/// The field found no rumen and took none: nothing of it is on the bench.
fn gone(v: &View, _: Site) -> Option<Answer> {
    let carcass = v.carcass?;
    let question = carcass.question("rumen", Site::NONE);
    let taken = carcass.examinations.values().any(|e| {
        let rumen = |s: &crate::record::Standing| s.answer == Answer::choice("rumen");
        e.sheet.answers().any(|(code, _, all)| code.as_str() == "sample_what" && all.iter().any(rumen))
    });
    let seen = question.standing.iter().any(|s| s.answer.value().is_some());
    if taken || seen || !question.is_answered() {
        return None;
    }
    match question.answer() {
        Answer::NotSeen => Some(Answer::PartGone { why: Why::Scavenged }),
        Answer::PartGone { why } => Some(Answer::PartGone { why }),
        _ => None,
    }
}

fn by_volume(v: &View) -> bool {
    v.chose("rumen_method", "volume_ml") || v.chose("rumen_method", "volume_percent")
}

pub(super) const STEPS: &[Step] = &[
    row("bench_rumen_method", Input::Choice("rumen_method")).visit().may_be_absent(),
    row("bench_rumen_points", Input::Points { points: "rumen_points", done: "rumen_point_count" })
        .when(|v| v.chose("rumen_method", "point_count")),
    row(
        "bench_rumen_volumes",
        Input::Volumes { amounts: ["rumen_plant_ml", "rumen_plant_percent"], done: "rumen_sorting" },
    )
    .when(by_volume),
    row("bench_own_plant", Input::Text("rumen_own_plant")).visit().sites(rumen::own_plants),
    row("bench_rumen_plants", Input::Choices("rumen_plants"))
        .when(|v| v.is_answered("rumen_method", Site::NONE) && !v.there("rumen_method"))
        .may_be_absent(),
    row("bench_rumen_lab", Input::Choice("rumen_lab_sample")).may_be_absent(),
    row("bench_rumen_lab_number", Input::Text("rumen_lab_number")).visit().when(|v| v.there("rumen_lab_sample")),
];
