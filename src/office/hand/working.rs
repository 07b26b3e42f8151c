//! The archive worked out in parts, each short: a page answers taps in between. Only the fold is one piece.

use std::collections::btree_map::IntoValues;
use std::sync::Arc;

use super::{Figures, Places, Stand, Worked};
use crate::bundle::PhoneReading;
use crate::office::cards::Cards;
use crate::office::chains::{Odd, clocks, forks_and_gaps, unheeded};
use crate::office::opening::{Judged, Outcome};
use crate::office::recompute::{Gathered, Recomputing};
use crate::record::{Body, Deciders, Digest, Entry, EntryId, Fold, Moment, Setback, Stored, fold_bodies};
use uuid::Uuid;

/// Entries that are read in one part.
const AT_ONCE: usize = 200;

/// Work that is not done yet.
#[derive(Debug)]
pub struct Working {
    files: std::vec::IntoIter<Arc<Judged>>,
    of: Stand,
    cards: Arc<Cards>,
    now: Moment,
    /// Everything is of enrolled devices, as on most days: once is enough.
    alike: bool,
    counted: Half,
    looked: Half,
}

impl Working {
    pub(super) fn of((files, of): (Vec<Arc<Judged>>, Stand), cards: Arc<Cards>, now: Moment) -> Self {
        let alike = files.iter().all(|judged| judged.worst() == Outcome::Intact);
        let half = || Half::Gathering(Gathered::default());
        Self { files: files.into_iter(), of, cards, now, alike, counted: half(), looked: half() }
    }

    /// Does one part; false where nothing is left.
    pub fn step(&mut self) -> bool {
        if let Some(judged) = self.files.next() {
            self.counted.take(|gathered| gathered.take_counted(&judged));
            if !self.alike {
                self.looked.take(|gathered| gathered.take(&judged));
            }
            return true;
        }
        self.counted.step(&self.cards, self.now) || (!self.alike && self.looked.step(&self.cards, self.now))
    }

    /// How many carcasses are read, of how many; of none before they are known.
    pub fn so_far(&self) -> (usize, usize) {
        let (counted, looked) = (self.counted.so_far(), self.looked.so_far());
        (counted.0 + looked.0, counted.1 + looked.1)
    }

    /// What came of it, once nothing is left.
    pub fn done(self) -> Figures {
        let counted = Arc::new(self.counted.done());
        let looked = if self.alike { Arc::clone(&counted) } else { Arc::new(self.looked.done()) };
        Figures { counted, looked, of: self.of }
    }
}

/// What counts, or all together.
#[derive(Debug)]
#[allow(clippy::large_enum_variant)] // two of them at a time
enum Half {
    Gathering(Gathered),
    Reading(Reading),
    Computing(Recomputing, Read),
    /// Between two of them.
    Empty,
}

#[derive(Debug)]
struct Reading {
    entries: IntoValues<(EntryId, Digest), Entry>,
    deciders: Deciders,
    phones: Vec<(Uuid, PhoneReading)>,
    read: Read,
}

#[derive(Debug, Default)]
struct Read {
    bodies: Vec<(EntryId, Body)>,
    places: Places,
    set_aside: Vec<Setback>,
    withheld: usize,
    odd: Vec<Odd>,
}

impl Read {
    fn take(&mut self, entry: &Entry, deciders: &Deciders) {
        if entry.stored == Stored::Withheld {
            self.withheld += 1;
        }
        match entry.body() {
            Ok(Some(body)) => {
                let body = deciders.heed(entry.id(), body);
                self.places.note(&body.act, self.bodies.len());
                self.bodies.push((entry.id(), body));
            }
            Ok(None) => {}
            Err(error) => self.set_aside.push(Setback { id: entry.id(), reason: error.to_string() }),
        }
    }
}

impl Half {
    fn take(&mut self, take: impl FnOnce(&mut Gathered)) {
        if let Self::Gathering(gathered) = self {
            take(gathered);
        }
    }

    fn step(&mut self, cards: &Arc<Cards>, now: Moment) -> bool {
        match self {
            Self::Computing(parts, _) => parts.step(),
            Self::Reading(reading) if reading.entries.len() > 0 => {
                for entry in reading.entries.by_ref().take(AT_ONCE) {
                    reading.read.take(&entry, &reading.deciders);
                }
                true
            }
            _ => {
                *self = match std::mem::replace(self, Self::Empty) {
                    Self::Gathering(gathered) => {
                        let odd = forks_and_gaps(&gathered.journal);
                        let read = Read { odd, ..Read::default() };
                        let Gathered { journal, phones } = gathered;
                        let deciders = journal.deciders().clone();
                        Self::Reading(Reading { entries: journal.into_entries(), deciders, phones, read })
                    }
                    Self::Reading(Reading { phones, mut read, .. }) => {
                        let refs: Vec<&(EntryId, Body)> = read.bodies.iter().collect();
                        let folded = Fold { set_aside: std::mem::take(&mut read.set_aside), ..fold_bodies(&refs) };
                        read.odd.extend(clocks(&read.bodies).into_iter().chain(unheeded(&read.bodies)));
                        let forks = read.odd.iter().filter_map(|odd| match odd {
                            Odd::Fork(id) => Some(*id),
                            _ => None,
                        });
                        let forks = forks.collect();
                        Self::Computing(Recomputing::begin(folded, forks, phones, Arc::clone(cards), now), read)
                    }
                    other => other,
                };
                true
            }
        }
    }

    fn so_far(&self) -> (usize, usize) {
        if let Self::Computing(parts, _) = self { parts.so_far() } else { (0, 0) }
    }

    fn done(self) -> Worked {
        let (parts, read) = match self {
            Self::Computing(parts, read) => (parts, read),
            // Nothing was asked of it: there is nothing in it.
            _ => (
                Recomputing::begin(Fold::default(), Vec::new(), Vec::new(), Arc::default(), Moment::EPOCH),
                Read::default(),
            ),
        };
        let Read { bodies, places, withheld, odd, .. } = read;
        Worked { recomputed: parts.done(), bodies, places, withheld, odd }
    }
}
