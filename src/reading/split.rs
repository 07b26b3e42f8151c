//! Answers that differ: a reading worked out for every way of settling them, and all of them shown.

use super::lens::{Answers, Ask, Lens, Picks, Used, digest_of, ids_of};
use super::local_ids as id;
use super::message_ids::SPLIT_CUT;
use super::shape::{Estimate, Outcome, Reading, Statement, Val, Variant};

/// A reading by one way, and the entries that it used.
pub(super) type Done<'a> = (Reading, Used<'a>);

/// Makes the reading by every way of settling these questions. Where the ways come to different things, no
/// single figure stands: the range takes in all of them, and each is shown with the answers that it takes.
pub(super) fn over<'a>(answers: &Answers<'a>, asks: &[Ask], one: impl Fn(Lens<'_, 'a>, bool) -> Done<'a>) -> Reading {
    let first = Lens::new(answers, Picks::new());
    let (ways, whole) = first.ways(asks);
    let alone = ways.len() == 1;
    let mut used = Used::new();
    let runs: Vec<(Picks, Reading)> = ways
        .into_iter()
        .map(|picks| {
            let (reading, of_way) = one(Lens::new(answers, picks.clone()), alone);
            used.extend(of_way);
            (picks, reading)
        })
        .collect();
    let variants = if alone { Vec::new() } else { runs.iter().map(|run| variant(&first, run)).collect() };
    let mut all = runs.into_iter().map(|(_, reading)| reading);
    let Some(head) = all.next() else { return one(first, true).0 };
    let mut reading = if alone { head } else { merged(head, all.collect(), whole) };
    reading.variants = variants;
    reading.rests_on = ids_of(&used);
    reading.entries_digest = digest_of(&used);
    reading
}

fn variant(lens: &Lens, (picks, reading): &(Picks, Reading)) -> Variant {
    let headline = reading.statements.first().cloned().unwrap_or_else(|| Statement::plain(&reading.title));
    Variant { taken: lens.taken(picks), headline, estimates: reading.estimates.clone() }
}

fn merged(mut head: Reading, others: Vec<Reading>, whole: bool) -> Reading {
    let count = i64::try_from(others.len() + 1).unwrap_or(i64::MAX);
    let says = |reading: &Reading| (reading.outcome, reading.statements.first().cloned());
    let apart = others.iter().any(|other| says(other) != says(&head));
    if apart {
        // What each way comes to is said by the ways themselves.
        head.statements = vec![Statement::plain(id::SPLIT_APART)];
    }
    head.estimates = estimates(&head, &others);
    for other in others {
        head.outcome = match (head.outcome, other.outcome) {
            (Outcome::Read, _) | (_, Outcome::Read) => Outcome::Read,
            (Outcome::Refused, _) | (_, Outcome::Refused) => Outcome::Refused,
            _ => Outcome::NoEvidence,
        };
        let further = usize::from(apart);
        add(&mut head.statements, other.statements.into_iter().skip(further));
        add(&mut head.cautions, other.cautions);
        add(&mut head.sharpen, other.sharpen);
        add(&mut head.sources, other.sources);
    }
    let mut cautions = vec![Statement::plain(id::SPLIT_WAYS).with("count", Val::Count(count))];
    cautions.extend((!whole).then(|| Statement::plain(SPLIT_CUT)));
    head.cautions.splice(0..0, cautions);
    head
}

fn add<T: PartialEq>(list: &mut Vec<T>, more: impl IntoIterator<Item = T>) {
    for one in more {
        if !list.contains(&one) {
            list.push(one);
        }
    }
}

/// The figures over all ways: ranges take in every way, shares are their mean. Ways with other figures
/// than the first are shown with all of theirs.
fn estimates(head: &Reading, others: &[Reading]) -> Vec<Estimate> {
    let units = |reading: &Reading| reading.estimates.iter().map(|e| e.unit.clone()).collect::<Vec<_>>();
    if others.iter().any(|other| units(other) != units(head)) {
        let mut list = head.estimates.clone();
        for other in others {
            add(&mut list, other.estimates.iter().cloned());
        }
        return list;
    }
    let ways = (others.len() + 1) as f64;
    let mut list = head.estimates.clone();
    for (at, into) in list.iter_mut().enumerate() {
        let of_others: Vec<&Estimate> = others.iter().filter_map(|other| other.estimates.get(at)).collect();
        if of_others.iter().all(|other| **other == *into) {
            continue;
        }
        let all = || of_others.iter().copied().chain(head.estimates.get(at));
        into.low = all().filter_map(|e| e.low.or(e.best)).reduce(f64::min);
        into.high = all().filter_map(|e| e.high.or(e.best)).reduce(f64::max);
        if of_others.iter().any(|other| other.best != into.best) {
            into.best = None;
        }
        for share in &mut into.shares {
            let sum: f64 = all().flat_map(|e| &e.shares).filter(|s| s.of == share.of).map(|s| s.probability).sum();
            share.probability = sum / ways;
        }
    }
    list
}
