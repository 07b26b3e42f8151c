//! One row an examination: one crew at one carcass on one occasion, in the field or on the bench.

use super::gathered::{From, carcass_id, season};
use super::table::{Cell, Column, Kind, SEASON, Table, always, may};
use crate::record::{Answer, Examination, Moment, Site, Value, links};

const COLUMNS: &[Column] = &[
    SEASON,
    always("examination_id", Kind::Text, "UUID"),
    may("carcass_id", Kind::Text, "Row of the table of carcasses; empty where no dead animal lay there"),
    may("kind", Kind::Text, "field or bench"),
    may("arrived_at", Kind::Moment, "When the crew came, as the answers say"),
    may("first_answer_at", Kind::Moment, "First answer, by the phone's clock"),
    may("last_answer_at", Kind::Moment, "Last answer, by the phone's clock"),
    may("report_outcome", Kind::Text, "What was at the place"),
    may("closed", Kind::Text, "complete, left_early or record_only; empty while it is open"),
    may("outing_id", Kind::Text, "The crew's day out"),
    may("report_id", Kind::Text, "The report that sent the crew"),
    always("answers_count", Kind::Integer, "Questions that have an answer, whichever of the five"),
    always("differing_count", Kind::Integer, "Questions on which different results stand"),
];

/// The table.
pub(super) fn table(from: &From) -> Table {
    let mut rows = Vec::new();
    for row in &from.rows {
        for exam in row.carcass.examinations.values() {
            rows.push([vec![season(row)], line(exam, carcass_id(row).into())].concat());
        }
    }
    let about = "One row an examination: one crew at one carcass on one occasion";
    Table { name: "examinations", about, columns: COLUMNS, key: &["examination_id"], of_carcass: true, rows }
}

/// When the crew came, by the answers.
pub(super) fn arrived(exam: &Examination) -> Option<Moment> {
    match exam.sheet.answer("arrived_at") {
        Answer::Seen { value: Value::Instant(at) } => Some(at),
        _ => None,
    }
}

/// First and last answer, by the phones' clocks.
pub(super) fn span(exam: &Examination) -> Option<(Moment, Moment)> {
    let all = || exam.sheet.answers().flat_map(|(_, _, all)| all).map(|standing| standing.at);
    let by = |at: &Moment| at.unix_seconds();
    Some((all().min_by_key(by)?, all().max_by_key(by)?))
}

fn line(exam: &Examination, carcass: Cell) -> Vec<Cell> {
    let link = |finding: &str| match exam.sheet.answer(finding) {
        Answer::Seen { value: Value::Ref(id) } => Cell::from(id),
        _ => Cell::Empty,
    };
    let span = span(exam);
    let questions = || exam.sheet.answers().map(|(finding, site, _)| (finding.as_str(), site));
    let differs = |(finding, site): &(&str, Site)| exam.sheet.question(finding, *site).is_split();
    vec![
        exam.id.into(),
        carcass,
        exam.kind.clone().into(),
        arrived(exam).into(),
        span.map(|(first, _)| first).into(),
        span.map(|(_, last)| last).into(),
        exam.sheet.choice("report_outcome").into(),
        exam.sheet.choice("examination_closed").into(),
        link(links::OUTING),
        link(links::REPORT),
        questions().count().into(),
        questions().filter(differs).count().into(),
    ]
}
