//! A ruler with what was measured drawn to its scale: two holes, the outline of a track, a dropping.
//!
//! It helps to see a slip of the tape. It names no animal.

use super::canvas::{Canvas, Ink, Point};

const WIDTH: f64 = 300.0;
const HEIGHT: f64 = 96.0;
const LEFT: f64 = 14.0;
/// Where the ruler's edge lies.
const EDGE: f64 = 58.0;

/// What is drawn.
#[derive(Clone, Copy)]
enum Shape {
    Holes,
    Track,
    Dropping,
    Length,
}

/// Shape and length of the ruler, mm, of a finding that has one.
fn of(finding: &str) -> Option<(Shape, f64)> {
    Some(match finding {
        "upper_canines_mm" | "lower_canines_mm" => (Shape::Holes, 80.0),
        "talon_front_mm" | "talon_hind_mm" => (Shape::Holes, 180.0),
        "front_track_width_mm" => (Shape::Track, 160.0),
        "front_track_length_mm" => (Shape::Length, 160.0),
        "scat_width_mm" => (Shape::Dropping, 60.0),
        _ => return None,
    })
}

/// The drawing for a measure in mm; what lies beyond the ruler is drawn to its end only, with an open end.
/// `None` where the finding has no ruler.
pub fn svg(finding: &str, mm: Option<f64>) -> Option<String> {
    let (shape, longest) = of(finding)?;
    let mut sheet = Canvas::new(WIDTH, HEIGHT);
    let scale = (WIDTH - 2.0 * LEFT) / longest;
    let x = |at: f64| LEFT + at * scale;
    ruler(&mut sheet, longest, &x);
    if let Some(mm) = mm.filter(|mm| *mm > 0.0) {
        let end = x(mm.min(longest));
        draw(&mut sheet, shape, end);
        if mm > longest {
            sheet.line(Ink::Hidden, &[(end, 20.0), (WIDTH, 20.0)]);
        }
    }
    Some(sheet.svg())
}

fn ruler(sheet: &mut Canvas, longest: f64, x: &impl Fn(f64) -> f64) {
    sheet.line(Ink::Line, &[(x(0.0), EDGE), (x(longest), EDGE)]);
    // A tick every 5 mm, a number at every second or fourth.
    let every = if longest > 100.0 { 4 } else { 2 };
    for tick in (0_u32..40).take_while(|tick| f64::from(*tick) * 5.0 <= longest) {
        let at = f64::from(tick) * 5.0;
        let labelled = tick % every == 0;
        let long = if labelled { 12.0 } else { 6.0 };
        sheet.line(Ink::Fine, &[(x(at), EDGE), (x(at), EDGE + long)]);
        if labelled {
            sheet.word((x(at), EDGE + 27.0), 15.0, &format!("{at:.0}"));
        }
    }
}

fn draw(sheet: &mut Canvas, shape: Shape, end: f64) {
    let (start, middle) = (LEFT, f64::midpoint(LEFT, end));
    match shape {
        Shape::Holes => {
            for at in [start, end] {
                sheet.disc(Ink::Solid, (at, 34.0), 5.0);
                sheet.line(Ink::Hidden, &[(at, 34.0), (at, EDGE)]);
            }
            sheet.line(Ink::Line, &[(start, 34.0), (end, 34.0)]);
        }
        Shape::Track => {
            let half = (end - start) / 2.0;
            sheet.area(Ink::Body, &oval((middle, 40.0), half, 12.0));
            for toe in [-0.75, -0.25, 0.25, 0.75] {
                sheet.area(Ink::Body, &oval((middle + toe * half, 18.0), half * 0.2, 7.0));
            }
        }
        Shape::Length => {
            sheet.line(Ink::Line, &[(start, 34.0), (end, 34.0)]);
            for at in [start, end] {
                sheet.line(Ink::Line, &[(at, 24.0), (at, EDGE)]);
            }
        }
        Shape::Dropping => {
            sheet.area(Ink::Body, &[(start, 8.0), (end, 8.0), (end, 48.0), (start, 48.0)]);
        }
    }
}

fn oval(centre: Point, across: f64, down: f64) -> Vec<Point> {
    (0..24)
        .map(|n| {
            let turn = f64::from(n) / 24.0 * core::f64::consts::TAU;
            (centre.0 + across * libm::cos(turn), centre.1 + down * libm::sin(turn))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_measured_is_drawn_to_the_ruler_s_scale() {
        // Twice as far apart on the same ruler: twice as far on the sheet.
        let second = |mm| {
            let svg = svg("upper_canines_mm", Some(mm)).unwrap();
            let circles: Vec<&str> = svg.split("<circle").skip(1).collect();
            let at =
                |text: &str| text.split("cx=\"").nth(1).unwrap().split('"').next().unwrap().parse::<f64>().unwrap();
            at(circles[1]) - at(circles[0])
        };
        assert!((second(60.0) / second(30.0) - 2.0).abs() < 0.01);
        assert!((second(80.0) - (WIDTH - 2.0 * LEFT)).abs() < 0.2, "the ruler's whole length");
    }

    #[test]
    fn nothing_typed_is_a_ruler_alone_and_other_numbers_have_none() {
        assert!(!svg("upper_canines_mm", None).unwrap().contains("<circle"));
        assert!(svg("scat_width_mm", Some(500.0)).is_some());
        assert_eq!(svg("snow_depth_cm", Some(20.0)), None);
    }
}
