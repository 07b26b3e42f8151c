//! Carcasses on an area, from distances to lines that were laid out and walked as searches.
//!
//! Only what was found from the line of a search counts. Responses say where people go; trails say where deer and
//! people go: neither gives a density of the reserve.

use std::collections::{BTreeMap, BTreeSet};

use uuid::Uuid;

use super::rows::Row;
use super::table::{DensityLine, DensityTable};
use super::{count, rounded, share, tell};
use crate::record::{Answer, Examination, Fold, Sheet, Value, links};
use crate::science::season::COVERAGE;
use crate::science::season::effort::{Line, density};
use crate::science::season::transect::{ENOUGH, FEWEST, NoFit, half_normal};
use crate::science::winter::index::winter_of;

/// What kind of outing it was.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Lines,
    Trails,
    Response,
    NotTold,
}

fn kind(sheet: &Sheet) -> Kind {
    match (sheet.choice("outing_kind").as_deref(), sheet.choice("search_route").as_deref()) {
        (Some("search"), Some("lines")) => Kind::Lines,
        (Some("search"), Some("trails")) => Kind::Trails,
        (Some("response"), _) => Kind::Response,
        _ => Kind::NotTold,
    }
}

/// Outings of a winter, by the earliest of their answers.
fn of_winter(sheet: &Sheet, winter: i32) -> bool {
    let earliest = sheet.answers().flat_map(|(_, _, all)| all).map(|standing| standing.at);
    let day = earliest.min_by_key(|at| at.unix_seconds()).and_then(|at| {
        let (year, month, day) = at.date();
        time::Date::from_calendar_date(year, time::Month::try_from(month).ok()?, day).ok()
    });
    day.is_some_and(|day| winter_of(day) == winter)
}

fn number(answer: &Answer) -> Option<i64> {
    match answer {
        Answer::Seen { value: Value::Number(n) } => Some(*n),
        _ => None,
    }
}

/// The one number of a question at each of its places.
fn numbers(sheet: &Sheet, finding: &str) -> Vec<(u16, i64)> {
    let sites: BTreeSet<_> =
        sheet.answers().filter(|(f, _, _)| f.as_str() == finding).map(|(_, site, _)| site).collect();
    let one = |site| Some((site_item(site)?, number(sheet.question(finding, site).settled()?)?));
    sites.into_iter().filter_map(one).collect()
}

fn site_item(site: crate::record::Site) -> Option<u16> {
    site.item
}

fn outing_of(exam: &Examination) -> Option<Uuid> {
    match exam.sheet.answer(links::OUTING) {
        Answer::Seen { value: Value::Ref(id) } => Some(id),
        _ => None,
    }
}

/// The lines of one search, metres walked of each.
struct Effort {
    lines: Vec<(u16, i64)>,
    /// Nobody said whether they were walked to their end: they count as planned.
    untold: bool,
    /// Lines cut short of which nobody said how much was walked.
    without_length: usize,
}

/// What was walked where that was said, else what was planned. A line that was not begun is no line.
fn walked(sheet: &Sheet) -> Effort {
    let most = sheet.number("search_lines_count");
    let of = |finding| {
        let mut all = numbers(sheet, finding);
        all.retain(|(line, _)| most.is_none_or(|most| i64::from(*line) <= most));
        all
    };
    let planned = of("search_line_m");
    match sheet.choice("search_walked").as_deref() {
        Some("not_all") => {
            let mut lines = of("search_walked_m");
            let untold = |line: &u16| !lines.iter().any(|(told, _)| told == line);
            let without_length = planned.iter().filter(|(line, _)| untold(line)).count();
            lines.retain(|(_, m)| *m > 0);
            Effort { lines, untold: false, without_length }
        }
        told => Effort { lines: planned, untold: told.is_none(), without_length: 0 },
    }
}

/// Metres walked of each line of a search.
pub fn lengths(sheet: &Sheet) -> Vec<i64> {
    walked(sheet).lines.into_iter().map(|(_, m)| m).collect()
}

/// A carcass's line and its distance from it, metres: by its first examination that tells one.
fn detection(row: &Row, lines: &BTreeMap<(Uuid, u16), f64>) -> Option<((Uuid, u16), f64)> {
    row.carcass.examinations.values().find_map(|exam| {
        let outing = outing_of(exam)?;
        let mut told = numbers(&exam.sheet, "from_line_m").into_iter();
        told.find_map(|(line, tenths)| {
            let at = (outing, line);
            lines.contains_key(&at).then_some((at, tenths as f64 / 10.0))
        })
    })
}

/// The table. `strip_m` is what was asked for; without it the narrowest strip that a search was said to have.
pub fn table(rows: &[&Row], folded: &Fold, winter: i32, strip_m: Option<u32>) -> DensityTable {
    let outings: Vec<(Uuid, &Sheet)> =
        folded.outings.iter().filter(|(_, sheet)| of_winter(sheet, winter)).map(|(id, sheet)| (*id, sheet)).collect();
    let of_kind = |wanted| outings.iter().filter(|(_, sheet)| kind(sheet) == wanted).count();
    let kinds = [Kind::Lines, Kind::Trails, Kind::Response, Kind::NotTold].map(of_kind);
    let notes = ["on_line", "lines_laid", "moved", "buried"];
    let mut out = DensityTable {
        estimate: None,
        refused: None,
        outings: kinds,
        notes: notes.map(|id| tell(&format!("season.density.{id}"), &[])).into(),
    };
    match estimate(rows, &outings, strip_m) {
        Ok((line, more)) => {
            out.notes.extend(more);
            out.estimate = Some(line);
        }
        Err(why) => out.refused = Some(why),
    }
    out
}

fn estimate(
    rows: &[&Row],
    outings: &[(Uuid, &Sheet)],
    strip_m: Option<u32>,
) -> Result<(DensityLine, Vec<String>), String> {
    let refused = |id: &str| tell(&format!("season.density.refused.{id}"), &[]);
    let searches: Vec<&(Uuid, &Sheet)> = outings.iter().filter(|(_, sheet)| kind(sheet) == Kind::Lines).collect();
    if searches.is_empty() {
        let trails = outings.iter().any(|(_, sheet)| kind(sheet) == Kind::Trails);
        return Err(refused(if trails { "trails" } else { "no_search" }));
    }
    let mut lines: BTreeMap<(Uuid, u16), f64> = BTreeMap::new();
    let mut notes = Vec::new();
    let (mut untold, mut without_length) = (0, 0);
    for (id, sheet) in &searches {
        let effort = walked(sheet);
        untold += usize::from(effort.untold);
        without_length += effort.without_length;
        lines.extend(effort.lines.into_iter().map(|(line, m)| ((*id, line), m as f64)));
    }
    if untold > 0 {
        notes.push(tell("season.density.walked_untold", &[("n", count(untold))]));
    }
    if without_length > 0 {
        notes.push(tell("season.density.without_length", &[("n", count(without_length))]));
    }
    if lines.is_empty() {
        return Err(refused("no_length"));
    }
    let told = searches.iter().filter_map(|(_, sheet)| sheet.number("search_strip_m")).min().map(|m| m as f64);
    let w = strip_m.map(f64::from).or(told).ok_or_else(|| refused("no_strip"))?;
    let found: Vec<((Uuid, u16), f64)> = rows.iter().filter_map(|row| detection(row, &lines)).collect();
    let distances: Vec<f64> = found.iter().map(|(_, m)| *m).collect();
    let within = distances.iter().filter(|m| **m <= w).count();
    if within < FEWEST {
        let args = [("n", count(within)), ("least", count(FEWEST)), ("lines", count(lines.len()))];
        return Err(tell("season.density.refused.few", &args));
    }
    let fit = half_normal(&distances, Some(w)).map_err(|why: NoFit| why.to_string())?;
    let effort: Vec<Line> = lines
        .iter()
        .map(|(at, length_m)| {
            let here = found.iter().filter(|(line, m)| line == at && *m <= w).count();
            Line { length_m: *length_m, found: u32::try_from(here).unwrap_or(u32::MAX) }
        })
        .collect();
    let on = density(&fit, &effort, COVERAGE).ok_or_else(|| refused("no_length"))?;
    if on.range.is_none() {
        notes.push(tell("season.density.one_line", &[]));
    }
    if fit.n < ENOUGH {
        notes.push(tell("season.density.few", &[("n", count(fit.n)), ("enough", count(ENOUGH))]));
    }
    if fit.sigma_m.is_none() {
        notes.push(tell("season.density.strip", &[]));
    }
    let estimate = DensityLine {
        per_km2: rounded(on.per_km2, 3),
        range: on.range.map(|ends| ends.map(|end| rounded(end, 3))),
        carcasses: fit.n,
        beyond: distances.len() - within,
        lines: effort.len(),
        length_km: rounded(on.length_m / 1000.0, 3),
        strip_m: w,
        seen: share(fit.seen),
        sigma_m: fit.sigma_m.map(|sigma| rounded(sigma, 3)),
        seen_cv: share(fit.seen_cv),
        encounter_cv: on.encounter_cv.map(share),
    };
    Ok((estimate, notes))
}
