//! What another phone has shown: its signed bundle, or a local card.

use uuid::Uuid;

use crate::bundle::deflate::inflate;
use crate::bundle::fingerprint::Fingerprint;
use crate::bundle::kind::Kind;
use crate::bundle::opening::open;
use crate::bundle::strict::{self, Strict};
use crate::record::{DeviceId, Digest, Moment};

use super::{ReceivedCard, Unread, read_card};

/// The most that what came may unpack to. A signed text is a third larger than what is in it.
pub(super) const MOST_TEXT_BYTES: usize = 2_000_000;

/// Another phone's bundle whose signature is good.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Envelope {
    /// Who signed it.
    pub(crate) signer: DeviceId,
    /// What its crew calls that phone, or the first words of its fingerprint.
    pub(crate) phone: String,
    /// When it was made, by that phone's clock.
    pub(crate) made_at: Moment,
    /// Carcasses in it.
    pub(crate) carcasses: usize,
    /// Where that phone's chain ended: the same end holds the same answers.
    pub(crate) head: Digest,
    /// What its file is called, here as there.
    pub(crate) file: String,
}

/// A bundle that this phone carries for another one, as it was signed, with what was read of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Carried {
    /// What was read; the reason where nothing could be.
    pub(crate) read: Result<Envelope, Unread>,
    /// The signed text.
    pub(crate) text: String,
}

impl Carried {
    /// Read once: it takes the signature and the whole payload.
    pub(crate) fn read(text: &str) -> Self {
        Self { read: read_envelope(text), text: text.to_owned() }
    }
}

/// What came.
pub(crate) enum Came {
    /// Another phone's bundle, and its text.
    Bundle(Envelope, String),
    /// A local card.
    Card(Box<ReceivedCard>),
}

/// Read what was put together from the frames.
///
/// # Errors
/// Why it is not taken.
pub(crate) fn read_frames(packed: &[u8]) -> Result<Came, Unread> {
    let bytes = inflate(packed, MOST_TEXT_BYTES).map_err(|_| Unread::NotWhole)?;
    let text = String::from_utf8(bytes).map_err(|_| Unread::NotWhole)?;
    match read_envelope(&text) {
        // The office shows its card in the same way.
        Err(Unread::OtherKind) => read_card(&text).map(|card| Came::Card(Box::new(card))),
        read => Ok(Came::Bundle(read?, text)),
    }
}

/// Read another phone's bundle, checking its signature.
///
/// # Errors
/// Why it cannot be read.
pub(crate) fn read_envelope(text: &str) -> Result<Envelope, Unread> {
    let opened = open(text.as_bytes(), Kind::Bundle)?;
    let signer = opened.signer.id();
    read_outline(&opened.payload, signer).ok_or(Unread::Content)
}

/// What of a payload is looked at here; the office reads the rest.
fn read_outline(payload: &[u8], signer: DeviceId) -> Option<Envelope> {
    let mut all = strict::read(payload).ok()?.into_object()?;
    let mut chain = all.remove("chain")?.into_object()?;
    let text = |value: Option<Strict>| value.and_then(Strict::into_text).map(String::from);
    // Entries of another device than the one that signed are nobody's.
    if DeviceId(Digest::parse(&text(chain.remove("device"))?).ok()?) != signer {
        return None;
    }
    let label = text(all.remove("label")).unwrap_or_default();
    let [first, second, ..] = Fingerprint::of(signer).words();
    let made_at = Moment::parse(&text(all.remove("made_at"))?).ok()?;
    let Some(Strict::List(readings)) = all.remove("readings") else { return None };
    Some(Envelope {
        signer,
        phone: if label.is_empty() { format!("{first} {second}") } else { label },
        made_at,
        carcasses: readings.len(),
        head: Digest::parse(&text(chain.remove("head"))?).ok()?,
        file: super::hand_over::file_name(made_at, Uuid::parse_str(&text(all.remove("bundle"))?).ok()?),
    })
}
