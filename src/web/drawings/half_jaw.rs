//! One half of the lower jaw from the tongue side, to show which way round it is held.
//!
//! Held with the teeth up and the tongue side towards the eye, the left half has its front teeth to the
//! right and the right half to the left (plain geometry: the eye stands between the two halves).

use super::canvas::{Canvas, Ink, Point};
use crate::record::{Side, Tooth};

const WIDTH: f64 = 320.0;
const HEIGHT: f64 = 150.0;

const BONE: &str = "M22 92C40 96 60 98 84 93C98 90 106 84 114 82L236 76C242 66 246 40 250 18C252 8 258 3 264 5C268 8 264 16 265 26C266 38 270 44 276 42C280 34 292 34 294 42C295 50 288 56 287 66C288 84 296 104 290 120C284 134 262 138 246 130C226 126 206 130 180 130C150 130 112 122 84 114C56 108 34 106 20 101Z";
/// Width of each cheek tooth in the drawing, front to back.
const WIDTHS: [f64; 6] = [13.0, 17.0, 19.0, 21.0, 23.0, 28.0];

/// Whether the front teeth lie to the right when the tongue side is looked at.
pub const fn front_lies_right(side: Side) -> bool {
    matches!(side, Side::Left)
}

/// The drawing; the tooth in hand is filled. `front` is the word written at the front teeth.
pub fn svg(side: Side, in_hand: Option<Tooth>, front: &str) -> String {
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    sheet.mirror(front_lies_right(side));
    for tooth in incisors() {
        sheet.area(Ink::Enamel, &tooth);
    }
    let mut left = 113.0;
    for (tooth, width) in Tooth::CHEEK.into_iter().zip(WIDTHS) {
        let gum = 84.0 - (left - 113.0) * 0.05;
        let ink = if in_hand == Some(tooth) { Ink::Accent } else { Ink::Enamel };
        sheet.area(ink, &small_tooth(left, width, gum));
        if in_hand == Some(tooth) {
            // A pointer as well: which tooth is meant must not hang on its fill alone.
            let middle = left + width / 2.0;
            sheet.area(Ink::Solid, &[(middle - 8.0, 34.0), (middle + 8.0, 34.0), (middle, 52.0)]);
        }
        left += width;
    }
    sheet.curve(Ink::Bone, BONE, true);
    // The hole for nerve and vessels lies on the tongue side only, and says which face is seen.
    sheet.area(Ink::Solid, &[(256.0, 82.0), (262.0, 78.0), (264.0, 86.0), (258.0, 88.0)]);
    sheet.word((50.0, 147.0), 34.0, front);
    sheet.svg()
}

fn small_tooth(left: f64, width: f64, gum: f64) -> Vec<Point> {
    let (right, top) = (left + width, gum - 20.0);
    vec![
        (left + 0.5, gum + 4.0),
        (left + 0.5, top + 8.0),
        (left + width * 0.28, top),
        (left + width * 0.5, top + 7.0),
        (left + width * 0.74, top + 1.0),
        (right - 0.5, top + 8.0),
        (right - 0.5, gum + 4.0),
    ]
}

fn incisors() -> Vec<Vec<Point>> {
    (0..4)
        .rev()
        .map(|n| {
            let x = 6.0 + f64::from(n) * 6.0;
            vec![
                (x, 74.0 + f64::from(n) * 2.0),
                (x + 7.0, 72.0 + f64::from(n) * 2.0),
                (x + 22.0, 97.0),
                (x + 14.0, 102.0),
            ]
        })
        .collect()
}
