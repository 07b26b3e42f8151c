//! Reading what stands inside an opened bundle: entries with their headers, and what is wrong.

use super::base64url;
use super::opening::Opened;
use super::payload::{PAYLOAD_FORMAT, Passed, Payload, Range};
use super::strict::ReadError;
use crate::record::{DeviceId, Digest, Entry, EntryId, Head, Header, Salt, Stored};
use serde::Deserialize;

/// The contents of a bundle whose signature is good.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Contents {
    /// The payload. Its entries have been moved to [`Contents::entries`].
    pub payload: Payload,
    /// The entries of the device's own chain, then those of adopted chains, headers rebuilt.
    pub entries: Vec<Entry>,
    /// What is wrong, entry by entry. Empty for a bundle as it should be.
    pub faults: Vec<Fault>,
}

/// Something wrong inside a bundle whose signature is good, as a lower-case clause.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Fault {
    /// The entries do not come out at the stated head: one was changed, dropped, doubled or moved
    /// after it was written and before the bundle was signed.
    #[error(
        "entries {} to {last_seq} do not come out at the chain's stated end: \
         one was changed, dropped, doubled or moved before signing", first.seq
    )]
    ChainEnd {
        /// The first entry of the range.
        first: EntryId,
        /// The number of its last entry.
        last_seq: u64,
    },
    /// The phone found the text altered. The text is passed on and not used.
    #[error("the text of entry {} was altered on the phone before signing; as found it reads: {found}", id.seq)]
    Altered {
        /// Which entry.
        id: EntryId,
        /// The text as found.
        found: String,
    },
    /// The body breaks the form that it claims.
    #[error("entry {} cannot be read: {reason}", id.seq)]
    Unreadable {
        /// Which entry.
        id: EntryId,
        /// Why.
        reason: String,
    },
}

/// Why the payload of a well-signed bundle could not be taken at all, as a lower-case clause.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ContentsError {
    /// A later form of payload.
    #[error("the content is of form {0}; this program reads up to form {PAYLOAD_FORMAT}")]
    NewerForm(u64),
    /// Not of the form that it claims.
    #[error("the content {0}")]
    Form(ReadError),
    /// The chain is not the signer's.
    #[error("the entries belong to another device than the one that signed")]
    OtherDevice,
    /// The range does not say properly where it begins.
    #[error("the range of entries does not say where in the chain it begins")]
    Start,
    /// An entry has neither body and salt nor a digest, or a mixture.
    #[error("entry {seq} is passed on in no known way")]
    EntryForm {
        /// Its number.
        seq: u64,
    },
}

impl Fault {
    /// Whether it means that a whole chain cannot be taken as what the phone once wrote.
    pub fn breaks_chain(&self) -> bool {
        matches!(self, Self::ChainEnd { .. })
    }
}

impl Contents {
    /// Reads the payload of an opened bundle.
    ///
    /// # Errors
    /// See [`ContentsError`]. What is wrong with single entries stands in [`Contents::faults`].
    pub fn read(opened: &Opened<'_>) -> Result<Self, ContentsError> {
        let mut reading = Reading::begin(opened.signer.id(), &opened.payload)?;
        while reading.step(usize::MAX)? {}
        Ok(reading.done())
    }

    /// Whether a chain in the bundle does not come out at its stated end. Nothing in it can then be
    /// taken as what the phone once wrote.
    pub fn chain_broken(&self) -> bool {
        self.faults.iter().any(Fault::breaks_chain)
    }
}

/// Reads the payload. One that does not fit is looked at for its form, so that a newer payload is called
/// newer and not broken.
///
/// The bytes were read strictly when the file was opened; they need not be a second time.
fn read_payload(bytes: &[u8]) -> Result<Payload, ContentsError> {
    #[derive(Deserialize)]
    struct Form {
        format: u64,
    }
    let shape = |error: serde_json::Error| ContentsError::Form(ReadError::WrongShape(error.to_string()));
    let text =
        str::from_utf8(bytes).map_err(|error| ContentsError::Form(ReadError::NotUtf8 { at: error.valid_up_to() }))?;
    match serde_json::from_str::<Payload>(text) {
        Ok(payload) if payload.format == PAYLOAD_FORMAT => Ok(payload),
        read => match serde_json::from_str::<Form>(text).map_err(shape)? {
            Form { format } if format > u64::from(PAYLOAD_FORMAT) => Err(ContentsError::NewerForm(format)),
            Form { format } if format < u64::from(PAYLOAD_FORMAT) => {
                Err(ContentsError::Form(ReadError::WrongShape(format!("form {format} was never in use"))))
            }
            Form { .. } => read.map_err(shape),
        },
    }
}

/// Contents in the making, in short parts: a page answers taps in between.
#[derive(Debug)]
pub struct Reading {
    payload: Payload,
    /// Ranges begun: the device's own chain is the first, adopted ones follow.
    begun: usize,
    range: Option<Rebuilding>,
    entries: Vec<Entry>,
    faults: Vec<Fault>,
    /// Entries whose bodies were looked at.
    looked_at: usize,
}

/// A range whose headers are being rebuilt.
#[derive(Debug)]
struct Rebuilding {
    first: EntryId,
    head: Head,
    stated: Digest,
    rest: std::vec::IntoIter<Passed>,
}

impl Reading {
    /// Reads the payload that the holder of this key signed; none of its entries yet.
    ///
    /// # Errors
    /// See [`ContentsError`].
    pub fn begin(signer: DeviceId, payload: &[u8]) -> Result<Self, ContentsError> {
        let payload = read_payload(payload)?;
        if payload.chain.device != signer {
            return Err(ContentsError::OtherDevice);
        }
        Ok(Self { payload, begun: 0, range: None, entries: Vec::new(), faults: Vec::new(), looked_at: 0 })
    }

    /// Goes on by at most so many entries; false where nothing is left.
    ///
    /// # Errors
    /// See [`ContentsError`].
    pub fn step(&mut self, most: usize) -> Result<bool, ContentsError> {
        if let Some(range) = &mut self.range {
            if !range.step(most, &mut self.entries, &mut self.faults)? {
                self.range = None;
            }
            return Ok(true);
        }
        let Payload { chain, adopted, .. } = &mut self.payload;
        let next = match self.begun.checked_sub(1) {
            None => Some(chain),
            Some(at) => adopted.get_mut(at),
        };
        if let Some(range) = next {
            self.range = Some(Rebuilding::begin(range)?);
            self.begun += 1;
            return Ok(true);
        }
        let left = self.entries.get(self.looked_at..).unwrap_or_default();
        for entry in left.iter().take(most) {
            if let Err(error) = entry.body() {
                self.faults.push(Fault::Unreadable { id: entry.id(), reason: error.to_string() });
            }
            self.looked_at += 1;
        }
        Ok(self.looked_at < self.entries.len())
    }

    /// The contents, once nothing is left.
    pub fn done(self) -> Contents {
        Contents { payload: self.payload, entries: self.entries, faults: self.faults }
    }
}

impl Rebuilding {
    fn begin(range: &mut Range) -> Result<Self, ContentsError> {
        if range.first_seq == 0 || (range.first_seq == 1) != range.prev.is_none() || range.entries.is_empty() {
            return Err(ContentsError::Start);
        }
        let first = EntryId { device: range.device, seq: range.first_seq };
        let head = Head { device: range.device, seq: range.first_seq - 1, digest: range.prev };
        Ok(Self { first, head, stated: range.head, rest: std::mem::take(&mut range.entries).into_iter() })
    }

    /// Rebuilds the headers of so many entries, and compares the end once it is reached; false then.
    fn step(&mut self, most: usize, entries: &mut Vec<Entry>, faults: &mut Vec<Fault>) -> Result<bool, ContentsError> {
        let Self { first, head, stated, rest } = self;
        for passed in rest.take(most) {
            let seq = head.seq + 1;
            let (stored, body, found) = unpack(passed).ok_or(ContentsError::EntryForm { seq })?;
            let header = Header { format: 1, device: head.device, seq, prev: head.digest, body };
            let entry = Entry { header, stored };
            if let Some(found) = found {
                faults.push(Fault::Altered { id: entry.id(), found });
            }
            *head = Head::after(&entry);
            entries.push(entry);
        }
        if rest.len() > 0 {
            return Ok(true);
        }
        if head.digest != Some(*stated) {
            faults.push(Fault::ChainEnd { first: *first, last_seq: head.seq });
        }
        Ok(false)
    }
}

fn unpack(passed: Passed) -> Option<(Stored, Digest, Option<String>)> {
    match passed {
        Passed { body: Some(text), salt: Some(salt), withheld: None, found: None } => {
            let salt = Salt(base64url::decode_array(&salt).ok()?);
            let digest = Entry::body_digest(&text, salt);
            Some((Stored::Whole { text, salt }, digest, None))
        }
        Passed { body: None, salt: None, withheld: Some(digest), found } => Some((Stored::Withheld, digest, found)),
        _ => None,
    }
}

#[cfg(test)]
#[path = "contents_tests.rs"]
mod tests;
