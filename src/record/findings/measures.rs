//! What is measured: girth, lengths, weights, calipers on the cleaned jaw, unborn young, and what a
//! laboratory sends back.
//!
//! Limits are wide on purpose where a wrong unit is the likely slip: a girth typed in inches is kept and
//! named, not refused.

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, Shape, Sites, number};

const fn tenths_mm(code: &'static str, min: i64, max: i64) -> F {
    F::exam(code, number(Unit::Millimetre, 1, min, max)).repeated()
}

pub(super) const FINDINGS: &[F] = &[
    // Round the chest close behind the forelegs, and from the tip of the nose along the back to the tail.
    F::exam("chest_girth_cm", number(Unit::Centimetre, 1, 50, 9_990)).repeated(),
    F::exam("body_length_cm", number(Unit::Centimetre, 1, 300, 3_000)).repeated(),
    F::exam("whole_weight_kg", number(Unit::Kilogram, 1, 10, 2_500)).repeated(),
    F::exam("dressed_weight_kg", number(Unit::Kilogram, 1, 10, 2_500)).repeated(),
    F::exam("antler_beam_mm", number(Unit::Millimetre, 0, 10, 900)).at(Sites::Side).repeated(),
    F::exam("pelvis_knobs", Shape::Choice(&["knobs_there", "knobs_absent"])),
    tenths_mm("femur_width_mm", 50, 800).at(Sites::Side),
    // Unborn young, numbered from one.
    F::exam("fetuses_count", number(Unit::Count, 0, 1, 5)),
    F::exam("fetus_length_mm", number(Unit::Millimetre, 0, 1, 900)).at(Sites::Item).repeated(),
    F::exam("fetus_sex", Shape::Choice(&["female", "male"])).at(Sites::Item),
    // The cleaned jaw.
    tenths_mm("tooth_row_mm", 100, 1_500).at(Sites::Side),
    tenths_mm("dentine_width_mm", 0, 80).at(Sites::Side),
    tenths_mm("crown_height_mm", 0, 300).at(Sites::Tooth),
    tenths_mm("molar_width_mm", 10, 300).at(Sites::Tooth),
    // From the laboratory: completed birthdays by rings of cementum, and how sure it is.
    F::exam("cementum_years_count", number(Unit::Count, 0, 0, 40)),
    F::exam("cementum_grade", Shape::Choice(&["grade_best", "grade_middle", "grade_lowest"])).of_occasion(),
];
