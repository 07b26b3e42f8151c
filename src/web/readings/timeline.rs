//! The timeline of a death: the window, storms and visits on one line of days, each numbered and named in
//! the table under it. Filled, outlined and upright marks differ by form, not by colour.

use std::fmt::Write;

use leptos::prelude::*;

use super::scale::Scale;
use crate::guide::answer_words::day_and_month;
use crate::reading::{Timeline, TimelineMark};
use crate::words::{Arg, Language, say};

const WIDTH: f64 = 320.0;
const ROOM: f64 = 26.0;
const DAY_S: f64 = 86_400.0;
/// Height of one row of marks.
const ROW: f64 = 24.0;
/// Nearer marks than this share no row.
const APART: f64 = 24.0;

/// The plot and its table; nothing where there is no timeline.
pub fn timeline_view(language: Language, line: Option<&Timeline>) -> Option<AnyView> {
    let line = line?;
    let words = |id: &str| say(language, id, &[]);
    let rows = (1..)
        .zip(&line.marks)
        .map(|(n, mark)| {
            view! {
                <tr>
                    <td class="number">{number(n)}</td>
                    <th scope="row">{words(mark.kind)}</th>
                    <td>{when(language, line, mark)}</td>
                </tr>
            }
        })
        .collect_view();
    let title = words("reading.death.timeline.title");
    Some(
        view! {
            <section class="reading" data-timeline="">
                <h2>{title.clone()}</h2>
                <div role="img" aria-label=title.clone() inner_html=plot(language, line)></div>
                <table class="figures" aria-label=title>
                    <thead>
                        <tr>
                            <td></td>
                            <th scope="col">{words("reading.death.timeline.what")}</th>
                            <th scope="col">{words("reading.death.timeline.when")}</th>
                        </tr>
                    </thead>
                    <tbody>{rows}</tbody>
                </table>
            </section>
        }
        .into_any(),
    )
}

/// The window is read first and needs no number.
fn number(n: usize) -> String {
    if n == 1 { "\u{25a0}".to_owned() } else { (n - 1).to_string() }
}

fn when(language: Language, line: &Timeline, mark: &TimelineMark) -> String {
    let (from, to) = (line.local(mark.from), line.local(mark.to));
    if mark.open {
        say(language, "reading.death.timeline.until", &[("to", Arg::Text(to))])
    } else if mark.from == mark.to {
        from
    } else {
        say(language, "reading.death.timeline.from_to", &[("from", Arg::Text(from)), ("to", Arg::Text(to))])
    }
}

/// The drawing. Marks that would overlap go to the next row.
fn plot(language: Language, line: &Timeline) -> String {
    let (first, last) = line.span;
    let scale = Scale { low: 0.0, high: days(last - first), width: WIDTH - 2.0 * ROOM };
    let x = |at: i64| ROOM + scale.place(days(at - first));
    let mut ends: Vec<f64> = Vec::new();
    let mut body = String::new();
    for (n, mark) in (1..).zip(&line.marks) {
        let (left, right) = (x(mark.from), x(mark.to).max(x(mark.from) + 1.0));
        let row = if n == 1 {
            ends = vec![f64::INFINITY];
            0
        } else {
            let free = ends.iter().position(|end| left - end >= APART).unwrap_or(ends.len());
            match ends.get_mut(free) {
                Some(end) => *end = right,
                None => ends.push(right),
            }
            free
        };
        draw(&mut body, mark, n, (left, right), row as f64 * ROW);
    }
    let height = ends.len() as f64 * ROW;
    axis(language, &mut body, line, &scale, height);
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"plot\" viewBox=\"0 0 {WIDTH} {:.0}\" aria-hidden=\"true\" focusable=\"false\">{body}</svg>",
        height + 28.0
    )
}

fn draw(body: &mut String, mark: &TimelineMark, n: usize, (left, right): (f64, f64), top: f64) {
    let (y, width) = (top + 4.0, right - left);
    if n == 1 {
        let _ = write!(body, "<rect class=\"p-bar\" x=\"{left:.1}\" y=\"{y}\" width=\"{width:.1}\" height=\"14\"/>");
        if mark.open {
            // An arrow: the start lies further back.
            let _ = write!(
                body,
                "<path class=\"p-axis\" d=\"M{:.1} {}L{:.1} {}L{:.1} {}\"/>",
                left + 5.0,
                y - 3.0,
                left - 6.0,
                y + 7.0,
                left + 5.0,
                y + 17.0
            );
        }
        return;
    }
    if mark.from == mark.to {
        let _ = write!(body, "<path class=\"p-best\" d=\"M{left:.1} {y}V{}\"/>", y + 16.0);
    } else {
        let _ = write!(
            body,
            "<rect class=\"p-bar p-open\" x=\"{left:.1}\" y=\"{}\" width=\"{:.1}\" height=\"10\"/>",
            y + 4.0,
            width.max(3.0)
        );
    }
    let _ = write!(body, "<text class=\"p-number\" x=\"{:.1}\" y=\"{}\">{}</text>", right + 9.0, y + 15.0, n - 1);
}

/// Days under the line: the day and month at each tick.
fn axis(language: Language, body: &mut String, line: &Timeline, scale: &Scale, top: f64) {
    let _ = write!(body, "<path class=\"p-axis\" d=\"M{ROOM} {top}H{:.1}\"/>", WIDTH - ROOM);
    for tick in scale.ticks(4) {
        let at = ROOM + scale.place(tick);
        #[allow(clippy::cast_possible_truncation)] // days of one winter
        let day = line.local(line.span.0 + (tick * DAY_S) as i64);
        let label = day_and_month(language, &day);
        let _ = write!(body, "<path class=\"p-axis\" d=\"M{at:.1} {top}V{}\"/>", top + 5.0);
        let _ = write!(body, "<text class=\"p-number\" x=\"{at:.1}\" y=\"{}\">{label}</text>", top + 22.0);
    }
}

fn days(seconds: i64) -> f64 {
    seconds as f64 / DAY_S
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Row 23 of the check values: a fall under it, a fall over it, found on the 12th.
    #[test]
    fn marks_stand_in_the_order_of_time_and_do_not_overlap() {
        let day = |n: i64| 1_801_803_600 + n * 86_400;
        let mark = |kind, from, to| TimelineMark { kind, from, to, open: false };
        let line = Timeline {
            offset_minutes: -300,
            span: (day(-1), day(10)),
            marks: vec![
                mark("w", day(0), day(6)),
                mark("s", day(0), day(1)),
                mark("s", day(5), day(6)),
                mark("v", day(8), day(8)),
            ],
        };
        let svg = plot(Language::English, &line);
        let lefts: Vec<f64> = svg
            .split("<rect class=\"p-bar p-open\" x=\"")
            .skip(1)
            .map(|s| s.split('"').next().unwrap().parse().unwrap())
            .collect();
        assert!(lefts[0] < lefts[1], "{lefts:?}");
        let window: f64 = svg.split(" x=\"").nth(1).unwrap().split('"').next().unwrap().parse().unwrap();
        assert!((window - lefts[0]).abs() < 0.11, "both begin on the same day");
        assert_eq!(svg.matches("p-best").count(), 1, "one moment");
        assert!(svg.contains(">1</text>") && svg.contains(">3</text>"));
    }
}
