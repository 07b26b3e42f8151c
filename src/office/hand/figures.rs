//! What follows from the archive.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::working::Working;
use super::{Hand, Places, Stand};
use crate::card::Card;
use crate::office::cards::Cards;
use crate::office::chains::Odd;
use crate::office::recompute::{CarcassLine, Gathered, Recomputed};
use crate::record::{Body, EntryId, Fold, Journal, Moment, fold};

/// What one set of entries comes to.
#[derive(Clone, Debug)]
pub struct Worked {
    /// Carcasses with their readings.
    pub recomputed: Recomputed,
    /// Every body that can be read, in the order of device and number.
    pub bodies: Vec<(EntryId, Body)>,
    /// Where those of each examination stand.
    pub places: Places,
    /// How many entries there are whose text is withheld.
    pub withheld: usize,
    /// Forks, gaps, clocks that went back.
    pub odd: Vec<Odd>,
}

impl std::ops::Deref for Worked {
    type Target = Recomputed;

    fn deref(&self) -> &Recomputed {
        &self.recomputed
    }
}

/// What follows from the archive.
#[derive(Clone, Debug)]
pub struct Figures {
    /// What enrolled devices wrote: this counts.
    pub counted: Arc<Worked>,
    /// Everything intact together, whoever wrote it: to be looked at, counted in nothing.
    pub looked: Arc<Worked>,
    /// The archive that they were worked out of.
    pub of: Stand,
}

impl Figures {
    /// Carcasses of which only phones that are not enrolled tell.
    pub fn only_looked(&self) -> impl Iterator<Item = &CarcassLine> {
        let counted: BTreeSet<_> = self.counted.carcasses.iter().map(|line| line.carcass).collect();
        let joined = move |line: &CarcassLine| {
            let ids = self.looked.folded.carcasses.get(&line.carcass).map(|carcass| &carcass.joined);
            ids.is_some_and(|ids| ids.iter().any(|id| counted.contains(id)))
        };
        self.looked.carcasses.iter().filter(move |line| !joined(line))
    }
}

impl Hand {
    /// The cards of the archive, and those of its files that are no cards, each with its reason.
    pub fn cards(&self) -> (Cards, Vec<String>) {
        let archive = self.archive();
        let office = self.office_key().and_then(|file| file.public().ok());
        let (mut cards, mut bad) = (Cards::default(), Vec::new());
        for path in archive.cards().unwrap_or_default() {
            let taken = archive.read(&path).map_err(|error| error.to_string()).and_then(|bytes| {
                cards.take(&bytes, office.as_ref()).map_err(|error| format!("{}: {error}", path.display()))
            });
            bad.extend(taken.err());
        }
        (cards, bad)
    }

    /// The signed file of this office's newest card in the archive: the highest serial. One that another office signed
    /// is none, and is no draft for this office's next.
    pub fn newest_card(&self) -> Option<(Card, Vec<u8>)> {
        let archive = self.archive();
        let office = self.office_key().and_then(|file| file.public().ok());
        let cards = archive.cards().unwrap_or_default().into_iter().filter_map(|path| {
            let bytes = archive.read(&path).ok()?;
            let mut one = Cards::default();
            one.take(&bytes, office.as_ref()).ok()?;
            Some((one.newest()?.clone(), bytes))
        });
        cards.max_by_key(|(card, _)| (card.serial, card.valid_from.unix_seconds()))
    }

    /// All entries that count; or of all intact files, whoever signed them.
    pub fn journal(&self, counted: bool) -> Journal {
        let mut gathered = Gathered::default();
        for judged in self.received.values() {
            if counted { gathered.take_counted(judged) } else { gathered.take(judged) }
        }
        gathered.journal
    }

    /// What enrolled devices wrote, folded.
    pub fn folded(&self) -> Fold {
        fold(&self.journal(true))
    }

    /// Everything of the archive, worked out anew with the office's cards as of `now`: what counts, and all together.
    pub fn figures(&self, now: Moment) -> Figures {
        let mut working = self.working(now);
        while working.step() {}
        working.done()
    }

    /// The same in parts. What is taken in from now on is not in it.
    pub fn working(&self, now: Moment) -> Working {
        Working::of((self.received.values().cloned().collect(), self.stand()), Arc::new(self.cards().0), now)
    }
}
