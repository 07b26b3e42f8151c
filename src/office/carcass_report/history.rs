//! The history of every answer: who, when, what it replaced. Numbered, so that readings can name what they rest on.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use super::{LANGUAGE, escaped, tell, tell_with};
use crate::guide::answer_words;
use crate::office::export::withheld::NEVER;
use crate::office::finding_words::{question_words, said_words};
use crate::office::hand::Worked;
use crate::record::{
    Act, Answer, Body, Carcass, CustodyItem, CustodyStep, DeviceId, EntryId, Examination, Site, Subject, named,
    plain_number,
};
use crate::words::{Arg, say};

/// One line.
struct Line {
    id: EntryId,
    body: Body,
}

/// All entries that speak of one carcass, in order of the phones' clocks.
pub(super) struct History {
    lines: Vec<Line>,
    pub(super) numbers: BTreeMap<EntryId, usize>,
    /// Replaced or taken back, by which.
    gone: BTreeMap<EntryId, usize>,
    /// Weighed by a decision for another answer, which is which.
    weighed: BTreeMap<EntryId, usize>,
    /// How many entries of this carcass are of phones that do not count.
    strange: usize,
    /// Entries of the journal of which nobody can say whose they are: their text is withheld, or cannot be read.
    withheld: usize,
    unreadable: usize,
}

/// Numbers as `1, 4, 5`.
pub(super) fn listed(numbers: &[usize]) -> String {
    numbers.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
}

/// Whether an examination is one in which the office marks whom it has called: that stands on its list alone, marks
/// taken back too.
pub(super) fn holds_withheld(exam: &Examination) -> bool {
    NEVER.iter().any(|finding| exam.sheet.was_ever_seen(finding))
}

impl History {
    /// Of the entries that count, or of all where none does; `taken` is what was taken from the carcass, `all` every
    /// entry at hand.
    pub(super) fn of(carcass: &Carcass, taken: &[CustodyItem], worked: &Worked, all: &Worked) -> Self {
        let mut history = Self::lines_of(carcass, taken, worked);
        if !std::ptr::eq(worked, all) {
            let every = Self::lines_of(carcass, taken, all);
            // Bodies stand in the order of their ids.
            let counted = |id: &EntryId| worked.bodies.binary_search_by_key(id, |(one, _)| *one).is_ok();
            history.strange = every.numbers.keys().filter(|id| !counted(id)).count();
        }
        history
    }

    fn lines_of(carcass: &Carcass, taken: &[CustodyItem], worked: &Worked) -> Self {
        let about = worked.places.about(carcass.examinations.keys());
        let bodies: Vec<&(EntryId, Body)> = about.into_iter().filter_map(|at| worked.bodies.get(at)).collect();
        // It may have changed hands under the number that the form gave, or under one that was mended.
        let hands = &worked.hands;
        let of = |item: &'_ CustodyItem| -> Vec<String> {
            item.numbers().filter(|number| hands.is_of(item, number)).map(plain_number).collect()
        };
        let samples: BTreeSet<String> = taken.iter().flat_map(of).collect();
        let about = |act: &Act| match act {
            Act::Decide { finding, .. } if NEVER.contains(&finding.as_str()) => false,
            Act::Answer { key, .. } => match key.subject {
                Subject::Examination(id) => carcass.examinations.get(&id).is_some_and(|exam| !holds_withheld(exam)),
                _ => false,
            },
            Act::Decide { carcass: of, .. } => carcass.joined.contains(of),
            Act::Alias { carcasses } => carcasses.iter().any(|id| carcass.joined.contains(id)),
            Act::Custody { sample, .. } => !plain_number(sample).is_empty() && samples.contains(&plain_number(sample)),
            _ => false,
        };
        let own: BTreeSet<EntryId> = bodies.iter().filter(|(_, body)| about(&body.act)).map(|(id, _)| *id).collect();
        let mut lines: Vec<Line> = bodies
            .iter()
            .filter(|(id, body)| {
                own.contains(id)
                    || matches!(&body.act, Act::Withdraw { supersedes } if supersedes.iter().any(|one| own.contains(one)))
            })
            .map(|(id, body)| Line { id: *id, body: body.clone() })
            .collect();
        lines.sort_by_key(|line| (line.body.at.unix_seconds(), line.id));
        let numbers: BTreeMap<EntryId, usize> = lines.iter().enumerate().map(|(n, line)| (line.id, n + 1)).collect();
        let (mut gone, mut weighed) = (BTreeMap::new(), BTreeMap::new());
        for (n, line) in lines.iter().enumerate() {
            gone.extend(named(&line.body.act).iter().map(|id| (*id, n + 1)));
        }
        for (n, line) in lines.iter().enumerate() {
            if let Act::Decide { supersedes, answer, .. } = &line.body.act
                && !gone.contains_key(&line.id)
            {
                let other =
                    |id: &&EntryId| lines.iter().any(|one| one.id == **id && said(&one.body.act) != Some(answer));
                weighed.extend(supersedes.iter().filter(other).map(|id| (*id, n + 1)));
            }
        }
        let (withheld, unreadable) = (worked.withheld, worked.folded.set_aside.len());
        Self { lines, numbers, gone, weighed, strange: 0, withheld, unreadable }
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
        let also = [
            ("report.not_shown.strange", self.strange),
            ("report.not_shown.withheld", self.withheld),
            ("report.not_shown.unreadable", self.unreadable),
        ];
        for (id, n) in also.into_iter().filter(|(_, n)| *n > 0) {
            let n = Arg::Count(i64::try_from(n).unwrap_or(i64::MAX));
            let _ = writeln!(out, "<p>{}</p>", tell_with(id, &[("n", n)]));
        }
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
        let question = |finding: &str, site: Site| escaped(&question_words(finding, site));
        let said = match &line.body.act {
            Act::Answer { key, answer, .. } => {
                let finding = key.finding.as_str();
                let said = escaped(&said_words(finding, answer));
                format!("{}: <b>{said}</b>", question(finding, key.site))
            }
            Act::Decide { finding, site, answer, reason, .. } => {
                let finding = finding.as_str();
                let said = escaped(&said_words(finding, answer));
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
            Act::Custody { sample, step, from, to, place, seal, condition, note, .. } => {
                let parts = [step_words(*step), hands(from.as_ref(), to), place.clone(), seal_words(seal)];
                let mut parts: Vec<String> = parts.into_iter().chain([condition.clone(), note.clone()]).collect();
                parts.retain(|part| !part.is_empty());
                escaped(&format!("{sample}: {}", parts.join(", ")))
            }
            _ => tell("report.unread"),
        };
        match self.gone.get(&line.id) {
            Some(by) => {
                let by = tell_with("report.replaced", &[("n", by.to_string().into())]);
                format!("<b>{number}</b> {when}. <s>{said}</s> ({by})")
            }
            None => match self.weighed.get(&line.id) {
                Some(by) => {
                    let by = tell_with("report.weighed", &[("n", by.to_string().into())]);
                    format!("<b>{number}</b> {when}. {said} ({by})")
                }
                None => format!("<b>{number}</b> {when}. {said}"),
            },
        }
    }
}

fn said(act: &Act) -> Option<&Answer> {
    match act {
        Act::Answer { answer, .. } | Act::Decide { answer, .. } => Some(answer),
        _ => None,
    }
}

fn step_words(step: CustodyStep) -> String {
    let code = match step {
        CustodyStep::Taken => "taken",
        CustodyStep::Sealed => "sealed",
        CustodyStep::Handed => "handed",
        CustodyStep::Received => "received",
        CustodyStep::UsedUp => "used_up",
    };
    say(LANGUAGE, &format!("custody.step.{code}"), &[])
}

/// Who gave it to whom; who has it, where nobody gave it.
pub(super) fn hands(from: Option<impl ToString>, to: &impl ToString) -> String {
    match from {
        Some(from) => {
            say(LANGUAGE, "custody.from_to", &[("from", from.to_string().into()), ("to", to.to_string().into())])
        }
        None => to.to_string(),
    }
}

/// A seal's number in words; nothing where there is none.
pub(super) fn seal_words(seal: &str) -> String {
    if seal.is_empty() { String::new() } else { say(LANGUAGE, "custody.seal", &[("seal", seal.into())]) }
}
