//! The bench, on any later day: thawed marrow, the cleaned jaw again, calipers, rumen.

use crate::guide::{Input, Phase, Step, View};
use crate::record::Site;

use super::facts::{
    jaw_sides, last_molar_up, leg_bone, marrow_bone, milk_premolars, molars_in_wear, premolars_changed,
};
use super::{bench_calipers, rules};

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::Bench, input)
}

const fn marrow(id: &'static str, input: Input) -> Step {
    row(id, input).group("bench_marrow").sites(marrow_bone)
}

const fn jaw(id: &'static str, input: Input) -> Step {
    row(id, input).group("bench_jaw").sites(jaw_sides)
}

/// The laboratory's sheet, once it has come.
const fn lab(id: &'static str, input: Input) -> Step {
    row(id, input).visit().when(|v| v.number("cementum_years_count").is_some()).may_be_absent()
}

fn jaw_here(v: &View) -> bool {
    !jaw_sides(v).is_empty()
}

fn photos(v: &View) -> Vec<Site> {
    if marrow_bone(v).is_empty() { Vec::new() } else { vec![Site::item(3)] }
}

/// The bone on the bench and its marrow.
pub(super) const MARROW: &[Step] = &[
    row("bench_marrow_bone", Input::Choice("marrow_bone")).may_be_absent(),
    marrow("bench_marrow_frozen", Input::Choice("marrow_frozen")),
    marrow("bench_bone_opened", Input::Choice("bone_opened")),
    marrow("bench_marrow_consistency", Input::Choice("marrow_consistency")).ruled_out(rules::frozen_marrow),
    marrow("bench_marrow_see_through", Input::Choice("marrow_see_through")),
    marrow("bench_marrow_colour", Input::Choice("marrow_colour")),
    marrow("bench_marrow_spoiled", Input::Choices("marrow_spoiled")).may_be_absent(),
    marrow("bench_marrow_wet", Input::Number("marrow_wet_g")),
    marrow("bench_marrow_dry", Input::Number("marrow_dry_g")),
    row("bench_photo_marrow", Input::Photo("photo")).sites(photos),
];

/// All else, and the end of the work.
pub(super) const STEPS: &[Step] = &[
    row("bench_growth_plate", Input::Choice("growth_plate")).sites(leg_bone),
    row("bench_femur_width", Input::Number("femur_width_mm")).when(|v| v.chose("marrow_bone", "femur")),
    row("bench_jaw_in_view", Input::Choice("jaw_in_view")),
    jaw("bench_cheek_teeth_count", Input::Number("cheek_teeth_count")),
    jaw("bench_third_tooth", Input::Choice("third_tooth")),
    jaw("bench_jaw", Input::Jaw),
    jaw("bench_third_molar_back_cusp", Input::Choice("third_molar_back_cusp")).sites(last_molar_up),
    jaw("bench_infundibulum", Input::Choice("infundibulum")).sites(molars_in_wear),
    jaw("bench_premolar_wear", Input::Choice("premolar_wear")).sites(premolars_changed),
    jaw("bench_mandible", Input::Number("mandible_mm")),
    jaw("bench_diastema", Input::Number("diastema_mm")),
    jaw("bench_tooth_row", Input::Number("tooth_row_mm")).sites(milk_premolars),
    jaw("bench_dentine_width", Input::Number("dentine_width_mm")).sites(premolars_changed),
    bench_calipers::CROWN,
    bench_calipers::WIDTH,
    row("bench_front_teeth", Input::Choice("front_teeth")).when(jaw_here),
    row("bench_jaw_trouble", Input::Choices("jaw_trouble")).when(jaw_here).may_be_absent(),
    row("bench_wear_class", Input::Choice("wear_class_called")).when(jaw_here),
    row("bench_cementum", Input::Number("cementum_years_count")).may_be_absent(),
    row("bench_cementum_grade", Input::Choice("cementum_grade"))
        .when(|v| v.number("cementum_years_count").is_some())
        .may_be_absent(),
    lab("bench_cementum_lab", Input::Text("cementum_lab")),
    lab("bench_cementum_tooth", Input::Choice("cementum_tooth")),
    lab("bench_cementum_sample", Input::Text("cementum_sample")),
    lab("bench_cementum_reported", Input::Instant("cementum_reported_at")),
    // After the wear class: whoever knows the age no longer reads the teeth.
    row("bench_known_age", Input::Number("known_age_years_count")).visit().when(jaw_here).may_be_absent(),
    row("bench_known_age_how", Input::Choice("known_age_how"))
        .visit()
        .when(|v| v.number("known_age_years_count").is_some()),
    row("bench_whole_weight", Input::Number("whole_weight_kg")).may_be_absent(),
    row("bench_dressed_weight", Input::Number("dressed_weight_kg")).may_be_absent(),
];

/// What closes the bench.
pub(super) const END: &[Step] = &[
    row("bench_remark", Input::Text("remark")).visit().may_be_absent(),
    row("bench_closed", Input::Choice("examination_closed")).visit(),
];
