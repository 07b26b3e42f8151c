//! The third cheek tooth between its neighbours: three cusps are milk, two are permanent.

use super::canvas::{Canvas, Ink, Point};
use super::crest::gum;
use super::tooth::{Crest, Crown, cusps};
use crate::record::Tooth;

const WIDTH: f64 = 120.0;
const HEIGHT: f64 = 84.0;
const GUM: f64 = 62.0;

/// The drawing for an option of `third_tooth`, front of the jaw to the left.
pub fn svg(option: &str) -> Option<String> {
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    gum(&mut sheet, WIDTH, GUM, HEIGHT);
    neighbours(&mut sheet);
    match option {
        "three_cusps" => milk().draw(&mut sheet, true),
        "loose_or_gone" => {
            // The milk tooth hangs askew over the place that the new one pushes up from.
            sheet.line(Ink::Hidden, &Crown { gum: GUM + 14.0, height: 26.0, ..permanent() }.outline());
            let tilted: Vec<Point> = milk().outline().iter().map(|(x, y)| (*x, y - 6.0 - (x - 34.0) * 0.22)).collect();
            sheet.area(Ink::Enamel, &tilted);
        }
        "two_cusps_below_row" => Crown { height: 22.0, ..permanent() }.draw(&mut sheet, false),
        "two_cusps_white" => permanent().draw(&mut sheet, false),
        "two_cusps_stained" => {
            let crown = Crown { crest: Crest::SlightlyBlunt, ..permanent() };
            crown.draw(&mut sheet, true);
            let foot: Vec<Point> = vec![(38.0, GUM - 22.0), (78.0, GUM - 22.0), (77.0, GUM - 1.0), (39.0, GUM - 1.0)];
            sheet.stipple(Ink::Mark, &foot, 5.0, 1.1);
        }
        _ => return None,
    }
    Some(sheet.svg())
}

fn milk() -> Crown {
    Crown { left: 33.0, width: 50.0, gum: GUM, height: 34.0, cusps: cusps(Tooth::P4, true), crest: Crest::Blunt }
}

fn permanent() -> Crown {
    Crown { left: 36.0, width: 44.0, gum: GUM, height: 46.0, cusps: cusps(Tooth::P4, false), crest: Crest::Sharp }
}

/// The second and fourth cheek teeth, cut off by the sheet's edges: the measure for `below the row`.
fn neighbours(sheet: &mut Canvas) {
    let second = Crown {
        left: -12.0,
        width: 42.0,
        gum: GUM,
        height: 40.0,
        cusps: cusps(Tooth::P3, false),
        crest: Crest::SlightlyBlunt,
    };
    let fourth = Crown {
        left: 87.0,
        width: 52.0,
        gum: GUM,
        height: 50.0,
        cusps: cusps(Tooth::M1, false),
        crest: Crest::SlightlyBlunt,
    };
    for crown in [second, fourth] {
        sheet.area(Ink::Body, &crown.outline());
    }
}
