//! What follows from the archive.

use std::collections::BTreeSet;

use super::Hand;
use crate::card::Card;
use crate::office::cards::Cards;
use crate::office::opening::Outcome;
use crate::office::recompute::{CarcassLine, Gathered, Recomputed};
use crate::record::{Fold, Journal, Moment, fold};

/// What follows from the archive.
#[derive(Clone, Debug)]
pub struct Figures {
    /// What enrolled devices wrote: this counts.
    pub counted: Recomputed,
    /// Everything intact together, whoever wrote it: to be looked at, counted in nothing.
    pub looked: Recomputed,
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
        let cards = self.cards().0;
        let (mut counted, mut all) = (Gathered::default(), Gathered::default());
        let mut alike = true;
        for judged in self.received.values() {
            counted.take_counted(judged);
            all.take(judged);
            alike &= judged.worst() == Outcome::Intact;
        }
        let counted = counted.recompute_with(&cards, now);
        // Most days everything is of enrolled phones, and once is enough.
        let looked = if alike { counted.clone() } else { all.recompute_with(&cards, now) };
        Figures { counted, looked }
    }
}
