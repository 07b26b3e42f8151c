//! Decisions of the office: that two ids are one animal or are not, and which of several answers stands.
//!
//! Each is an entry of the office's own chain, signed like any other: it can be withdrawn, and the fold honours it
//! wherever the carcass is read. What crews wrote stays in their examinations.

use std::collections::{BTreeMap, BTreeSet};

use uuid::Uuid;

use super::lab_results::{SampleNames, sample_and_test};
use crate::record::short_code::short_code;
use crate::record::{
    Act, Body, Carcass, EntryId, FindingDef, Fold, Keeping, Question, Shape, Site, Standing, Value, find, find_office,
    plain_number,
};

/// Why a decision was not made.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoDecision {
    /// They are joined already.
    #[error("both are one animal already")]
    Already,
    /// The office never joined them.
    #[error("no standing decision joins these two")]
    NotJoined,
    /// Neither an id of a carcass nor one that was joined into it.
    #[error("no carcass here has the id {0}")]
    NoCarcass(Uuid),
    /// No such entry stands on a question of this carcass.
    #[error("no standing answer of this carcass is entry `{0}`")]
    NoEntry(String),
    /// It is no decision, or one that a later one weighed.
    #[error("no standing decision on this carcass is entry `{0}`")]
    NoSuchDecision(String),
    /// There is nothing to choose between.
    #[error("only one result stands on that question: there is nothing to decide")]
    NotSplit,
    /// Nobody said why.
    #[error("a decision needs a reason")]
    NoReason,
}

/// A question of a carcass on which different results stand.
#[derive(Clone, Debug)]
pub struct Open<'a> {
    /// Which.
    pub finding: String,
    /// Where.
    pub site: Site,
    /// What stands on it.
    pub standing: Vec<&'a Standing>,
}

/// How a finding that phones know is looked up.
type Known = fn(&str) -> Option<&'static FindingDef>;

/// What stands on a question and does not agree; `None` where one result stands, or where every reading is kept and
/// none replaces another.
fn split(carcass: &Carcass, finding: &str, site: Site, known: Known) -> Option<Vec<Vec<EntryId>>> {
    // The office's own first: in a page `find` lacks them.
    let def = find_office(finding).or_else(|| known(finding));
    if def.is_some_and(|def| def.keeping == Keeping::Repeated || matches!(def.shape, Shape::Photo | Shape::Ref)) {
        return None;
    }
    let ids = |question: &Question<'_>| question.standing.iter().map(|one| one.id).collect::<Vec<_>>();
    let whole = carcass.question(finding, site);
    if def.is_none_or(|def| !def.of_occasion) {
        return whole.is_split().then(|| vec![ids(&whole)]);
    }
    // One occasion each; of a laboratory's result the sample and the test are the occasion, whoever entered it where
    // and by which of the sample's numbers.
    let is_decided = carcass.decided_sites(finding).any(|one| one == site);
    let names = if finding == "test_result" { SampleNames::of_carcass(carcass) } else { SampleNames::default() };
    let mut occasions: Vec<Vec<EntryId>> = Vec::new();
    let mut places: BTreeMap<[String; 2], usize> = BTreeMap::new();
    for exam in carcass.examinations.values() {
        let mut own = ids(&exam.sheet.question(finding, site));
        if is_decided {
            // What was corrected since is still what a decision rests on.
            own.extend(exam.sheet.history());
        }
        let of = sample_and_test(finding, &exam.sheet, &names);
        let at = of.map_or(occasions.len(), |of| *places.entry(of).or_insert(occasions.len()));
        match occasions.get_mut(at) {
            Some(all) => all.extend(own),
            None => occasions.push(own),
        }
    }
    let standing: BTreeMap<EntryId, &Standing> = whole.standing.iter().map(|one| (one.id, *one)).collect();
    let mut apart = Vec::new();
    for own in occasions {
        // A decision stands for the carcass, in place of what it weighed.
        let all = carcass.with_decisions(finding, site, &own);
        let standing = all.iter().filter_map(|id| standing.get(id)).copied().collect();
        let question = Question { standing };
        if question.is_split() {
            apart.push(ids(&question));
        }
    }
    (!apart.is_empty()).then_some(apart)
}

/// Every question of a carcass on which different results stand.
pub fn open(carcass: &Carcass) -> Vec<Open<'_>> {
    open_by(carcass, find)
}

/// The same where phones' findings are looked up so.
pub(super) fn open_by(carcass: &Carcass, known: Known) -> Vec<Open<'_>> {
    let of = |(finding, site): (crate::record::FindingCode, Site)| {
        let ids = split(carcass, finding.as_str(), site, known)?.concat();
        let mut standing = carcass.question(finding.as_str(), site).standing;
        let ids: BTreeSet<EntryId> = ids.into_iter().collect();
        standing.retain(|one| ids.contains(&one.id));
        Some(Open { finding: finding.as_str().to_owned(), site, standing })
    };
    carcass.questions().into_iter().filter_map(of).collect()
}

/// That two ids are one animal.
///
/// # Errors
/// They are joined already.
pub fn same(one: &Carcass, other: &Carcass) -> Result<Act, NoDecision> {
    if one.id == other.id {
        return Err(NoDecision::Already);
    }
    Ok(Act::Alias { carcasses: [one.id.min(other.id), one.id.max(other.id)] })
}

/// Joins of two ids that stand, in order of their entries.
pub fn joins(bodies: &[(EntryId, Body)]) -> Vec<(EntryId, [Uuid; 2])> {
    let (standing, _) = all_joins(bodies);
    standing
}

/// Pairs that a person called two animals: a join of theirs was taken back, and none stands.
pub fn two_animals(bodies: &[(EntryId, Body)]) -> BTreeSet<[Uuid; 2]> {
    let (standing, mut gone) = all_joins(bodies);
    for (_, joined) in standing {
        gone.remove(&joined);
    }
    gone
}

/// Whether a person called these two carcasses two animals, by any of their ids.
pub fn are_two(two: &BTreeSet<[Uuid; 2]>, one: &Carcass, other: &Carcass) -> bool {
    two.iter().any(|[a, b]| {
        let across = |x: &Carcass, y: &Carcass| x.joined.contains(a) && y.joined.contains(b);
        across(one, other) || across(other, one)
    })
}

/// Joins that stand, and pairs of which one was taken back.
type Joins = (Vec<(EntryId, [Uuid; 2])>, BTreeSet<[Uuid; 2]>);

fn all_joins(bodies: &[(EntryId, Body)]) -> Joins {
    let mut taken_back = BTreeSet::new();
    for (_, body) in bodies {
        if let Act::Withdraw { supersedes } = &body.act {
            taken_back.extend(supersedes.iter().copied());
        }
    }
    let (mut standing, mut gone) = (Vec::new(), BTreeSet::new());
    for (id, body) in bodies {
        if let Act::Alias { carcasses: [a, b] } = &body.act {
            let pair = [*a.min(b), *a.max(b)];
            if taken_back.contains(id) {
                gone.insert(pair);
            } else {
                standing.push((*id, pair));
            }
        }
    }
    (standing, gone)
}

/// That two ids are two animals: takes back every standing decision that joins the one with the other. Where none does,
/// the decision is a join that is taken back in the same breath: no fold joins by it, whatever its version, and it is
/// what taking apart leaves, so that the pair is not asked about again. `next` is the id that the first act will have.
///
/// # Errors
/// No such carcass; joined by way of a third; called two animals before.
pub fn apart(
    folded: &Fold,
    bodies: &[(EntryId, Body)],
    one: Uuid,
    other: Uuid,
    next: EntryId,
) -> Result<Vec<Act>, NoDecision> {
    let of = |id: Uuid| folded.carcass(id).ok_or(NoDecision::NoCarcass(id));
    let (first, second) = (of(one)?, of(other)?);
    let pair = [one.min(other), one.max(other)];
    let direct: Vec<EntryId> =
        joins(bodies).into_iter().filter(|(_, joined)| *joined == pair).map(|(id, _)| id).collect();
    if !direct.is_empty() {
        return Ok(vec![Act::Withdraw { supersedes: direct }]);
    }
    if first.id == second.id || are_two(&two_animals(bodies), first, second) {
        return Err(NoDecision::NotJoined);
    }
    Ok(vec![Act::Alias { carcasses: pair }, Act::Withdraw { supersedes: vec![next] }])
}

/// That a decision on an answer is taken back: what it weighed stands for itself again.
///
/// # Errors
/// No standing decision of this carcass is that entry.
pub fn undo(carcass: &Carcass, entry: &str) -> Result<Act, NoDecision> {
    let all = carcass.decided_questions().flat_map(|(finding, site)| carcass.decisions(finding.as_str(), site));
    let made = all.map(|(made, _)| made.id).find(|id| id.to_string() == entry);
    let made = made.ok_or_else(|| NoDecision::NoSuchDecision(entry.to_owned()))?;
    Ok(Act::Withdraw { supersedes: vec![made] })
}

/// That the answer of this entry stands in place of all that stand on its question now. A later answer opens it again.
///
/// # Errors
/// No such entry stands there, nothing else does, or no reason is given.
pub fn answer(carcass: &Carcass, entry: &str, reason: &str) -> Result<Act, NoDecision> {
    let reason = reason.trim();
    if reason.is_empty() {
        return Err(NoDecision::NoReason);
    }
    for (finding, site) in carcass.questions() {
        let question: Question<'_> = carcass.question(finding.as_str(), site);
        let Some(chosen) = question.standing.iter().find(|one| one.id.to_string() == entry) else { continue };
        // Of an occasion only its own answers are weighed.
        let apart = split(carcass, finding.as_str(), site, find).unwrap_or_default();
        let Some(supersedes) = apart.into_iter().find(|ids| ids.contains(&chosen.id)) else {
            return Err(NoDecision::NotSplit);
        };
        return Ok(Act::Decide {
            carcass: carcass.id,
            finding,
            site,
            answer: chosen.answer.clone(),
            supersedes,
            reason: reason.to_owned(),
        });
    }
    Err(NoDecision::NoEntry(entry.to_owned()))
}

/// Carcasses of which a crew says that they are one: it began at the code that another phone showed. Who joined by
/// a code is in the first place; not joined yet, and not called two animals. A code that no carcass has is left out.
pub fn said_same<'a>(folded: &'a Fold, two: &BTreeSet<[Uuid; 2]>) -> Vec<(&'a Carcass, &'a Carcass)> {
    let said = |carcass: &'a Carcass| {
        let said = carcass.question("same_carcass_as_code", Site::NONE).standing.into_iter();
        said.filter_map(move |one| match one.answer.value() {
            Some(Value::Text(code)) => Some((carcass, code)),
            _ => None,
        })
    };
    let said: Vec<(&Carcass, &String)> = folded.carcasses.values().flat_map(said).collect();
    let mut called: BTreeMap<String, &Carcass> = BTreeMap::new();
    for carcass in folded.carcasses.values().filter(|_| !said.is_empty()) {
        for id in &carcass.joined {
            called.entry(short_code(*id)).or_insert(carcass);
        }
    }
    let mut pairs = Vec::new();
    for (carcass, code) in said {
        let other = called.get(&plain_number(code)).filter(|other| other.id != carcass.id);
        let other = other.filter(|other| !are_two(two, carcass, other));
        pairs.extend(other.map(|other| (carcass, *other)));
    }
    pairs
}
