//! Local cards that the office has at hand, for working readings out again as a phone did and as of today.
//!
//! A card is known by the digest of what was signed, which is what a phone writes beside its readings.

use crate::bundle::{Kind, PublicKey, open};
use crate::card::{Card, Laboratory, LaboratoryFlaw};
use crate::reading::{Given, GivenCard, table_of};
use crate::record::{Digest, Moment};
use std::collections::BTreeMap;

/// Cards by digest.
#[derive(Clone, Debug, Default)]
pub struct Cards {
    held: BTreeMap<Digest, Held>,
}

#[derive(Clone, Debug)]
struct Held {
    card: Card,
    /// Signed by this office; true for every card where the office has no key.
    ours: bool,
}

/// Why a file is no card that can be used.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct NoCard(String);

/// Why there are no laboratories today.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoLaboratories {
    /// No card is in force, or it names none.
    #[error("no local card of this office names a laboratory")]
    None,
    /// They do not hold.
    #[error("{0}")]
    Flaw(#[from] LaboratoryFlaw),
}

impl Cards {
    /// The laboratories of the card of that moment.
    ///
    /// # Errors
    /// See [`NoLaboratories`].
    pub fn laboratories(&self, now: Moment) -> Result<Vec<Laboratory>, NoLaboratories> {
        let all = self.today(now).map(|given| given.card.laboratories()).transpose()?.unwrap_or_default();
        if all.is_empty() { Err(NoLaboratories::None) } else { Ok(all) }
    }

    /// Takes in a signed card; `office` is the office's key, where it has one. True where the office signed
    /// it. Another's card only serves to work out again what a phone that had it saw.
    ///
    /// # Errors
    /// It does not open as a card, or the card does not hold together.
    pub fn take(&mut self, bytes: &[u8], office: Option<&PublicKey>) -> Result<bool, NoCard> {
        let no_card = |reason: String| NoCard(reason);
        let opened = open(bytes, Kind::Card).map_err(|error| no_card(error.to_string()))?;
        let text = std::str::from_utf8(&opened.payload).map_err(|error| no_card(error.to_string()))?;
        let card = Card::from_json(text).map_err(|error| no_card(error.to_string()))?;
        if let Some(table) = card.cause.as_ref().and_then(|cause| cause.table.as_ref()) {
            table_of(table).map_err(|flaw| no_card(flaw.to_string()))?;
        }
        let ours = office.is_none_or(|key| key.id() == opened.signer.id());
        self.held.insert(Digest::of(&[&opened.payload]), Held { card, ours });
        Ok(ours)
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.held.is_empty()
    }

    /// A phone's card, by its digest.
    pub fn find(&self, digest: Digest) -> Option<&Card> {
        self.held.get(&digest).map(|held| &held.card)
    }

    /// The office's newest card in force at that moment, judged at it. Where none is in force, its newest
    /// card, judged at each carcass's last entry as a phone does.
    pub fn today(&self, now: Moment) -> Option<GivenCard<'_>> {
        let newest = |at: Option<Moment>| {
            let ours = self.held.iter().filter(|(_, held)| held.ours && at.is_none_or(|at| held.card.holds_at(at)));
            let newest = ours.max_by_key(|(_, held)| (held.card.serial, held.card.valid_from.unix_seconds()));
            newest.map(|(digest, held)| GivenCard { card: &held.card, digest: *digest, at })
        };
        newest(Some(now)).or_else(|| newest(None))
    }

    /// The office's newest card, in force or not: the highest serial.
    pub fn newest(&self) -> Option<&Card> {
        let ours = self.held.values().filter(|held| held.ours).map(|held| &held.card);
        ours.max_by_key(|card| (card.serial, card.valid_from.unix_seconds()))
    }

    /// Whether one of the office's is in force at that moment.
    pub fn any_in_force(&self, now: Moment) -> bool {
        self.today(now).is_some_and(|today| today.at.is_some())
    }
}

/// The same with another card, judged as a phone judges it.
pub(super) fn as_on_a_phone<'a>(given: Given<'a>, card: Option<(&'a Card, Digest)>) -> Given<'a> {
    Given { card: card.map(|(card, digest)| GivenCard { card, digest, at: None }), ..given }
}
