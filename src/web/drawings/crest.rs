//! The ridge on the tongue side of a molar, from sharp to gone, beside what it once was.

use super::canvas::{Canvas, Ink};
use super::tooth::{Crest, Crown};

const WIDTH: f64 = 120.0;
const HEIGHT: f64 = 84.0;
const GUM: f64 = 70.0;

/// The drawing for an option of `crest`.
pub fn svg(option: &str) -> Option<String> {
    let crest = Crest::from_code(option)?;
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    let crown = Crown { left: 20.0, width: 80.0, gum: GUM, height: 62.0, cusps: &[0.5, 0.5], crest };
    gum(&mut sheet, WIDTH, GUM, HEIGHT);
    if crest != Crest::Sharp {
        sheet.line(Ink::Hidden, &Crown { crest: Crest::Sharp, ..crown }.outline());
    }
    crown.draw(&mut sheet, crest > Crest::SlightlyBlunt);
    Some(sheet.svg())
}

/// The gum that teeth stand in: a band from `top` down.
pub fn gum(sheet: &mut Canvas, width: f64, top: f64, bottom: f64) {
    sheet.area(Ink::Gum, &[(0.0, top), (width, top), (width, bottom), (0.0, bottom)]);
    sheet.line(Ink::Line, &[(0.0, top), (width, top)]);
}
