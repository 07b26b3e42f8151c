//! What is odd in the chains of devices, for a person to look into: forks, gaps, clocks that went back.

use crate::reading::CLOCK_JUMP_S;
use crate::record::{Body, Deciders, DeviceId, EntryId, Journal, Moment};

/// One oddity. None of them moves a figure by itself: both entries of a fork are kept, what is missing is not guessed,
/// and clocks never decide.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Odd {
    /// Two different entries claim one number.
    Fork(EntryId),
    /// Entries that other entries of their device follow or are followed by, and that are not here.
    Gap {
        /// Whose.
        device: DeviceId,
        /// The first number that is missing.
        first: u64,
        /// The last.
        last: u64,
    },
    /// The clock of a device stood further back at an entry than at the one before it.
    Clock {
        /// The first such entry.
        id: EntryId,
        /// At the entry before.
        before: Moment,
        /// At this one.
        at: Moment,
        /// How many such entries the device has.
        times: usize,
    },
    /// Decisions of a device that makes none: they count for nothing.
    Unheeded {
        /// Whose.
        device: DeviceId,
        /// How many.
        times: usize,
    },
}

/// What is odd, looked for entry by entry in the order of device and number: a page does it in short parts.
#[derive(Debug, Default)]
pub struct Oddities {
    forks: Vec<EntryId>,
    gaps: Vec<Odd>,
    clocks: Vec<Odd>,
    unheeded: Vec<Odd>,
    before: Option<EntryId>,
    earlier: Option<(EntryId, Moment)>,
}

impl Oddities {
    /// The next entry, whether it can be read or not.
    pub fn entry(&mut self, id: EntryId) {
        if self.before == Some(id) && self.forks.last() != Some(&id) {
            self.forks.push(id);
        }
        let last = self.before.filter(|one| one.device == id.device).map_or(0, |one| one.seq);
        if id.seq > last.saturating_add(1) {
            self.gaps.push(Odd::Gap { device: id.device, first: last + 1, last: id.seq - 1 });
        }
        self.before = Some(id);
    }

    /// The next body that can be read.
    pub fn body(&mut self, id: EntryId, body: &Body) {
        if let Some((one, earlier)) = self.earlier.replace((id, body.at)) {
            self.clock((one, earlier), (id, body.at));
        }
        if Deciders::left_out(&body.act) {
            match self.unheeded.last_mut() {
                Some(Odd::Unheeded { device, times }) if *device == id.device => *times += 1,
                _ => self.unheeded.push(Odd::Unheeded { device: id.device, times: 1 }),
            }
        }
    }

    fn clock(&mut self, (one, before): (EntryId, Moment), (next, at): (EntryId, Moment)) {
        let known = before != Moment::EPOCH && at != Moment::EPOCH;
        if one.device != next.device || !known || before.unix_seconds() - at.unix_seconds() <= CLOCK_JUMP_S {
            return;
        }
        match self.clocks.last_mut() {
            Some(Odd::Clock { id, times, .. }) if id.device == next.device => *times += 1,
            _ => self.clocks.push(Odd::Clock { id: next, before, at, times: 1 }),
        }
    }

    /// Numbers that two different entries claim.
    pub fn forks(&self) -> &[EntryId] {
        &self.forks
    }

    /// All that was found: forks, gaps, clocks, what was not heeded.
    pub fn all(self) -> Vec<Odd> {
        let forks = self.forks.into_iter().map(Odd::Fork);
        forks.chain(self.gaps).chain(self.clocks).chain(self.unheeded).collect()
    }
}

/// Forks and gaps of a journal, by device and number. What lies before the first entry of a device is a gap too; what
/// lies behind its last cannot be known.
pub fn forks_and_gaps(journal: &Journal) -> Vec<Odd> {
    let mut found = Oddities::default();
    journal.entries().for_each(|entry| found.entry(entry.id()));
    found.all()
}

/// Clocks that went back, each device once. `bodies` stand in the order of their device and number.
pub fn clocks(bodies: &[(EntryId, Body)]) -> Vec<Odd> {
    of_bodies(bodies).clocks
}

/// Decisions that were not heeded, each device once. `bodies` stand in the order of their device and number.
pub fn unheeded(bodies: &[(EntryId, Body)]) -> Vec<Odd> {
    of_bodies(bodies).unheeded
}

fn of_bodies(bodies: &[(EntryId, Body)]) -> Oddities {
    let mut found = Oddities::default();
    for (id, body) in bodies {
        found.body(*id, body);
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bundle::DeviceKey;
    use crate::office::test_chain::TestChain;
    use crate::record::{Act, Entry};

    /// A chain of entries at these seconds.
    fn chain(seed: u8, seconds: &[i64]) -> Vec<Entry> {
        let mut chain = TestChain::of(&DeviceKey::from_seed(&[seed; 32]));
        for second in seconds {
            let at = Moment::from_unix(1_800_000_000 + second, -300).unwrap();
            chain.add(Act::Withdraw { supersedes: vec![] }, "K7", at);
        }
        chain.entries
    }

    fn journal(entries: impl IntoIterator<Item = Entry>) -> Journal {
        let mut journal = Journal::new();
        entries.into_iter().for_each(|entry| journal.add(entry).unwrap());
        journal
    }

    /// A rule of the house.
    #[test]
    fn what_is_missing_doubled_or_set_back_is_told_and_nothing_else() {
        let one = chain(1, &[0, 10, 20, 30, 40, 50]);
        let device = one[0].id().device;
        assert_eq!(forks_and_gaps(&journal(one.clone())), []);
        let held = one.iter().enumerate().filter(|(at, _)| ![0, 2, 3, 5].contains(at)).map(|(_, entry)| entry.clone());
        let gap = |first, last| Odd::Gap { device, first, last };
        assert_eq!(forks_and_gaps(&journal(held)), [gap(1, 1), gap(3, 4)], "what lies behind the last is not known");
        // Two devices are two chains.
        assert_eq!(forks_and_gaps(&journal(one.iter().cloned().chain(chain(2, &[0])))), []);
        // A phone that went on from an old copy of its storage.
        let rival = chain(1, &[0, 10, 21]).pop().unwrap();
        assert_eq!(forks_and_gaps(&journal(one.iter().cloned().chain([rival]))), [Odd::Fork(one[2].id())]);
        let bodies = |seconds: &[i64]| journal(chain(1, seconds)).bodies().0;
        assert_eq!(clocks(&bodies(&[0, CLOCK_JUMP_S, 0])), [], "as much as is let pass");
        let back = bodies(&[0, CLOCK_JUMP_S + 1, 0, 5]);
        let told = |times| Odd::Clock { id: back[2].0, before: back[1].1.at, at: back[2].1.at, times };
        assert_eq!(clocks(&back), [told(1)]);
        assert_eq!(clocks(&bodies(&[0, CLOCK_JUMP_S + 1, 0, 5000, 0])), [told(2)], "once a device");
    }
}
