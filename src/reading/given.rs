//! What a reading takes beside the carcass.
//!
//! Everything here is borrowed: the caller holds it. A reading stays a pure function of the carcass and
//! of this, so that an office with the same entries and the same card makes the same reading.

use crate::card::Card;
use crate::record::{Digest, Fold, Moment};
use crate::science::winter::log::Log;

/// All that a reading may take beside the carcass; nothing at all by default.
#[derive(Clone, Copy, Debug, Default)]
pub struct Given<'a> {
    /// The local card.
    pub card: Option<GivenCard<'a>>,
    /// Leave out the cause of death: a phone does, as long as an examination is not closed.
    pub without_cause: bool,
    /// What was folded beside the carcass: the outings and reports that its examinations name.
    pub beside: Option<&'a Fold>,
    /// Winter logs, from [`super::winter_log::logs`]. With several none is taken: nobody said which holds.
    pub logs: &'a [Log],
}

/// A local card, and when it has to be in force.
#[derive(Clone, Copy, Debug)]
pub struct GivenCard<'a> {
    /// What it says.
    pub card: &'a Card,
    /// Digest of its text, to travel with the readings.
    pub digest: Digest,
    /// The moment at which it must be in force for its figures to be used. `None` for the moment of the
    /// last entry of the carcass: then phone and office judge alike, whenever they read.
    pub at: Option<Moment>,
}

impl<'a> Given<'a> {
    /// With a card that is judged at the last entry of the carcass.
    pub const fn card(card: &'a Card, digest: Digest) -> Self {
        Self { card: Some(GivenCard { card, digest, at: None }), without_cause: false, beside: None, logs: &[] }
    }

    /// The same, with what was folded beside the carcass and its winter logs.
    #[must_use]
    pub const fn with(self, fold: &'a Fold, logs: &'a [Log]) -> Self {
        Self { beside: Some(fold), logs, ..self }
    }
}
