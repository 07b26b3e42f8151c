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

/// Forks and gaps of a journal, by device and number. What lies before the first entry of a device is a gap too; what
/// lies behind its last cannot be known.
pub fn forks_and_gaps(journal: &Journal) -> Vec<Odd> {
    let mut out: Vec<Odd> = journal.forks().into_iter().map(Odd::Fork).collect();
    let mut before: Option<EntryId> = None;
    for entry in journal.entries() {
        let id = entry.id();
        let last = before.filter(|one| one.device == id.device).map_or(0, |one| one.seq);
        if id.seq > last.saturating_add(1) {
            out.push(Odd::Gap { device: id.device, first: last + 1, last: id.seq - 1 });
        }
        before = Some(id);
    }
    out
}

/// Clocks that went back, each device once. `bodies` stand in the order of their device and number.
pub fn clocks(bodies: &[(EntryId, Body)]) -> Vec<Odd> {
    let mut out: Vec<Odd> = Vec::new();
    for pair in bodies.windows(2) {
        let [(one, earlier), (next, body)] = pair else { continue };
        let known = earlier.at != Moment::EPOCH && body.at != Moment::EPOCH;
        if one.device != next.device || !known || earlier.at.unix_seconds() - body.at.unix_seconds() <= CLOCK_JUMP_S {
            continue;
        }
        match out.last_mut() {
            Some(Odd::Clock { id, times, .. }) if id.device == next.device => *times += 1,
            _ => out.push(Odd::Clock { id: *next, before: earlier.at, at: body.at, times: 1 }),
        }
    }
    out
}

/// Decisions that were not heeded, each device once. `bodies` stand in the order of their device and number.
pub fn unheeded(bodies: &[(EntryId, Body)]) -> Vec<Odd> {
    let mut out: Vec<Odd> = Vec::new();
    for (id, _) in bodies.iter().filter(|(_, body)| Deciders::left_out(&body.act)) {
        match out.last_mut() {
            Some(Odd::Unheeded { device, times }) if *device == id.device => *times += 1,
            _ => out.push(Odd::Unheeded { device: id.device, times: 1 }),
        }
    }
    out
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
