//! What to do with what was found at the start. Pure: reads nothing, writes nothing.

use crate::record::{
    Act, Body, DeviceId, Digest, ENTRY_SCHEMA, EntryId, Head, Journal, Moment, PersonCode, Salt, Versions,
};

use super::chain::{Break, Chain, Pool};
use super::copies::{Copies, RawCopy};
use super::row::Kept;
use super::store::{Changes, QuickError, RawRow, SetAside, Shelf, StoreError};
use super::{Seed, row};

/// All that was found.
#[derive(Clone, Debug)]
pub struct Found {
    /// In the store proper, or why it cannot be read.
    pub shelf: Result<Shelf, StoreError>,
    /// In the quick store, or why it cannot be read.
    pub copies: Result<Copies, QuickError>,
}

/// Time and versions for an entry that the program makes by itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stamp {
    /// Local time by the device's clock.
    pub at: Moment,
    /// Zone name; empty where the device tells none.
    pub zone: String,
    /// Versions.
    pub versions: Versions,
}

/// What a plan may need that is not found but made: random bytes and the time.
#[derive(Clone, Debug)]
pub struct Begin {
    /// 32 fresh random bytes, used where no key is found.
    pub seed: Seed,
    /// 16 fresh random bytes, used where a new chain begins.
    pub salt: Salt,
    /// Used where a new chain begins.
    pub stamp: Stamp,
}

/// What the start has to say.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Report {
    /// Entries that only the quick copy held, and that are in the journal again.
    pub recovered: usize,
    /// Entries that the store proper had lost and the second copy gave back.
    pub spared: usize,
    /// Damaged records found now; they are kept as they are.
    pub set_aside: Vec<SetAside>,
    /// How many had been set aside before.
    pub set_aside_before: usize,
    /// Numbers that two different entries claim, found now. Both are kept.
    pub forks: Vec<EntryId>,
    /// Why a new chain begins, where one does.
    pub new_chain: Option<Break>,
    /// Why the store proper cannot be read. What it holds is not shown, and not lost.
    pub store_refused: Option<StoreError>,
    /// Why the quick store cannot be used.
    pub quick_refused: Option<QuickError>,
    /// Why what was mended could not be written. It is tried again with the next answer.
    pub not_written: Option<StoreError>,
}

/// What to do.
#[derive(Clone, Debug)]
pub struct Plan {
    /// All entries that can be read, new ones included.
    pub journal: Journal,
    /// What must go into the store proper, in one transaction.
    pub changes: Changes,
    /// Names of quick copies to drop once that is on disk.
    pub drop: Vec<String>,
    /// The head to go on from.
    pub head: Head,
    /// The key's seed.
    pub seed: Seed,
    /// What to say.
    pub report: Report,
}

/// Make the plan. `device_of` gives the device that a seed's key names.
pub fn plan(found: &Found, begin: &Begin, device_of: impl Fn(&Seed) -> DeviceId) -> Plan {
    let empty = Copies::default();
    let copies = found.copies.as_ref().unwrap_or(&empty);
    let mut planner = Planner::default();
    planner.report.quick_refused = found.copies.as_ref().err().cloned();
    let spared = found.shelf.as_ref().ok().and_then(|shelf| shelf.spared_seed.as_deref());
    let kept = copies.seed.as_deref().and_then(Seed::read).or_else(|| spared.and_then(Seed::read));
    let noted: Vec<Head> = copies.head.as_deref().and_then(row::read_head).into_iter().collect();
    match &found.shelf {
        Ok(shelf) => {
            planner.take_shelf(shelf);
            planner.take_copies(&copies.copies);
            planner.take_spared(&shelf.spared);
            let seed = planner.choose_seed(shelf, kept, begin.seed);
            let heads = shelf.heads.iter().filter_map(|text| row::read_head(text)).chain(noted).collect::<Vec<_>>();
            let head = planner.go_on(device_of(&seed), &heads, begin);
            planner.finish(head, seed)
        }
        Err(refused) => {
            planner.report.store_refused = Some(refused.clone());
            let seed = kept.unwrap_or(begin.seed);
            // Should the store open later after all, no entry may lie there without its key.
            planner.changes.seeds.push(seed);
            let head = planner.go_on_without(device_of(&seed), &copies.copies, &noted);
            planner.finish(head, seed)
        }
    }
}

#[derive(Default)]
struct Planner {
    pool: Pool,
    known_aside: Vec<Digest>,
    changes: Changes,
    drop: Vec<String>,
    report: Report,
}

impl Planner {
    fn take_shelf(&mut self, stored: &Shelf) {
        self.known_aside.clone_from(&stored.set_aside);
        self.report.set_aside_before = stored.set_aside.len();
        for raw in &stored.rows {
            match row::read_at(raw.at, &raw.text) {
                Ok(kept) => {
                    self.pool.rows.insert(kept.id(), kept);
                }
                Err(broken) => {
                    self.pool.broken.extend(raw.at);
                    let place = raw.at.map_or("journal".to_owned(), |id| format!("journal, entry {id}"));
                    self.aside(place, broken.to_string(), &raw.text);
                }
            }
        }
        for text in &stored.forks {
            match row::read_kept(text) {
                Ok(kept) => {
                    self.pool.forks.insert((kept.id(), kept.digest), kept);
                }
                Err(broken) => self.aside("forks".to_owned(), broken.to_string(), text),
            }
        }
    }

    fn take_copies(&mut self, copies: &[RawCopy]) {
        let mut entries: Vec<(Kept, &str)> = Vec::new();
        for copy in copies {
            match row::read_kept(&copy.text) {
                Ok(kept) => entries.push((kept, &copy.name)),
                Err(broken) => {
                    self.aside("quick copy".to_owned(), broken.to_string(), &copy.text);
                    self.drop.push(copy.name.clone());
                }
            }
        }
        entries.sort_by_key(|(kept, _)| (kept.id(), kept.digest));
        for (kept, name) in entries {
            self.take_copy(kept);
            self.drop.push(name.to_owned());
        }
    }

    fn take_spared(&mut self, spared: &[RawRow]) {
        let before = self.report.recovered;
        for raw in spared {
            match row::read_at(raw.at, &raw.text) {
                Ok(kept) => self.take_copy(kept),
                Err(broken) => self.aside("second copy".to_owned(), broken.to_string(), &raw.text),
            }
        }
        self.report.spared = std::mem::replace(&mut self.report.recovered, before) - before;
    }

    fn take_copy(&mut self, kept: Kept) {
        let id = kept.id();
        if self.pool.has(&kept) {
            return;
        }
        let of_a_fork = self.pool.forks.keys().any(|(_, digest)| Some(*digest) == kept.entry.header.prev);
        if self.pool.is_taken(id) || of_a_fork {
            // What cannot be read at that number is no rival: the copy heals it. Nor has what merely
            // follows a fork a rival of its own.
            if self.pool.rows.contains_key(&id) {
                self.report.forks.push(id);
            } else {
                self.report.recovered += 1;
            }
            self.changes.forks.push(kept.entry.clone());
            self.pool.forks.insert((id, kept.digest), kept);
        } else {
            self.report.recovered += 1;
            self.changes.entries.push(kept.entry.clone());
            self.pool.rows.insert(id, kept);
        }
    }

    fn aside(&mut self, place: String, reason: String, text: &str) {
        let item = SetAside { place, reason, text: text.to_owned() };
        let name = item.name();
        if !self.known_aside.contains(&name) {
            self.known_aside.push(name);
            self.report.set_aside.push(item.clone());
            self.changes.set_aside.push(item);
        }
    }

    /// The oldest readable seed stays the device's; a second one is kept, because entries may have
    /// been written under it.
    fn choose_seed(&mut self, stored: &Shelf, kept: Option<Seed>, fresh: Seed) -> Seed {
        let known: Vec<Seed> = stored.seeds.iter().filter_map(|text| Seed::read(text)).collect();
        let seed = known.first().copied().or(kept).unwrap_or(fresh);
        for candidate in [Some(seed), kept].into_iter().flatten() {
            if !known.contains(&candidate) && !self.changes.seeds.contains(&candidate) {
                self.changes.seeds.push(candidate);
            }
        }
        seed
    }

    fn go_on(&mut self, device: DeviceId, heads: &[Head], begin: &Begin) -> Head {
        let chain = self.pool.follow(device, heads);
        let head = match chain {
            Chain { highest: 0, .. } => match self.pool.unanswered().last() {
                Some(other) => {
                    let last = self.pool.follow(*other, &[]).good;
                    self.begin_chain(Head::start(device), last, Break::LostKey, begin)
                }
                None => Head::start(device),
            },
            Chain { broken: None, good, .. } => good,
            Chain { broken: Some(why), good, highest } => {
                self.begin_chain(Head { seq: highest, ..good }, good, why, begin)
            }
        };
        // A head that lags behind its entries is set right with the next commit; one is not made for it.
        if !self.changes.entries.is_empty() {
            self.changes.head = Some(head);
        }
        head
    }

    fn begin_chain(&mut self, from: Head, last: Head, why: Break, begin: &Begin) -> Head {
        let named = last.digest.map(|digest| (EntryId { device: last.device, seq: last.seq }, digest));
        let body = Body {
            schema: ENTRY_SCHEMA,
            act: Act::NewChain {
                last_good: named.map(|(id, _)| id),
                last_digest: named.map(|(_, digest)| digest),
                reason: why.to_string(),
            },
            typed_by: PersonCode::unnamed(),
            at: begin.stamp.at,
            zone: begin.stamp.zone.clone(),
            since_start_ms: None,
            versions: begin.stamp.versions.clone(),
        };
        self.report.new_chain = Some(why);
        // A body of a known kind can always be written; were it not, the chain would go on unnamed.
        let Ok(entry) = from.next(&body, begin.salt) else { return from };
        let kept = Kept::of(entry);
        let head = kept.head();
        self.changes.entries.push(kept.entry.clone());
        self.pool.rows.insert(kept.id(), kept);
        head
    }

    /// The store proper is shut: what the quick store holds is all there is to go by, and nothing is
    /// mended on such a day.
    fn go_on_without(&mut self, device: DeviceId, copies: &[RawCopy], noted: &[Head]) -> Head {
        for kept in copies.iter().filter_map(|copy| row::read_kept(&copy.text).ok()) {
            self.pool.forks.insert((kept.id(), kept.digest), kept);
        }
        let of_ours = self.pool.forks.values().filter(|kept| kept.id().device == device).map(Kept::head);
        let hint = noted.iter().filter(|head| head.device == device).copied();
        of_ours.chain(hint).max_by_key(|head| head.seq).unwrap_or(Head::start(device))
    }

    fn finish(self, head: Head, seed: Seed) -> Plan {
        let mut journal = Journal::new();
        for kept in self.pool.rows.into_values().chain(self.pool.forks.into_values()) {
            // Rows whose text was altered were set aside above: adding cannot fail.
            let _ = journal.add(kept.entry);
        }
        Plan { journal, changes: self.changes, drop: self.drop, head, seed, report: self.report }
    }
}
