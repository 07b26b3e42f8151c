//! Drawings: where a picture decides better than a word.
//!
//! Every drawing is a pure function from a record's code to the text of an SVG, so it is checked without
//! a browser; the views around them take plain values and callbacks. [`picture`] is the one door for
//! tiles, [`JawRow`] and [`JawExam`] for the lower jaw.

pub mod back_cusp;
pub mod body;
pub mod canvas;
pub mod crest;
pub mod dentine;
pub mod half_jaw;
pub mod jaw_cell;
pub mod marrow;
pub mod more_teeth;
pub mod third_tooth;
pub mod tooth;

/// The text of the SVG for an option of a finding; `None` where words alone are as good.
pub fn svg(finding: &str, option: &str) -> Option<String> {
    match finding {
        "dentine" => dentine::svg(option),
        "crest" => crest::svg(option),
        "third_tooth" => third_tooth::svg(option),
        "third_molar_back_cusp" => back_cusp::svg(option),
        "premolar_wear" => more_teeth::premolars(option),
        "infundibulum" => more_teeth::infundibulum(option),
        "front_teeth" => more_teeth::front(option),
        "marrow_consistency" => marrow::consistency(option),
        "marrow_see_through" => marrow::see_through(option),
        "marrow_colour" => marrow::colour(option),
        "body_position" => body::position(option),
        "body_state" => body::state(option),
        "body_buried" => body::buried(option),
        "rumen_fill" => body::rumen_fill(option),
        "growth_plate" => body::growth_plate(option),
        _ => None,
    }
}

/// Findings that have drawings.
pub const DRAWN: [&str; 15] = [
    "dentine",
    "crest",
    "third_tooth",
    "third_molar_back_cusp",
    "premolar_wear",
    "infundibulum",
    "front_teeth",
    "marrow_consistency",
    "marrow_see_through",
    "marrow_colour",
    "body_position",
    "body_state",
    "body_buried",
    "rumen_fill",
    "growth_plate",
];
