//! Decisions of the office: that two ids are one animal or are not, and which of several answers stands.
//!
//! Each is an entry of the office's own chain, signed like any other: it can be withdrawn, and the fold honours it
//! wherever the carcass is read. What crews wrote stays in their examinations.

use uuid::Uuid;

use crate::record::short_code::short_code;
use crate::record::{Act, Body, Carcass, EntryId, Fold, Question, Site, Standing, Value};

/// Why a decision was not made.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoDecision {
    /// They are joined already.
    #[error("both are one animal already")]
    Already,
    /// The office never joined them.
    #[error("no standing decision joins these two")]
    NotJoined,
    /// No such entry stands on a question of this carcass.
    #[error("no standing answer of this carcass is entry `{0}`")]
    NoEntry(String),
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

/// Every question of a carcass on which different results stand.
pub fn open(carcass: &Carcass) -> Vec<Open<'_>> {
    let of = |(finding, site): (crate::record::FindingCode, Site)| {
        let question = carcass.question(finding.as_str(), site);
        let split = question.is_split();
        split.then(|| Open { finding: finding.as_str().to_owned(), site, standing: question.standing })
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

/// That two ids are two animals after all: takes back every standing decision that joins the one with the other.
///
/// # Errors
/// No standing decision joins them.
pub fn apart(bodies: &[(EntryId, Body)], one: Uuid, other: Uuid) -> Result<Act, NoDecision> {
    let taken_back = |id: &EntryId| {
        bodies.iter().any(|(_, body)| matches!(&body.act, Act::Withdraw { supersedes } if supersedes.contains(id)))
    };
    let joins = |body: &Body| matches!(&body.act, Act::Alias { carcasses } if carcasses.contains(&one) && carcasses.contains(&other));
    let supersedes: Vec<EntryId> =
        bodies.iter().filter(|(id, body)| joins(body) && !taken_back(id)).map(|(id, _)| *id).collect();
    if supersedes.is_empty() { Err(NoDecision::NotJoined) } else { Ok(Act::Withdraw { supersedes }) }
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
        if !question.is_split() {
            return Err(NoDecision::NotSplit);
        }
        let supersedes = question.standing.iter().map(|one| one.id).collect();
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

/// Every carcass with an open question, in order of ids.
pub fn all_open(folded: &Fold) -> Vec<(&Carcass, Vec<Open<'_>>)> {
    folded.carcasses.values().map(|carcass| (carcass, open(carcass))).filter(|(_, open)| !open.is_empty()).collect()
}

/// Carcasses of which a crew says that they are one: it began at the code that another phone showed. Who joined by
/// a code is in the first place; not joined yet. A code that no carcass has is left out.
pub fn said_same(folded: &Fold) -> Vec<(&Carcass, &Carcass)> {
    let mut pairs = Vec::new();
    for carcass in folded.carcasses.values() {
        let said = carcass.question("same_carcass_as_code", Site::NONE);
        for standing in said.standing {
            let Some(Value::Text(code)) = standing.answer.value() else { continue };
            let has_code = |other: &&Carcass| other.joined.iter().any(|id| short_code(*id) == *code);
            let other = folded.carcasses.values().find(has_code).filter(|other| other.id != carcass.id);
            pairs.extend(other.map(|other| (carcass, other)));
        }
    }
    pairs
}
