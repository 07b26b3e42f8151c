//! The hash chain of one device: making the next header, and checking a range.

use super::entry::{Entry, Header, Salt, Stored};
use super::{Body, DeviceId, Digest, JsonError};

/// The end of a chain so far.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Head {
    /// The device.
    pub device: DeviceId,
    /// Number of the last entry; 0 before the first.
    pub seq: u64,
    /// Digest of the last header; absent before the first.
    pub digest: Option<Digest>,
}

/// What breaks a chain, one condition each.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ChainError {
    /// The entry is of another device than its chain.
    #[error("entry {found} belongs to another device than its chain")]
    Device {
        /// Number of the odd entry.
        found: u64,
    },
    /// A number is missing, doubled or out of order.
    #[error("entry {found} stands where entry {expected} should be")]
    Sequence {
        /// The number that should be there.
        expected: u64,
        /// The number that is.
        found: u64,
    },
    /// The header does not name the header before it.
    #[error("entry {seq} does not follow from the entry before it")]
    Link {
        /// Its number.
        seq: u64,
    },
    /// The body is not the one that the header was made over.
    #[error("the text of entry {seq} was altered")]
    Body {
        /// Its number.
        seq: u64,
    },
    /// The header is of a form that this program does not know.
    #[error("entry {seq} has a header of form {format}, which this program does not know")]
    Format {
        /// Its number.
        seq: u64,
        /// The form that it says.
        format: u32,
    },
}

impl Head {
    /// Before the first entry of a device.
    pub const fn start(device: DeviceId) -> Self {
        Self { device, seq: 0, digest: None }
    }

    /// Make the entry that follows.
    ///
    /// # Errors
    /// Where the body is of a kind that this program does not write.
    pub fn next(&self, body: &Body, salt: Salt) -> Result<Entry, JsonError> {
        let text = body.write()?;
        let header = Header {
            format: 1,
            device: self.device,
            seq: self.seq + 1,
            prev: self.digest,
            body: Entry::body_digest(&text, salt),
        };
        Ok(Entry { header, stored: Stored::Whole { text, salt } })
    }

    /// The head once this entry has been appended.
    pub fn after(entry: &Entry) -> Self {
        Self { device: entry.header.device, seq: entry.header.seq, digest: Some(entry.header.digest()) }
    }

    /// Check that this entry follows, and give the new head.
    ///
    /// # Errors
    /// One variant for each condition that fails; an altered body is found last.
    pub fn check(&self, entry: &Entry) -> Result<Self, ChainError> {
        let header = &entry.header;
        if header.format != 1 {
            return Err(ChainError::Format { seq: header.seq, format: header.format });
        }
        if header.device != self.device {
            return Err(ChainError::Device { found: header.seq });
        }
        if header.seq != self.seq + 1 {
            return Err(ChainError::Sequence { expected: self.seq + 1, found: header.seq });
        }
        if header.prev != self.digest {
            return Err(ChainError::Link { seq: header.seq });
        }
        if !entry.body_agrees() {
            return Err(ChainError::Body { seq: header.seq });
        }
        Ok(Self::after(entry))
    }
}

/// Check one contiguous range of a chain from a known head; the head after its last entry.
///
/// # Errors
/// The first condition that fails.
pub fn verify_range(start: Head, entries: &[Entry]) -> Result<Head, ChainError> {
    entries.iter().try_fold(start, |head, entry| head.check(entry))
}
