//! How far a device's chain is whole, and what breaks it.

use std::collections::{BTreeMap, BTreeSet};

use super::row::Kept;
use crate::order::Gather as _;
use crate::record::{Act, DeviceId, Digest, Entry, EntryId, Head};

/// Why a new chain begins.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Break {
    /// Entries are missing.
    Gap {
        /// The first number that is missing.
        first: u64,
    },
    /// An entry cannot be read, or does not follow from the one before it.
    Damage {
        /// Its number.
        seq: u64,
    },
    /// Entries are here, but not the key of the device that wrote them.
    LostKey,
}

impl std::fmt::Display for Break {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Gap { first } => write!(f, "entries are missing from number {first} on"),
            Self::Damage { seq } => write!(f, "entry {seq} is damaged"),
            Self::LostKey => f.write_str("the key of the device that wrote the earlier entries is lost"),
        }
    }
}

/// All readable entries that are stored or about to be, and the numbers at which something stands
/// that cannot be read.
#[derive(Default)]
pub(super) struct Pool {
    /// Under their own number.
    pub(super) rows: BTreeMap<EntryId, Kept>,
    /// Whose number is taken by another.
    pub(super) forks: BTreeMap<(EntryId, Digest), Kept>,
    /// Numbers at which something unreadable stands.
    pub(super) broken: BTreeSet<EntryId>,
}

/// The state of one device's chain.
pub(super) struct Chain {
    /// The end of the part that is whole.
    pub(super) good: Head,
    /// The highest number that is or was in use.
    pub(super) highest: u64,
    /// What breaks it after that part, where something does.
    pub(super) broken: Option<Break>,
}

impl Pool {
    /// Whether something stands at that number.
    pub(super) fn is_taken(&self, id: EntryId) -> bool {
        self.rows.contains_key(&id) || self.broken.contains(&id)
    }

    /// Whether that very entry is stored.
    pub(super) fn has(&self, kept: &Kept) -> bool {
        self.forks.contains_key(&(kept.id(), kept.digest))
            || self.rows.get(&kept.id()).is_some_and(|row| row.digest == kept.digest)
    }

    /// Every device that wrote something here.
    pub(super) fn devices(&self) -> BTreeSet<DeviceId> {
        let forks = self.forks.keys().map(|(id, _)| id);
        self.rows.keys().chain(&self.broken).chain(forks).map(|id| id.device).gather()
    }

    /// Entries of all kinds at one number, the stored one first.
    fn at(&self, id: EntryId) -> impl Iterator<Item = &Kept> {
        let forks = self.forks.range((id, Digest([0; 32]))..=(id, Digest([255; 32]))).map(|(_, kept)| kept);
        self.rows.get(&id).into_iter().chain(forks)
    }

    fn numbers(&self, device: DeviceId) -> BTreeSet<u64> {
        let all = EntryId { device, seq: 0 }..=EntryId { device, seq: u64::MAX };
        let forks = (*all.start(), Digest([0; 32]))..=(*all.end(), Digest([255; 32]));
        let rows = self.rows.range(all.clone()).map(|(id, _)| id.seq);
        rows.chain(self.broken.range(all).map(|id| id.seq))
            .chain(self.forks.range(forks).map(|((id, _), _)| id.seq))
            .gather()
    }

    /// Follow a device's chain from its first entry. `noted` are heads that were stored for it.
    ///
    /// Where a fork leaves two ways, both are followed and the one that goes further stands: neither is
    /// damage. A break that a later `NewChain` entry has answered is no break any more: such an entry
    /// follows any earlier head of the whole part.
    pub(super) fn follow(&self, device: DeviceId, noted: &[Head]) -> Chain {
        let mut good = Head::start(device);
        let mut ways = vec![good];
        let mut passed: BTreeSet<Digest> = BTreeSet::new();
        let mut broken = None;
        let mut highest = 0;
        for seq in self.numbers(device) {
            let id = EntryId { device, seq };
            highest = seq;
            let follows = |kept: &&Kept| ways.iter().any(|way| kept.follows(way));
            let mut next: Vec<Head> = self.at(id).filter(follows).map(Kept::head).collect();
            if next.is_empty() {
                next.extend(self.at(id).filter(|kept| begins_anew(&kept.entry, &passed)).map(Kept::head));
            }
            if let Some(first) = next.first() {
                good = *first;
                passed.extend(next.iter().filter_map(|way| way.digest));
                ways = next;
                broken = None;
            } else if seq > good.seq + 1 && !self.broken.contains(&EntryId { device, seq: good.seq + 1 }) {
                broken.get_or_insert(Break::Gap { first: good.seq + 1 });
            } else {
                broken.get_or_insert(Break::Damage { seq });
            }
        }
        for head in noted.iter().filter(|head| head.device == device) {
            if head.seq > highest {
                broken.get_or_insert(Break::Gap { first: highest + 1 });
                highest = head.seq;
            } else if head.seq == good.seq && !ways.iter().any(|way| way.digest == head.digest) {
                broken.get_or_insert(Break::Damage { seq: head.seq });
            }
        }
        Chain { good, highest, broken }
    }

    /// The devices whose last head no later chain names: the end of the line of chains.
    pub(super) fn unanswered(&self) -> BTreeSet<DeviceId> {
        let mut all = self.devices();
        for Kept { entry, .. } in self.rows.values().chain(self.forks.values()) {
            if let Some(Act::NewChain { last_good: Some(id), .. }) = act(entry)
                && id.device != entry.header.device
            {
                all.remove(&id.device);
            }
        }
        all
    }
}

fn act(entry: &Entry) -> Option<Act> {
    entry.body().ok().flatten().map(|body| body.act)
}

fn begins_anew(entry: &Entry, passed: &BTreeSet<Digest>) -> bool {
    let from_here = entry.header.prev.is_none_or(|prev| passed.contains(&prev));
    from_here && matches!(act(entry), Some(Act::NewChain { .. }))
}
