//! Winter logs on this phone: places, their days, and what is written of them.

use uuid::Uuid;

use crate::guide::{Context, Draft, compose, withdraw};
use crate::order::{Gather as _, Short as _};
use crate::reading::winter_log;
use crate::record::{Answer, Body, Day, EntryId, Flaw, Fold, Sheet, Site, Subject};

use super::{Session, When};

impl Session {
    /// All logs: id, place, last day on which anything was written.
    pub(crate) fn winter_logs(&self) -> Vec<(Uuid, String, Option<Day>)> {
        let fold = self.bodies.fold_all();
        let last = |sheet: &Sheet| sheet.answers().filter_map(|(_, site, _)| site.day).max();
        fold.winter_logs.iter().map(|(id, sheet)| (*id, winter_log::place(sheet), last(sheet))).collect()
    }

    /// What stands of one log.
    pub(crate) fn winter_log(&self, log: Uuid) -> Sheet {
        self.fold_of_log(log).winter_logs.remove(&log).unwrap_or_default()
    }

    fn fold_of_log(&self, log: Uuid) -> Fold {
        self.bodies.fold_around(&[Subject::WinterLog(log)])
    }

    /// Write answers of a log.
    pub(crate) fn answer_log(&self, log: Uuid, drafts: &[Draft], when: &When) -> Result<Vec<Body>, Flaw> {
        compose(&self.fold_of_log(log), drafts, &self.context_of_log(log, when))
    }

    /// Take back what this person wrote on one reading; `None` where nothing of theirs stands.
    pub(crate) fn take_back_log(&self, log: Uuid, finding: &str, site: Site, when: &When) -> Option<Body> {
        let sheet = self.winter_log(log);
        let standing = sheet.question(finding, site).standing;
        let mine: Vec<EntryId> = standing.iter().filter(|s| s.observer == self.here.person).map(|s| s.id).collect();
        (!mine.is_empty()).then(|| withdraw(mine, &self.context_of_log(log, when)))
    }

    fn context_of_log(&self, log: Uuid, when: &When) -> Context {
        Context { examination: log, since_start_ms: None, ..self.context(when) }
    }
}

/// The days of a log, the latest first.
pub(crate) fn days_of(sheet: &Sheet) -> Vec<Day> {
    let days: std::collections::BTreeSet<Day> = sheet.answers().filter_map(|(_, site, _)| site.day).gather();
    days.into_iter().rev().collect()
}

/// The different answers that stand on a reading of a day.
pub(crate) fn said(sheet: &Sheet, finding: &str, site: Site) -> Vec<Answer> {
    let mut all: Vec<Answer> = sheet.question(finding, site).standing.iter().map(|s| s.answer.clone()).collect();
    all.order();
    all.dedup();
    all
}
