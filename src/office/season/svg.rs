//! A few lines of SVG for plots that print in grey.

use std::fmt::Write as _;

use crate::office::plain::on_paper;

/// Width of every plot.
pub const WIDTH: f64 = 960.0;

/// Text as HTML and SVG show it, and never as markup. Orders, which XML does not let stand either, become blanks.
pub fn escaped(text: &str) -> String {
    let text = on_paper(text).replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;");
    text.replace('"', "&quot;").replace('\'', "&#39;")
}

/// A plot in the making.
#[derive(Debug, Default)]
pub struct Svg {
    body: String,
}

/// Where a text is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// At its first letter.
    Start,
    /// At its middle.
    Middle,
    /// At its last letter.
    End,
}

impl Svg {
    /// A rectangle; `look` is fill and stroke.
    pub fn rect(&mut self, (x, y): (f64, f64), (width, height): (f64, f64), look: &str) {
        // Writing into a text cannot fail.
        let _ = write!(
            self.body,
            "<rect x=\"{x:.1}\" y=\"{y:.1}\" width=\"{:.1}\" height=\"{:.1}\" {look}/>",
            width.max(0.0),
            height.max(0.0)
        );
    }

    /// A line.
    pub fn line(&mut self, from: (f64, f64), to: (f64, f64), look: &str) {
        let _ = write!(
            self.body,
            "<path d=\"M{:.1} {:.1} L{:.1} {:.1}\" fill=\"none\" {look}/>",
            from.0, from.1, to.0, to.1
        );
    }

    /// A line through points, broken where one is missing.
    pub fn path(&mut self, points: &[Option<(f64, f64)>], look: &str) {
        let mut path = String::new();
        let mut drawn = false;
        for point in points {
            if let Some((x, y)) = point {
                let _ = write!(path, "{}{x:.1} {y:.1}", if drawn { 'L' } else { 'M' });
                if !drawn {
                    // A point alone shows as a dot.
                    path.push_str("h0.1");
                }
            }
            drawn = point.is_some();
        }
        if !path.is_empty() {
            let _ = write!(self.body, "<path d=\"{path}\" fill=\"none\" stroke-linecap=\"round\" {look}/>");
        }
    }

    /// A text.
    pub fn text(&mut self, (x, y): (f64, f64), anchor: Anchor, size: u32, text: &str) {
        let anchor = match anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let _ = write!(
            self.body,
            "<text x=\"{x:.1}\" y=\"{y:.1}\" text-anchor=\"{anchor}\" font-size=\"{size}\">{}</text>",
            escaped(text)
        );
    }

    /// A heading.
    pub fn head(&mut self, at: (f64, f64), text: &str) {
        let _ = write!(
            self.body,
            "<text x=\"{:.1}\" y=\"{:.1}\" font-size=\"18\" font-weight=\"bold\">{}</text>",
            at.0,
            at.1,
            escaped(text)
        );
    }

    /// The whole file.
    pub fn done(self, title: &str, height: f64) -> String {
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {height:.0}\" width=\"{WIDTH}\" \
             height=\"{height:.0}\" role=\"img\" font-family=\"sans-serif\" font-size=\"13\" fill=\"#000\"><title>{}</title>\
             <rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>{}</svg>\n",
            escaped(title),
            self.body
        )
    }
}

/// Marks from 0 to at least `most`, about five.
pub fn marks(most: f64) -> Vec<f64> {
    let steps = [0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 25.0, 50.0, 100.0, 200.0, 500.0, 1000.0];
    let step = steps.into_iter().find(|step| most / step <= 6.0).unwrap_or(most / 5.0);
    let mut out = vec![0.0];
    while out.last().is_some_and(|last| *last < most) {
        out.push(out.len() as f64 * step);
    }
    if out.len() < 2 {
        out.push(step);
    }
    out
}
