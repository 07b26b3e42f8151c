//! Reading answers off a carcass, noting which entries were used and which way a split was settled.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use super::shape::Taken;
use crate::record::{Answer, Carcass, Digest, EntryId, Question, Sheet, Site, Value, to_canonical};

/// One question.
pub(super) type Ask = (&'static str, Site);
/// Which result of each split question is taken.
pub(super) type Picks = BTreeMap<Ask, usize>;

/// Most combinations of split answers that are worked out.
const MOST_WAYS: usize = 16;

/// Entries used, with their answers.
pub(super) type Used<'a> = BTreeMap<EntryId, &'a Answer>;

/// A view of one carcass, or of one of its examinations.
pub(super) struct Lens<'a> {
    carcass: &'a Carcass,
    sheet: Option<&'a Sheet>,
    picks: Picks,
    used: RefCell<Used<'a>>,
}

impl<'a> Lens<'a> {
    /// Over all examinations.
    pub(super) fn new(carcass: &'a Carcass, picks: Picks) -> Self {
        Self { carcass, sheet: None, picks, used: RefCell::new(Used::new()) }
    }

    /// On one examination only, unless the office has decided.
    pub(super) fn of_examination(carcass: &'a Carcass, sheet: &'a Sheet, picks: Picks) -> Self {
        Self { carcass, sheet: Some(sheet), picks, used: RefCell::new(Used::new()) }
    }

    fn question(&self, (finding, site): Ask) -> Question<'a> {
        let whole = self.carcass.question(finding, site);
        match self.sheet {
            Some(sheet) if whole.standing.iter().all(|s| s.subject.is_some()) => sheet.question(finding, site),
            _ => whole,
        }
    }

    /// The result taken: found, or properly not there. `None` for every other answer.
    pub(super) fn result(&self, finding: &'static str, site: Site) -> Option<&'a Answer> {
        let question = self.question((finding, site));
        for standing in question.standing.iter().filter(|s| s.answer.is_informative()) {
            self.used.borrow_mut().insert(standing.id, &standing.answer);
        }
        let pick = self.picks.get(&(finding, site)).copied().unwrap_or(0);
        question.results().get(pick).copied()
    }

    /// Whatever was said on a question, including why there is no result.
    pub(super) fn said(&self, finding: &'static str, site: Site) -> Answer {
        let question = self.question((finding, site));
        for standing in &question.standing {
            self.used.borrow_mut().insert(standing.id, &standing.answer);
        }
        question.answer()
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

    /// Every number found, for findings of which every reading is kept.
    pub(super) fn numbers(&self, finding: &'static str, site: Site) -> Vec<i64> {
        self.result(finding, site);
        let results = self.question((finding, site)).results();
        results
            .into_iter()
            .filter_map(|answer| match answer {
                Answer::Seen { value: Value::Number(n) } => Some(*n),
                _ => None,
            })
            .collect()
    }

    /// How many different results there are, and what each is.
    fn results(&self, ask: Ask) -> Vec<&'a Answer> {
        self.question(ask).results()
    }

    /// Takes over the entries that another view used.
    pub(super) fn also_used(&self, other: Self) {
        self.used.borrow_mut().extend(other.into_used());
    }

    /// The entries used so far.
    pub(super) fn into_used(self) -> Used<'a> {
        self.used.into_inner()
    }

    /// All ways of settling the questions on which answers differ, the first results first, and whether
    /// every combination is among them.
    pub(super) fn ways(&self, asks: &[Ask]) -> (Vec<Picks>, bool) {
        let split: Vec<(Ask, usize)> =
            asks.iter().map(|ask| (*ask, self.results(*ask).len())).filter(|(_, n)| *n > 1).collect();
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
                let answer = (*self.results((finding, *site)).get(*pick)?).clone();
                Some(Taken { finding: (*finding).to_owned(), site: *site, answer })
            })
            .collect()
    }
}

/// Digest over ids and answers, so that an office that holds the same entries finds the same digest.
pub(super) fn digest_of(used: &Used) -> Digest {
    let lines: Vec<String> =
        used.iter().map(|(id, answer)| format!("{id} {}\n", to_canonical(answer).unwrap_or_default())).collect();
    Digest::of(&lines.iter().map(String::as_bytes).collect::<Vec<_>>())
}

/// The ids used, in order.
pub(super) fn ids_of(used: &Used) -> Vec<EntryId> {
    used.keys().copied().collect::<BTreeSet<_>>().into_iter().collect()
}
