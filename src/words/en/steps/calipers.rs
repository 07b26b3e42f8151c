//! Calipers on molars, by the office's constants.

use super::steps;

pub(in crate::words::en) const TEXTS: &[(&str, &str)] = steps! {
    "bench_crown_height" {
        "How tall is this tooth's crown?"
        "The office has its own figures for it."
        "Tongue side, from the edge of the bone to the highest tip. To a tenth."
    }
    "bench_molar_width" {
        "How wide is this tooth?"
        "Width over height tells age here."
        "Biting face, cheek side to tongue side. Calipers, to a tenth."
    }
};
