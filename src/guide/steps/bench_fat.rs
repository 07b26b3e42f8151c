//! Fat on the bench, on any later day: the same looks where the part came along, kidneys on the scales by
//! either trimming, the hollow of the jaw, the laboratory's marrow, and the weight to set a deer against.

use crate::guide::{Input, Phase, Step, View};
use crate::record::{Bone, Side, Site};

use super::facts::marrow_bone;

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::Bench, input)
}

fn here(v: &View, part: &str) -> bool {
    v.chose("fat_parts_here", part)
}

fn skin(v: &View) -> bool {
    here(v, "back_and_rump")
}

fn kidneys(v: &View) -> bool {
    here(v, "kidneys")
}

fn heart(v: &View) -> bool {
    here(v, "heart")
}

/// The sides that an answer `both`, `left` or `right` names.
fn sides(v: &View, finding: &str) -> Vec<Side> {
    match v.choice(finding).as_deref() {
        Some("both") => vec![Side::Left, Side::Right],
        Some("left") => vec![Side::Left],
        Some("right") => vec![Side::Right],
        _ => Vec::new(),
    }
}

fn kidney_sides(v: &View) -> Vec<Site> {
    if kidneys(v) { sides(v, "kidneys_here").into_iter().map(Site::side).collect() } else { Vec::new() }
}

/// Kidneys trimmed by another way than this one are not asked about it.
fn trimmed(v: &View, other: &str) -> Vec<Site> {
    let told = v.choice("kidney_trim").is_some();
    if told && !v.chose("kidney_trim", other) { kidney_sides(v) } else { Vec::new() }
}

fn cut_sides(v: &View) -> Vec<Site> {
    trimmed(v, "whole")
}

fn whole_sides(v: &View) -> Vec<Site> {
    trimmed(v, "straight_cuts")
}

fn cavity_sides(v: &View) -> Vec<Site> {
    let at = |side| Site { side: Some(side), ..Site::bone(Bone::Mandible) };
    sides(v, "jaw_cavity").into_iter().map(at).collect()
}

/// The bone whose marrow a laboratory answered on.
fn lab_bone(v: &View) -> Vec<Site> {
    let answered = |site: &Site| v.question("marrow_lab_percent", *site).answer().value().is_some();
    marrow_bone(v).into_iter().filter(answered).collect()
}

/// The whole deer was weighed, on this or another day.
fn weighed(v: &View) -> bool {
    let before = v.carcass.is_some_and(|c| c.question("whole_weight_kg", Site::NONE).answer().value().is_some());
    before || v.number("whole_weight_kg").is_some()
}

const fn kidney(id: &'static str, input: Input) -> Step {
    row(id, input).group("bench_kidney").when(kidneys)
}

const fn cavity(id: &'static str, input: Input) -> Step {
    row(id, input).group("bench_cavity").sites(cavity_sides)
}

pub(super) const STEPS: &[Step] = &[
    row("bench_fat_parts", Input::Choices("fat_parts_here")).may_be_absent(),
    row("bench_rump_fat", Input::Choice("rump_fat")).when(skin),
    row("bench_rump_fat_mm", Input::Number("rump_fat_mm")).when(skin),
    row("bench_muscle_mass", Input::Choice("muscle_mass")).when(skin),
    row("bench_brisket_fat", Input::Choice("brisket_fat")).when(|v| here(v, "brisket")),
    row("bench_gut_fat", Input::Choice("gut_fat")).when(|v| here(v, "gut")),
    row("bench_kidney_fat", Input::Choice("kidney_fat")).when(kidneys),
    row("bench_heart_fat", Input::Choice("heart_fat")).when(heart),
    row("bench_pericardial_fat", Input::Choice("pericardial_fat")).when(heart),
    row("bench_fat_watery", Input::Choices("fat_watery")).when(|v| v.there("fat_parts_here")).may_be_absent(),
    row("bench_kidneys_here", Input::Choice("kidneys_here")).when(kidneys),
    row("bench_kidney_trim", Input::Choice("kidney_trim")).when(|v| !kidney_sides(v).is_empty()),
    kidney("bench_kidney_fat_cut", Input::Number("kidney_fat_cut_g")).sites(cut_sides),
    kidney("bench_kidney_fat_whole", Input::Number("kidney_fat_whole_g")).sites(whole_sides),
    kidney("bench_kidney", Input::Number("kidney_g")).sites(kidney_sides),
    row("bench_jaw_cavity", Input::Choice("jaw_cavity")).may_be_absent(),
    cavity("bench_cavity_wet", Input::Number("marrow_wet_g")),
    cavity("bench_cavity_dry", Input::Number("marrow_dry_g")),
];

/// After the bone on the bench is named.
pub(super) const LATER: &[Step] = &[
    row("bench_marrow_lab", Input::Number("marrow_lab_percent")).sites(marrow_bone).may_be_absent(),
    row("bench_marrow_lab_scale", Input::Choice("marrow_lab_scale")).visit().sites(lab_bone),
    row("bench_reference_of", Input::Choice("reference_weight_of")).visit().when(weighed).may_be_absent(),
    row("bench_reference_low", Input::Number("reference_low_kg")).visit().when(|v| v.there("reference_weight_of")),
    row("bench_reference_high", Input::Number("reference_high_kg")).visit().when(|v| v.there("reference_weight_of")),
];
