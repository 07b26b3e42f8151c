//! Fat outside the long bones: looked at where the body is opened, weighed on the bench; the laboratory's
//! marrow; the weight that a deer is set against.

use crate::record::Unit;
use crate::record::finding::{FindingDef as F, Shape, Sites, number};

/// Steps of fat at a depot.
const FAT: Shape = Shape::Choice(&["heavy", "moderate", "slight", "none"]);
/// Where fat may still be looked at.
const PARTS: Shape = Shape::Choices(&["back_and_rump", "brisket", "gut", "kidneys", "heart"]);
const SIDES: Shape = Shape::Choice(&["both", "left", "right"]);

const fn grams(code: &'static str, min: i64, max: i64) -> F {
    F::exam(code, number(Unit::Gram, 1, min, max)).at(Sites::Side).repeated()
}

pub(super) const FINDINGS: &[F] = &[
    F::exam("fat_parts_here", PARTS),
    F::exam("rump_fat", Shape::Choice(&["thick", "moderate", "thin", "none"])),
    F::exam("brisket_fat", FAT),
    F::exam("gut_fat", FAT),
    F::exam("kidney_fat", FAT),
    F::exam("heart_fat", FAT),
    F::exam("pericardial_fat", FAT),
    // Watery or jelly-like: how much there is, and whether it is fat at all, are two looks.
    F::exam("fat_watery", PARTS),
    F::exam("muscle_mass", Shape::Choice(&["full", "lean", "wasted"])),
    F::exam("rump_fat_mm", number(Unit::Millimetre, 0, 0, 150)).repeated(),
    F::exam("organs_taken", Shape::Choices(&["kidneys", "heart"])),
    // On the bench. The two trimmings are findings of their own, so that they cannot be mixed.
    F::exam("kidneys_here", SIDES),
    F::exam("kidney_trim", Shape::Choice(&["whole", "straight_cuts", "both_ways"])),
    grams("kidney_fat_cut_g", 0, 20_000),
    grams("kidney_fat_whole_g", 0, 20_000),
    grams("kidney_g", 50, 5_000),
    // The hollow of the lower jaw; its weights are those of marrow, at the mandible's sides.
    F::exam("jaw_cavity", SIDES),
    // A laboratory's percentage, and on which scale: dry weight is not fat.
    F::exam("marrow_lab_percent", number(Unit::Percent, 1, 0, 1_000)).at(Sites::Bone).repeated(),
    F::exam("marrow_lab_scale", Shape::Choice(&["dry_weight", "fat_extracted", "not_said"]))
        .at(Sites::Bone)
        .of_occasion(),
    // The weight that it is set against: its own in autumn, or a mean of its herd, sex and age.
    F::exam("reference_weight_of", Shape::Choice(&["this_deer", "herd_mean"])),
    F::exam("reference_low_kg", number(Unit::Kilogram, 1, 10, 2_500)),
    F::exam("reference_high_kg", number(Unit::Kilogram, 1, 10, 2_500)),
];
