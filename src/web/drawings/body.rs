//! The animal where it lies: position, what is left of it, how deep in snow, and a few simple parts.

use super::canvas::{Canvas, Ink};

const WIDTH: f64 = 140.0;
const HEIGHT: f64 = 84.0;
/// The sheet for what is looked down on, and how the animal is fitted into it.
const SQUARE: f64 = 110.0;
const SCALE: f64 = 0.8;
const MARGIN: f64 = 21.0;

/// A deer stretched out on its side, head to the right and legs down: its right flank is seen.
const TRUNK: &str = "M20 42C18 32 28 26 42 27C58 28 74 27 86 28C94 26 100 25 106 26L113 24L124 29L132 34L131 39L122 40L108 40C104 46 98 52 88 54C70 58 46 58 32 56C24 54 21 48 20 42Z";
const FRONT_LEGS: &str = "M84 52L100 62L114 60M76 54L90 68L106 72";
const HIND_LEGS: &str = "M30 52L22 66L6 68M40 55L32 72L16 77";
const EAR: &str = "M108 26L102 18L114 23Z";
const TAIL: &str = "M20 36L10 38L19 44Z";
const RIBS: &str = "M52 30Q47 42 52 54M61 30Q56 42 61 55M70 30Q65 42 70 55M79 29Q75 40 79 52";
const BACKBONE: &str = "M22 36L34 30L52 29L70 29L88 28L106 27";
const SKULL: &str = "M106 26L113 24L124 29L132 34L131 39L122 40L108 40Z";
/// Where the eye lies on that outline.
const EYE: (f64, f64) = (119.0, 32.0);

/// The drawing for an option of `body_position`. Lying on a side is seen from above, the rest from the side.
pub fn position(option: &str) -> Option<String> {
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    match option {
        "on_left_side" | "on_right_side" => {
            // Looked down on with its head away from us: on the left side the legs point to the right.
            sheet = Canvas::new(SQUARE, SQUARE);
            sheet.turned(option == "on_right_side", SCALE, MARGIN, whole);
        }
        "on_chest" => {
            snow(&mut sheet, 62.0);
            resting(&mut sheet);
            sheet.curve(Ink::Line, "M84 61L104 60L94 66M40 62L56 58L30 66", false);
        }
        "on_back" => {
            snow(&mut sheet, 66.0);
            sheet.curve(Ink::Body, "M20 56C22 46 36 42 52 42C68 41 82 42 92 48L112 56L126 60L124 66L104 68C80 70 44 70 32 68C24 66 20 62 20 56Z", true);
            sheet.curve(Ink::Line, "M36 44L28 26L36 12M48 42L44 24L52 8M82 44L84 26L76 12M90 48L96 30L90 16", false);
        }
        "scattered" => {
            sheet.curve(Ink::Body, SKULL, true);
            sheet.curve(
                Ink::Line,
                "M10 20L34 12M30 8L38 15M70 66L96 76M14 62L26 74L44 72M60 14L74 22M100 46L124 54",
                false,
            );
            sheet.curve(Ink::Body, "M42 38C52 32 70 34 76 40C80 50 66 56 54 52C46 50 40 44 42 38Z", true);
            sheet.curve(Ink::Line, "M50 36Q47 44 50 50M58 35Q55 44 58 52M66 36Q63 44 66 53", false);
        }
        _ => return None,
    }
    Some(sheet.svg())
}

/// The drawing for an option of `body_state`, looked down on.
pub fn state(option: &str) -> Option<String> {
    let draw: fn(&mut Canvas) = match option {
        "whole" => whole,
        "part_eaten" => part_eaten,
        "mostly_eaten" => mostly_eaten,
        "bones_and_hair" => bones_and_hair,
        _ => return None,
    };
    let mut sheet = Canvas::new(SQUARE, SQUARE);
    sheet.turned(false, SCALE, MARGIN, draw);
    Some(sheet.svg())
}

/// The hind end is open: a ragged hole where the rump was.
fn part_eaten(sheet: &mut Canvas) {
    whole(sheet);
    let hole = "M24 26L30 30L36 24L42 30L50 26L50 36L46 42L52 48L46 58L38 54L32 60L28 50L22 52L26 42L18 38L24 34Z";
    sheet.curve(Ink::Ground, hole, true);
    sheet.curve(Ink::Line, "M32 36L42 40M31 44L41 47", false);
}

/// Legs, head and bits of hide on a bare backbone and ribs.
fn mostly_eaten(sheet: &mut Canvas) {
    limbs(sheet);
    sheet.curve(Ink::Line, BACKBONE, false);
    sheet.curve(Ink::Line, RIBS, false);
    let head = "M106 26L113 24L124 29L132 34L131 39L122 40L108 40L98 44L92 34L88 28Z";
    sheet.curve(Ink::Body, head, true);
    sheet.curve(Ink::Body, EAR, true);
    sheet.curve(Ink::Body, "M20 42L24 32L36 30L36 44L30 56Z", true);
}

fn bones_and_hair(sheet: &mut Canvas) {
    sheet.curve(Ink::Line, "M12 50L32 44M28 40L36 47M50 60L78 56M56 54L52 66M84 62L106 70M96 44L112 48", false);
    sheet.curve(Ink::Line, "M46 26Q42 38 48 46M57 25Q53 37 59 45M68 26Q64 38 70 45M40 24L78 22", false);
    sheet.curve(Ink::Body, SKULL, true);
    sheet.curve(
        Ink::Fine,
        "M10 70l6 -6m-2 8l7 -5m6 8l5 -8m16 8l6 -6m-1 8l7 -6m14 6l6 -7m0 9l6 -6m12 -8l5 -7M14 22l6 -6m2 9l5 -7m62 -2l6 -6",
        false,
    );
}

/// The drawing for an option of `body_buried`, from the side.
pub fn buried(option: &str) -> Option<String> {
    let level = match option {
        "on_top" => 62.0,
        "part_buried" => 46.0,
        "mostly_buried" => 28.0,
        _ => return None,
    };
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    resting(&mut sheet);
    snow(&mut sheet, level);
    Some(sheet.svg())
}

/// The drawing for an option of `rumen_fill`: a paunch filled from below.
pub fn rumen_fill(option: &str) -> Option<String> {
    let share = match option {
        "empty" => 0.0,
        "quarter" => 0.25,
        "half" => 0.5,
        "three_quarters" => 0.75,
        "full" => 1.0,
        _ => return None,
    };
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    // A box with rounded ends: the level can be read off it, an organ's outline would hide it.
    let (left, right, top, bottom) = (34.0, 106.0, 10.0, 76.0);
    let level = bottom - share * (bottom - top);
    sheet.area(Ink::Ground, &[(left, top), (right, top), (right, bottom), (left, bottom)]);
    if share > 0.0 {
        let fill = [(left, level), (right, level), (right, bottom), (left, bottom)];
        sheet.area(Ink::Body, &fill);
        sheet.hatch(Ink::Fine, &fill, 9.0);
    }
    for quarter in [0.25, 0.5, 0.75] {
        let y = bottom - quarter * (bottom - top);
        sheet.line(Ink::Line, &[(left - 8.0, y), (left, y)]);
    }
    Some(sheet.svg())
}

/// The drawing for an option of `growth_plate`: the end of a long bone sawn lengthwise.
pub fn growth_plate(option: &str) -> Option<String> {
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    let (shaft, end) = (
        [(66.0, 56.0), (8.0, 54.0), (8.0, 30.0), (66.0, 28.0)],
        [(112.0, 14.0), (122.0, 28.0), (122.0, 56.0), (112.0, 70.0)],
    );
    let (upper, lower) = ((84.0, 15.0), (84.0, 69.0));
    match option {
        "open" => {
            let gap = [upper, (92.0, 14.0), (92.0, 70.0), lower];
            sheet.area(Ink::Bone, &[lower, shaft[0], shaft[1], shaft[2], shaft[3], upper]);
            sheet.area(Ink::Bone, &[gap[1], end[0], end[1], end[2], end[3], gap[2]]);
            sheet.area(Ink::Ground, &gap);
            sheet.hatch(Ink::Fine, &gap, 5.0);
        }
        "line" | "closed" => {
            sheet.area(
                Ink::Bone,
                &[lower, shaft[0], shaft[1], shaft[2], shaft[3], upper, end[0], end[1], end[2], end[3]],
            );
            if option == "line" {
                sheet.line(Ink::Line, &[upper, (87.0, 30.0), (82.0, 44.0), (87.0, 56.0), lower]);
            }
        }
        _ => return None,
    }
    Some(sheet.svg())
}

/// On its chest with the legs folded under, head to the right.
pub(super) fn resting(sheet: &mut Canvas) {
    let body = "M24 50C22 38 32 32 46 33C60 35 74 34 84 32L92 18L98 10L103 14L117 20L116 25L102 27L98 44C97 54 90 60 78 61L36 62C28 61 25 58 24 50Z";
    sheet.curve(Ink::Body, body, true);
    sheet.curve(Ink::Body, "M94 15L88 8L98 10Z", true);
    sheet.disc(Ink::Solid, (104.0, 19.0), 1.4);
}

pub(super) fn whole(sheet: &mut Canvas) {
    limbs(sheet);
    sheet.curve(Ink::Body, TAIL, true);
    sheet.curve(Ink::Body, EAR, true);
    sheet.curve(Ink::Body, TRUNK, true);
    sheet.disc(Ink::Solid, EYE, 1.4);
}

fn limbs(sheet: &mut Canvas) {
    sheet.thick(FRONT_LEGS);
    sheet.thick(HIND_LEGS);
}

/// Snow up to a level, with an uneven surface.
fn snow(sheet: &mut Canvas, level: f64) {
    let d = format!("M0 {level}q18 -5 35 0t35 0t35 0t35 0L{WIDTH} {HEIGHT}L0 {HEIGHT}Z");
    sheet.curve(Ink::Snow, &d, true);
}
