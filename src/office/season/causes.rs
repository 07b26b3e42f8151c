//! Causes over a season.

use std::collections::BTreeMap;

use super::kept::{Called, Kept};
use super::table::{CauseTable, CountLine, TableLine};
use super::{LANGUAGE, ages, share, tell};
use crate::reading::{Outcome, Readings, cause_ids};
use crate::science::cause::Cause;
use crate::science::cause::undamped::Undamped;
use crate::science::season::COVERAGE;
use crate::science::season::mixture::{Draws, PRIOR_CARCASSES, draw};
use crate::science::special::wilson;

/// The name of all predators together.
pub(super) const PREDATORS: &str = "any_predator";

/// Draws of one group of carcasses; `None` where nothing was seen of any.
pub fn draws(rows: &[&Kept], seed: u64) -> Option<Draws> {
    let cases = || rows.iter().filter_map(|row| row.cause.as_ref()).map(|cause| &cause.0);
    cases().next()?;
    Some(draw(&Undamped::new(cases()), seed))
}

fn predators() -> Vec<usize> {
    Cause::ALL.iter().filter(|cause| cause.is_predator()).map(|cause| *cause as usize).collect()
}

/// The groups of states that two groups of carcasses are compared in.
pub fn compared() -> Vec<(String, Vec<usize>)> {
    let mut all: Vec<_> = Cause::ALL.iter().map(|cause| (cause.code().to_owned(), vec![*cause as usize])).collect();
    all.push((PREDATORS.to_owned(), predators()));
    all
}

/// The table.
pub fn table(rows: &[&Kept], drawn: Option<&Draws>) -> CauseTable {
    let seen = rows.iter().filter(|row| row.cause.is_some()).count();
    let mut shares = Vec::new();
    if let Some(drawn) = drawn {
        for (what, states) in compared() {
            let found = drawn.line(&states);
            // A cause that does not occur here has no prior and no line.
            if found.prior > 0.0 {
                let name = match Cause::of_code(&what) {
                    Some(cause) => tell(&cause_ids::cause(cause), &[]),
                    None => tell("season.any_predator", &[]),
                };
                shares.push(ages::line(&what, name, found));
            }
        }
    }
    let mut tables: BTreeMap<_, (String, usize)> = BTreeMap::new();
    for cause in rows.iter().filter_map(|row| row.cause.as_ref()) {
        let (name, digest) = &*cause.1;
        tables.entry(*digest).or_insert_with(|| (name.clone(), 0)).1 += 1;
    }
    CauseTable {
        seen,
        nothing_seen: rows.len() - seen,
        poor_fit: rows.iter().filter(|row| row.poor_fit).count(),
        prior_carcasses: PRIOR_CARCASSES,
        shares,
        called: called(rows),
        tables: tables.into_iter().map(|(sha256, (name, carcasses))| TableLine { name, sha256, carcasses }).collect(),
    }
}

/// What one carcass was called by itself.
pub(super) fn called_of(readings: &Readings) -> Called {
    let reading = readings.cause.as_ref();
    let headline = reading.filter(|reading| reading.outcome == Outcome::Read).and_then(|r| r.statements.first());
    let Some(said) = headline else { return ("nothing_seen".to_owned(), tell("season.nothing_seen", &[])) };
    let cause = said.values.get("cause").and_then(|value| match value {
        crate::reading::Val::Message(id) => id.rsplit('.').next().map(|code| format!("_{code}")),
        _ => None,
    });
    let label = said.id.rsplit('.').next().unwrap_or_default();
    (format!("{label}{}", cause.unwrap_or_default()), said.say(LANGUAGE))
}

/// What the carcasses were called by themselves: of all that count, the undetermined among them.
fn called(rows: &[&Kept]) -> Vec<CountLine> {
    let mut counts: BTreeMap<&Called, u32> = BTreeMap::new();
    for row in rows {
        *counts.entry(&*row.called).or_default() += 1;
    }
    let of = u32::try_from(rows.len()).unwrap_or(u32::MAX);
    let mut all: Vec<CountLine> =
        counts.into_iter().map(|((what, name), n)| count_line(what.clone(), name.clone(), n, of)).collect();
    all.sort_by(|a, b| b.carcasses.cmp(&a.carcasses).then_with(|| a.what.cmp(&b.what)));
    all
}

/// A count with its share and Wilson's interval.
pub fn count_line(what: String, name: String, carcasses: u32, of: u32) -> CountLine {
    let interval = wilson(carcasses, of, COVERAGE);
    CountLine {
        what,
        name,
        carcasses,
        of,
        share: (of > 0).then(|| share(f64::from(carcasses) / f64::from(of))),
        low: interval.map(|ends| share(ends.low)),
        high: interval.map(|ends| share(ends.high)),
    }
}
