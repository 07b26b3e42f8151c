//! Carcasses, folded and read, as tables.

use std::collections::BTreeMap;

use uuid::Uuid;

use super::asked::Asked;
use super::table::{Cell, Table};
use super::{carcasses, examinations, findings, readings};
use crate::card::Card;
use crate::office::season::Files;
use crate::office::season::build::name_of;
use crate::office::season::rows::Row;
use crate::record::{Fold, Moment, PersonCode, Sheet};
use crate::science::winter::index::winter_of;

/// All tables of an export, or of some of its carcasses.
#[derive(Clone, Debug)]
pub struct Tables {
    /// What was asked for.
    pub asked: Asked,
    /// The office, by its newest card.
    pub office: Option<String>,
    /// One row a carcass.
    pub carcasses: Table,
    /// One row an examination.
    pub examinations: Table,
    /// One row a standing answer.
    pub findings: Table,
    /// One row an estimate.
    pub readings: Table,
    /// One row a part of a distribution.
    pub shares: Table,
    /// What Darwin Core takes beside the tables, by carcass.
    pub more: BTreeMap<String, super::dwc_rows::More>,
}

impl Tables {
    /// All, in the order in which they are written.
    pub fn all(&self) -> [&Table; 5] {
        [&self.carcasses, &self.examinations, &self.findings, &self.readings, &self.shares]
    }
}

/// What the tables are made from.
pub(super) struct From<'a> {
    pub(super) asked: &'a Asked,
    pub(super) folded: &'a Fold,
    pub(super) card: Option<&'a Card>,
    /// Every carcass that is exported, places visited without one too.
    pub(super) rows: Vec<&'a Row<'a>>,
    /// A number a crew, in the order of their names.
    pub(super) crews: &'a BTreeMap<&'a str, usize>,
}

impl From<'_> {
    /// The crew, by a number where no names are let out.
    pub(super) fn crew(&self, row: &Row) -> Cell {
        let crew = row.crew.as_deref();
        if self.asked.names {
            return crew.into();
        }
        crew.and_then(|crew| self.crews.get(crew)).map(|n| format!("crew {n}")).into()
    }

    /// The code of a person, where it is let out.
    pub(super) fn code(&self, person: &PersonCode) -> Cell {
        if self.asked.names { person.as_str().into() } else { Cell::Empty }
    }

    /// A person's name on the office's card, where it is let out.
    pub(super) fn name(&self, person: &PersonCode) -> Option<String> {
        let known = self.card.filter(|_| self.asked.names)?.person(person)?;
        Some(known.name.clone())
    }
}

/// The season of a row.
pub(super) fn season(row: &Row) -> Cell {
    row.winter.map(name_of).into()
}

/// The season of a sheet without carcass: that of its earliest answer.
pub(super) fn season_of(sheet: &Sheet) -> Cell {
    let all = sheet.answers().flat_map(|(_, _, all)| all).map(|standing| standing.at);
    let earliest = all.min_by_key(|at| at.unix_seconds());
    earliest.and_then(day_of).map(|day| name_of(winter_of(day))).into()
}

fn day_of(at: Moment) -> Option<time::Date> {
    let (year, month, day) = at.date();
    time::Date::from_calendar_date(year, time::Month::try_from(month).ok()?, day).ok()
}

/// Numbers of the crews, in the order of their names.
pub(super) fn numbers(files: &Files) -> BTreeMap<&str, usize> {
    let mut names: Vec<&str> = files.crews.values().map(String::as_str).collect();
    names.sort_unstable();
    names.dedup();
    names.into_iter().zip(1..).collect()
}

/// All tables of these rows.
pub(super) fn tables(from: &From) -> Tables {
    let (readings, shares) = readings::tables(from);
    let more = from.rows.iter().map(|row| (row.carcass.id.to_string(), super::dwc_rows::more(from, row))).collect();
    Tables {
        asked: *from.asked,
        office: from.card.map(|card| card.office.clone()),
        carcasses: carcasses::table(from),
        examinations: examinations::table(from),
        findings: findings::table(from),
        readings,
        shares,
        more,
    }
}

/// A carcass's id, where a dead animal lay there.
pub(super) fn carcass_id(row: &Row) -> Option<Uuid> {
    (!row.nothing_lay_there()).then_some(row.carcass.id)
}
