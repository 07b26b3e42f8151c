//! Decisions at the desk, as the command line makes them: signed entries of the office's own chain, kept under received/.

use std::sync::Arc;

use super::{By, DeskError, Figures, Hand};
use crate::bundle::DeviceKey;
use crate::office::calls_made::NotMarked;
use crate::office::decide::{NoDecision, answer, apart, same, undo};
use crate::office::not_noted::NotNoted;
use crate::office::opening::judge;
use crate::office::own_chain::{WriteError, Writing, append};
use crate::office::recompute::Gathered;
use crate::record::{Act, Digest, EntryId, Moment, PersonCode};
use uuid::Uuid;

/// What a person decided.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Decision {
    /// Two carcasses are one animal.
    Same(Uuid, Uuid),
    /// They are two.
    Apart(Uuid, Uuid),
    /// The answer of an entry stands.
    Answer {
        /// Of which carcass.
        carcass: Uuid,
        /// The entry.
        entry: EntryId,
        /// Why.
        reason: String,
    },
    /// A decision on an answer is taken back.
    Undo {
        /// Of which carcass.
        carcass: Uuid,
        /// The decision's entry.
        entry: EntryId,
    },
}

/// Why nothing was decided.
#[derive(Debug, thiserror::Error)]
pub enum NotDecided {
    /// Key, keyring or archive.
    #[error("{0}")]
    Desk(#[from] DeskError),
    /// The decision itself.
    #[error("{0}")]
    Decision(#[from] NoDecision),
    /// It could not be written.
    #[error("{0}")]
    Write(#[from] WriteError),
    /// Samples that cannot be sent.
    #[error("{0}")]
    NotNoted(#[from] NotNoted),
    /// A call that cannot be marked.
    #[error("{0}")]
    NotMarked(#[from] NotMarked),
    /// A sheet that cannot be entered, in words.
    #[error("{0}")]
    Sheet(String),
    /// A sheet without anything new, or of which a line no longer fits.
    #[error("nothing of it can be entered as the archive stands now; look at its lines again")]
    NothingNew,
    /// No random bytes were to be had, in the platform's words.
    #[error("{0}")]
    Chance(String),
}

/// Random bytes for a decision: its bundle's id, and a salt for each of the two entries that it may be.
#[derive(Clone, Copy, Debug, Default)]
#[allow(missing_docs)]
pub struct Random {
    pub id: [u8; 10],
    pub salts: [[u8; 16]; 2],
}

impl Hand {
    /// Writes a decision into the archive. `figures` is what the person saw: an answer that came later is not weighed.
    ///
    /// # Errors
    /// The office's key is not open, or the decision does not hold. The archive is then as before.
    pub fn decide(
        &mut self,
        figures: &Figures,
        decision: &Decision,
        key: Option<&DeviceKey>,
        (person, now, random): (PersonCode, Moment, Random),
    ) -> Result<(), NotDecided> {
        let key = self.opened(key)?;
        let own = self.own_chain(key);
        let device = key.public().id();
        let next = EntryId { device, seq: own.journal.head(device).seq + 1 };
        let counted = &figures.counted;
        let find = |id: Uuid| counted.folded.carcass(id).ok_or(NoDecision::NoCarcass(id));
        let acts: Vec<Act> = match decision {
            Decision::Same(one, other) => vec![same(find(*one)?, find(*other)?)?],
            Decision::Apart(one, other) => apart(&counted.folded, &counted.bodies, *one, *other, next)?,
            Decision::Answer { carcass, entry, reason } => {
                vec![answer(find(*carcass)?, &entry.to_string(), reason)?]
            }
            Decision::Undo { carcass, entry } => vec![undo(find(*carcass)?, &entry.to_string())?],
        };
        let writing = Writing { key, person, at: now, id: random.id, salts: random.salts.to_vec() };
        self.append_own(acts, &own, &writing)
    }

    /// The office's key, where it is that and open.
    fn opened<'k>(&self, key: Option<&'k DeviceKey>) -> Result<&'k DeviceKey, DeskError> {
        key.filter(|key| self.is_ours(key)).ok_or(DeskError::NoKey)
    }

    /// Everything that the office wrote before.
    fn own_chain(&self, key: &DeviceKey) -> Gathered {
        let (mut own, device) = (Gathered::default(), key.public().id());
        self.received.values().filter(|judged| judged.signer == Some(device)).for_each(|judged| own.take(judged));
        own
    }

    fn append_own(&mut self, acts: Vec<Act>, own: &Gathered, writing: &Writing<'_>) -> Result<(), NotDecided> {
        self.enrol_office(writing.key, writing.at)?;
        let archive = self.archive();
        let path = append(&archive, &own.journal, acts, writing)?;
        let bytes = archive.read(&path).map_err(DeskError::from)?;
        let judged = judge(&bytes, &self.keyring);
        self.receive(Digest::of(&[&bytes]), Arc::new(judged));
        Ok(())
    }

    /// Signs acts into the office's chain.
    pub(super) fn keep_acts(&mut self, acts: Vec<Act>, key: Option<&DeviceKey>, by: &By) -> Result<(), NotDecided> {
        let key = self.opened(key)?;
        let (mut id, mut salts) = ([0; 10], vec![[0; 16]; acts.len()]);
        (by.fill)(&mut id).map_err(NotDecided::Chance)?;
        for salt in &mut salts {
            (by.fill)(salt).map_err(NotDecided::Chance)?;
        }
        let own = self.own_chain(key);
        let writing = Writing { key, person: by.person.clone(), at: by.now, id, salts };
        self.append_own(acts, &own, &writing)
    }
}
