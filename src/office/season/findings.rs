//! Findings that are seen or not, over all carcasses; the five answers stay apart.

use super::kept::Kept;
use super::table::FindingLine;
use super::{share, tell};
use crate::record::{Answer, Carcass, Site};
use crate::science::season::COVERAGE;
use crate::science::special::wilson;

/// The findings of the table: each asks of the carcass whether a thing is there.
pub const FINDINGS: [&str; 14] = [
    "chase_or_struggle_marks",
    "drag_marks",
    "blood_on_snow",
    "hair_scattered",
    "cached_over",
    "bones_scattered",
    "wounds_outside",
    "very_thin",
    "loose_droppings",
    "bled_fracture",
    "organ_rupture",
    "projectile_or_wound_track",
    "fetus",
    "live_ticks",
];

/// What came of one finding at one carcass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Result {
    /// Seen.
    Seen,
    /// Looked, and not there.
    NotSeen,
    /// Some saw it, some did not.
    Differ,
    /// Could not be told.
    CantTell,
    /// Not looked at.
    NotLooked,
    /// The part was gone.
    PartGone,
}

/// What came of it.
pub fn result(carcass: &Carcass, finding: &str) -> Result {
    let question = carcass.question(finding, Site::NONE);
    if question.is_split() {
        return Result::Differ;
    }
    match question.answer() {
        Answer::Seen { .. } => Result::Seen,
        Answer::NotSeen => Result::NotSeen,
        Answer::CantTell { .. } => Result::CantTell,
        Answer::PartGone { .. } => Result::PartGone,
        Answer::NotLooked { .. } => Result::NotLooked,
    }
}

/// How often one finding was seen, not seen, and neither, in a group.
pub fn tally(rows: &[&Kept], finding: &str) -> [u32; 3] {
    let mut out = [0; 3];
    for row in rows {
        let [seen, not_seen, none] = &mut out;
        *match row.finding(finding) {
            Result::Seen => seen,
            Result::NotSeen => not_seen,
            _ => none,
        } += 1;
    }
    out
}

/// One line a finding.
pub fn table(rows: &[&Kept]) -> Vec<FindingLine> {
    FINDINGS.map(|finding| line(rows, finding)).into()
}

fn line(rows: &[&Kept], finding: &str) -> FindingLine {
    let results: Vec<Result> = rows.iter().map(|row| row.finding(finding)).collect();
    let count = |of| u32::try_from(results.iter().filter(|own| **own == of).count()).unwrap_or(u32::MAX);
    let (seen, not_seen) = (count(Result::Seen), count(Result::NotSeen));
    let interval = wilson(seen, seen + not_seen, COVERAGE);
    FindingLine {
        finding: finding.to_owned(),
        name: tell(&format!("finding.{finding}"), &[]),
        seen,
        not_seen,
        differ: count(Result::Differ),
        cant_tell: count(Result::CantTell),
        not_looked: count(Result::NotLooked),
        part_gone: count(Result::PartGone),
        share: (seen + not_seen > 0).then(|| share(f64::from(seen) / f64::from(seen + not_seen))),
        low: interval.map(|ends| share(ends.low)),
        high: interval.map(|ends| share(ends.high)),
    }
}
