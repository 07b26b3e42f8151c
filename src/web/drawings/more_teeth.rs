//! Wear of the premolars together, the funnels in a molar's face, and the front teeth.

use super::canvas::{Canvas, Ink, Point};
use super::crest::gum;
use super::tooth::{Crest, Crown, cusps};
use crate::record::Tooth;

const WIDTH: f64 = 120.0;
const HEIGHT: f64 = 84.0;
const GUM: f64 = 66.0;

/// The drawing for an option of `premolar_wear`: the three teeth in front of the molars.
pub fn premolars(option: &str) -> Option<String> {
    let crest = match option {
        "none" => Crest::Sharp,
        "light" => Crest::SlightlyBlunt,
        "moderate" => Crest::Blunt,
        "heavy" => Crest::Rounded,
        "stumps" => Crest::Gone,
        _ => return None,
    };
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    gum(&mut sheet, WIDTH, GUM, HEIGHT);
    for (tooth, left, width, height) in
        [(Tooth::P2, 8.0, 26.0, 40.0), (Tooth::P3, 38.0, 34.0, 48.0), (Tooth::P4, 76.0, 38.0, 54.0)]
    {
        let crown = Crown { left, width, gum: GUM, height, cusps: cusps(tooth, false), crest };
        if crest != Crest::Sharp {
            sheet.line(Ink::Hidden, &Crown { crest: Crest::Sharp, ..crown }.outline());
        }
        crown.draw(&mut sheet, crest > Crest::SlightlyBlunt);
    }
    Some(sheet.svg())
}

/// The drawing for an option of `infundibulum`: a molar looked down on, its two funnels dark.
pub fn infundibulum(option: &str) -> Option<String> {
    let (half_length, half_width) = match option {
        "open_deep" => (20.0, 9.0),
        "narrow" => (18.0, 3.5),
        "remnant" => (7.0, 2.0),
        "gone" => (0.0, 0.0),
        _ => return None,
    };
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    sheet.curve(Ink::Enamel, "M10 42C8 24 20 14 34 14C48 14 56 20 60 26C64 20 72 14 86 14C100 14 112 24 110 42C112 58 102 68 86 68C74 68 66 64 60 58C54 64 46 68 34 68C18 68 8 58 10 42Z", true);
    if half_length > 0.0 {
        for middle in [34.0, 86.0] {
            // A crescent, its hollow towards the cheek.
            let d = format!(
                "M{} 40Q{middle} {} {} 40Q{middle} {} {} 40Z",
                middle - half_length,
                40.0 + half_width * 2.4,
                middle + half_length,
                40.0 - half_width * 0.6,
                middle - half_length
            );
            sheet.curve(Ink::Dentine, &d, true);
        }
    }
    Some(sheet.svg())
}

/// The drawing for an option of `front_teeth`: the eight front teeth from in front.
pub fn front(option: &str) -> Option<String> {
    // Pairs from the middle outwards: is it the broad permanent tooth?
    let (middle, others) = match option {
        "all_milk" => (Some(false), false),
        "first_pair_changing" => (None, false),
        "first_pair_permanent" => (Some(true), false),
        "all_permanent" => (Some(true), true),
        _ => return None,
    };
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    gum(&mut sheet, WIDTH, GUM, HEIGHT);
    let mut reach = 1.0;
    for pair in 0..4u8 {
        let permanent = if pair == 0 { middle } else { Some(others) };
        let broad = match pair {
            0 => 20.0,
            1 => 14.0,
            2 => 11.0,
            _ => 9.0,
        };
        let slot = broad * 1.0;
        for side in [-1.0, 1.0] {
            let centre = WIDTH / 2.0 + side * (reach + slot / 2.0);
            match permanent {
                Some(true) => sheet.area(Ink::Enamel, &spade(centre, slot * 0.94, 46.0)),
                Some(false) => sheet.area(Ink::Body, &spade(centre, slot * 0.52, 30.0)),
                None if side < 0.0 => sheet.line(Ink::Hidden, &spade(centre, slot * 0.52, 30.0)),
                None => sheet.area(Ink::Enamel, &spade(centre, slot * 0.94, 18.0)),
            }
        }
        reach += slot + 1.0;
    }
    Some(sheet.svg())
}

/// A spade-shaped front tooth standing on the gum.
fn spade(centre: f64, width: f64, height: f64) -> Vec<Point> {
    let (half, top) = (width / 2.0, GUM - height);
    vec![
        (centre - half * 0.5, GUM),
        (centre - half * 0.6, GUM - height * 0.4),
        (centre - half, top + 3.0),
        (centre - half * 0.8, top),
        (centre + half * 0.8, top),
        (centre + half, top + 3.0),
        (centre + half * 0.6, GUM - height * 0.4),
        (centre + half * 0.5, GUM),
    ]
}
