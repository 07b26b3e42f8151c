//! Fat on the rump, round a kidney and on the heart, by how much there is; and a kidney's fat by the two ways
//! of trimming it. Fat is white, as it lies on the body; what is left off the scales is dashed.

use super::canvas::{Canvas, Ink, Point};

const WIDTH: f64 = 140.0;
const HEIGHT: f64 = 84.0;

const KIDNEY: &str =
    "M44 30C50 16 90 16 98 32C104 46 96 64 84 66C76 67 76 57 70 55C64 53 58 61 50 58C38 53 39 40 44 30Z";
/// Fat that hides the kidney.
const LUMP: &str = "M12 44C10 20 38 7 70 7C104 7 130 20 128 46C126 70 100 78 70 78C38 78 14 70 12 44Z";
/// The same between two straight cuts, and the two ends beyond them.
const BETWEEN: &str = "M38 14C48 9 58 7 70 7C82 7 94 9 104 14L104 71C94 76 82 78 70 78C58 78 48 76 38 72Z";
const ENDS: &str = "M36 15C20 22 11 32 12 44C13 58 22 66 36 72M106 15C120 22 129 32 128 46C127 58 119 66 106 71";
const CUTS: &str = "M38 4L38 81M104 4L104 81";

/// The drawing for an option of `kidney_fat`.
pub fn kidney(option: &str) -> Option<String> {
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    match option {
        "heavy" => {
            sheet.curve(Ink::Enamel, LUMP, true);
            sheet.curve(Ink::Hidden, KIDNEY, true);
        }
        "moderate" => {
            bare_kidney(&mut sheet);
            sheet.curve(
                Ink::Enamel,
                "M40 26C50 34 52 46 60 50C70 54 82 50 90 58C96 64 84 78 66 77C42 76 24 66 24 46C24 34 32 24 40 26Z",
                true,
            );
            sheet.curve(Ink::Enamel, "M86 20C92 24 90 34 98 38C110 42 114 32 108 22C102 14 90 14 86 20Z", true);
        }
        "slight" => {
            bare_kidney(&mut sheet);
            sheet.curve(Ink::Enamel, "M58 60C62 54 78 54 82 62C82 70 60 72 58 60Z", true);
        }
        "none" => bare_kidney(&mut sheet),
        _ => return None,
    }
    Some(sheet.svg())
}

/// The drawing for an option of `kidney_trim`.
pub fn trim(option: &str) -> Option<String> {
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    match option {
        "whole" => {
            sheet.curve(Ink::Enamel, LUMP, true);
            bare_kidney(&mut sheet);
        }
        "straight_cuts" => {
            sheet.curve(Ink::Hidden, ENDS, false);
            sheet.curve(Ink::Enamel, BETWEEN, true);
            bare_kidney(&mut sheet);
            sheet.curve(Ink::Line, CUTS, false);
        }
        "both_ways" => {
            sheet.curve(Ink::Enamel, LUMP, true);
            bare_kidney(&mut sheet);
            sheet.curve(Ink::Line, CUTS, false);
        }
        _ => return None,
    }
    Some(sheet.svg())
}

fn bare_kidney(sheet: &mut Canvas) {
    sheet.curve(Ink::Body, KIDNEY, true);
    // The hollow where the vessels go in.
    sheet.curve(Ink::Fine, "M70 55Q68 48 70 42", false);
}

/// The drawing for an option of `rump_fat`: a cut through the hide, seen from its edge.
pub fn rump(option: &str) -> Option<String> {
    let thick = match option {
        "thick" => 30.0,
        "moderate" => 15.0,
        "thin" => 5.0,
        "none" => 0.0,
        _ => return None,
    };
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    let (left, right, hide, bottom) = (8.0, 132.0, 20.0, 78.0);
    let meat: [Point; 4] = [(left, hide + thick), (right, hide + thick), (right, bottom), (left, bottom)];
    sheet.area(Ink::Body, &meat);
    sheet.hatch(Ink::Fine, &meat, 9.0);
    if thick > 0.0 {
        sheet.area(Ink::Enamel, &[(left, hide), (right, hide), (right, hide + thick), (left, hide + thick)]);
    }
    sheet.area(Ink::Solid, &[(left, hide - 5.0), (right, hide - 5.0), (right, hide), (left, hide)]);
    for step in 0..12 {
        let x = 12.0 + 10.0 * f64::from(step);
        sheet.line(Ink::Line, &[(x, hide - 5.0), (x + 5.0, 5.0)]);
    }
    Some(sheet.svg())
}

/// The drawing for an option of `heart_fat`: the ring round the top of the heart.
pub fn heart(option: &str) -> Option<String> {
    let band = match option {
        "heavy" => Some(
            "M36 24C50 18 90 18 104 24L106 42C98 44 96 62 88 58C84 48 78 46 74 62C70 72 64 66 64 54C60 44 54 46 50 56C46 62 42 46 34 42Z",
        ),
        "moderate" => Some(
            "M36 27C50 22 90 22 104 27L104 37C96 37 94 44 88 42C80 38 74 46 68 44C60 38 54 44 48 42C44 40 42 36 36 37Z",
        ),
        "slight" => Some("M56 28C62 25 78 25 84 28C84 34 78 34 72 33C66 36 58 34 56 28Z"),
        "none" => None,
        _ => return None,
    };
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    sheet.curve(Ink::Body, "M70 81C48 70 32 54 34 34C35 27 40 24 46 23L44 8L56 8L58 21L64 20L64 5L78 5L78 20L84 21L86 9L98 10L95 23C101 24 105 28 106 34C108 54 92 70 70 81Z", true);
    sheet.curve(Ink::Line, "M36 32C52 26 88 26 104 32M76 32C80 46 74 58 72 70", false);
    if let Some(band) = band {
        sheet.curve(Ink::Enamel, band, true);
    }
    Some(sheet.svg())
}
