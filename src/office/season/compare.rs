//! Crews of one winter, and winters, beside each other: what was seen or not by counts, what was inferred by draws.

use std::collections::BTreeSet;
use std::convert::Infallible;

use super::kept::Kept;
use super::table::{Comparison, FindingDifference, InferredDifference};
use super::{ages, causes, findings, share, tell};
use crate::office::streamed::abreast::abreast;
use crate::science::season::mixture::Draws;
use crate::science::season::two_groups::difference;

/// Fewest carcasses of each group. Ours.
pub const FEWEST: usize = 5;
/// Most crews that are compared, those with most carcasses.
const MOST_CREWS: usize = 6;
/// Tells the draws of the second group from those of the first.
const SECOND: u64 = 2;
const FIRST: u64 = 1;

/// Two groups, named.
struct Two<'r> {
    kind: &'static str,
    names: [String; 2],
    groups: [Vec<&'r Kept>; 2],
}

/// Each crew against all others of the winter, then the winter against the one before it that has carcasses. With more
/// than one thread several are drawn at a time; every number is found from its place, so that this moves none.
pub fn table(here: &[&Kept], all: &[&Kept], winter: i32, threads: usize) -> Vec<Comparison> {
    let mut pairs: Vec<Two> = Vec::new();
    let mut crews: Vec<(usize, &str)> = here
        .iter()
        .filter_map(|row| row.crew.as_deref())
        .collect::<BTreeSet<_>>()
        .into_iter()
        .map(|crew| (here.iter().filter(|row| row.crew.as_deref() == Some(crew)).count(), crew))
        .collect();
    crews.sort_by(|a, b| b.0.cmp(&a.0).then(a.1.cmp(b.1)));
    for (_, crew) in crews.into_iter().take(MOST_CREWS) {
        let (own, others) = here.iter().copied().partition(|row| row.crew.as_deref() == Some(crew));
        let names = [crew.to_owned(), tell("season.compare.all_others", &[])];
        pairs.push(Two { kind: "crew", names, groups: [own, others] });
    }
    let before = all.iter().filter_map(|row| row.winter).filter(|other| *other < winter).max();
    if let Some(before) = before {
        let earlier = all.iter().copied().filter(|row| row.winter == Some(before) && row.counts()).collect();
        let names = [winter, before].map(super::build::name_of);
        pairs.push(Two { kind: "winter", names, groups: [here.to_vec(), earlier] });
    }
    pairs.retain(|two| two.groups.iter().all(|group| group.len() >= FEWEST));
    let mut compared = Vec::new();
    let Ok(()) = abreast(&pairs, threads, compare, |one| {
        compared.push(one);
        Ok::<_, Infallible>(())
    });
    compared
}

fn compare(two: &Two) -> Comparison {
    let [first, second] = &two.groups;
    let mut inferred = Vec::new();
    let both = |of: fn(&[&Kept], u64) -> Option<Draws>| of(first, FIRST).zip(of(second, SECOND));
    for (draws, states) in [(both(causes::draws), causes::compared()), (both(ages::draws), ages::compared())] {
        let Some((a, b)) = draws else { continue };
        for (what, states) in states {
            let occurs = a.line(&states).prior > 0.0 || b.line(&states).prior > 0.0;
            if let Some([difference, low, high]) = a.less(&b, &states).filter(|_| occurs) {
                inferred.push(InferredDifference {
                    what,
                    of: [a.carcasses, b.carcasses],
                    difference: share(difference),
                    low: share(low),
                    high: share(high),
                });
            }
        }
    }
    Comparison {
        kind: two.kind.to_owned(),
        first: two.names.first().cloned().unwrap_or_default(),
        second: two.names.last().cloned().unwrap_or_default(),
        carcasses: [first.len(), second.len()],
        findings: findings::FINDINGS.iter().filter_map(|finding| of_finding(first, second, finding)).collect(),
        inferred,
        note: tell("season.compare.note", &[]),
    }
}

/// One finding in both; nothing where nobody came to a result in one of them.
fn of_finding(first: &[&Kept], second: &[&Kept], finding: &str) -> Option<FindingDifference> {
    let [seen_a, not_a, none_a] = findings::tally(first, finding);
    let [seen_b, not_b, none_b] = findings::tally(second, finding);
    let found = difference(seen_a, seen_a + not_a, seen_b, seen_b + not_b)?;
    Some(FindingDifference {
        finding: finding.to_owned(),
        first: [seen_a, seen_a + not_a],
        second: [seen_b, seen_b + not_b],
        no_result: [none_a, none_b],
        difference: share(found.difference),
        low: share(found.low),
        high: share(found.high),
        fisher_p: share(found.fisher_p),
    })
}
