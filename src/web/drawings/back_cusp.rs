//! The last cusp of the third molar: from the tongue side, and the same cusp from behind.

use super::canvas::{Canvas, Ink, Point};
use super::crest::gum;

const WIDTH: f64 = 140.0;
const HEIGHT: f64 = 84.0;
const GUM: f64 = 66.0;

/// The drawing for an option of `third_molar_back_cusp`: on the left the molar from the tongue side with
/// its back to the right, on the right its back cusp from behind, cheek side to the right.
pub fn svg(option: &str) -> Option<String> {
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    gum(&mut sheet, WIDTH, GUM, HEIGHT);
    let worn = matches!(option, "slopes_to_cheek" | "level_or_below");
    let front = if worn { 0.72 } else { 1.0 };
    let cusp = side_view(option)?;
    sheet.area(Ink::Body, &front_cusps(front));
    if !cusp.is_empty() {
        sheet.area(Ink::Enamel, &cusp);
    }
    let back = back_view(option);
    if !back.is_empty() {
        sheet.area(Ink::Enamel, &back);
    }
    if let Some(face) = worn_face(option) {
        sheet.area(Ink::Dentine, &face);
    }
    if option == "flat_or_hollow" {
        sheet.area(Ink::Dentine, &[(69.0, 40.0), (79.0, 40.0), (79.0, 43.0), (69.0, 43.0)]);
    }
    if option == "in_gum_or_unworn" {
        sheet.line(Ink::Hidden, &[(66.0, GUM), (68.0, GUM + 12.0), (80.0, GUM + 12.0), (82.0, GUM)]);
    }
    sheet.line(Ink::Hidden, &[(92.0, 4.0), (92.0, HEIGHT - 4.0)]);
    Some(sheet.svg())
}

/// The two front cusps of the molar.
fn front_cusps(share: f64) -> Vec<Point> {
    let top = |unworn: f64| GUM - (GUM - unworn) * share;
    vec![
        (8.0, GUM),
        (6.0, 46.0),
        (21.0, top(10.0)),
        (34.0, top(34.0)),
        (48.0, top(14.0)),
        (62.0, top(38.0)),
        (64.0, GUM),
    ]
}

fn side_view(option: &str) -> Option<Vec<Point>> {
    Some(match option {
        "in_gum_or_unworn" => vec![(64.0, GUM), (66.0, 56.0), (74.0, 46.0), (82.0, 56.0), (84.0, GUM)],
        "pointed" => vec![(64.0, GUM), (64.0, 46.0), (74.0, 26.0), (84.0, 46.0), (84.0, GUM)],
        "flat_or_hollow" => {
            vec![(64.0, GUM), (64.0, 46.0), (68.0, 39.0), (74.0, 42.0), (80.0, 39.0), (84.0, 46.0), (84.0, GUM)]
        }
        "slopes_to_cheek" => vec![(64.0, GUM), (64.0, 46.0), (68.0, 42.0), (80.0, 42.0), (84.0, 48.0), (84.0, GUM)],
        "level_or_below" => vec![(64.0, GUM), (64.0, 54.0), (83.0, 55.0), (84.0, GUM)],
        "cusp_missing" => Vec::new(),
        _ => return None,
    })
}

/// From behind: tongue side to the left, cheek side to the right.
fn back_view(option: &str) -> Vec<Point> {
    match option {
        "in_gum_or_unworn" => {
            vec![(104.0, GUM), (106.0, 54.0), (112.0, 46.0), (122.0, 46.0), (128.0, 56.0), (130.0, GUM)]
        }
        "pointed" => {
            vec![(104.0, GUM), (104.0, 44.0), (111.0, 26.0), (118.0, 40.0), (124.0, 34.0), (130.0, 48.0), (130.0, GUM)]
        }
        "flat_or_hollow" => {
            vec![(104.0, GUM), (104.0, 42.0), (110.0, 39.0), (117.0, 43.0), (124.0, 39.0), (130.0, 44.0), (130.0, GUM)]
        }
        "slopes_to_cheek" => vec![(104.0, GUM), (104.0, 36.0), (108.0, 34.0), (130.0, 56.0), (130.0, GUM)],
        "level_or_below" => vec![(104.0, GUM), (104.0, 54.0), (117.0, 57.0), (130.0, 55.0), (130.0, GUM)],
        _ => Vec::new(),
    }
}

/// The worn face as seen from behind.
fn worn_face(option: &str) -> Option<Vec<Point>> {
    match option {
        "flat_or_hollow" => {
            Some(vec![(111.0, 41.0), (117.0, 44.0), (123.0, 41.0), (123.0, 44.0), (117.0, 47.0), (111.0, 44.0)])
        }
        "slopes_to_cheek" => Some(vec![(109.0, 37.0), (128.0, 56.0), (128.0, 60.0), (109.0, 41.0)]),
        "level_or_below" => {
            Some(vec![(107.0, 56.0), (117.0, 59.0), (127.0, 57.0), (127.0, 60.0), (117.0, 62.0), (107.0, 59.0)])
        }
        _ => None,
    }
}
