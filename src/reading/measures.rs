//! From measured findings to what the methods take.

use super::lens::Lens;
use super::sex::SexFound;
use crate::record::{Bone, Side, Site, Tooth};
use crate::science::age::MoreEvidence;
use crate::science::cementum::{Grade, LabAge, TooManyRings};
use crate::science::skeleton::Plate;

/// Every finding that these methods read, beside those of the jaw.
pub(super) const FINDINGS: &[&str] = &[
    "chest_girth_cm",
    "body_length_cm",
    "whole_weight_kg",
    "dressed_weight_kg",
    "antler_beam_mm",
    "pelvis_knobs",
    "femur_width_mm",
    "hind_foot_mm",
    "mandible_mm",
    "diastema_mm",
    "fetuses_count",
    "fetus_length_mm",
    "fetus_sex",
    "tooth_row_mm",
    "dentine_width_mm",
    "crown_height_mm",
    "molar_width_mm",
    "cementum_years_count",
    "cementum_grade",
    "cementum_lab",
    "cementum_tooth",
    "known_age_years_count",
    "known_age_how",
    "death_known_at",
    "growth_plate",
    "body_state",
    "body_frozen",
    "decay",
    "swollen_belly",
];

/// Places that a finding of either side may stand at.
pub(super) const SIDES: [Site; 3] = [Site::NONE, Site::side(Side::Left), Site::side(Side::Right)];

/// Mean of all numbers at these places, in the finding's unit, which is `steps` stored integers.
pub(super) fn mean(lens: &Lens, finding: &'static str, sites: &[Site], steps: f64) -> Option<f64> {
    let all: Vec<i64> = sites.iter().flat_map(|site| lens.numbers(finding, *site)).collect();
    if all.is_empty() {
        return None;
    }
    Some(all.iter().map(|n| *n as f64).sum::<f64>() / all.len() as f64 / steps)
}

/// A molar on either side.
pub(super) fn both_sides(tooth: Tooth) -> [Site; 2] {
    [Site::tooth(Side::Left, tooth), Site::tooth(Side::Right, tooth)]
}

/// A laboratory's count, or that no deer has so many rings. `None` where none came.
pub(super) fn lab_age(lens: &Lens) -> Option<Result<LabAge, TooManyRings>> {
    let years = lens.number("cementum_years_count", Site::NONE)?;
    let grade = match lens.choice("cementum_grade", Site::NONE) {
        Some("grade_best") => Some(Grade::Best),
        Some("grade_middle") => Some(Grade::Middle),
        Some("grade_lowest") => Some(Grade::Lowest),
        _ => None,
    };
    Some(u8::try_from(years).map_err(|_| TooManyRings).and_then(|years| LabAge::new(years, grade)))
}

/// The least advanced growing end of these bones.
fn plate(lens: &Lens, bones: &[Bone]) -> Option<Plate> {
    let sites = bones.iter().flat_map(|bone| SIDES.map(|side| Site { bone: Some(*bone), ..side }));
    sites
        .filter_map(|site| match lens.choice("growth_plate", site)? {
            "open" => Some(Plate::Open),
            "line" => Some(Plate::Line),
            "closed" => Some(Plate::Closed),
            _ => None,
        })
        .min()
}

/// All that the age method takes beside the look of the teeth.
pub(super) fn more_evidence(lens: &Lens, sex: &SexFound) -> MoreEvidence {
    // The width is that of the right first molar; the left stands in where the right is gone.
    let width = |site| mean(lens, "dentine_width_mm", &[site], 10.0);
    let beams = SIDES.iter().filter_map(|site| mean(lens, "antler_beam_mm", &[*site], 1.0));
    MoreEvidence {
        tooth_row_mm: mean(lens, "tooth_row_mm", &SIDES, 10.0),
        dentine_width_mm: width(Site::side(Side::Right))
            .or_else(|| width(Site::NONE))
            .or_else(|| width(Site::side(Side::Left))),
        cementum: lab_age(lens).and_then(Result::ok),
        cannon_plate: plate(lens, &[Bone::Metatarsus, Bone::Metacarpus]),
        radius_plate: plate(lens, &[Bone::Radius]),
        antler_beam_mm: beams.reduce(f64::max),
        // By the reserve's own figures, where the card brings any: see `local`.
        local_age: None,
        size_z: None,
        sex_line: sex.line_for_age(),
    }
}
