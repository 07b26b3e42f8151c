//! Marrow in a long bone split lengthwise, its end broken off: the look that tells how it holds together.

use super::canvas::{Canvas, Ink, Point};

const WIDTH: f64 = 140.0;
const HEIGHT: f64 = 84.0;
/// The hollow of the bone, between its upper and lower wall.
const HOLLOW: (f64, f64) = (20.0, 50.0);
/// Where the bone is broken off.
const BREAK: f64 = 84.0;

/// The drawing for an option of `marrow_consistency`.
pub fn consistency(option: &str) -> Option<String> {
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    match option {
        "solid_waxy" => {
            bone(&mut sheet);
            let plug = [(0.0, 21.0), (126.0, 21.0), (129.0, 25.0), (129.0, 45.0), (126.0, 49.0), (0.0, 49.0)];
            sheet.area(Ink::Marrow, &plug);
            // A candle's sheen: the outline alone says that it keeps its shape.
            sheet.line(Ink::MarkLine, &[(10.0, 27.0), (58.0, 27.0)]);
            sheet.line(Ink::MarkLine, &[(92.0, 27.0), (120.0, 27.0)]);
        }
        "gelatinous_opaque" => {
            bone(&mut sheet);
            let sagging = sagging(10.0);
            sheet.area(Ink::Marrow, &sagging);
            sheet.stipple(Ink::Mark, &sagging, 6.0, 1.1);
        }
        "gelatinous_wet" => {
            bone(&mut sheet);
            let sagging = sagging(22.0);
            sheet.area(Ink::Marrow, &sagging);
            sheet.hatch(Ink::MarkLine, &sagging, 7.0);
            shine(&mut sheet);
            drop_at(&mut sheet, 112.0, 78.0);
        }
        "watery" => {
            bone(&mut sheet);
            let pool = [(0.0, 41.0), (BREAK - 4.0, 41.0), (BREAK + 4.0, 47.0), (BREAK + 4.0, 49.0), (0.0, 49.0)];
            sheet.area(Ink::Marrow, &pool);
            for x in [8.0, 32.0, 56.0] {
                sheet.curve(Ink::MarkLine, &format!("M{x} 45q4 -3 8 0t8 0"), false);
            }
            drop_at(&mut sheet, 91.0, 58.0);
            drop_at(&mut sheet, 95.0, 70.0);
            sheet.curve(Ink::Marrow, "M78 80q18 -5 40 0q-18 4 -40 0z", true);
        }
        _ => return None,
    }
    Some(sheet.svg())
}

/// The drawing for an option of `marrow_see_through`: a stick held behind the marrow.
pub fn see_through(option: &str) -> Option<String> {
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    let stick = [(62.0, 2.0), (72.0, 2.0), (78.0, 82.0), (68.0, 82.0)];
    let lump = lump();
    match option {
        "opaque" => {
            rod(&mut sheet, &stick);
            sheet.area(Ink::Marrow, &lump);
            sheet.stipple(Ink::Mark, &lump, 7.0, 1.1);
        }
        "translucent" => {
            sheet.area(Ink::Marrow, &lump);
            rod(&mut sheet, &stick);
            sheet.curve(Ink::MarkLine, "M38 34q8 -12 20 -14", false);
        }
        _ => return None,
    }
    Some(sheet.svg())
}

/// The drawing for an option of `marrow_colour`: a bone sawn across. Each colour has a pattern of its own.
pub fn colour(option: &str) -> Option<String> {
    let class = match option {
        "white" => "d-white",
        "pink" => "d-pink",
        "red" => "d-red",
        "yellow" => "d-yellow",
        _ => return None,
    };
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    let hollow = ring(28.0);
    sheet.area(Ink::Bone, &ring(39.0));
    sheet.tinted(class, &hollow);
    match option {
        "pink" => sheet.stipple(Ink::Mark, &hollow, 9.0, 1.0),
        "red" => sheet.hatch(Ink::MarkLine, &hollow, 6.0),
        "yellow" => {
            for y in [24.0, 33.0, 42.0, 51.0, 60.0] {
                let reach = libm::sqrt(28.0 * 28.0 - (y - 42.0) * (y - 42.0)) - 4.0;
                sheet.line(Ink::MarkLine, &[(70.0 - reach, y), (70.0 + reach, y)]);
            }
        }
        _ => {}
    }
    Some(sheet.svg())
}

/// Dark, with an outline that shows on a dark ground, too.
fn rod(sheet: &mut Canvas, outline: &[Point]) {
    sheet.area(Ink::Mark, outline);
    sheet.area(Ink::Line, outline);
}

fn bone(sheet: &mut Canvas) {
    let (top, bottom) = HOLLOW;
    let upper = [(0.0, 8.0), (BREAK - 6.0, 8.0), (BREAK, 12.0), (BREAK - 5.0, 16.0), (BREAK, top), (0.0, top)];
    let lower = [(0.0, bottom), (BREAK + 4.0, bottom), (BREAK, 54.0), (BREAK + 6.0, 57.0), (BREAK, 62.0), (0.0, 62.0)];
    sheet.area(Ink::Ground, &[(0.0, top), (BREAK, top), (BREAK + 4.0, bottom), (0.0, bottom)]);
    for wall in [upper, lower] {
        sheet.area(Ink::Bone, &wall);
        sheet.hatch(Ink::Fine, &wall, 9.0);
    }
}

/// Marrow that fills the hollow and, beyond the break, hangs down by `sag`.
fn sagging(sag: f64) -> Vec<Point> {
    let (top, bottom) = HOLLOW;
    vec![
        (0.0, top + 2.0),
        (40.0, top + 5.0),
        (BREAK - 10.0, top + 4.0),
        (BREAK + 6.0, top + 6.0 + sag * 0.2),
        (BREAK + 22.0, top + 14.0 + sag * 0.5),
        (BREAK + 32.0, bottom + sag * 0.6),
        (BREAK + 30.0, bottom + sag),
        (BREAK + 22.0, bottom + sag + 3.0),
        (BREAK + 12.0, bottom + sag * 0.6),
        (BREAK + 3.0, bottom - 1.0),
        (0.0, bottom - 1.0),
    ]
}

fn shine(sheet: &mut Canvas) {
    for (x, y) in [(14.0, 30.0), (48.0, 34.0), (88.0, 38.0)] {
        sheet.curve(Ink::MarkLine, &format!("M{x} {y}q6 -5 13 -3"), false);
    }
}

fn drop_at(sheet: &mut Canvas, x: f64, y: f64) {
    sheet.curve(Ink::Marrow, &format!("M{x} {}q6 8 0 10q-6 -2 0 -10z", y - 6.0), true);
}

fn lump() -> Vec<Point> {
    ring(30.0).into_iter().map(|(x, y)| (70.0 + (x - 70.0) * 1.4, y)).collect()
}

/// A circle as points, so that it can be hatched.
fn ring(radius: f64) -> Vec<Point> {
    (0..32)
        .map(|n| {
            let turn = f64::from(n) / 16.0 * std::f64::consts::PI;
            (70.0 + radius * libm::cos(turn), 42.0 + radius * libm::sin(turn))
        })
        .collect()
}
