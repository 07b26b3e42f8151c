//! The history of every answer: who, when, what it replaced. Numbered, so that readings can name what they rest on.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use super::{LANGUAGE, escaped, tell, tell_with};
use crate::guide::answer_words;
use crate::record::{Act, Body, Carcass, DeviceId, EntryId, Journal, Site, Subject};

/// One line.
struct Line {
    id: EntryId,
    body: Body,
}

/// All entries that speak of one carcass, in order of the phones' clocks.
pub(super) struct History {
    lines: Vec<Line>,
    pub(super) numbers: BTreeMap<EntryId, usize>,
    gone: BTreeMap<EntryId, usize>,
}

/// What an act names as replaced.
fn replaces(act: &Act) -> &[EntryId] {
    match act {
        Act::Answer { supersedes, .. } | Act::Withdraw { supersedes } | Act::Decide { supersedes, .. } => supersedes,
        _ => &[],
    }
}

/// Numbers as `1, 4, 5`.
pub(super) fn listed(numbers: &[usize]) -> String {
    numbers.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
}

impl History {
    pub(super) fn of(carcass: &Carcass, journal: &Journal) -> Self {
        let (bodies, _) = journal.bodies();
        let about = |act: &Act| match act {
            Act::Answer { key, .. } => match key.subject {
                Subject::Examination(id) => carcass.examinations.contains_key(&id),
                _ => false,
            },
            Act::Decide { carcass: of, .. } => carcass.joined.contains(of),
            Act::Alias { carcasses } => carcasses.iter().any(|id| carcass.joined.contains(id)),
            _ => false,
        };
        let own: BTreeSet<EntryId> = bodies.iter().filter(|(_, body)| about(&body.act)).map(|(id, _)| *id).collect();
        let mut lines: Vec<Line> = bodies
            .into_iter()
            .filter(|(id, body)| {
                own.contains(id)
                    || matches!(&body.act, Act::Withdraw { supersedes } if supersedes.iter().any(|one| own.contains(one)))
            })
            .map(|(id, body)| Line { id, body })
            .collect();
        lines.sort_by_key(|line| (line.body.at.unix_seconds(), line.id));
        let numbers: BTreeMap<EntryId, usize> = lines.iter().enumerate().map(|(n, line)| (line.id, n + 1)).collect();
        let mut gone = BTreeMap::new();
        for (n, line) in lines.iter().enumerate() {
            gone.extend(replaces(&line.body.act).iter().map(|id| (*id, n + 1)));
        }
        Self { lines, numbers, gone }
    }

    /// What a device wrote, one line each.
    pub(super) fn by(&self, device: DeviceId) -> Vec<String> {
        self.lines.iter().filter(|line| line.id.device == device).map(|line| self.words(line)).collect()
    }

    pub(super) fn write(&self, out: &mut String) {
        let _ = writeln!(
            out,
            "<h2>{}</h2>\n<p>{}</p>\n<ol class=\"history\">",
            tell("report.history"),
            tell("report.history.what")
        );
        for line in &self.lines {
            let _ = writeln!(out, "<li>{}</li>", self.words(line));
        }
        out.push_str("</ol>\n");
    }

    /// A line as HTML.
    fn words(&self, line: &Line) -> String {
        let number = self.numbers.get(&line.id).copied().unwrap_or_default();
        let who = match &line.body.act {
            Act::Answer { key, .. } => key.observer.to_string(),
            _ => line.body.typed_by.to_string(),
        };
        let when = [
            ("when", answer_words::date_and_time(line.body.at).into()),
            ("who", who.into()),
            ("typed", line.body.typed_by.to_string().into()),
        ];
        let when = tell_with("report.typed", &when);
        let question = |finding: &str, site: Site| {
            let place = answer_words::site(LANGUAGE, site);
            let name = answer_words::finding(LANGUAGE, finding);
            escaped(&if place.is_empty() { name } else { format!("{name}, {place}") })
        };
        let said = match &line.body.act {
            Act::Answer { key, answer, .. } => {
                let finding = key.finding.as_str();
                let said = escaped(&answer_words::answer(LANGUAGE, finding, answer));
                format!("{}: <b>{said}</b>", question(finding, key.site))
            }
            Act::Decide { finding, site, answer, reason, .. } => {
                let finding = finding.as_str();
                let said = escaped(&answer_words::answer(LANGUAGE, finding, answer));
                let why = tell_with("report.decided", &[("reason", reason.as_str().into())]);
                format!("{why}: {}: <b>{said}</b>", question(finding, *site))
            }
            Act::Withdraw { supersedes } => {
                let all: Vec<usize> = supersedes.iter().filter_map(|id| self.numbers.get(id).copied()).collect();
                tell_with("report.withdrawn", &[("numbers", listed(&all).into())])
            }
            Act::Alias { carcasses } => {
                let ids = carcasses.map(|id| id.to_string()).join(", ");
                tell_with("report.joins", &[("ids", ids.into())])
            }
            _ => tell("report.unread"),
        };
        match self.gone.get(&line.id) {
            Some(by) => {
                let by = tell_with("report.replaced", &[("n", by.to_string().into())]);
                format!("<b>{number}</b> {when}. <s>{said}</s> ({by})")
            }
            None => format!("<b>{number}</b> {when}. {said}"),
        }
    }
}
