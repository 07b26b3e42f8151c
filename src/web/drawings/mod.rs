//! Drawings: where a picture decides better than a word.
//!
//! Every drawing is a pure function from a record's code to the text of an SVG, so it is checked without
//! a browser; the views around them take plain values and callbacks. [`picture`] is the one door for
//! tiles, [`jaw_row()`] and [`jaw_exam()`] for the lower jaw.

pub mod back_cusp;
pub mod body;
pub mod canvas;
pub mod crest;
pub mod dentine;
pub mod fat;
pub mod half_jaw;
pub mod jaw_cell;
pub mod jaw_exam;
pub mod jaw_focus;
pub mod jaw_row;
pub mod marrow;
pub mod more_teeth;
pub mod picture;
pub mod ruler;
pub mod signs;
pub mod third_tooth;
pub mod tooth;

pub use jaw_exam::{JawActs, JawKey, jaw_exam};
pub use jaw_focus::{JawFocus, ToothQuestion};
pub use jaw_row::jaw_row;
pub use picture::{drawing, picture};

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
        "kidney_fat" => fat::kidney(option),
        "kidney_trim" => fat::trim(option),
        "rump_fat" => fat::rump(option),
        "heart_fat" => fat::heart(option),
        _ => signs::svg(finding, option),
    }
}

/// Findings that have drawings.
pub const DRAWN: [&str; 26] = [
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
    "kidney_fat",
    "kidney_trim",
    "rump_fat",
    "heart_fat",
    "wound_bleeding",
    "bruise_under_skin",
    "wound_zone_main",
    "feeding_began",
    "bones_fed_on",
    "snow_over_body",
    "cover_with",
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::find;
    use crate::words::{Language, ids, raw};
    use std::collections::BTreeSet;

    #[test]
    fn every_option_of_a_drawn_finding_has_a_drawing_and_a_description_of_its_own() {
        for finding in DRAWN {
            let (mut drawings, mut words) = (BTreeSet::new(), BTreeSet::new());
            for option in find(finding).unwrap().options() {
                let svg = svg(finding, option).unwrap_or_else(|| panic!("{finding}: {option} has no drawing"));
                assert!(drawings.insert(svg), "{finding}: {option} is drawn like another option");
                let id = format!("drawing.{finding}.{option}");
                let text = raw(Language::English, &id).unwrap_or_else(|| panic!("{id} has no words"));
                assert!(words.insert(text), "{id} is described like another option");
            }
        }
    }

    #[test]
    fn every_description_belongs_to_a_drawing() {
        for id in ids().filter(|id| id.starts_with("drawing.")) {
            let mut parts = id.splitn(3, '.').skip(1);
            let (finding, option) = (parts.next().unwrap(), parts.next().unwrap());
            assert!(svg(finding, option).is_some(), "{id} describes nothing");
        }
    }

    #[test]
    fn drawings_carry_no_colour_no_style_and_no_id() {
        // The policy of the page forbids inline styles, and two drawings on a page may not share an id.
        for finding in DRAWN {
            for option in find(finding).unwrap().options() {
                let svg = svg(finding, option).unwrap();
                for word in [" style=", " fill=", " stroke=", " id="] {
                    assert!(!svg.contains(word), "{finding} {option}: {word}");
                }
                assert_eq!(svg.matches('<').count(), svg.matches('>').count());
            }
        }
    }
}
