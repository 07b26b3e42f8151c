//! What the office said of carcasses: which are one animal, and which answers count. Only an office's fold holds it.

use std::collections::{BTreeMap, BTreeSet};

use uuid::Uuid;

use super::{Act, Body, Carcass, EntryId, FindingCode, Fold, Site, Standing};
use crate::order::Gather as _;

/// The office's decisions on one question.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Decisions {
    pub(super) made: Vec<Standing>,
    /// What each of them weighed, in the same order.
    rests_on: Vec<BTreeSet<EntryId>>,
    /// What was weighed, with the places of the decisions that did: looked up, so that no chain of decisions is gone
    /// through more than once.
    pub(super) weighed: BTreeMap<EntryId, Vec<usize>>,
}

impl Decisions {
    fn add(&mut self, one: Standing, weighed: BTreeSet<EntryId>) {
        for id in &weighed {
            self.weighed.entry(*id).or_default().push(self.made.len());
        }
        self.made.push(one);
        self.rests_on.push(weighed);
    }
}

impl Carcass {
    /// Whether what an entry says counts: no decision weighed it, or one that holds chose what it says. A decision may
    /// be weighed by a later one; in a ring of them, which no honest chain holds, nothing is chosen.
    pub fn counts(&self, finding: &str, site: Site, one: &Standing) -> bool {
        let Some(decided) = self.decided.get(&(finding.into(), site)) else { return true };
        let mut seen = BTreeSet::new();
        let mut waiting = vec![one.id];
        while let Some(id) = waiting.pop() {
            let Some(by) = decided.weighed.get(&id) else { return true };
            let chose = by.iter().filter_map(|at| decided.made.get(*at)).filter(|by| by.answer == one.answer);
            waiting.extend(chose.map(|by| by.id).filter(|id| seen.insert(*id)));
        }
        false
    }

    /// These entries on a question, and every decision on it that rests on one of them, if only through another decision.
    pub fn with_decisions(&self, finding: &str, site: Site, ids: &[EntryId]) -> BTreeSet<EntryId> {
        let mut all: BTreeSet<EntryId> = ids.iter().copied().gather();
        let Some(decided) = self.decided.get(&(finding.into(), site)) else { return all };
        let mut waiting = ids.to_vec();
        while let Some(id) = waiting.pop() {
            let by = decided.weighed.get(&id).into_iter().flatten().filter_map(|at| decided.made.get(*at));
            waiting.extend(by.map(|by| by.id).filter(|id| all.insert(*id)));
        }
        all
    }

    /// The office's decisions on a question that no later one weighed, each with the answers that it rests on, if only
    /// through another decision; of what two decisions both rest on, the second has one answer at least.
    pub fn decisions(&self, finding: &str, site: Site) -> Vec<(&Standing, BTreeSet<EntryId>)> {
        let Some(decided) = self.decided.get(&(finding.into(), site)) else { return Vec::new() };
        let of: BTreeMap<EntryId, &BTreeSet<EntryId>> =
            decided.made.iter().zip(&decided.rests_on).map(|(one, on)| (one.id, on)).collect();
        let mut ground: BTreeMap<EntryId, EntryId> = BTreeMap::new();
        let mut out = Vec::new();
        for one in decided.made.iter().filter(|one| !decided.weighed.contains_key(&one.id)) {
            let (mut answers, mut seen, mut waiting) = (BTreeSet::new(), BTreeSet::new(), vec![one.id]);
            while let Some(id) = waiting.pop() {
                if !seen.insert(id) {
                    continue;
                }
                match (ground.get(&id), of.get(&id)) {
                    (Some(below), _) => drop(answers.insert(*below)),
                    (None, Some(on)) => waiting.extend(on.iter().copied()),
                    (None, None) => drop(answers.insert(id)),
                }
            }
            if let Some(first) = answers.first() {
                ground.extend(seen.into_iter().map(|id| (id, *first)));
            }
            out.push((one, answers));
        }
        out
    }

    /// Every question on which the office decided.
    pub fn decided_questions(&self) -> impl Iterator<Item = (&FindingCode, Site)> {
        self.decided.keys().map(|(code, site)| (code, *site))
    }

    /// Every place of a finding at which the office decided.
    pub fn decided_sites(&self, finding: &str) -> impl Iterator<Item = Site> {
        self.decided_questions().filter(move |(code, _)| code.as_str() == finding).map(|(_, site)| site)
    }
}

/// What the office joined and decided.
pub(super) fn decide(out: &mut Fold, bodies: &[&(EntryId, Body)], superseded: &BTreeSet<EntryId>) {
    let mut all = Deciding::default();
    for body in bodies {
        all.take(body, superseded);
    }
    all.settle(out);
}

/// Joins and decisions, collected before any of them is carried out.
#[derive(Debug, Default)]
pub(super) struct Deciding {
    aliases: Vec<[Uuid; 2]>,
    decisions: Vec<Decision>,
}

/// Of a carcass, on a question: what it weighed, and what stands in its place.
type Decision = (Uuid, (FindingCode, Site), BTreeSet<EntryId>, Standing);

impl Deciding {
    pub(super) fn take(&mut self, (id, body): &(EntryId, Body), superseded: &BTreeSet<EntryId>) {
        match &body.act {
            Act::Alias { carcasses } if !superseded.contains(id) => self.aliases.push(*carcasses),
            Act::Decide { carcass, finding, site, answer, supersedes, .. } if !superseded.contains(id) => {
                let standing = Standing {
                    id: *id,
                    subject: None,
                    observer: body.typed_by.clone(),
                    answer: answer.clone(),
                    at: body.at,
                    step: None,
                };
                let weighed = supersedes.iter().copied().gather();
                self.decisions.push((*carcass, (finding.clone(), *site), weighed, standing));
            }
            _ => {}
        }
    }

    pub(super) fn settle(self, out: &mut Fold) {
        join(out, &self.aliases);
        let mut homes = BTreeMap::new();
        if !self.decisions.is_empty() {
            let of = |c: &Carcass| c.joined.iter().map(|id| (*id, c.id)).collect::<Vec<_>>();
            homes.extend(out.carcasses.values().flat_map(of));
        }
        for (carcass, question, weighed, one) in self.decisions {
            if let Some(home) = homes.get(&carcass).and_then(|home| out.carcasses.get_mut(home)) {
                home.decided.entry(question).or_default().add(one, weighed);
            }
        }
    }
}

/// Join carcasses that an alias names; classes meet where they share an id. Each id points to another of its class until
/// one points to itself: a season of joins, and a chain of them made to do harm, is gone through about once.
fn join(out: &mut Fold, aliases: &[[Uuid; 2]]) {
    if aliases.is_empty() {
        return;
    }
    let mut to: BTreeMap<Uuid, Uuid> = BTreeMap::new();
    for [one, other] in aliases {
        let (one, other) = (first_of(&mut to, *one), first_of(&mut to, *other));
        to.insert(one.max(other), one.min(other));
    }
    let mut classes: BTreeMap<Uuid, BTreeSet<Uuid>> = BTreeMap::new();
    let ids: Vec<Uuid> = to.keys().copied().collect();
    for id in ids {
        classes.entry(first_of(&mut to, id)).or_default().insert(id);
    }
    for (smallest, joined) in classes.into_iter().filter(|(_, joined)| joined.len() > 1) {
        let mut parts = joined.iter().filter_map(|id| out.carcasses.remove(id)).peekable();
        if parts.peek().is_none() {
            continue;
        }
        let mut whole = Carcass::default();
        for part in parts {
            whole.examinations.extend(part.examinations);
        }
        (whole.id, whole.joined) = (smallest, joined);
        out.carcasses.insert(smallest, whole);
    }
}

/// The smallest id of a class so far. What lies on the way points nearer to it from then on, so that the next way is
/// shorter.
fn first_of(to: &mut BTreeMap<Uuid, Uuid>, id: Uuid) -> Uuid {
    let mut at = id;
    let mut next = *to.entry(at).or_insert(at);
    while next != at {
        let after = to.get(&next).copied().unwrap_or(next);
        to.insert(at, after);
        (at, next) = (next, after);
    }
    at
}
