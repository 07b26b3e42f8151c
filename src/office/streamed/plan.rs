//! Which part an entry goes to.

use std::collections::BTreeMap;
use std::ops::Range;

use uuid::Uuid;

use super::Bounds;
use super::survey::{Beside, Placed, Settled, Superseded, Survey};
use crate::record::{Act, Subject};

/// Bytes that an examination or a carcass costs beside its text.
const OVERHEAD: u64 = 64;

/// Parts of one kind, each from its first id to that of the next.
#[derive(Debug, Default)]
struct Row {
    first: u32,
    starts: Vec<Uuid>,
}

impl Row {
    /// Cuts what is in the order of its ids; numbers begin with `first`.
    fn cut(first: u32, all: impl Iterator<Item = (Uuid, u64)>, part_bytes: u64) -> Self {
        let (mut starts, mut held) = (Vec::new(), 0);
        for (id, bytes) in all {
            if starts.is_empty() || held + bytes > part_bytes {
                starts.push(id);
                held = 0;
            }
            held += bytes;
        }
        Self { first, starts }
    }

    fn numbers(&self) -> Range<u32> {
        self.first..self.first + u32::try_from(self.starts.len()).unwrap_or(u32::MAX - self.first)
    }

    fn of(&self, id: Uuid) -> Option<u32> {
        let at = self.starts.partition_point(|start| *start <= id).saturating_sub(1);
        self.numbers().nth(at)
    }
}

/// Which part an entry goes to.
#[derive(Debug)]
pub(super) struct Plan {
    /// The part of each examination, in the order of their ids.
    examinations: Vec<(Uuid, u32)>,
    /// The id that names a joined carcass, by each of its ids.
    named: BTreeMap<Uuid, Uuid>,
    /// Parts whose examinations name an outing or a report.
    beside: BTreeMap<Uuid, Vec<u32>>,
    carcasses: Row,
    outings: Row,
    reports: Row,
    adrift: usize,
}

impl Plan {
    /// Parts of about as many bytes as asked for; a carcass and an outing stay whole.
    pub(super) fn of(survey: Survey, bounds: Bounds) -> (Self, Superseded) {
        let Settled { placed, beside: of_beside, joined, superseded } = survey.settled();
        let named = classes(&joined);
        let name = |id: Uuid| named.get(&id).copied().unwrap_or(id);
        let mut sizes: Vec<(Uuid, u64)> =
            placed.iter().filter_map(|one| Some((name(one.carcass?), one.bytes + OVERHEAD))).collect();
        sizes.sort_unstable();
        let whole: u64 = sizes.iter().map(|(_, bytes)| bytes).chain(of_beside.values()).sum();
        let part_bytes = bounds.part_bytes.max(whole / bounds.most_parts.max(1)).max(1);
        let each_once = sizes.chunk_by(|a, b| a.0 == b.0).filter_map(|of_one| {
            let bytes = of_one.iter().map(|(_, bytes)| bytes).sum();
            of_one.first().map(|(id, _)| (*id, bytes))
        });
        let carcasses = Row::cut(0, each_once, part_bytes);
        drop(sizes);
        let of_kind = |wanted: Beside| {
            of_beside.iter().filter(move |((kind, _), _)| *kind == wanted).map(|((_, id), bytes)| (*id, *bytes))
        };
        let outings = Row::cut(carcasses.numbers().end, of_kind(Beside::Outing), part_bytes);
        let reports = Row::cut(outings.numbers().end, of_kind(Beside::Report), part_bytes);
        let mut plan = Self {
            examinations: Vec::with_capacity(placed.len()),
            named: BTreeMap::new(),
            beside: BTreeMap::new(),
            carcasses,
            outings,
            reports,
            adrift: 0,
        };
        for Placed { examination, carcass, names, .. } in placed {
            let Some(part) = carcass.and_then(|id| plan.carcasses.of(name(id))) else {
                plan.adrift += 1;
                continue;
            };
            plan.examinations.push((examination, part));
            for id in names {
                let parts = plan.beside.entry(id).or_default();
                if let Err(at) = parts.binary_search(&part) {
                    parts.insert(at, part);
                }
            }
        }
        plan.named = named;
        (plan, superseded)
    }

    /// How many parts there are.
    pub(super) fn count(&self) -> u32 {
        self.winter_logs() + 1
    }

    /// Examinations that name no carcass: they are in no part.
    pub(super) const fn adrift(&self) -> usize {
        self.adrift
    }

    /// Parts of carcasses, in the order of their ids.
    pub(super) fn carcasses(&self) -> Range<u32> {
        self.carcasses.numbers()
    }

    /// Parts of outings.
    pub(super) fn outings(&self) -> Range<u32> {
        self.outings.numbers()
    }

    /// Parts of reports.
    pub(super) fn reports(&self) -> Range<u32> {
        self.reports.numbers()
    }

    /// The part of all winter logs.
    pub(super) fn winter_logs(&self) -> u32 {
        self.reports.numbers().end
    }

    /// The parts that an entry goes to, each once. What was handed on, said of no carcass or is not known here goes to
    /// none: neither a season nor an export takes it.
    pub(super) fn parts_of(&self, act: &Act) -> Vec<u32> {
        let of_carcass =
            |id: &Uuid| self.carcasses.of(self.named.get(id).copied().unwrap_or(*id)).into_iter().collect();
        let with_beside = |own: Option<u32>, id: &Uuid| {
            self.beside.get(id).into_iter().flatten().copied().chain(own).collect::<Vec<_>>()
        };
        match act {
            Act::Answer { key, .. } => match &key.subject {
                Subject::Examination(id) => {
                    let found = self.examinations.binary_search_by_key(id, |(id, _)| *id).ok();
                    found.and_then(|at| self.examinations.get(at)).map(|(_, part)| *part).into_iter().collect()
                }
                Subject::Outing(id) => with_beside(self.outings.of(*id), id),
                Subject::Report(id) => with_beside(self.reports.of(*id), id),
                Subject::WinterLog(_) => vec![self.winter_logs()],
            },
            Act::Alias { carcasses: [one, _] } => of_carcass(one),
            Act::Decide { carcass, .. } => of_carcass(carcass),
            _ => Vec::new(),
        }
    }
}

/// The smallest id of each class of joined ids, by each of its ids.
fn classes(joined: &[[Uuid; 2]]) -> BTreeMap<Uuid, Uuid> {
    let mut named: BTreeMap<Uuid, Uuid> = joined.iter().flatten().map(|id| (*id, *id)).collect();
    // The name of a class is its smallest id: an id that is not its own name has a smaller one.
    let name = |named: &BTreeMap<Uuid, Uuid>, mut id: Uuid| {
        while let Some(smaller) = named.get(&id).filter(|smaller| **smaller != id) {
            id = *smaller;
        }
        id
    };
    for [one, other] in joined {
        let (one, other) = (name(&named, *one), name(&named, *other));
        named.insert(one.max(other), one.min(other));
    }
    let all: Vec<Uuid> = named.keys().copied().collect();
    all.into_iter().map(|id| (id, name(&named, id))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn classes_meet_where_they_share_an_id() {
        let id = Uuid::from_u128;
        let pairs = [[9, 4], [4, 7], [20, 21], [3, 9], [30, 30], [21, 22]].map(|pair| pair.map(id));
        let named: Vec<(u128, u128)> =
            classes(&pairs).into_iter().map(|(id, name)| (id.as_u128(), name.as_u128())).collect();
        assert_eq!(named, [(3, 3), (4, 3), (7, 3), (9, 3), (20, 20), (21, 20), (22, 20), (30, 30)]);
    }

    #[test]
    fn parts_are_cut_between_ids_and_hold_at_least_one() {
        let id = Uuid::from_u128;
        let row =
            Row::cut(5, [(10, 4), (20, 4), (30, 4), (40, 90), (50, 1)].map(|(n, bytes)| (id(n), bytes)).into_iter(), 8);
        assert_eq!(row.numbers(), 5..9);
        let parts: Vec<Option<u32>> = [1, 10, 25, 30, 40, 49, 50, 60].map(|n| row.of(id(n))).into();
        assert_eq!(parts, [5, 5, 5, 6, 7, 7, 8, 8].map(Some));
        assert_eq!(Row::cut(5, [].into_iter(), 8).of(id(1)), None);
    }
}
