//! Carcasses on an area, from distances to lines that were laid out and walked as searches.
//!
//! Only what was found from the line of a search counts. Responses say where people go; trails say where deer and
//! people go: neither gives a density of the reserve.

use std::collections::{BTreeMap, BTreeSet};

use uuid::Uuid;

use super::kept::Kept;
use super::table::{DensityLine, DensityTable};
use super::{count, rounded, share, tell};
use crate::record::{Answer, Carcass, Examination, Sheet, Value, links};
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

/// The winter of an outing, by the earliest of its answers.
fn winter(sheet: &Sheet) -> Option<i32> {
    let earliest = sheet.answers().flat_map(|(_, _, all)| all).map(|standing| standing.at);
    let day = earliest.min_by_key(|at| at.unix_seconds()).and_then(|at| {
        let (year, month, day) = at.date();
        time::Date::from_calendar_date(year, time::Month::try_from(month).ok()?, day).ok()
    });
    day.map(winter_of)
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
#[derive(Clone, Debug)]
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

/// A line from which a carcass may have been found, and how far it lay from it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lead {
    outing: Uuid,
    line: u16,
    /// Tenths of a metre.
    tenths: i64,
}

/// Every line that an examination of it tells, in their order.
pub fn leads(carcass: &Carcass) -> Vec<Lead> {
    let of = |exam: &Examination| {
        let outing = outing_of(exam)?;
        let told = numbers(&exam.sheet, "from_line_m").into_iter();
        Some(told.map(move |(line, tenths)| Lead { outing, line, tenths }))
    };
    carcass.examinations.values().filter_map(of).flatten().collect()
}

/// A carcass's line and its distance from it, metres: by its first examination that tells one.
fn detection(row: &Kept, lines: &BTreeMap<(Uuid, u16), f64>) -> Option<((Uuid, u16), f64)> {
    row.leads.iter().find_map(|lead| {
        let at = (lead.outing, lead.line);
        lines.contains_key(&at).then_some((at, lead.tenths as f64 / 10.0))
    })
}

/// What a season keeps of an outing.
#[derive(Clone, Debug)]
pub struct Outing {
    id: Uuid,
    kind: Kind,
    /// The winter of the earliest of its answers.
    winter: Option<i32>,
    /// What was walked, of a search along lines.
    effort: Option<Effort>,
    strip_m: Option<i64>,
}

impl Outing {
    /// Of its sheet.
    pub fn of(id: Uuid, sheet: &Sheet) -> Self {
        let kind = kind(sheet);
        let effort = (kind == Kind::Lines).then(|| walked(sheet));
        Self { id, kind, winter: winter(sheet), effort, strip_m: sheet.number("search_strip_m") }
    }
}

/// The table. `strip_m` is what was asked for; without it the narrowest strip that a search was said to have.
pub fn table(rows: &[&Kept], outings: &[Outing], winter: i32, strip_m: Option<u32>) -> DensityTable {
    let outings: Vec<&Outing> = outings.iter().filter(|outing| outing.winter == Some(winter)).collect();
    let of_kind = |wanted| outings.iter().filter(|outing| outing.kind == wanted).count();
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

fn estimate(rows: &[&Kept], outings: &[&Outing], strip_m: Option<u32>) -> Result<(DensityLine, Vec<String>), String> {
    let refused = |id: &str| tell(&format!("season.density.refused.{id}"), &[]);
    let searches = || outings.iter().filter_map(|outing| Some((outing, outing.effort.as_ref()?)));
    if searches().next().is_none() {
        let trails = outings.iter().any(|outing| outing.kind == Kind::Trails);
        return Err(refused(if trails { "trails" } else { "no_search" }));
    }
    let mut lines: BTreeMap<(Uuid, u16), f64> = BTreeMap::new();
    let mut notes = Vec::new();
    let (mut untold, mut without_length) = (0, 0);
    for (outing, effort) in searches() {
        untold += usize::from(effort.untold);
        without_length += effort.without_length;
        lines.extend(effort.lines.iter().map(|(line, m)| ((outing.id, *line), *m as f64)));
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
    let told = searches().filter_map(|(outing, _)| outing.strip_m).min().map(|m| m as f64);
    let w = strip_m.map(f64::from).or(told).ok_or_else(|| refused("no_strip"))?;
    let found: Vec<((Uuid, u16), f64)> = rows.iter().filter_map(|row| detection(row, &lines)).collect();
    let distances: Vec<f64> = found.iter().map(|(_, m)| *m).collect();
    let within = distances.iter().filter(|m| **m <= w).count();
    if within < FEWEST {
        let args = [("n", count(within)), ("least", count(FEWEST)), ("lines", count(lines.len()))];
        return Err(tell("season.density.refused.few", &args));
    }
    let fit = half_normal(&distances, Some(w)).map_err(|why: NoFit| why.to_string())?;
    let mut of_line: BTreeMap<(Uuid, u16), u32> = BTreeMap::new();
    for (line, _) in found.iter().filter(|(_, m)| *m <= w) {
        *of_line.entry(*line).or_default() += 1;
    }
    let effort: Vec<Line> = lines
        .iter()
        .map(|(at, length_m)| Line { length_m: *length_m, found: of_line.get(at).copied().unwrap_or_default() })
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
