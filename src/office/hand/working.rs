//! The archive worked out in parts, each short: a page answers taps in between.

use std::collections::BTreeSet;
use std::collections::btree_map::{BTreeMap, Entry as At, IntoValues};
use std::sync::Arc;

use super::{Figures, Places, Stand, Worked};
use crate::bundle::{Contents, PhoneReading};
use crate::office::cards::Cards;
use crate::office::chains::Oddities;
use crate::office::opening::{Judged, Outcome};
use crate::office::recompute::Recomputing;
use crate::office::streamed::{body_again, unreadable};
use crate::record::{
    Body, Deciders, Digest, Entry, EntryId, Finishing, Fold, Folding, Moment, Setback, Stored, Superseded,
};
use uuid::Uuid;

/// Entries that are gone through in one part.
const AT_ONCE: usize = 100;

/// Work that is not done yet.
#[derive(Debug)]
pub struct Working {
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
        let counted = Half::of(files.iter().flat_map(|judged| judged.counted()));
        let looked = Half::of(files.iter().filter(|_| !alike).flat_map(|judged| judged.intact()));
        Self { of, cards, now, alike, counted, looked }
    }

    /// Does one part; false where nothing is left.
    pub fn step(&mut self) -> bool {
        self.counted.step(&self.cards, self.now) || (!self.alike && self.looked.step(&self.cards, self.now))
    }

    /// How many carcasses are read, of how many; of none before they are known.
    pub fn so_far(&self) -> (usize, usize) {
        let (counted, looked) = (self.counted.so_far(), self.looked.so_far());
        (counted.0 + looked.0, counted.1 + looked.1)
    }

    /// Gives some of it back, where nobody waits for it any more; false where nothing is left. All at once would be felt.
    pub fn let_go(&mut self) -> bool {
        self.counted.let_go() || self.looked.let_go()
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
    Gathering(Gathering),
    Reading(Reading),
    Folding {
        folding: Folding,
        taken: usize,
        phones: Phones,
        read: Read,
    },
    Finishing {
        finishing: Finishing,
        phones: Phones,
        read: Read,
    },
    Computing(Recomputing, Read),
    /// Between two of them.
    Empty,
}

/// Every phone's readings, with the bundle that they came in.
type Phones = Vec<(Uuid, PhoneReading)>;

/// Where an entry lies: which bundle, which of its entries.
type Lies = (usize, usize);

/// The union of all entries, each left where it lies: a copy of every text would take the room of the archive again.
#[derive(Debug, Default)]
struct Gathering {
    bundles: Vec<Arc<Contents>>,
    deciders: Deciders,
    /// The next to be looked at.
    at: Lies,
    all: BTreeMap<(EntryId, Digest), Lies>,
    phones: Phones,
}

impl Gathering {
    fn of<'a>(files: impl Iterator<Item = &'a Judged>) -> Self {
        let mut out = Self { deciders: Deciders::nobody(), ..Self::default() };
        for judged in files {
            judged.decider().into_iter().for_each(|device| out.deciders.add(device));
            out.bundles.extend(judged.contents.clone());
        }
        out
    }

    /// The next entries; false where none is left.
    fn step(&mut self) -> bool {
        let Self { bundles, at: (bundle, next), all, phones, .. } = self;
        let Some(contents) = bundles.get(*bundle) else { return false };
        let entries = contents.entries.get(*next..).unwrap_or_default();
        if entries.is_empty() {
            let id = contents.payload.bundle;
            phones.extend(contents.payload.readings.iter().map(|one| (id, one.clone())));
            (*bundle, *next) = (*bundle + 1, 0);
            return true;
        }
        for entry in entries.iter().take(AT_ONCE) {
            let lies = (*bundle, *next);
            // As a journal takes it: a body takes the place of a withheld one. That it agrees with its header needs no
            // look, for the header was made of it when the bundle was opened.
            match all.entry((entry.id(), entry.header.digest())) {
                At::Vacant(free) => drop(free.insert(lies)),
                At::Occupied(mut there) => {
                    if entry_at(bundles, *there.get()).is_some_and(|one| one.stored == Stored::Withheld) {
                        there.insert(lies);
                    }
                }
            }
            *next += 1;
        }
        true
    }
}

fn entry_at(bundles: &[Arc<Contents>], (bundle, entry): Lies) -> Option<&Entry> {
    bundles.get(bundle)?.entries.get(entry)
}

#[derive(Debug)]
struct Reading {
    bundles: Vec<Arc<Contents>>,
    left: IntoValues<(EntryId, Digest), Lies>,
    /// Read once more as strictly as when they were opened.
    unreadable: BTreeSet<EntryId>,
    deciders: Deciders,
    phones: Phones,
    superseded: Superseded,
    read: Read,
}

#[derive(Debug, Default)]
struct Read {
    bodies: Vec<(EntryId, Body)>,
    places: Places,
    set_aside: Vec<Setback>,
    withheld: usize,
    odd: Oddities,
}

impl Reading {
    fn of(gathering: Gathering) -> Self {
        let Gathering { bundles, deciders, all, phones, .. } = gathering;
        let unreadable = bundles.iter().flat_map(|contents| unreadable(contents)).collect();
        // Room for all at once: a list that grows is moved, and of so many that would be felt.
        let read = Read { bodies: Vec::with_capacity(all.len()), ..Read::default() };
        let (left, superseded) = (all.into_values(), Superseded::default());
        Self { bundles, left, unreadable, deciders, phones, superseded, read }
    }

    fn step(&mut self) -> bool {
        let some = self.left.len() > 0;
        let Self { bundles, left, unreadable, deciders, superseded, read, .. } = self;
        for entry in left.take(AT_ONCE).filter_map(|lies| entry_at(bundles, lies)) {
            let id = entry.id();
            read.odd.entry(id);
            if entry.stored == Stored::Withheld {
                read.withheld += 1;
            }
            match body_again(entry, unreadable) {
                Ok(Some(body)) => {
                    let body = deciders.heed(id, body);
                    read.odd.body(id, &body);
                    superseded.note(&body);
                    read.places.note(&body.act, read.bodies.len());
                    read.bodies.push((id, body));
                }
                Ok(None) => {}
                Err(error) => read.set_aside.push(Setback { id, reason: error.to_string() }),
            }
        }
        some
    }
}

impl Half {
    fn of<'a>(files: impl Iterator<Item = &'a Judged>) -> Self {
        Self::Gathering(Gathering::of(files))
    }

    fn step(&mut self, cards: &Arc<Cards>, now: Moment) -> bool {
        let more = match self {
            Self::Gathering(gathering) => gathering.step(),
            Self::Reading(reading) => reading.step(),
            Self::Folding { folding, taken, read, .. } => {
                let next = read.bodies.iter().skip(*taken).take(AT_ONCE);
                next.for_each(|body| folding.take(body));
                *taken += AT_ONCE;
                *taken < read.bodies.len()
            }
            Self::Finishing { finishing, .. } => finishing.step(),
            Self::Computing(parts, _) => return parts.step(),
            Self::Empty => return false,
        };
        if !more {
            self.turn(cards, now);
        }
        true
    }

    /// What comes after that of which nothing is left.
    fn turn(&mut self, cards: &Arc<Cards>, now: Moment) {
        *self = match std::mem::replace(self, Self::Empty) {
            Self::Gathering(gathering) => Self::Reading(Reading::of(gathering)),
            Self::Reading(Reading { superseded, phones, read, .. }) => {
                Self::Folding { folding: Folding::begin(superseded), taken: 0, phones, read }
            }
            Self::Folding { folding, phones, read, .. } => {
                Self::Finishing { finishing: folding.finish(), phones, read }
            }
            Self::Finishing { finishing, phones, mut read } => {
                let folded = Fold { set_aside: std::mem::take(&mut read.set_aside), ..finishing.done() };
                let forks = read.odd.forks().to_vec();
                Self::Computing(Recomputing::begin(folded, forks, phones, Arc::clone(cards), now), read)
            }
            other => other,
        };
    }

    fn so_far(&self) -> (usize, usize) {
        if let Self::Computing(parts, _) = self { parts.so_far() } else { (0, 0) }
    }

    fn let_go(&mut self) -> bool {
        let (read, rest) = match self {
            Self::Gathering(_) | Self::Empty => return false,
            Self::Reading(Reading { read, .. }) => (read, false),
            Self::Folding { folding, read, .. } => (read, folding.let_go()),
            Self::Finishing { finishing, read, .. } => (read, finishing.let_go()),
            Self::Computing(parts, read) => (read, parts.let_go()),
        };
        let left = read.bodies.len().saturating_sub(AT_ONCE);
        let some = !read.bodies.is_empty() || rest;
        read.bodies.truncate(left);
        some
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
        Worked { recomputed: parts.done(), bodies, places, withheld, odd: odd.all() }
    }
}
