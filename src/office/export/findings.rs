//! One row a standing answer. A question without a row was not looked at: the one meaning of a missing row.

use std::collections::BTreeSet;

use uuid::Uuid;

use super::gathered::{From, carcass_id, season, season_of};
use super::table::{Cell, Column, Kind, SEASON, Table, always, may};
use super::withheld::{Shown, reason, shown};
use crate::guide::{LEFT, RULED_OUT};
use crate::record::{Answer, Bone, Carcass, Shape, Sheet, Side, Site, Standing, Tooth, Value, find, links};

const COLUMNS: &[Column] = &[
    SEASON,
    always("entry_id", Kind::Text, "Device and number of the entry in its journal"),
    may("carcass_id", Kind::Text, "Row of the table of carcasses; empty for outings, reports and empty places"),
    always("subject", Kind::Text, "examination, outing or report"),
    always("subject_id", Kind::Text, "UUID of that"),
    always("finding", Kind::Text, "Code of what was asked, with the unit in its name"),
    may("side", Kind::Text, "left or right, as the animal would name it"),
    may("tooth", Kind::Text, "Lower tooth"),
    may("bone", Kind::Text, "Bone"),
    may("item_number", Kind::Integer, "Which of several of a kind, from 1"),
    always("state", Kind::Text, "seen, not_seen (looked, it is not there), cant_tell, not_looked or part_gone"),
    may("why", Kind::Text, "Reason for cant_tell, not_looked and part_gone"),
    may("value", Kind::Text, "What was seen: code, codes apart by |, words, moment, place, digest"),
    may("number", Kind::Number, "What was seen, where it is a number"),
    may("unit", Kind::Text, "Unit of the number"),
    always("withheld", Kind::Flag, "Something was seen and is left out of this export"),
    always("differs", Kind::Flag, "Another result stands on the same question of the same subject"),
    always("written_by", Kind::Text, "person, or rule and leaving, which write what nobody was asked"),
    may("step", Kind::Text, "Step of the protocol that asked"),
    always("at", Kind::Moment, "When it was answered, by the phone's clock"),
    may("observer", Kind::Text, "Code of who looked; only where names were asked for"),
    may("observer_name", Kind::Text, "Name on the office's card; only where names were asked for"),
];

/// The table.
pub(super) fn table(from: &From) -> Table {
    let mut rows = Vec::new();
    for row in &from.rows {
        for exam in row.carcass.examinations.values() {
            sheet(
                from,
                [season(row), carcass_id(row).into(), "examination".into(), exam.id.into()],
                &exam.sheet,
                &mut rows,
            );
        }
    }
    with(rows)
}

fn with(rows: Vec<Vec<Cell>>) -> Table {
    let about =
        "One row a standing answer; a question without a row was not looked at. Answers that differ stand side by side";
    Table { name: "findings", about, columns: COLUMNS, key: &["entry_id"], of_carcass: true, rows }
}

/// The answers of an outing or a report, where it is of the winter that was asked for or an exported examination names
/// it.
pub(super) fn beside(from: &From, subject: Beside, id: Uuid, of: &Sheet, linked: &Linked) -> Table {
    let season = season_of(of);
    let in_season = from
        .asked
        .winter
        .is_none_or(|winter| season.text() == Some(crate::office::season::build::name_of(winter).as_str()));
    let (kind, named) = match subject {
        Beside::Outing => ("outing", &linked.outings),
        Beside::Report => ("report", &linked.reports),
    };
    let mut rows = Vec::new();
    if in_season || named.contains(&id) {
        sheet(from, [season, Cell::Empty, kind.into(), id.into()], of, &mut rows);
    }
    with(rows)
}

/// What stands beside the carcasses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Beside {
    Outing,
    Report,
}

/// Outings and reports that exported examinations name.
#[derive(Debug, Default)]
pub(super) struct Linked {
    pub(super) outings: BTreeSet<Uuid>,
    pub(super) reports: BTreeSet<Uuid>,
}

impl Linked {
    /// Takes in those of a carcass.
    pub(super) fn take(&mut self, carcass: &Carcass) {
        for exam in carcass.examinations.values() {
            for (finding, all) in [(links::OUTING, &mut self.outings), (links::REPORT, &mut self.reports)] {
                if let Answer::Seen { value: Value::Ref(id) } = exam.sheet.answer(finding) {
                    all.insert(id);
                }
            }
        }
    }
}

fn sheet(from: &From, of: [Cell; 4], sheet: &Sheet, rows: &mut Vec<Vec<Cell>>) {
    for (finding, site, standing) in sheet.answers() {
        let split = sheet.question(finding.as_str(), site).is_split();
        rows.extend(standing.iter().map(|one| line(from, &of, finding.as_str(), site, split, one)));
    }
}

/// State, reason and value of an answer, as they are let out.
pub(super) fn parts(from: &From, finding: &str, answer: &Answer) -> (&'static str, Option<String>, Shown) {
    let why = match answer {
        Answer::CantTell { why } | Answer::NotLooked { why } | Answer::PartGone { why } => {
            Some(reason(why, from.asked))
        }
        Answer::Seen { .. } | Answer::NotSeen => None,
    };
    let value = answer.value().map(|value| shown(finding, find(finding), value, from.asked)).unwrap_or_default();
    (answer.state(), why, value)
}

/// The symbol of a finding's unit.
pub(super) fn unit(finding: &str) -> Option<&'static str> {
    match find(finding)?.shape {
        Shape::Number { unit, .. } => Some(unit.symbol()).filter(|symbol| !symbol.is_empty()),
        _ => None,
    }
}

fn line(from: &From, of: &[Cell; 4], finding: &str, site: Site, split: bool, one: &Standing) -> Vec<Cell> {
    let (state, why, value) = parts(from, finding, &one.answer);
    let [season, carcass, subject, subject_id] = of.clone();
    let by = match one.step.as_deref() {
        Some(RULED_OUT) => "rule",
        Some(LEFT) => "leaving",
        _ => "person",
    };
    vec![
        season,
        one.id.to_string().into(),
        carcass,
        subject,
        subject_id,
        finding.into(),
        site.side.map(Side::code).into(),
        site.tooth.map(Tooth::name).into(),
        site.bone.map(Bone::code).into(),
        site.item.into(),
        state.into(),
        why.into(),
        value.text.into(),
        value.number.into(),
        value.number.and(unit(finding)).into(),
        value.withheld.into(),
        (split && one.answer.is_informative()).into(),
        by.into(),
        one.step.clone().filter(|_| by == "person").into(),
        one.at.into(),
        from.code(&one.observer),
        from.name(&one.observer).into(),
    ]
}
