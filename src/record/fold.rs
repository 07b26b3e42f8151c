//! Folding entries into subjects and carcasses. Clocks and the order of files never decide.

use crate::order::{Gather as _, Short as _};
use std::collections::{BTreeMap, BTreeSet};

use uuid::Uuid;

use super::decided::{Decisions, decide};
use super::outline::links;
use super::short_code::short_code;
use super::{
    Act, Answer, Body, CustodyStep, EntryId, FindingCode, Journal, Key, Moment, PersonCode, Setback, Site, Subject,
    Value, Why, plain_number,
};

/// One answer that nothing supersedes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Standing {
    /// Its entry.
    pub id: EntryId,
    /// What was asked; absent for a decision of the office.
    pub subject: Option<Subject>,
    /// Who looked.
    pub observer: PersonCode,
    /// The answer.
    pub answer: Answer,
    /// When, by the device's clock.
    pub at: Moment,
    /// The step that asked, or the rule that wrote it unasked.
    pub step: Option<String>,
}

/// All standing answers to one question.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Question<'a> {
    /// In order of entry id.
    pub standing: Vec<&'a Standing>,
}

impl<'a> Question<'a> {
    /// The different results of those who looked and came to one, in a fixed order.
    pub fn results(&self) -> Vec<&'a Answer> {
        let mut all: Vec<&Answer> = self.standing.iter().map(|s| &s.answer).filter(|a| a.is_informative()).collect();
        all.sort_unstable();
        all.dedup();
        all
    }

    /// True where two people, two occasions or two entries say different things.
    pub fn is_split(&self) -> bool {
        self.results().len() > 1
    }

    /// The one result, where there is exactly one.
    pub fn settled(&self) -> Option<&'a Answer> {
        match self.results().as_slice() {
            [one] => Some(one),
            _ => None,
        }
    }

    /// What to show in one word: the one result; else the first that says why there is none
    /// (could not tell, part gone, not looked); else not looked.
    pub fn answer(&self) -> Answer {
        if let Some(first) = self.results().first() {
            return (*first).clone();
        }
        let rank = |a: &Answer| match a {
            Answer::CantTell { .. } => 0,
            Answer::PartGone { .. } => 1,
            _ => 2,
        };
        self.standing
            .iter()
            .map(|s| &s.answer)
            .min_by_key(|a| (rank(a), (*a).clone()))
            .cloned()
            .unwrap_or(Answer::NotLooked { why: Why::NotGiven })
    }

    /// True where somebody gave any of the five answers by hand.
    pub fn is_answered(&self) -> bool {
        !self.standing.is_empty()
    }
}

/// What stands of one subject.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sheet {
    answers: BTreeMap<(FindingCode, Site), Vec<Standing>>,
    history: Vec<EntryId>,
    conflicts: BTreeSet<(FindingCode, Site)>,
    ever: BTreeSet<(FindingCode, Site, Answer)>,
}

impl Sheet {
    /// All that stands on one question.
    pub fn question(&self, finding: &str, site: Site) -> Question<'_> {
        self.question_at(&(finding.into(), site))
    }

    /// The same, of one that has its answers here: [`Self::asked`] names it.
    pub(crate) fn question_at(&self, asked: &(FindingCode, Site)) -> Question<'_> {
        let standing = self.answers.get(asked).map(|all| all.iter().collect()).unwrap_or_default();
        Question { standing }
    }

    /// Every question that has an answer.
    pub(crate) fn asked(&self) -> impl Iterator<Item = &(FindingCode, Site)> {
        self.answers.keys()
    }

    /// The answer on a question without a place.
    pub fn answer(&self, finding: &str) -> Answer {
        self.question(finding, Site::NONE).answer()
    }

    /// The option seen, on a question without a place; `None` for every other state.
    pub fn choice(&self, finding: &str) -> Option<String> {
        match self.answer(finding) {
            Answer::Seen { value: Value::Choice(code) } => Some(code),
            _ => None,
        }
    }

    /// True where this option was seen (alone or among several).
    pub fn chose(&self, finding: &str, code: &str) -> bool {
        match self.answer(finding) {
            Answer::Seen { value: Value::Choice(one) } => one == code,
            Answer::Seen { value: Value::Choices(all) } => all.iter().any(|c| c == code),
            _ => false,
        }
    }

    /// The number seen, in the finding's scaled integer.
    pub fn number(&self, finding: &str) -> Option<i64> {
        match self.answer(finding) {
            Answer::Seen { value: Value::Number(n) } => Some(n),
            _ => None,
        }
    }

    /// True where something was found.
    pub fn is_seen(&self, finding: &str) -> bool {
        matches!(self.answer(finding), Answer::Seen { .. })
    }

    /// True where any of the five answers was given by hand.
    pub fn is_answered(&self, finding: &str, site: Site) -> bool {
        self.question(finding, site).is_answered()
    }

    /// Every question that has an answer, with what stands on it.
    pub fn answers(&self) -> impl Iterator<Item = (&FindingCode, Site, &[Standing])> {
        self.answers.iter().map(|((code, site), all)| (code, *site, all.as_slice()))
    }

    /// Questions on which one observer's own entries stand against each other.
    pub fn conflicts(&self) -> impl Iterator<Item = (&FindingCode, Site)> {
        self.conflicts.iter().map(|(code, site)| (code, *site))
    }

    /// True where something was once seen here, even if it was taken back or corrected since.
    pub fn was_ever_seen(&self, finding: &str) -> bool {
        self.ever_about(finding).any(|a| matches!(a, Answer::Seen { .. }))
    }

    /// True where this option was once seen at any place of the finding, even if taken back since.
    pub fn was_ever_chosen(&self, finding: &str, code: &str) -> bool {
        let holds = |a: &Answer| match a.value() {
            Some(Value::Choice(one)) => one == code,
            Some(Value::Choices(all)) => all.iter().any(|c| c == code),
            _ => false,
        };
        self.ever_about(finding).any(holds)
    }

    /// True where this was once the answer on a question, even if taken back or corrected since.
    pub fn was_ever_said(&self, finding: &str, site: Site, answer: &Answer) -> bool {
        self.ever.contains(&(finding.into(), site, answer.clone()))
    }

    /// Everything ever said on one question, even if taken back or corrected since.
    pub(crate) fn ever_at(&self, finding: &str, site: Site) -> impl Iterator<Item = &Answer> {
        let first = (FindingCode::from(finding), site, Answer::choice(""));
        let code = first.0.clone();
        self.ever.range(first..).take_while(move |(f, s, _)| *f == code && *s == site).map(|(_, _, a)| a)
    }

    /// Everything ever said of a finding. Asked hundreds of times for one screen: looked up, not searched
    /// for, from the smallest key that it can have.
    fn ever_about(&self, finding: &str) -> impl Iterator<Item = &Answer> {
        let first = (FindingCode::from(finding), Site::NONE, Answer::choice(""));
        let code = first.0.clone();
        self.ever.range(first..).take_while(move |(f, _, _)| *f == code).map(|(_, _, a)| a)
    }

    /// Ids of all entries of this subject, superseded ones too.
    pub fn history(&self) -> &[EntryId] {
        &self.history
    }
}

/// One occasion at a carcass.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Examination {
    /// Its id.
    pub id: Uuid,
    /// `field` or `bench`; `None` where nobody said.
    pub kind: Option<String>,
    /// What stands of it.
    pub sheet: Sheet,
}

/// One change of hands of a sample.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Custody {
    /// Its entry.
    pub id: EntryId,
    /// The sample's number.
    pub sample: String,
    /// What happened.
    pub step: CustodyStep,
    /// Who gave it.
    pub from: Option<PersonCode>,
    /// Who has it.
    pub to: PersonCode,
    /// When, by the device's clock.
    pub at: Moment,
    /// Where.
    pub place: String,
    /// Number read off the seal.
    pub seal: String,
    /// Whether the seal was whole, where somebody looked.
    pub seal_intact: Option<bool>,
    /// State of the thing.
    pub condition: String,
    /// Container, reason, remarks.
    pub note: String,
}

/// One animal, over all its examinations and all ids joined into it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Carcass {
    /// The smallest id of the joined class.
    pub id: Uuid,
    /// All ids of the class.
    pub joined: BTreeSet<Uuid>,
    /// Its examinations.
    pub examinations: BTreeMap<Uuid, Examination>,
    pub(super) decided: BTreeMap<(FindingCode, Site), Decisions>,
}

impl Carcass {
    /// All that stands on one question over all examinations, with the office's decision in place
    /// of the answers that it weighed.
    pub fn question(&self, finding: &str, site: Site) -> Question<'_> {
        self.question_at(&(finding.into(), site))
    }

    /// The same, of one that a sheet names: without a copy of the finding's code for each look-up.
    pub(crate) fn question_at(&self, asked: &(FindingCode, Site)) -> Question<'_> {
        let decided = self.decided.get(asked);
        let stands = |one: &&Standing| decided.is_none_or(|all| !all.weighed.contains_key(&one.id));
        let here = self.examinations.values().filter_map(|e| e.sheet.answers.get(asked));
        let mut standing: Vec<&Standing> = here.flatten().filter(stands).collect();
        standing.extend(decided.into_iter().flat_map(|all| &all.made).filter(stands));
        standing.order_by_key(|s| s.id);
        Question { standing }
    }

    /// Whether the carcass is called so: by one of its ids or their short codes, as people type them.
    pub fn is_called(&self, named: &str) -> bool {
        match Uuid::parse_str(named.trim()) {
            Ok(id) => self.joined.contains(&id),
            Err(_) => self.joined.iter().any(|id| short_code(*id) == plain_number(named)),
        }
    }

    /// Every place at which a finding was answered.
    pub fn sites(&self, finding: &str) -> BTreeSet<Site> {
        self.examinations
            .values()
            .flat_map(|e| e.sheet.answers.keys())
            .filter(|(code, _)| code.as_str() == finding)
            .map(|(_, site)| *site)
            .gather()
    }

    /// Every question that has an answer.
    pub fn questions(&self) -> BTreeSet<(FindingCode, Site)> {
        self.examinations.values().flat_map(|e| e.sheet.answers.keys().cloned()).gather()
    }

    /// The option seen on a question without a place, where all who looked agree.
    pub fn choice(&self, finding: &str) -> Option<String> {
        match self.question(finding, Site::NONE).settled() {
            Some(Answer::Seen { value: Value::Choice(code) }) => Some(code.clone()),
            _ => None,
        }
    }
}

/// What folding a journal gives.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Fold {
    /// Outings by id.
    pub outings: BTreeMap<Uuid, Sheet>,
    /// Reports by id.
    pub reports: BTreeMap<Uuid, Sheet>,
    /// Winter logs by id.
    pub winter_logs: BTreeMap<Uuid, Sheet>,
    /// Carcasses by the smallest id of their class.
    pub carcasses: BTreeMap<Uuid, Carcass>,
    /// Examinations that name no carcass (yet).
    pub adrift: BTreeMap<Uuid, Examination>,
    /// Changes of hands, in order of entry id.
    pub custody: Vec<Custody>,
    /// Entries of kinds that this program does not know; kept and passed on.
    pub unknown: Vec<EntryId>,
    /// Entries that could not be read; set aside.
    pub set_aside: Vec<Setback>,
}

impl Fold {
    /// The sheet of any subject.
    pub fn sheet(&self, subject: Subject) -> Option<&Sheet> {
        match subject {
            Subject::Outing(id) => self.outings.get(&id),
            Subject::Report(id) => self.reports.get(&id),
            Subject::WinterLog(id) => self.winter_logs.get(&id),
            Subject::Examination(id) => self.examination(id).map(|e| &e.sheet),
        }
    }

    /// An examination, wherever it belongs.
    pub fn examination(&self, id: Uuid) -> Option<&Examination> {
        self.adrift.get(&id).or_else(|| self.carcasses.values().find_map(|c| c.examinations.get(&id)))
    }

    /// The carcass that has this id, be it one of several that were joined.
    pub fn carcass(&self, id: Uuid) -> Option<&Carcass> {
        self.carcasses.get(&id).or_else(|| self.carcasses.values().find(|carcass| carcass.joined.contains(&id)))
    }

    /// The carcass of an examination.
    pub fn carcass_of(&self, examination: Uuid) -> Option<&Carcass> {
        self.carcasses.values().find(|c| c.examinations.contains_key(&examination))
    }
}

/// Fold a journal. The result depends on the set of entries alone.
pub fn fold(journal: &Journal) -> Fold {
    let (bodies, set_aside) = journal.bodies();
    let bodies: Vec<&(EntryId, Body)> = bodies.iter().collect();
    Fold { set_aside, ..fold_bodies(&bodies) }
}

/// Fold bodies that were read before.
pub fn fold_bodies(bodies: &[&(EntryId, Body)]) -> Fold {
    fold_part(bodies, &superseded(bodies))
}

/// Fold a part of the bodies: `superseded` holds what of them is replaced or taken back, wherever the entry lies that
/// says so. Whoever takes a journal apart keeps together what belongs to one carcass, with all ids joined into it.
pub fn fold_part(bodies: &[&(EntryId, Body)], superseded: &BTreeSet<EntryId>) -> Fold {
    let mut out = undecided(bodies, superseded);
    decide(&mut out, bodies, superseded);
    out
}

/// Fold what a crew's phone holds: nobody decides there, and decisions, if any came with a bundle, are passed on alone.
/// The phone reads each body once: reading all of them anew after every tap would be felt.
pub fn fold_undecided(bodies: &[&(EntryId, Body)]) -> Fold {
    undecided(bodies, &superseded(bodies))
}

fn superseded(bodies: &[&(EntryId, Body)]) -> BTreeSet<EntryId> {
    let mut out = BTreeSet::new();
    out.extend(bodies.iter().flat_map(|(_, body)| named(&body.act)).copied());
    out
}

/// What was answered and handed on.
fn undecided(bodies: &[&(EntryId, Body)], superseded: &BTreeSet<EntryId>) -> Fold {
    let mut out = Fold::default();
    let mut sheets = BTreeMap::new();
    for body in bodies {
        take(&mut out, &mut sheets, body, superseded);
    }
    for (subject, sheet) in sheets {
        finish(&mut out, subject, sheet);
    }
    out
}

/// Puts what a body says on its subject's sheet, or beside the sheets.
pub(super) fn take(
    out: &mut Fold,
    sheets: &mut BTreeMap<Subject, Sheet>,
    (id, body): &(EntryId, Body),
    superseded: &BTreeSet<EntryId>,
) {
    let stands = !superseded.contains(id);
    match &body.act {
        Act::Answer { key, answer, .. } => {
            let sheet = sheets.entry(key.subject).or_default();
            sheet.history.push(*id);
            sheet.ever.insert((key.finding.clone(), key.site, answer.clone()));
            if stands {
                let standing = Standing {
                    id: *id,
                    subject: Some(key.subject),
                    observer: key.observer.clone(),
                    answer: answer.clone(),
                    at: body.at,
                    step: body.versions.step.clone(),
                };
                sheet.answers.entry((key.finding.clone(), key.site)).or_default().push(standing);
            }
        }
        Act::Custody { sample, step, from, to, place, seal, seal_intact, condition, note } if stands => {
            out.custody.push(Custody {
                id: *id,
                sample: sample.clone(),
                step: *step,
                from: from.clone(),
                to: to.clone(),
                at: body.at,
                place: place.clone(),
                seal: seal.clone(),
                seal_intact: *seal_intact,
                condition: condition.clone(),
                note: note.clone(),
            });
        }
        Act::Unknown { .. } => out.unknown.push(*id),
        Act::Withdraw { .. } | Act::Alias { .. } | Act::Decide { .. } | Act::Custody { .. } | Act::NewChain { .. } => {}
    }
}

/// A sheet on which everything stands, put where it belongs.
pub(super) fn finish(out: &mut Fold, subject: Subject, mut sheet: Sheet) {
    mark_conflicts(&mut sheet);
    place(out, subject, sheet);
}

/// Entries that an act replaces or takes back within its own question. A decision weighs answers
/// for the carcass without taking them out of their examinations; it replaces earlier decisions only.
pub fn named(act: &Act) -> &[EntryId] {
    match act {
        Act::Answer { supersedes, .. } | Act::Withdraw { supersedes } => supersedes,
        _ => &[],
    }
}

fn mark_conflicts(sheet: &mut Sheet) {
    let split = sheet.answers.iter().filter(|(_, all)| {
        let mut by_observer: BTreeMap<&PersonCode, BTreeSet<&Answer>> = BTreeMap::new();
        for s in *all {
            by_observer.entry(&s.observer).or_default().insert(&s.answer);
        }
        by_observer.values().any(|different| different.len() > 1)
    });
    sheet.conflicts = split.map(|(question, _)| question.clone()).gather();
}

fn place(out: &mut Fold, subject: Subject, sheet: Sheet) {
    match subject {
        Subject::Outing(id) => {
            out.outings.insert(id, sheet);
        }
        Subject::Report(id) => {
            out.reports.insert(id, sheet);
        }
        Subject::WinterLog(id) => {
            out.winter_logs.insert(id, sheet);
        }
        Subject::Examination(id) => {
            let kind = sheet.choice(super::EXAMINATION_KIND);
            let carcass = match sheet.answer(links::CARCASS) {
                Answer::Seen { value: Value::Ref(carcass) } => Some(carcass),
                _ => None,
            };
            let examination = Examination { id, kind, sheet };
            match carcass {
                Some(carcass) => {
                    let home = out.carcasses.entry(carcass).or_default();
                    home.id = carcass;
                    home.joined.insert(carcass);
                    home.examinations.insert(id, examination);
                }
                None => {
                    out.adrift.insert(id, examination);
                }
            }
        }
    }
}

/// The ids on a key that stand now: what a new answer on that key supersedes.
pub(crate) fn standing_on(fold: &Fold, key: &Key) -> Vec<EntryId> {
    fold.sheet(key.subject)
        .map(|sheet| sheet.question(key.finding.as_str(), key.site))
        .map(|q| q.standing.iter().filter(|s| s.observer == key.observer).map(|s| s.id).collect())
        .unwrap_or_default()
}

impl Fold {
    /// The entries that a new answer on this key replaces: those of the same observer that stand.
    pub fn superseded_by(&self, key: &Key) -> Vec<EntryId> {
        standing_on(self, key)
    }
}
