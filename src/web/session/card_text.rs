//! A local card as it comes by file or paste.

use std::sync::Arc;

use crate::bundle::kind::Kind;
use crate::bundle::opening::open;
use crate::bundle::{OpenError, Step};
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

/// Why a signed file is not taken, as far as a crew can do something about it. Which member does not fit is told by the
/// office's own check.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Unread {
    /// Empty, cut, or no signed file at all.
    NotWhole,
    /// Whole, and not what was asked for.
    OtherKind,
    /// Changed after it was signed.
    Changed,
    /// Made by a newer version.
    Newer,
    /// What it says does not fit.
    Content,
}

impl Unread {
    /// The message.
    pub(crate) const fn message(self) -> &'static str {
        match self {
            Self::NotWhole => "unread.not_whole",
            Self::OtherKind => "unread.other_kind",
            Self::Changed => "unread.changed",
            Self::Newer => "unread.newer",
            Self::Content => "unread.content",
        }
    }
}

impl From<OpenError> for Unread {
    fn from(error: OpenError) -> Self {
        match error.step() {
            _ if error.is_newer_version() => Self::Newer,
            Step::Kind => Self::OtherKind,
            Step::Key | Step::Signature => Self::Changed,
            Step::Payload | Step::Chain => Self::Content,
            Step::Size | Step::Text | Step::Envelope | Step::Header => Self::NotWhole,
        }
    }
}

/// Read a card.
///
/// # Errors
/// Why it is not taken.
pub(crate) fn read_card(text: &str) -> Result<ReceivedCard, Unread> {
    let opened = open(text.as_bytes(), Kind::Card)?;
    let payload = std::str::from_utf8(&opened.payload).map_err(|_| Unread::Content)?;
    let card = Card::from_json(payload).map_err(|_| Unread::Content)?;
    if let Some(table) = card.cause.as_ref().and_then(|cause| cause.table.as_ref()) {
        table_of(table).map_err(|_| Unread::Content)?;
    }
    let digest = Digest::of(&[&opened.payload]);
    let signer = opened.signer.id();
    Ok(ReceivedCard { held: HeldCard { card: Arc::new(card), digest }, signer, text: text.trim().to_owned() })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bundle::envelope::seal;
    use crate::bundle::key::DeviceKey;

    #[test]
    fn a_file_that_is_not_taken_says_what_can_be_done() {
        let key = DeviceKey::from_seed(&[3; 32]);
        let signed = |kind| seal(kind, b"{\"a\":1}", &key).unwrap();
        let why = |text: &str| read_card(text).err().unwrap();
        let card = signed(Kind::Card);
        assert_eq!(why(&card), Unread::Content, "signed well, and no card");
        assert_eq!(why(&signed(Kind::Bundle)), Unread::OtherKind);
        assert_eq!(why(card.split_at(card.len() / 2).0), Unread::NotWhole);
        for text in ["", "hello", "{}", "\u{fffd}"] {
            assert_eq!(why(text), Unread::NotWhole, "{text:?}");
        }
        // The same text under another's signature.
        let other = seal(Kind::Card, b"{\"a\":2}", &key).unwrap();
        let signature = |text: &str| text.split("\"signature\":").nth(1).unwrap().to_owned();
        assert_eq!(why(&card.replace(&signature(&card), &signature(&other))), Unread::Changed);
    }
}
