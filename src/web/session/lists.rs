//! Lists over the whole journal: open carcasses, work for the bench, what was not handed over.

use uuid::Uuid;

use crate::guide::{BenchWork, bench_work};
use crate::order::Short as _;
use crate::record::{Act, Answer, Fold, Moment, Site, Value, short_code};

use super::Session;

/// Words before the number in a hand-over entry. The number is read back, so the words stay.
const HANDED: &str = "entries to ";

/// One examination for a list.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct OpenCarcass {
    /// The examination to take up.
    pub(crate) examination: Uuid,
    /// Its carcass.
    pub(crate) carcass: Uuid,
    /// The carcass's short code.
    pub(crate) code: String,
    /// Field or bench.
    pub(crate) kind: String,
    /// When something was last written about it.
    pub(crate) last_at: Option<Moment>,
    /// Answers that stand.
    pub(crate) answers: usize,
    /// True once closed.
    pub(crate) closed: bool,
}

/// A report for a list.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct WaitingReport {
    /// Its id.
    pub(crate) id: Uuid,
    /// Its short code.
    pub(crate) code: String,
    /// The place, as told.
    pub(crate) place: String,
    /// When the deer was first seen.
    pub(crate) at: Option<Moment>,
    /// What was decided, where something was.
    pub(crate) triage: Option<String>,
}

/// How far this phone's journal was handed over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Handed {
    /// Number of the last entry that a person said was handed over.
    pub(crate) through: u64,
    /// Entries after it that say something new.
    pub(crate) waiting: usize,
    /// When that was said.
    pub(crate) at: Option<Moment>,
}

/// The text of a hand-over entry.
pub(crate) fn handed_text(through: u64, bundle: Uuid) -> String {
    format!("{HANDED}{through}, bundle {bundle}")
}

fn handed_through(text: &str) -> Option<u64> {
    text.strip_prefix(HANDED)?.split(',').next()?.parse().ok()
}

impl Session {
    /// All examinations that name a carcass, the latest first.
    pub(crate) fn examinations(fold: &Fold) -> Vec<OpenCarcass> {
        let mut all: Vec<OpenCarcass> = fold
            .carcasses
            .values()
            .flat_map(|carcass| carcass.examinations.values().map(move |exam| (carcass, exam)))
            .map(|(carcass, exam)| OpenCarcass {
                examination: exam.id,
                carcass: carcass.id,
                code: short_code::short_code(carcass.id),
                kind: exam.kind.clone().unwrap_or_else(|| "field".to_owned()),
                last_at: exam
                    .sheet
                    .answers()
                    .flat_map(|(_, _, all)| all)
                    .map(|s| s.at)
                    .max_by_key(|at| at.unix_seconds()),
                answers: exam.sheet.answers().count(),
                closed: exam.sheet.choice("examination_closed").is_some(),
            })
            .collect();
        all.order_by_key(|e| std::cmp::Reverse(e.examination));
        all
    }

    /// Reports that no crew has gone to, the latest first. One that was passed on or needs no visit has had its
    /// answer and waits no more.
    pub(crate) fn waiting_reports(&self) -> Vec<WaitingReport> {
        let fold = self.bodies.fold_all();
        let mut all: Vec<WaitingReport> = fold
            .reports
            .iter()
            .filter(|(id, _)| !self.bodies.is_answered(**id))
            .map(|(id, sheet)| WaitingReport {
                id: *id,
                code: short_code::short_code(*id),
                place: match sheet.answer("report_place_words").value() {
                    Some(Value::Text(words)) => words.clone(),
                    _ => String::new(),
                },
                at: match sheet.answer("report_seen_at").value() {
                    Some(Value::Instant(at)) => Some(*at),
                    _ => None,
                },
                triage: sheet.choice("report_triage"),
            })
            .filter(|report| !matches!(report.triage.as_deref(), Some("refer" | "no_visit")))
            .collect();
        all.order_by_key(|report| std::cmp::Reverse(report.id));
        all
    }

    /// Carcasses with work that waits on the bench.
    pub(crate) fn bench_work(fold: &Fold) -> Vec<(Uuid, String, Vec<BenchWork>)> {
        let work = fold.carcasses.values().map(|c| (c.id, short_code::short_code(c.id), bench_work(c)));
        work.filter(|(_, _, open)| !open.is_empty()).collect()
    }

    /// How far this phone's own chain was handed over, as people said.
    pub(crate) fn handed(&self) -> Handed {
        let mut handed = Handed { through: 0, waiting: 0, at: None };
        let mine = || self.bodies.all().iter().filter(|(id, _)| id.device == self.device);
        let said = |act: &Act| match act {
            Act::Answer { key, answer: Answer::Seen { value: Value::Text(text) }, .. }
                if key.finding.as_str() == "handed_over" && key.site == Site::NONE =>
            {
                handed_through(text)
            }
            _ => None,
        };
        for (_, body) in mine() {
            if let Some(through) = said(&body.act)
                && through >= handed.through
            {
                handed.through = through;
                handed.at = Some(body.at);
            }
        }
        handed.waiting = mine().filter(|(id, body)| id.seq > handed.through && said(&body.act).is_none()).count();
        handed
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_number_is_read_back_from_the_text() {
        assert_eq!(handed_through(&handed_text(57, Uuid::nil())), Some(57));
        assert_eq!(handed_through("to the office by mail"), None);
    }
}
