//! A small sheet to draw on: shapes go in, the text of one SVG comes out.
//!
//! No shape carries a colour: each has a class that `style/drawings.css` fills for day and for dusk.
//! Hatching and dots are worked out here, line by line, because a `<pattern>` needs an id and a page
//! shows many drawings at once.

use crate::order::Short as _;
use std::fmt::Write;

/// A point on the sheet, in the sheet's own units; y runs down.
pub type Point = (f64, f64);

/// What a shape stands for; one class of `style/drawings.css` each.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ink {
    /// A firm outline without a fill.
    Line,
    /// A thin line: hatching, folds.
    Fine,
    /// A dashed line: what was there before, or lies hidden.
    Hidden,
    /// Enamel: white in a firm outline.
    Enamel,
    /// Dentine: dark.
    Dentine,
    /// Bone.
    Bone,
    /// Gum.
    Gum,
    /// Marrow.
    Marrow,
    /// The surface of snow.
    Snow,
    /// The animal's body.
    Body,
    /// Filled with the colour of the outlines.
    Solid,
    /// Dark at day and at dusk: dots on enamel and marrow.
    Mark,
    /// The same as a thin line.
    MarkLine,
    /// Filled with the ground that the drawing stands on.
    Ground,
    /// Ground without an outline.
    Air,
    /// What the eye is led to.
    Accent,
}

impl Ink {
    const fn class(self) -> &'static str {
        match self {
            Self::Line => "d-line",
            Self::Fine => "d-fine",
            Self::Hidden => "d-hidden",
            Self::Enamel => "d-enamel",
            Self::Dentine => "d-dentine",
            Self::Bone => "d-bone",
            Self::Gum => "d-gum",
            Self::Marrow => "d-marrow",
            Self::Snow => "d-snow",
            Self::Body => "d-body",
            Self::Solid => "d-solid",
            Self::Mark => "d-mark",
            Self::MarkLine => "d-mark-line",
            Self::Ground => "d-ground",
            Self::Air => "d-air",
            Self::Accent => "d-accent",
        }
    }
}

/// A sheet.
#[derive(Clone, Debug)]
pub struct Canvas {
    width: f64,
    height: f64,
    mirrored: bool,
    body: String,
}

impl Canvas {
    /// An empty sheet of this size.
    pub const fn new(width: f64, height: f64) -> Self {
        Self { width, height, mirrored: false, body: String::new() }
    }

    /// Everything drawn from here on is mirrored left to right; words stay readable.
    pub const fn mirror(&mut self, mirrored: bool) {
        self.mirrored = mirrored;
    }

    fn at(&self, (x, y): Point) -> Point {
        if self.mirrored { (self.width - x, y) } else { (x, y) }
    }

    fn points(&self, points: &[Point]) -> String {
        let mut out = String::with_capacity(points.len() * 10);
        for point in points {
            let (x, y) = self.at(*point);
            // Writing to a string cannot fail.
            let _ = write!(out, "{}{} {}", if out.is_empty() { "M" } else { "L" }, short(x), short(y));
        }
        out
    }

    /// A closed shape.
    pub fn area(&mut self, ink: Ink, outline: &[Point]) {
        let d = self.points(outline);
        let _ = write!(self.body, "<path class=\"{}\" d=\"{d}Z\"/>", ink.class());
    }

    /// A closed shape in a colour that is itself what is asked for.
    pub fn tinted(&mut self, class: &str, outline: &[Point]) {
        let d = self.points(outline);
        let _ = write!(self.body, "<path class=\"{class}\" d=\"{d}Z\"/>");
    }

    /// An open line.
    pub fn line(&mut self, ink: Ink, points: &[Point]) {
        let d = self.points(points);
        let _ = write!(self.body, "<path class=\"{} d-open\" d=\"{d}\"/>", ink.class());
    }

    /// A path in the words of the SVG standard, where curves are easier to write than points.
    pub fn curve(&mut self, ink: Ink, d: &str, closed: bool) {
        let open = if closed { "" } else { " d-open" };
        let flip = self.flip();
        let _ = write!(self.body, "<path class=\"{}{open}\" d=\"{d}\"{flip}/>", ink.class());
    }

    fn flip(&self) -> String {
        if self.mirrored { format!(" transform=\"matrix(-1 0 0 1 {} 0)\"", short(self.width)) } else { String::new() }
    }

    /// A limb: an open path as a thick band with an edge.
    pub fn thick(&mut self, d: &str) {
        let flip = self.flip();
        for class in ["d-limb-edge", "d-limb"] {
            let _ = write!(self.body, "<path class=\"{class} d-open\" d=\"{d}\"{flip}/>");
        }
    }

    /// Everything that `draw` draws is turned a quarter: what lay to the right points up, what lay below
    /// lies to the right, or to the left where `mirrored`. It is drawn at `scale`, from `margin` on inwards.
    pub fn turned(&mut self, mirrored: bool, scale: f64, margin: f64, draw: impl FnOnce(&mut Self)) {
        let (sideways, shift) = if mirrored { (-scale, self.width - margin) } else { (scale, margin) };
        let [scale, sideways, shift, up] = [scale, sideways, shift, self.height].map(short);
        let _ = write!(self.body, "<g transform=\"matrix(0 -{scale} {sideways} 0 {shift} {up})\">");
        draw(self);
        self.body.push_str("</g>");
    }

    /// A disc.
    pub fn disc(&mut self, ink: Ink, centre: Point, radius: f64) {
        let (x, y) = self.at(centre);
        let _ = write!(
            self.body,
            "<circle class=\"{}\" cx=\"{}\" cy=\"{}\" r=\"{}\"/>",
            ink.class(),
            short(x),
            short(y),
            short(radius)
        );
    }

    /// Slanting lines inside an outline.
    pub fn hatch(&mut self, ink: Ink, outline: &[Point], spacing: f64) {
        let mut d = String::new();
        for (from, to) in hatch(outline, spacing) {
            let ((x1, y1), (x2, y2)) = (self.at(from), self.at(to));
            let _ = write!(d, "M{} {}L{} {}", short(x1), short(y1), short(x2), short(y2));
        }
        let _ = write!(self.body, "<path class=\"{} d-open\" d=\"{d}\"/>", ink.class());
    }

    /// Dots inside an outline.
    pub fn stipple(&mut self, ink: Ink, outline: &[Point], spacing: f64, radius: f64) {
        for dot in stipple(outline, spacing) {
            self.disc(ink, dot, radius);
        }
    }

    /// A word, centred at a point of its base line.
    pub fn word(&mut self, centre: Point, size: f64, text: &str) {
        let (x, y) = self.at(centre);
        let _ = write!(
            self.body,
            "<text class=\"d-word\" x=\"{}\" y=\"{}\" font-size=\"{}\" text-anchor=\"middle\">",
            short(x),
            short(y),
            short(size)
        );
        for c in text.chars() {
            match c {
                '&' => self.body.push_str("&amp;"),
                '<' => self.body.push_str("&lt;"),
                '>' => self.body.push_str("&gt;"),
                _ => self.body.push(c),
            }
        }
        self.body.push_str("</text>");
    }

    /// The text of the SVG. It is hidden from screen readers: what it shows is said beside it.
    pub fn svg(&self) -> String {
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {} {}\" aria-hidden=\"true\" focusable=\"false\">{}</svg>",
            short(self.width),
            short(self.height),
            self.body
        )
    }
}

/// One decimal, without a trailing `.0`: a tenth of a unit is finer than any screen shows.
fn short(value: f64) -> String {
    let text = format!("{value:.1}");
    text.strip_suffix(".0").map_or(text.clone(), str::to_owned)
}

/// The pieces of lines of slope 1 that lie inside an outline (even-odd rule), `spacing` apart
/// measured along x.
fn hatch(outline: &[Point], spacing: f64) -> Vec<(Point, Point)> {
    let along = |(x, y): Point| x + y;
    let low = outline.iter().copied().map(along).fold(f64::INFINITY, f64::min);
    let high = outline.iter().copied().map(along).fold(f64::NEG_INFINITY, f64::max);
    let mut pieces = Vec::new();
    // Half a step in, so that no line runs through a corner.
    let mut level = low + spacing / 2.0;
    while level < high {
        let mut cuts: Vec<Point> = edges(outline)
            .filter_map(|(a, b)| {
                let (from, to) = (along(a), along(b));
                let crosses = (from < level) != (to < level);
                crosses.then(|| {
                    let share = (level - from) / (to - from);
                    (a.0 + share * (b.0 - a.0), a.1 + share * (b.1 - a.1))
                })
            })
            .collect();
        cuts.order_by(|a, b| a.0.total_cmp(&b.0));
        pieces.extend(cuts.chunks_exact(2).filter_map(|pair| Some((*pair.first()?, *pair.get(1)?))));
        level += spacing;
    }
    pieces
}

/// Points of a staggered grid that lie inside an outline.
fn stipple(outline: &[Point], spacing: f64) -> Vec<Point> {
    let left = outline.iter().map(|p| p.0).fold(f64::INFINITY, f64::min);
    let right = outline.iter().map(|p| p.0).fold(f64::NEG_INFINITY, f64::max);
    let top = outline.iter().map(|p| p.1).fold(f64::INFINITY, f64::min);
    let bottom = outline.iter().map(|p| p.1).fold(f64::NEG_INFINITY, f64::max);
    let mut dots = Vec::new();
    let (mut y, mut shifted) = (top + spacing / 2.0, false);
    while y < bottom {
        let mut x = left + if shifted { spacing } else { spacing / 2.0 };
        while x < right {
            if is_inside(outline, (x, y)) {
                dots.push((x, y));
            }
            x += spacing;
        }
        y += spacing;
        shifted = !shifted;
    }
    dots
}

fn is_inside(outline: &[Point], (x, y): Point) -> bool {
    edges(outline)
        .filter(|(a, b)| (a.1 < y) != (b.1 < y))
        .filter(|(a, b)| x < a.0 + (y - a.1) / (b.1 - a.1) * (b.0 - a.0))
        .count()
        % 2
        == 1
}

fn edges(outline: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    outline.iter().copied().zip(outline.iter().copied().cycle().skip(1))
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: [Point; 4] = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)];

    #[test]
    fn hatching_of_a_square_lies_on_its_edges() {
        // Lines x + y = 2.5, 7.5, 12.5, 17.5 cut the square where school geometry says.
        let expected = [
            ((0.0, 2.5), (2.5, 0.0)),
            ((0.0, 7.5), (7.5, 0.0)),
            ((2.5, 10.0), (10.0, 2.5)),
            ((7.5, 10.0), (10.0, 7.5)),
        ];
        assert_eq!(hatch(&SQUARE, 5.0), expected);
    }

    #[test]
    fn hatching_leaves_a_hollow_empty() {
        let hollow =
            [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (6.0, 10.0), (6.0, 3.0), (4.0, 3.0), (4.0, 10.0), (0.0, 10.0)];
        for (from, to) in hatch(&hollow, 1.0) {
            let middle = (f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1));
            assert!(!(middle.0 > 4.0 && middle.0 < 6.0 && middle.1 > 3.0), "{middle:?} lies in the hollow");
        }
    }

    #[test]
    fn dots_stay_inside() {
        let triangle = [(0.0, 10.0), (5.0, 0.0), (10.0, 10.0)];
        let dots = stipple(&triangle, 1.0);
        assert!(dots.len() > 20);
        assert!(dots.iter().all(|(x, y)| *y >= 10.0 - 2.0 * x.min(10.0 - x)));
    }

    #[test]
    fn mirroring_moves_shapes_and_keeps_words() {
        let mut sheet = Canvas::new(100.0, 10.0);
        sheet.mirror(true);
        sheet.line(Ink::Line, &[(10.0, 0.0), (20.0, 0.0)]);
        sheet.word((10.0, 5.0), 8.0, "a < b");
        let svg = sheet.svg();
        assert!(svg.contains("M90 0L80 0") && svg.contains("x=\"90\"") && svg.contains("a &lt; b"));
    }
}
