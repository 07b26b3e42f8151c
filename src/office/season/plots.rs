//! The season's plots. Each shows a table of the same name and reads in grey: nothing is told by colour.

use super::causes::PREDATORS;
use super::svg::{Anchor, Svg, WIDTH, marks};
use super::table::{Season, ShareLine};
use super::{count, tell};
use crate::words::Arg;

const LEFT: f64 = 84.0;
const RIGHT: f64 = 936.0;
const THIN: &str = "stroke=\"#ccc\"";
const MARK: &str = "fill=\"#222\"";
const DARK: &str = "fill=\"#888\" stroke=\"#222\"";
const LIGHT: &str = "fill=\"#e4e4e4\" stroke=\"#222\"";
const HOLLOW: &str = "fill=\"#fff\" stroke=\"#222\"";
const INK: &str = "stroke=\"#000\" stroke-width=\"1.4\"";
/// Lines of logs are told apart by their dashes.
const DASHES: [&str; 4] = ["", "7 3", "2 3", "10 3 2 3"];

/// All plots: file name and text.
pub fn all(season: &Season) -> Vec<(&'static str, String)> {
    vec![
        ("ages.svg", ages(season)),
        ("causes.svg", causes(season)),
        ("map.svg", map(season)),
        ("weeks.svg", weeks(season)),
    ]
}

fn n(n: usize) -> Arg {
    count(n)
}

/// Title, and two lines below it.
fn head(svg: &mut Svg, title: &str, lines: [&str; 2]) {
    svg.head((LEFT, 26.0), title);
    for (line, y) in lines.iter().zip([46.0, 63.0]) {
        svg.text((LEFT, y), Anchor::Start, 13, line);
    }
}

fn titled(id: &str, season: &Season) -> String {
    tell(id, &[("winter", season.winter.as_str().into())])
}

/// Marks up the left side and across.
fn axis(svg: &mut Svg, marks: &[f64], (top, bottom): (f64, f64)) -> impl Fn(f64) -> f64 + use<> {
    let most = marks.last().copied().unwrap_or(1.0);
    let y = move |value: f64| bottom - (bottom - top) * (value / most).clamp(0.0, 1.0);
    for mark in marks {
        svg.line((LEFT, y(*mark)), (RIGHT, y(*mark)), THIN);
        svg.text((LEFT - 8.0, y(*mark) + 4.0), Anchor::End, 12, &mark.to_string());
    }
    y
}

fn weeks(season: &Season) -> String {
    let table = &season.weeks;
    let mut svg = Svg::default();
    let title = titled("season.plot.weeks", season);
    let apart = tell("season.plot.weeks.apart", &[("apart", n(table.apart as usize)), ("none", n(table.no_window))]);
    head(&mut svg, &title, [&tell("season.plot.weeks.deaths", &[]), &apart]);
    let most = table.weeks.iter().map(|week| f64::from(week.at_most)).fold(1.0, f64::max);
    let y = axis(&mut svg, &marks(most), (80.0, 300.0));
    let step = (RIGHT - LEFT) / table.weeks.len().max(1) as f64;
    let middle = |at: usize| LEFT + (at as f64 + 0.5) * step;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // a few
    let every = (38.0 / step).ceil().max(1.0) as usize;
    for (at, week) in table.weeks.iter().enumerate() {
        let (x, wide) = (middle(at), (step * 0.6).min(34.0));
        svg.rect((x - wide / 2.0, y(week.deaths)), (wide, 300.0 - y(week.deaths)), "fill=\"#888\"");
        svg.line((x, y(f64::from(week.at_least))), (x, y(f64::from(week.at_most))), INK);
        // Mondays are named as far as there is room.
        if at % every == 0 {
            let day = week.monday.get(5..).unwrap_or_default();
            svg.text((x, 318.0), Anchor::Middle, 12, day);
        }
    }
    svg.text((LEFT, 352.0), Anchor::Start, 13, &tell("season.plot.weeks.snow", &[]));
    let depths = table.weeks.iter().flat_map(|week| &week.snow).filter_map(|snow| snow.depth_cm);
    let deepest = depths.fold(10.0, f64::max);
    let y = axis(&mut svg, &marks(deepest), (366.0, 486.0));
    for ((at, log), dash) in table.logs.iter().enumerate().zip(DASHES.iter().cycle()) {
        let points: Vec<Option<(f64, f64)>> = table
            .weeks
            .iter()
            .enumerate()
            .map(|(week_at, week)| Some((middle(week_at), y(week.snow.get(at)?.depth_cm?))))
            .collect();
        svg.path(&points, &format!("stroke=\"#000\" stroke-width=\"1.8\" stroke-dasharray=\"{dash}\""));
        let x = LEFT + 200.0 * at as f64;
        svg.line((x, 508.0), (x + 34.0, 508.0), &format!("{INK} stroke-dasharray=\"{dash}\""));
        svg.text((x + 40.0, 512.0), Anchor::Start, 12, log);
    }
    if table.weeks.is_empty() {
        svg.text((f64::midpoint(LEFT, RIGHT), 190.0), Anchor::Middle, 14, &tell("season.plot.empty", &[]));
    }
    svg.done(&title, 526.0)
}

/// Shares in 100 from left to right.
fn across(svg: &mut Svg, left: f64, most: f64, (top, bottom): (f64, f64)) -> impl Fn(f64) -> f64 + use<> {
    let marks = marks(100.0 * most);
    let last = marks.last().copied().unwrap_or(100.0);
    let x = move |share: f64| left + (RIGHT - left) * (100.0 * share / last).clamp(0.0, 1.0);
    for mark in &marks {
        svg.line((x(mark / 100.0), top), (x(mark / 100.0), bottom), THIN);
        svg.text((x(mark / 100.0), bottom + 16.0), Anchor::Middle, 12, &mark.to_string());
    }
    x
}

fn whiskers(svg: &mut Svg, x: &impl Fn(f64) -> f64, y: f64, low: f64, high: f64) {
    svg.line((x(low), y), (x(high), y), INK);
    for end in [low, high] {
        svg.line((x(end), y - 4.0), (x(end), y + 4.0), INK);
    }
}

fn in_100(line: &ShareLine) -> String {
    format!("{:.0} ({:.0}-{:.0})", 100.0 * line.share, 100.0 * line.low, 100.0 * line.high)
}

fn ages(season: &Season) -> String {
    let table = &season.ages;
    let mut svg = Svg::default();
    let title = titled("season.plot.ages", season);
    let counts = [
        ("aged", n(table.aged)),
        ("not_aged", n(table.not_aged)),
        ("sexed", n(table.sexed)),
        ("not_sexed", n(table.not_sexed)),
    ];
    head(&mut svg, &title, [&tell("season.plot.ages.how", &[]), &tell("season.plot.ages.not", &counts)]);
    // Classes in turn, of each the doe then the buck.
    let half = table.by_sex.len() / 2;
    let lines: Vec<(&ShareLine, &str)> = (0..half)
        .flat_map(|at| [(table.by_sex.get(at), DARK), (table.by_sex.get(half + at), LIGHT)])
        .filter_map(|(line, look)| Some((line?, look)))
        .collect();
    let bottom = 80.0 + 24.0 * lines.len().max(1) as f64 + 12.0 * half as f64;
    let left = 220.0;
    // With room for the figures after the longest range.
    let most = 1.12 * lines.iter().map(|(line, _)| line.high).fold(0.1, f64::max);
    let x = across(&mut svg, left, most, (76.0, bottom));
    for (at, (line, look)) in lines.iter().enumerate() {
        let y = 92.0 + 24.0 * at as f64 + 12.0 * (at / 2) as f64;
        svg.rect((left, y - 8.0), (x(line.share) - left, 16.0), look);
        whiskers(&mut svg, &x, y, line.low, line.high);
        svg.text((left - 10.0, y + 4.0), Anchor::End, 13, &line.name);
        svg.text((left + 6.0 + x(line.high) - left, y + 4.0), Anchor::Start, 11, &in_100(line));
    }
    if lines.is_empty() {
        svg.text((f64::midpoint(LEFT, RIGHT), 110.0), Anchor::Middle, 14, &tell("season.plot.empty", &[]));
    }
    svg.done(&title, bottom + 36.0)
}

fn causes(season: &Season) -> String {
    let table = &season.causes;
    let mut svg = Svg::default();
    let title = titled("season.plot.causes", season);
    let counts = [("seen", n(table.seen)), ("nothing", n(table.nothing_seen)), ("poor", n(table.poor_fit))];
    head(&mut svg, &title, [&tell("season.plot.causes.how", &[]), &tell("season.plot.causes.not", &counts)]);
    let bottom = 80.0 + 34.0 * table.shares.len().max(1) as f64;
    let left = 290.0;
    let x = across(&mut svg, left, 1.0, (76.0, bottom));
    for (at, line) in table.shares.iter().enumerate() {
        let y = 94.0 + 34.0 * at as f64;
        if line.what == PREDATORS {
            // A sum of others above it, not one more of them.
            svg.line((LEFT, y - 19.0), (RIGHT, y - 19.0), "stroke=\"#777\"");
        }
        svg.text((left - 10.0, y + 4.0), Anchor::End, 13, &line.name);
        // Before anything was seen, below the figure.
        svg.line(
            (x(line.prior_low), y + 10.0),
            (x(line.prior_high), y + 10.0),
            "stroke=\"#777\" stroke-dasharray=\"2 2\"",
        );
        svg.rect((x(line.prior) - 4.0, y + 6.0), (8.0, 8.0), HOLLOW);
        whiskers(&mut svg, &x, y - 2.0, line.low, line.high);
        svg.rect((x(line.share) - 5.0, y - 7.0), (10.0, 10.0), MARK);
        let (at_x, anchor) =
            if line.high < 0.8 { (x(line.high) + 8.0, Anchor::Start) } else { (x(line.low) - 8.0, Anchor::End) };
        svg.text((at_x, y + 2.0), anchor, 11, &in_100(line));
    }
    if table.shares.is_empty() {
        svg.text((f64::midpoint(LEFT, RIGHT), 100.0), Anchor::Middle, 14, &tell("season.plot.empty", &[]));
    }
    svg.done(&title, bottom + 36.0)
}

/// Each square with its count; more is darker, and the count stands in it.
fn map(season: &Season) -> String {
    let table = &season.places;
    let mut svg = Svg::default();
    let title = titled("season.plot.map", season);
    let how = tell("season.plot.map.how", &[("m", n(table.cell_m as usize))]);
    head(&mut svg, &title, [&how, &tell("season.plot.map.not", &[("n", n(table.no_place))])]);
    let rows = || table.cells.iter().map(|cell| cell.row);
    // Columns of rows do not line up quite: each square is drawn at the middle that the table gives, so many squares east
    // of the map's own meridian. From a far one each row would be pushed aside: its degrees are shorter than those below it.
    let longitudes = || table.cells.iter().map(|cell| cell.longitude);
    let meridian =
        f64::midpoint(longitudes().fold(f64::INFINITY, f64::min), longitudes().fold(f64::NEG_INFINITY, f64::max));
    let squares_east = |cell: &super::table::CellLine| {
        let degree_m = super::places::DEGREE_M * libm::cos(cell.latitude.to_radians());
        (cell.longitude - meridian) * degree_m / f64::from(table.cell_m)
    };
    let west = table.cells.iter().map(squares_east).fold(f64::INFINITY, f64::min);
    let east = table.cells.iter().map(squares_east).fold(f64::NEG_INFINITY, f64::max);
    let (Some(south), Some(north)) = (rows().min(), rows().max()) else {
        svg.text((f64::midpoint(LEFT, RIGHT), 110.0), Anchor::Middle, 14, &tell("season.plot.empty", &[]));
        return svg.done(&title, 140.0);
    };
    let (across, up) = (east - west + 1.0, (north - south + 1) as f64);
    let side = ((RIGHT - LEFT) / across).min(640.0 / up).min(64.0);
    let most = table.cells.iter().map(|cell| cell.carcasses).max().unwrap_or(1);
    for cell in &table.cells {
        let x = LEFT + (squares_east(cell) - west) * side;
        let y = 80.0 + (north - cell.row) as f64 * side;
        let part = f64::from(cell.carcasses) / f64::from(most);
        // Never so dark that the count in it is not read.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // 160 to 240
        let grey = (240.0 - 80.0 * part) as u8;
        svg.rect((x, y), (side, side), &format!("fill=\"rgb({grey},{grey},{grey})\" stroke=\"#000\""));
        if side >= 12.0 {
            svg.text((x + side / 2.0, y + side / 2.0 + 4.0), Anchor::Middle, 12, &cell.carcasses.to_string());
        }
    }
    // A bar of one square's side.
    let foot = 80.0 + up * side + 24.0;
    svg.line((LEFT, foot), (LEFT + side, foot), "stroke=\"#000\" stroke-width=\"3\"");
    svg.text((LEFT + side + 10.0, foot + 4.0), Anchor::Start, 12, &format!("{} m", table.cell_m));
    // Beside the heading: a square may lie in any corner below it.
    svg.text((WIDTH - 30.0, 26.0), Anchor::Middle, 13, "N");
    svg.line((WIDTH - 30.0, 62.0), (WIDTH - 30.0, 32.0), INK);
    svg.line((WIDTH - 35.0, 40.0), (WIDTH - 30.0, 32.0), INK);
    svg.line((WIDTH - 25.0, 40.0), (WIDTH - 30.0, 32.0), INK);
    svg.done(&title, foot + 20.0)
}
