//! A local card as it comes by file or paste.

use std::sync::Arc;

use crate::bundle::kind::Kind;
use crate::bundle::opening::open;
use crate::card::Card;
use crate::reading::table_of;
use crate::record::{DeviceId, Digest};

use super::HeldCard;

/// A card whose signature is good. Whether the signer is our office is for a person to say.
#[derive(Clone)]
pub(crate) struct ReceivedCard {
    /// The card.
    pub(crate) held: HeldCard,
    /// Who signed it.
    pub(crate) signer: DeviceId,
    /// The file as received.
    pub(crate) text: String,
}

/// Read a card.
///
/// # Errors
/// Why it is not taken, as a clause.
pub(crate) fn read_card(text: &str) -> Result<ReceivedCard, String> {
    let opened = open(text.as_bytes(), Kind::Card).map_err(|error| error.to_string())?;
    let payload = std::str::from_utf8(&opened.payload).map_err(|error| error.to_string())?;
    let card = Card::from_json(payload).map_err(|error| error.to_string())?;
    if let Some(table) = card.cause.as_ref().and_then(|cause| cause.table.as_ref()) {
        table_of(table).map_err(|flaw| flaw.to_string())?;
    }
    let digest = Digest::of(&[&opened.payload]);
    let signer = opened.signer.id();
    Ok(ReceivedCard { held: HeldCard { card: Arc::new(card), digest }, signer, text: text.trim().to_owned() })
}
