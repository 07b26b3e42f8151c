//! Reading answers off a carcass, noting which entries were used and which way a split was settled.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use crate::order::Gather as _;

use super::shape::Taken;
use super::window::Window;
use crate::record::{Answer, Carcass, Digest, EntryId, FindingCode, Question, Sheet, Site, Value};

/// One question.
pub(super) type Ask = (&'static str, Site);
/// Which result of each split question is taken.
pub(super) type Picks = BTreeMap<Ask, usize>;

/// Most combinations of split answers that are worked out.
const MOST_WAYS: usize = 16;

/// Entries used, with their answers.
pub(super) type Used<'a> = BTreeMap<EntryId, &'a Answer>;

/// What was answered on the questions that readings ask, gathered once.
pub(super) struct Answers<'a> {
    questions: BTreeMap<(&'a str, Site), Gathered<'a>>,
    /// The days on which it can have died, and what they rest on.
    days: Option<(Window, Used<'a>)>,
}

/// One question with its different results.
struct Gathered<'a> {
    question: Question<'a>,
    results: Vec<&'a Answer>,
}

impl<'a> From<Question<'a>> for Gathered<'a> {
    fn from(question: Question<'a>) -> Self {
        let results = question.results();
        Self { question, results }
    }
}

impl<'a> Answers<'a> {
    /// Over all examinations.
    pub(super) fn of(carcass: &'a Carcass, findings: &[&str]) -> Self {
        let mut questions = BTreeMap::new();
        for examination in carcass.examinations.values() {
            for asked in asked(&examination.sheet, findings) {
                questions.entry(named(asked)).or_insert_with(|| carcass.question_at(asked).into());
            }
        }
        Self { questions, days: None }
    }

    /// None.
    pub(super) const fn none() -> Self {
        Self { questions: BTreeMap::new(), days: None }
    }

    /// On a sheet of an outing or a report.
    pub(super) fn of_sheet(sheet: &'a Sheet, findings: &[&str]) -> Self {
        let questions = asked(sheet, findings).map(|asked| (named(asked), sheet.question_at(asked).into()));
        Self { questions: questions.gather(), days: None }
    }

    /// On one examination, the office's decisions in place of what it decided.
    pub(super) fn of_examination(carcass: &'a Carcass, sheet: &'a Sheet, findings: &[&str]) -> Self {
        let questions = asked(sheet, findings)
            .map(|asked| {
                let whole = carcass.question_at(asked);
                let decided = whole.standing.iter().any(|s| s.subject.is_none());
                let question = if decided { whole } else { sheet.question_at(asked) };
                (named(asked), question.into())
            })
            .gather();
        Self { questions, days: None }
    }

    /// The same, with the days on which it can have died.
    pub(super) fn with_days(self, days: Option<Window>, used: &Used<'a>) -> Self {
        Self { days: days.map(|days| (days, used.clone())), ..self }
    }

    /// Places at which any of these findings was answered.
    pub(super) fn sites(&self, findings: &[&str]) -> BTreeSet<Site> {
        self.questions.keys().filter(|(finding, _)| findings.contains(finding)).map(|(_, site)| *site).gather()
    }
}

fn asked<'a>(sheet: &'a Sheet, findings: &[&str]) -> impl Iterator<Item = &'a (FindingCode, Site)> {
    sheet.asked().filter(|(finding, _)| findings.contains(&finding.as_str()))
}

fn named((finding, site): &(FindingCode, Site)) -> (&str, Site) {
    (finding.as_str(), *site)
}

/// A view of answers that settles splits one way and notes what was used.
pub(super) struct Lens<'l, 'a> {
    answers: &'l Answers<'a>,
    picks: Picks,
    used: RefCell<Used<'a>>,
}

impl<'l, 'a> Lens<'l, 'a> {
    /// With splits settled as told, the first result where nothing is told.
    pub(super) fn new(answers: &'l Answers<'a>, picks: Picks) -> Self {
        Self { answers, picks, used: RefCell::new(Used::new()) }
    }

    /// The same view, nothing used yet.
    pub(super) fn again(&self) -> Self {
        Self::new(self.answers, self.picks.clone())
    }

    /// The same view, nothing used yet, for each result of a question that this view does not settle.
    pub(super) fn each_way(&self, ask: Ask) -> Vec<Self> {
        if self.picks.contains_key(&ask) {
            return vec![self.again()];
        }
        let with = |way: Picks| Self::new(self.answers, self.picks.clone().into_iter().chain(way).gather());
        self.ways(&[ask]).0.into_iter().map(with).collect()
    }

    /// The result taken: found, or properly not there. `None` for every other answer.
    pub(super) fn result(&self, finding: &'static str, site: Site) -> Option<&'a Answer> {
        let Gathered { question, results } = self.answers.questions.get(&(finding, site))?;
        let informative = question.standing.iter().filter(|s| s.answer.is_informative());
        self.used.borrow_mut().extend(informative.map(|s| (s.id, &s.answer)));
        let pick = self.picks.get(&(finding, site)).copied().unwrap_or(0);
        results.get(pick).copied()
    }

    /// The days on which it can have died; their entries are used.
    pub(super) fn dated(&self) -> Option<Window> {
        let (days, used) = self.answers.days.as_ref()?;
        self.used.borrow_mut().extend(used.iter().map(|(id, answer)| (*id, *answer)));
        Some(*days)
    }

    /// Whatever was said on a question, including why there is no result.
    pub(super) fn said(&self, finding: &'static str, site: Site) -> Option<Answer> {
        let Gathered { question, .. } = self.answers.questions.get(&(finding, site))?;
        self.used.borrow_mut().extend(question.standing.iter().map(|s| (s.id, &s.answer)));
        Some(question.answer())
    }

    /// The option found.
    pub(super) fn choice(&self, finding: &'static str, site: Site) -> Option<&'a str> {
        match self.result(finding, site)? {
            Answer::Seen { value: Value::Choice(code) } => Some(code),
            _ => None,
        }
    }

    /// The options found; none of them where somebody looked and found none.
    pub(super) fn choices(&self, finding: &'static str, site: Site) -> Option<Vec<&'a str>> {
        match self.result(finding, site)? {
            Answer::Seen { value: Value::Choices(codes) } => Some(codes.iter().map(String::as_str).collect()),
            Answer::NotSeen => Some(Vec::new()),
            _ => None,
        }
    }

    /// The number found, scaled as the finding says.
    pub(super) fn number(&self, finding: &'static str, site: Site) -> Option<i64> {
        match self.result(finding, site)? {
            Answer::Seen { value: Value::Number(n) } => Some(*n),
            _ => None,
        }
    }

    /// Every result, for findings of which every reading is kept.
    pub(super) fn all(&self, finding: &'static str, site: Site) -> &'l [&'a Answer] {
        self.result(finding, site);
        self.answers.questions.get(&(finding, site)).map_or(&[], |gathered| gathered.results.as_slice())
    }

    /// Every number found.
    pub(super) fn numbers(&self, finding: &'static str, site: Site) -> Vec<i64> {
        self.all(finding, site)
            .iter()
            .filter_map(|answer| match answer {
                Answer::Seen { value: Value::Number(n) } => Some(*n),
                _ => None,
            })
            .collect()
    }

    /// Every number that stands, those that say the same each counted.
    pub(super) fn every_number(&self, finding: &'static str, site: Site) -> Vec<i64> {
        self.result(finding, site);
        let standing = self.answers.questions.get(&(finding, site)).map(|gathered| &gathered.question.standing);
        let number = |answer: &Answer| match answer {
            Answer::Seen { value: Value::Number(n) } => Some(*n),
            _ => None,
        };
        standing.into_iter().flatten().filter_map(|s| number(&s.answer)).collect()
    }

    /// Places at which any of these findings was answered.
    pub(super) fn sites(&self, findings: &[&str]) -> BTreeSet<Site> {
        self.answers.sites(findings)
    }

    /// Every question answered, in order.
    pub(super) fn asked(&self, findings: &[&'static str]) -> Vec<Ask> {
        let of = |finding: &'static str| self.sites(&[finding]).into_iter().map(move |site| (finding, site));
        findings.iter().copied().flat_map(of).collect()
    }

    /// Takes over the entries that another view used.
    pub(super) fn also_used(&self, other: Lens<'_, 'a>) {
        self.used.borrow_mut().extend(other.into_used());
    }

    /// The entries used so far.
    pub(super) fn into_used(self) -> Used<'a> {
        self.used.into_inner()
    }

    /// All ways of settling the questions on which answers differ, the first results first, and whether
    /// every combination is among them.
    pub(super) fn ways(&self, asks: &[Ask]) -> (Vec<Picks>, bool) {
        let results = |ask: &Ask| self.answers.questions.get(ask).map_or(0, |gathered| gathered.results.len());
        let split: Vec<(Ask, usize)> = asks.iter().map(|ask| (*ask, results(ask))).filter(|(_, n)| *n > 1).collect();
        let whole = split.iter().try_fold(1_usize, |all, (_, n)| all.checked_mul(*n)).is_some_and(|n| n <= MOST_WAYS);
        let mut ways = vec![Picks::new()];
        for (ask, n) in &split {
            if whole {
                let grown = ways.iter().flat_map(|way| {
                    (0..*n).map(move |pick| {
                        let mut way = way.clone();
                        way.insert(*ask, pick);
                        way
                    })
                });
                ways = grown.collect();
            } else {
                let single = (1..*n).map(|pick| Picks::from([(*ask, pick)]));
                ways.extend(single);
            }
        }
        ways.truncate(2 * MOST_WAYS);
        (ways, whole)
    }

    /// The answers that a way takes on split questions.
    pub(super) fn taken(&self, picks: &Picks) -> Vec<Taken> {
        picks
            .iter()
            .filter_map(|((finding, site), pick)| {
                let gathered = self.answers.questions.get(&(*finding, *site))?;
                let answer = (*gathered.results.get(*pick)?).clone();
                Some(Taken { finding: (*finding).to_owned(), site: *site, answer })
            })
            .collect()
    }
}

/// Digest over ids and answers, so that an office that holds the same entries finds the same digest.
pub(super) fn digest_of(used: &Used) -> Digest {
    let mut lines = String::with_capacity(used.len() * 120);
    for (id, answer) in used {
        // Writing to a text cannot fail.
        let _ = writeln!(lines, "{id} {}", answer.canonical().unwrap_or_default());
    }
    Digest::of(&[lines.as_bytes()])
}

/// The ids used, in order.
pub(super) fn ids_of(used: &Used) -> Vec<EntryId> {
    used.keys().copied().collect()
}
