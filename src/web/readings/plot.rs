//! Two small plots as SVG: a bar beside a number, and a range on a scale.

use std::fmt::Write;

use super::scale::{Scale, one_decimal};
use crate::words::Language;

const WIDTH: f64 = 200.0;

/// A bar for a probability from 0 to 1. Inside the likely set it is filled, outside it is only outlined;
/// a mark in the table says the same.
pub fn bar(probability: f64, filled: bool) -> String {
    let scale = Scale { low: 0.0, high: 1.0, width: WIDTH - 2.0 };
    let class = if filled { "p-bar" } else { "p-bar p-open" };
    let length = scale.place(probability).max(1.0);
    svg(
        20.0,
        &format!(
            "<path class=\"p-axis\" d=\"M1 0V20\"/><rect class=\"{class}\" x=\"1\" y=\"3\" width=\"{length:.1}\" height=\"14\"/>"
        ),
    )
}

/// A range on a scale with its ticks: a bar from `low` to `high`, and an upright line at `best`.
pub fn range(language: Language, from: f64, to: f64, low: Option<f64>, high: Option<f64>, best: Option<f64>) -> String {
    // Room at both ends, so that the outer numbers are not cut off.
    const ROOM: f64 = 14.0;
    let scale = Scale { low: from, high: to, width: WIDTH - 2.0 * ROOM };
    let x = |value: f64| ROOM + scale.place(value);
    let mut body = String::new();
    let _ = write!(body, "<path class=\"p-axis\" d=\"M{ROOM} 30H{:.1}\"/>", WIDTH - ROOM);
    for tick in scale.ticks(6) {
        let at = x(tick);
        let _ = write!(body, "<path class=\"p-axis\" d=\"M{at:.1} 30V35\"/>");
        let _ = write!(
            body,
            "<text class=\"p-number\" x=\"{at:.1}\" y=\"49\">{}</text>",
            language.number(one_decimal(tick))
        );
    }
    if let (Some(low), Some(high)) = (low, high) {
        let (left, width) = (x(low), (x(high) - x(low)).max(2.0));
        let _ = write!(body, "<rect class=\"p-bar\" x=\"{left:.1}\" y=\"12\" width=\"{width:.1}\" height=\"12\"/>");
    }
    if let Some(best) = best {
        let at = x(best);
        let _ = write!(
            body,
            "<path class=\"p-best-edge\" d=\"M{at:.1} 5V31\"/><path class=\"p-best\" d=\"M{at:.1} 5V31\"/>"
        );
    }
    svg(54.0, &body)
}

fn svg(height: f64, body: &str) -> String {
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"plot\" viewBox=\"0 0 {WIDTH} {height}\" aria-hidden=\"true\" focusable=\"false\">{body}</svg>"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn number(svg: &str, before: &str) -> f64 {
        svg.split(before).nth(1).unwrap().split('"').next().unwrap().parse().unwrap()
    }

    #[test]
    fn a_bar_is_as_long_as_its_probability() {
        let half = number(&bar(0.5, true), "y=\"3\" width=\"");
        let whole = number(&bar(1.0, true), "y=\"3\" width=\"");
        assert!((whole / half - 2.0).abs() < 0.01);
        assert!(number(&bar(0.0, false), "y=\"3\" width=\"") > 0.0, "even nothing is to be seen");
    }

    #[test]
    fn a_range_stands_between_its_ends() {
        // The widest look of marrow: 15 to 85 % (Sinclair, Fryxell and Caughley 2006, chapter 4, on Cheatum 1949).
        let svg = range(Language::English, 0.0, 100.0, Some(15.0), Some(85.0), None);
        let left = number(&svg, "<rect class=\"p-bar\" x=\"");
        let width = number(&svg, "y=\"12\" width=\"");
        assert!((left - (14.0 + 0.15 * 172.0)).abs() < 0.1 && (width - 0.7 * 172.0).abs() < 0.1);
        assert!(!svg.contains("p-best"));
    }
}
