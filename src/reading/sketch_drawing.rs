//! The sketch as a drawing to scale: north up, a bar, a symbol and a number for each mark. It says all in its lines'
//! form and in letters, nothing in colour, and takes the colour of the page.

use std::fmt::Write as _;

use crate::science::place::{Spot, bar_m};
use crate::words::{Language, say};

use super::sketch::{Mark, Sketch};

/// Side of the drawing, in its own units.
const SIDE: f64 = 1_000.0;
/// Free at each edge.
const EDGE: f64 = 90.0;
/// Half the length of a deer's trunk on the ground, m: for the drawn body only. The project's own.
const BODY_M: f64 = 0.6;
/// Least half width of the ground shown, m: a lone body is not drawn as large as the page.
const LEAST_M: f64 = 3.0;

/// Ground to drawing.
struct Frame {
    middle: Spot,
    units_a_metre: f64,
}

impl Frame {
    /// Holds the body and every mark.
    fn of(sketches: &[Sketch]) -> Self {
        let mut low = Spot { east_m: -LEAST_M, north_m: -LEAST_M };
        let mut high = Spot { east_m: LEAST_M, north_m: LEAST_M };
        for spot in sketches.iter().flat_map(|s| &s.marks).filter_map(|m| m.ends).map(|(_, spot)| spot) {
            low = Spot { east_m: low.east_m.min(spot.east_m), north_m: low.north_m.min(spot.north_m) };
            high = Spot { east_m: high.east_m.max(spot.east_m), north_m: high.north_m.max(spot.north_m) };
        }
        let middle =
            Spot { east_m: f64::midpoint(low.east_m, high.east_m), north_m: f64::midpoint(low.north_m, high.north_m) };
        let across = (high.east_m - low.east_m).max(high.north_m - low.north_m);
        Self { middle, units_a_metre: (SIDE - 2.0 * EDGE) / across }
    }

    fn at(&self, spot: Spot) -> (f64, f64) {
        (
            SIDE / 2.0 + (spot.east_m - self.middle.east_m) * self.units_a_metre,
            SIDE / 2.0 - (spot.north_m - self.middle.north_m) * self.units_a_metre,
        )
    }
}

/// The drawing as an SVG text. Numbers stand beside the marks; with several people their code stands before it.
pub fn drawing(sketches: &[Sketch], language: Language) -> String {
    let frame = Frame::of(sketches);
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {SIDE} {SIDE}\" role=\"img\" aria-label=\"{}\" \
         fill=\"none\" stroke=\"currentColor\" stroke-width=\"5\" font-family=\"sans-serif\" font-size=\"52\">",
        say(language, "sketch.label", &[])
    );
    let head = sketches.iter().find_map(|s| s.head_deg);
    body(&mut out, &frame, head);
    for sketch in sketches {
        for mark in &sketch.marks {
            let name =
                if sketches.len() > 1 { format!("{}-{}", sketch.by, mark.number) } else { mark.number.to_string() };
            one(&mut out, &frame, mark, &name);
        }
    }
    north_and_bar(&mut out, &frame, language);
    out.push_str("</svg>");
    out
}

fn text(out: &mut String, (x, y): (f64, f64), words: &str) {
    // Writing into a text cannot fail. The ground shows through, so that a number is read on a line.
    let _ = write!(out, "<text x=\"{x:.0}\" y=\"{y:.0}\" fill=\"currentColor\" stroke=\"none\">{words}</text>");
}

fn body(out: &mut String, frame: &Frame, head_deg: Option<u16>) {
    let (x, y) = frame.at(Spot::default());
    let long = (BODY_M * frame.units_a_metre).max(26.0);
    let turn = head_deg.unwrap_or(0);
    let _ = write!(
        out,
        "<g transform=\"translate({x:.0} {y:.0}) rotate({turn})\"><ellipse rx=\"{:.0}\" ry=\"{long:.0}\" \
         fill=\"currentColor\"/>",
        long * 0.45
    );
    if head_deg.is_some() {
        let _ = write!(out, "<circle cy=\"{:.0}\" r=\"{:.0}\"/>", -long * 1.35, long * 0.3);
    }
    out.push_str("</g>");
}

fn one(out: &mut String, frame: &Frame, mark: &Mark, name: &str) {
    let Some((from, to)) = mark.ends else { return };
    let ((x1, y1), (x, y)) = (frame.at(from), frame.at(to));
    // A drag is a broad band, tracks are dots, a trail is dashes; how a point was come to is a hair.
    let line = match mark.what.as_str() {
        "drag" => "stroke-width=\"16\" stroke-linecap=\"round\" opacity=\"0.55\"",
        "tracks" => "stroke-width=\"12\" stroke-dasharray=\"1 22\" stroke-linecap=\"round\"",
        "trail_to_body" => "stroke-width=\"8\" stroke-dasharray=\"28 16\"",
        _ => "stroke-width=\"1.5\"",
    };
    let _ = write!(out, "<path d=\"M{x1:.0} {y1:.0}L{x:.0} {y:.0}\" {line}/>");
    let symbol = match mark.what.as_str() {
        "blood" => "<circle r=\"14\" fill=\"currentColor\"/>",
        "body_part" => "<path d=\"M-15-15h30v30h-30z\" fill=\"currentColor\"/>",
        "hair" => "<path d=\"M-16 14l6-28M-3 16l4-32M11 14l-2-28\"/>",
        "bed" => "<ellipse rx=\"26\" ry=\"16\"/>",
        "scat" => "<path d=\"M0-17l17 30h-34z\"/>",
        "landmark" => "<path d=\"M-16-16l32 32M16-16l-32 32\"/>",
        _ => "<circle r=\"6\" fill=\"currentColor\"/>",
    };
    let _ = write!(out, "<g transform=\"translate({x:.0} {y:.0})\">{symbol}</g>");
    text(out, (x + 20.0, y - 14.0), name);
}

fn north_and_bar(out: &mut String, frame: &Frame, language: Language) {
    let _ = write!(out, "<path d=\"M950 120V24l-16 30m16-30l16 30\"/>");
    text(out, (936.0, 166.0), &say(language, "sketch.north_letter", &[]));
    let metres = bar_m(SIDE * 0.3 / frame.units_a_metre);
    let end = 30.0 + metres * frame.units_a_metre;
    let _ = write!(out, "<path d=\"M30 950v20h{:.1}v-20\"/>", end - 30.0);
    text(out, (end + 12.0, 974.0), &format!("{metres}\u{a0}m"));
}
