//! One row an estimate of a reading, and one a part of its distribution.

use super::gathered::{From, carcass_id, season};
use super::table::{Cell, Column, Kind, SEASON, Table, always, may};
use crate::office::season::LANGUAGE;
use crate::reading::{Basis, Outcome, Reading, Statement};
use crate::words::say;

const COLUMNS: &[Column] = &[
    SEASON,
    always("carcass_id", Kind::Text, "Row of the table of carcasses"),
    always("method", Kind::Text, "Method, such as age.lower_jaw"),
    always("estimate_number", Kind::Integer, "Which of the reading's estimates, from 1; 1 also where it has none"),
    always("outcome", Kind::Text, "read, no_evidence or refused"),
    may("said", Kind::Text, "The headline, in words"),
    may("unit", Kind::Text, "What is estimated and its unit"),
    may("best", Kind::Number, "Best value"),
    may("low", Kind::Number, "Lower end"),
    may("high", Kind::Number, "Upper end"),
    may("coverage", Kind::Number, "Probability that the range holds it, 0 to 1; empty where the source states none"),
    may("cautions", Kind::Text, "Cautions for this case"),
    always("rests_on_count", Kind::Integer, "Entries that it rests on"),
    may("sources", Kind::Text, "What the method rests on, each with its mark: seen, derived, memory, design or ours"),
    always("science_version", Kind::Text, "Version of the methods"),
];

const SHARES: &[Column] = &[
    SEASON,
    always("carcass_id", Kind::Text, "Row of the table of carcasses"),
    always("method", Kind::Text, "Method"),
    always("estimate_number", Kind::Integer, "Which of the reading's estimates, from 1"),
    always("part_number", Kind::Integer, "Which part of the distribution, from 1"),
    always("part", Kind::Text, "Message id of the part"),
    always("part_name", Kind::Text, "The part in words"),
    always("probability", Kind::Number, "0 to 1"),
];

/// Both tables.
pub(super) fn tables(from: &From) -> (Table, Table) {
    let (mut lines, mut parts) = (Vec::new(), Vec::new());
    for row in &from.rows {
        let Some(carcass) = carcass_id(row) else { continue };
        let science = &row.view.readings.science;
        for reading in row.view.readings.each() {
            let head = || vec![season(row), carcass.into(), reading.method.as_str().into()];
            of(reading, science, &head, &mut lines);
            for (number, estimate) in (1_usize..).zip(&reading.estimates) {
                for (part, share) in (1_usize..).zip(&estimate.shares) {
                    let mut cells = head();
                    cells.extend([number.into(), part.into(), share.of.as_str().into()]);
                    cells.extend([say(LANGUAGE, &share.of, &[]).into(), share.probability.into()]);
                    parts.push(cells);
                }
            }
        }
    }
    let readings = Table {
        name: "readings",
        about: "One row an estimate of a reading, worked out anew by this program; a reading without estimate has one row",
        columns: COLUMNS,
        key: &["carcass_id", "method", "estimate_number"],
        of_carcass: true,
        rows: lines,
    };
    let shares = Table {
        name: "reading_shares",
        about: "One row a part of a reading's distribution",
        columns: SHARES,
        key: &["carcass_id", "method", "estimate_number", "part_number"],
        of_carcass: true,
        rows: parts,
    };
    (readings, shares)
}

/// Sentences, in a fixed order, apart by a blank.
fn sentences(all: &[Statement]) -> Option<String> {
    let said: Vec<String> = all.iter().map(|one| one.say(LANGUAGE)).collect();
    (!said.is_empty()).then(|| said.join(" "))
}

/// Sources by name and mark.
pub(super) fn sources(all: &[Basis]) -> String {
    all.iter().map(|source| format!("{} ({})", source.id, source.mark)).collect::<Vec<_>>().join("; ")
}

/// The code of an outcome.
const fn outcome(of: Outcome) -> &'static str {
    match of {
        Outcome::Read => "read",
        Outcome::NoEvidence => "no_evidence",
        Outcome::Refused => "refused",
    }
}

fn of(reading: &Reading, science: &str, head: &dyn Fn() -> Vec<Cell>, lines: &mut Vec<Vec<Cell>>) {
    for number in 0..reading.estimates.len().max(1) {
        let estimate = reading.estimates.get(number);
        let mut cells = head();
        cells.push((number + 1).into());
        cells.push(outcome(reading.outcome).into());
        cells.push(reading.statements.first().map(|said| said.say(LANGUAGE)).into());
        cells.push(estimate.map(|one| say(LANGUAGE, &one.unit, &[])).into());
        cells.push(estimate.and_then(|one| one.best).into());
        cells.push(estimate.and_then(|one| one.low).into());
        cells.push(estimate.and_then(|one| one.high).into());
        cells.push(estimate.and_then(|one| one.coverage).into());
        cells.push(sentences(&reading.cautions).into());
        cells.push(reading.rests_on.len().into());
        cells.push(Some(sources(&reading.sources)).filter(|all| !all.is_empty()).into());
        cells.push(science.into());
        lines.push(cells);
    }
}
