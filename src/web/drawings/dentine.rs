//! Dentine against enamel: a ridge cut across, drawn to scale, with the same ridge looked down on above it.
//!
//! The ridge is a wedge of dentine in a coat of enamel of even thickness. Wear takes the top off level,
//! and the wider the wedge at that level the more dentine shows: so every picture follows from one
//! number, the width of the dentine in widths of one enamel band.

use super::canvas::{Canvas, Ink, Point};

const WIDTH: f64 = 120.0;
const HEIGHT: f64 = 104.0;
const MIDDLE: f64 = WIDTH / 2.0;
/// Thickness of one enamel band, measured across the ridge.
const ENAMEL: f64 = 9.0;
/// Where the wedge of dentine begins, and where the ridge meets the tooth.
const CORE_TOP: f64 = 50.0;
const FOOT: f64 = 102.0;
/// What the wedge gains in half its width for each unit of depth.
const SLOPE: f64 = 0.5;
/// The strip that is looked down on.
const STRIP: (f64, f64) = (2.0, 24.0);

/// Width of the dentine in enamel bands, as drawn for an option of `dentine`.
///
/// Limits of the options: about equal is 0.75 to 1.25, wider is below 2, twice or more is 2 and up (this
/// project's coding of the agencies' keys, a modelling choice).
pub fn bands(option: &str) -> Option<f64> {
    Some(match option {
        "none" => 0.0,
        "narrower" => 0.5,
        "about_equal" => 1.0,
        "wider" => 1.6,
        "twice_or_more" => 2.6,
        "smooth" => 4.6,
        _ => return None,
    })
}

/// The drawing for an option of `dentine`.
pub fn svg(option: &str) -> Option<String> {
    let bands = bands(option)?;
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    sheet.line(Ink::Hidden, &coat(tip()));
    if bands > 0.0 {
        worn(&mut sheet, bands, option == "smooth");
    } else {
        unworn(&mut sheet);
    }
    Some(sheet.svg())
}

/// Height of the unworn tip: where the two outer faces meet.
fn tip() -> f64 {
    CORE_TOP - ENAMEL / SLOPE
}

fn half_core(y: f64) -> f64 {
    (y - CORE_TOP) * SLOPE
}

/// The outer faces, cut level at `top`.
fn coat(top: f64) -> Vec<Point> {
    let (foot, cut) = (half_core(FOOT) + ENAMEL, half_core(top) + ENAMEL);
    vec![(MIDDLE - foot, FOOT), (MIDDLE - cut, top), (MIDDLE + cut, top), (MIDDLE + foot, FOOT)]
}

fn core(top: f64) -> Vec<Point> {
    let (foot, cut) = (half_core(FOOT), half_core(top));
    vec![(MIDDLE - foot, FOOT), (MIDDLE - cut, top), (MIDDLE + cut, top), (MIDDLE + foot, FOOT)]
}

fn worn(sheet: &mut Canvas, bands: f64, smooth: bool) {
    let half = bands * ENAMEL / 2.0;
    let level = CORE_TOP + half / SLOPE;
    sheet.area(Ink::Enamel, &coat(level));
    sheet.area(Ink::Dentine, &core(level));
    if smooth {
        // Dentine is softer than enamel: where no ridge is left the face is hollowed out.
        sheet.curve(
            Ink::Ground,
            &format!("M{} {level}Q{MIDDLE} {} {} {level}Z", MIDDLE - half, level + 9.0, MIDDLE + half),
            true,
        );
    }
    let (top, bottom) = STRIP;
    for side in [-1.0, 1.0] {
        for x in [half, half + ENAMEL] {
            sheet.line(Ink::Hidden, &[(MIDDLE + side * x, bottom), (MIDDLE + side * x, level)]);
        }
    }
    sheet.area(Ink::Enamel, &strip(half + ENAMEL, top, bottom));
    sheet.area(Ink::Dentine, &strip(half, top, bottom));
}

fn unworn(sheet: &mut Canvas) {
    sheet.area(Ink::Enamel, &coat(tip()));
    sheet.area(Ink::Dentine, &[(MIDDLE - half_core(FOOT), FOOT), (MIDDLE, CORE_TOP), (MIDDLE + half_core(FOOT), FOOT)]);
    let (top, bottom) = STRIP;
    sheet.area(Ink::Enamel, &strip(ENAMEL, top, bottom));
    sheet.line(Ink::MarkLine, &[(MIDDLE, top), (MIDDLE, bottom)]);
}

fn strip(half: f64, top: f64, bottom: f64) -> Vec<Point> {
    vec![(MIDDLE - half, top), (MIDDLE + half, top), (MIDDLE + half, bottom), (MIDDLE - half, bottom)]
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Widths of the first two filled strips that stand at the top of the sheet.
    fn drawn_widths(svg: &str, class: &str) -> Vec<f64> {
        svg.split("<path class=\"")
            .filter_map(|part| part.strip_prefix(class))
            .filter_map(|part| {
                let d = part.split("d=\"").nth(1)?.split('"').next()?;
                let numbers: Vec<f64> = d.split(['M', 'L', 'Z', ' ']).filter_map(|n| n.parse().ok()).collect();
                ((numbers[1] - STRIP.0).abs() < 1e-9).then(|| numbers[2] - numbers[0])
            })
            .collect()
    }

    #[test]
    fn the_drawn_widths_stand_in_the_stated_proportion() {
        // Limits: this project's coding of the agencies' keys; `twice` is the keys' own word for M1 at 4.5 years.
        for (option, low, high) in
            [("narrower", 0.2, 0.75), ("about_equal", 0.75, 1.25), ("wider", 1.25, 2.0), ("twice_or_more", 2.0, 3.5)]
        {
            let svg = svg(option).unwrap();
            let dentine = drawn_widths(&svg, "d-dentine")[0];
            let whole = drawn_widths(&svg, "d-enamel")[0];
            let ratio = dentine / ((whole - dentine) / 2.0);
            assert!(ratio >= low && ratio <= high, "{option}: {ratio}");
        }
    }

    #[test]
    fn an_unworn_ridge_shows_no_dentine_from_above() {
        assert!(drawn_widths(&svg("none").unwrap(), "d-dentine").is_empty());
    }
}
