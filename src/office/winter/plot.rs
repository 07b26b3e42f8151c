//! The winter against the deaths, as one SVG that prints in grey: depth of snow, new snow, snowfalls,
//! lowest temperature, and the days on which each deer can have died.

use std::fmt::Write as _;

use time::{Date, Duration};

use crate::office::season::svg::escaped;
use crate::science::winter::log::{DayLog, Log, days_of};
use crate::science::winter::measure::{Depth, Temperature};
use crate::science::winter::snowfall::{Basis, snowfalls};
use crate::words::{Arg, Language, say_office};

/// The days on which one deer can have died.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Death {
    /// What the carcass is called.
    pub code: String,
    /// First day.
    pub from: Date,
    /// Last day.
    pub to: Date,
    /// Nothing bounds the first day; it is assumed.
    pub first_is_assumed: bool,
}

/// How the plot is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Style {
    /// Degrees Fahrenheit and inches on the axes.
    pub us_units: bool,
    /// The language of its words.
    pub language: Language,
}

const WIDTH: f64 = 960.0;
const LEFT: f64 = 72.0;
const RIGHT: f64 = 940.0;
/// Top and bottom of the three panels.
const SNOW: (f64, f64) = (64.0, 264.0);
const AIR: (f64, f64) = (300.0, 420.0);
const DEATHS: f64 = 456.0;
/// Lines told apart by their dashes, not by colour.
const DASHES: [&str; 4] = ["", "7 3", "2 3", "10 3 2 3"];

/// Time along the page, and numbers up it.
struct Frame {
    from: Date,
    days: f64,
}

impl Frame {
    /// The left edge of a day; half a day further is its middle.
    fn x(&self, date: Date, part: f64) -> f64 {
        let day = (date - self.from).whole_days() as f64 + part;
        LEFT + (RIGHT - LEFT) * (day / self.days).clamp(0.0, 1.0)
    }
}

fn y(value: f64, (low, high): (f64, f64), (top, bottom): (f64, f64)) -> f64 {
    bottom - (bottom - top) * ((value - low) / (high - low)).clamp(0.0, 1.0)
}

/// Draw a winter from one day to another. `None` where there is neither a log nor a death in that time.
pub fn plot(logs: &[Log], deaths: &[Death], from: Date, to: Date, style: Style) -> Option<String> {
    let in_time = |d: &&Death| d.from <= to && d.to >= from;
    let deaths: Vec<&Death> = deaths.iter().filter(in_time).collect();
    let logs: Vec<&Log> = logs.iter().filter(|log| log.days.range(from..=to).next().is_some()).collect();
    if from > to || (logs.is_empty() && deaths.is_empty()) {
        return None;
    }
    let frame = Frame { from, days: (to - from).whole_days() as f64 + 1.0 };
    let row = (360.0 / deaths.len().max(1) as f64).clamp(3.0, 18.0);
    let bottom = DEATHS + 8.0 + row * deaths.len().max(1) as f64;
    let height = bottom + 40.0;
    let tell = |id: &str| escaped(&say_office(style.language, id, &[]));
    let mut svg = String::new();
    // Writing into a text cannot fail.
    let _ = write!(
        svg,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {height:.0}\" width=\"{WIDTH}\" \
         height=\"{height:.0}\" role=\"img\" font-family=\"sans-serif\" font-size=\"13\" fill=\"#000\"><title>{}</title>\
         <rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>",
        escaped(&say_office(
            style.language,
            "winter.plot.title",
            &[("from", Arg::Text(from.to_string())), ("to", Arg::Text(to.to_string()))]
        ))
    );
    months(&mut svg, &frame, to, bottom);
    snow(&mut svg, &frame, &logs, to, style, &tell);
    air(&mut svg, &frame, &logs, to, style, &tell);
    windows(&mut svg, &frame, &deaths, row, &tell);
    legend(&mut svg, &logs);
    svg.push_str("</svg>\n");
    Some(svg)
}

/// A line at each month's first day, with its name in figures.
fn months(svg: &mut String, frame: &Frame, to: Date, bottom: f64) {
    for date in days_of(frame.from, to).filter(|date| date.day() == 1 || *date == frame.from) {
        let x = frame.x(date, 0.0);
        let _ = write!(
            svg,
            "<path d=\"M{x:.1} {} V{bottom:.1}\" stroke=\"#bbb\" fill=\"none\"/><text x=\"{:.1}\" y=\"{:.1}\">{}</text>",
            SNOW.0,
            x + 3.0,
            bottom + 18.0,
            if date.day() == 1 { format!("{}-{:02}", date.year(), u8::from(date.month())) } else { date.to_string() }
        );
    }
}

/// A panel's name and its marks.
fn axis(svg: &mut String, name: &str, marks: &[f64], range: (f64, f64), panel: (f64, f64)) {
    let _ = write!(svg, "<text x=\"{LEFT}\" y=\"{:.1}\" font-weight=\"bold\">{name}</text>", panel.0 - 10.0);
    for mark in marks {
        let at = y(*mark, range, panel);
        let _ = write!(
            svg,
            "<path d=\"M{LEFT} {at:.1} H{RIGHT}\" stroke=\"#ddd\" fill=\"none\"/>\
             <text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"end\">{mark:.0}</text>",
            LEFT - 6.0,
            at + 4.0
        );
    }
}

/// Marks at a step that gives about five of them, from below `low` to above `high`.
fn marks(low: f64, high: f64) -> Vec<f64> {
    let step = [5.0, 10.0, 20.0, 50.0, 100.0, 200.0].into_iter().find(|s| (high - low) / s <= 6.0).unwrap_or(500.0);
    let (first, last) = ((low / step).floor(), (high / step).ceil());
    let mut out = Vec::new();
    let mut n = first;
    while n <= last {
        out.push(n * step);
        n += 1.0;
    }
    if out.len() < 2 {
        out.push((first + 1.0) * step);
    }
    out
}

/// The runs of days that follow each other on which something was read: a gap breaks the line. A log kept
/// day by day is broken by one missing day, one kept week by week by a missing week.
fn runs(log: &Log, from: Date, to: Date, of: impl Fn(&DayLog) -> Option<f64>) -> Vec<Vec<(Date, f64)>> {
    let mut out: Vec<Vec<(Date, f64)>> = Vec::new();
    let dates: Vec<Date> = log.days.range(from..=to).filter(|(_, day)| of(day).is_some()).map(|(d, _)| *d).collect();
    let daily = dates.windows(2).filter(|pair| matches!(pair, [a, b] if a.next_day() == Some(*b))).count();
    let joined = Duration::days(if daily * 2 >= dates.len().saturating_sub(1) { 1 } else { 7 });
    for (date, day) in log.days.range(from..=to) {
        let Some(value) = of(day) else { continue };
        match out.last_mut() {
            Some(run) if run.last().is_some_and(|(last, _)| *date - *last <= joined) => {
                run.push((*date, value));
            }
            _ => out.push(vec![(*date, value)]),
        }
    }
    out
}

fn line(svg: &mut String, frame: &Frame, runs: &[Vec<(Date, f64)>], range: (f64, f64), panel: (f64, f64), dash: &str) {
    for run in runs {
        let mut path = String::new();
        for (n, (date, value)) in run.iter().enumerate() {
            let mark = if n == 0 { 'M' } else { 'L' };
            let _ = write!(path, "{mark}{:.1} {:.1}", frame.x(*date, 0.5), y(*value, range, panel));
        }
        if run.len() == 1 {
            path.push_str("h0.1");
        }
        let _ = write!(
            svg,
            "<path d=\"{path}\" fill=\"none\" stroke=\"#000\" stroke-width=\"1.8\" stroke-linecap=\"round\" \
             stroke-dasharray=\"{dash}\"/>"
        );
    }
}

fn snow(svg: &mut String, frame: &Frame, logs: &[&Log], to: Date, style: Style, tell: &impl Fn(&str) -> String) {
    let unit = |d: Depth| if style.us_units { d.inches() } else { d.cm() };
    let most = logs
        .iter()
        .flat_map(|log| log.days.range(frame.from..=to))
        .flat_map(|(_, day)| [day.depth, day.new_snow])
        .flatten()
        .map(|d| unit(d.high))
        .fold(if style.us_units { 20.0 } else { 50.0 }, f64::max);
    let marks = marks(0.0, most);
    let range = (0.0, marks.last().copied().unwrap_or(most));
    // Snowfalls lie behind everything, through both upper panels.
    for fall in logs.first().map(|log| snowfalls(log)).unwrap_or_default() {
        if fall.last < frame.from || fall.first > to {
            continue;
        }
        let (left, right) = (frame.x(fall.first, 0.0), frame.x(fall.last, 1.0));
        let shade = if fall.basis == Basis::Measured { "#d4d4d4" } else { "#ececec" };
        let _ = write!(
            svg,
            "<rect x=\"{left:.1}\" y=\"{}\" width=\"{:.1}\" height=\"{}\" fill=\"{shade}\"/>",
            SNOW.0,
            right - left,
            AIR.1 - SNOW.0
        );
    }
    axis(svg, &tell(if style.us_units { "winter.plot.snow_in" } else { "winter.plot.snow_cm" }), &marks, range, SNOW);
    limit(svg, unit(Depth::from_hundredths_in(1_800)), range, SNOW, &tell("winter.plot.18_in"));
    for (log, dash) in logs.iter().zip(DASHES.iter().cycle()) {
        let runs = runs(log, frame.from, to, |day| day.depth.map(|d| f64::midpoint(unit(d.low), unit(d.high))));
        line(svg, frame, &runs, range, SNOW, dash);
    }
    // New snow of the first place, as bars from the foot.
    for (date, day) in logs.first().iter().flat_map(|log| log.days.range(frame.from..=to)) {
        let Some(new) = day.new_snow.filter(|new| new.high > Depth::default()) else { continue };
        let top = y(f64::midpoint(unit(new.low), unit(new.high)), range, SNOW);
        let left = frame.x(*date, 0.2);
        let _ = write!(
            svg,
            "<rect x=\"{left:.1}\" y=\"{top:.1}\" width=\"{:.1}\" height=\"{:.1}\" fill=\"#666\"/>",
            frame.x(*date, 0.8) - left,
            SNOW.1 - top
        );
    }
}

fn air(svg: &mut String, frame: &Frame, logs: &[&Log], to: Date, style: Style, tell: &impl Fn(&str) -> String) {
    let unit = |t: Temperature| if style.us_units { t.fahrenheit() } else { t.celsius() };
    let read = |day: &DayLog| day.minimum.map(|t| f64::midpoint(unit(t.low), unit(t.high)));
    let all: Vec<f64> =
        logs.iter().flat_map(|log| log.days.range(frame.from..=to)).filter_map(|(_, day)| read(day)).collect();
    let (zero_f, zero_c) = (unit(Temperature::ZERO_F), unit(Temperature::ZERO_C));
    let marks = marks(all.iter().copied().fold(zero_f, f64::min), all.iter().copied().fold(zero_c, f64::max));
    let range = (marks.first().copied().unwrap_or(zero_f), marks.last().copied().unwrap_or(zero_c));
    axis(svg, &tell(if style.us_units { "winter.plot.air_f" } else { "winter.plot.air_c" }), &marks, range, AIR);
    limit(svg, zero_f, range, AIR, &tell("winter.plot.0_f"));
    for (log, dash) in logs.iter().zip(DASHES.iter().cycle()) {
        line(svg, frame, &runs(log, frame.from, to, read), range, AIR, dash);
    }
}

/// A line that indices count at.
fn limit(svg: &mut String, value: f64, range: (f64, f64), panel: (f64, f64), name: &str) {
    let at = y(value, range, panel);
    let _ = write!(
        svg,
        "<path d=\"M{LEFT} {at:.1} H{RIGHT}\" stroke=\"#000\" stroke-width=\"0.8\" stroke-dasharray=\"1 3\" fill=\"none\"/>\
         <text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"end\" font-size=\"11\">{name}</text>",
        RIGHT - 2.0,
        at - 3.0
    );
}

/// Each deer's days as a bar, hollow where its first day is assumed; a single day as a square.
fn windows(svg: &mut String, frame: &Frame, deaths: &[&Death], row: f64, tell: &impl Fn(&str) -> String) {
    let _ = write!(
        svg,
        "<text x=\"{LEFT}\" y=\"{:.1}\" font-weight=\"bold\">{}</text>",
        DEATHS - 10.0,
        tell(if deaths.is_empty() { "winter.plot.no_deaths" } else { "winter.plot.deaths" })
    );
    for (n, death) in deaths.iter().enumerate() {
        let middle = DEATHS + 4.0 + row * (n as f64 + 0.5);
        let (left, right) = (frame.x(death.from, 0.0), frame.x(death.to, 1.0));
        let thick = (row * 0.5).min(8.0);
        let look = if death.first_is_assumed {
            "fill=\"#fff\" stroke=\"#333\" stroke-width=\"1.2\" stroke-dasharray=\"4 2\""
        } else {
            "fill=\"#333\""
        };
        let _ = write!(
            svg,
            "<rect x=\"{left:.1}\" y=\"{:.1}\" width=\"{:.1}\" height=\"{thick:.1}\" {look}><title>{}: {} {}</title></rect>",
            middle - thick / 2.0,
            (right - left).max(2.0),
            escaped(&death.code),
            death.from,
            death.to
        );
        if row >= 12.0 {
            let _ = write!(
                svg,
                "<text x=\"{:.1}\" y=\"{:.1}\" text-anchor=\"end\" font-size=\"11\">{}</text>",
                LEFT - 4.0,
                middle + 4.0,
                escaped(&death.code)
            );
        }
    }
}

/// Which line is which place.
fn legend(svg: &mut String, logs: &[&Log]) {
    let mut x = LEFT;
    for (log, dash) in logs.iter().zip(DASHES) {
        let name = escaped(&log.place);
        let _ = write!(
            svg,
            "<path d=\"M{x:.1} 22 h34\" stroke=\"#000\" stroke-width=\"1.8\" stroke-dasharray=\"{dash}\" fill=\"none\"/>\
             <text x=\"{:.1}\" y=\"26\">{name}</text>",
            x + 40.0
        );
        x += 60.0 + 7.5 * log.place.chars().count() as f64;
    }
}
