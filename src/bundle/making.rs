//! Making a bundle from a range of the journal.

use super::base64url;
use super::envelope::{SealError, seal};
use super::key::DeviceKey;
use super::kind::Kind;
use super::payload::{FourVersions, PAYLOAD_FORMAT, Passed, Payload, PhoneReading, Range};
use crate::record::{ChainError, Digest, Entry, Head, Moment, Photo, Stored};
use uuid::Uuid;

/// What goes on the outside of a bundle: who, when, under which versions.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cover {
    /// UUIDv7 of the bundle.
    pub bundle: Uuid,
    /// Now, by the phone's clock.
    pub made_at: Moment,
    /// Zone name; empty where the device tells none.
    pub zone: String,
    /// Version of the program.
    pub app: String,
    /// The four versions.
    pub versions: FourVersions,
    /// What the crew calls the device.
    pub label: String,
    /// The crew's code, where one was chosen.
    pub crew: Option<String>,
    /// Digest of the local card in force, where there is one.
    pub card: Option<Digest>,
}

/// What goes with the entries.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Extras {
    /// Ranges of chains whose keys this phone has lost, each in order.
    pub adopted: Vec<Vec<Entry>>,
    /// Photos that go along as files.
    pub photos: Vec<Photo>,
    /// Readings as the phone sees them.
    pub readings: Vec<PhoneReading>,
    /// Other phones' signed bundles, verbatim.
    pub carried: Vec<String>,
}

/// Why no bundle was made.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum MakeError {
    /// No entries.
    #[error("there is nothing to hand over yet")]
    Empty,
    /// The entries are not one contiguous range of one chain.
    #[error("the entries do not follow each other: {0}")]
    NotOneRange(ChainError),
    /// The key is not the one of the chain.
    #[error("the entries were written under another key than the one that should sign them")]
    OtherKey,
    /// The payload was not signed.
    #[error("{0}")]
    Seal(SealError),
    /// The payload could not be written.
    #[error("the bundle could not be written: {0}")]
    Write(String),
}

/// Makes and signs a bundle of `range`, entries of the key's own chain in order. To withhold a body,
/// hand in the entry with its body withheld.
///
/// An entry whose text no longer agrees with its header does not spoil the rest: its text goes along
/// as found, and the office is told.
///
/// # Errors
/// See [`MakeError`].
pub fn make(cover: Cover, range: &[Entry], extras: Extras, key: &DeviceKey) -> Result<String, MakeError> {
    let chain = pass_on(range)?;
    if chain.device != key.public().id() {
        return Err(MakeError::OtherKey);
    }
    let adopted = extras.adopted.iter().map(|range| pass_on(range)).collect::<Result<_, _>>()?;
    let payload = Payload {
        format: PAYLOAD_FORMAT,
        bundle: cover.bundle,
        made_at: cover.made_at,
        zone: cover.zone,
        app: cover.app,
        versions: cover.versions,
        label: cover.label,
        crew: cover.crew,
        card: cover.card,
        chain,
        adopted,
        photos: extras.photos,
        readings: extras.readings,
        carried: extras.carried,
    };
    let bytes = serde_json::to_vec(&payload).map_err(|error| MakeError::Write(error.to_string()))?;
    seal(Kind::Bundle, &bytes, key).map_err(MakeError::Seal)
}

fn pass_on(range: &[Entry]) -> Result<Range, MakeError> {
    let first = &range.first().ok_or(MakeError::Empty)?.header;
    let before = Head { device: first.device, seq: first.seq.saturating_sub(1), digest: first.prev };
    // Only the headers must follow each other here; a text that was altered is passed on as found.
    let follow = |head: Head, entry: &Entry| head.check(&entry.withhold());
    let end = range.iter().try_fold(before, follow).map_err(MakeError::NotOneRange)?;
    Ok(Range {
        device: first.device,
        first_seq: first.seq,
        prev: first.prev,
        entries: range.iter().map(passed).collect(),
        head: end.digest.ok_or(MakeError::Empty)?,
    })
}

fn passed(entry: &Entry) -> Passed {
    match &entry.stored {
        Stored::Whole { text, salt } if entry.body_agrees() => {
            Passed { body: Some(text.clone()), salt: Some(base64url::encode(&salt.0)), ..Passed::default() }
        }
        Stored::Whole { text, .. } => {
            Passed { withheld: Some(entry.header.body), found: Some(text.clone()), ..Passed::default() }
        }
        Stored::Withheld => Passed { withheld: Some(entry.header.body), ..Passed::default() },
    }
}
