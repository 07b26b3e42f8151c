//! One entry: a header in the chain, and a body that may be withheld without breaking it.

use std::fmt::Write as _;

use serde::{Deserialize, Serialize};

use super::{Body, BodyError, DeviceId, Digest, EntryId};

/// 16 random bytes mixed into the body's digest, so that a withheld body cannot be guessed from it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Salt(pub [u8; 16]);

/// The header of an entry. Its canonical form is what the chain runs over.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Header {
    /// Version of the header's form: 1.
    pub format: u32,
    /// The device that wrote it.
    pub device: DeviceId,
    /// Number on the device's chain, from 1.
    pub seq: u64,
    /// Digest of the header before; absent on the first of a chain.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub prev: Option<Digest>,
    /// Salted digest of the body.
    pub body: Digest,
}

impl Header {
    /// SHA-256 over the header's canonical form.
    pub fn digest(&self) -> Digest {
        Digest::of(&[self.canonical().as_bytes()])
    }

    /// The canonical form, put together by hand: no value in it needs an escape, and a chain of
    /// thousands of entries is checked in one go on a phone.
    fn canonical(&self) -> String {
        let Self { format, device, seq, prev, body } = self;
        let mut text = String::with_capacity(240);
        // Writing to a text cannot fail.
        let _ = write!(text, r#"{{"body":"{body}","device":"{device}","format":{format},"#);
        if let Some(prev) = prev {
            let _ = write!(text, r#""prev":"{prev}","#);
        }
        let _ = write!(text, r#""seq":{seq}}}"#);
        text
    }

    /// The entry's id.
    pub const fn id(&self) -> EntryId {
        EntryId { device: self.device, seq: self.seq }
    }
}

/// The body as it is kept: the very text that was written, or only its digest.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Stored {
    /// The body's text, verbatim, with its salt.
    Whole {
        /// The text as written by the device.
        text: String,
        /// Its salt.
        salt: Salt,
    },
    /// Withheld or erased; the header still holds its digest.
    Withheld,
}

/// One entry of a journal.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Entry {
    /// Its place in the chain.
    pub header: Header,
    /// What it says, or that this is withheld.
    pub stored: Stored,
}

impl Entry {
    /// Salted digest of a body's text.
    pub fn body_digest(text: &str, salt: Salt) -> Digest {
        Digest::of(&[&salt.0, text.as_bytes()])
    }

    /// The entry's id.
    pub const fn id(&self) -> EntryId {
        self.header.id()
    }

    /// Whether the body's text is the one that the header was made over. A withheld body agrees.
    pub fn body_agrees(&self) -> bool {
        match &self.stored {
            Stored::Whole { text, salt } => Self::body_digest(text, *salt) == self.header.body,
            Stored::Withheld => true,
        }
    }

    /// Read the body; `None` where it is withheld.
    ///
    /// # Errors
    /// Where the text breaks the form that it claims.
    pub fn body(&self) -> Result<Option<Body>, BodyError> {
        match &self.stored {
            Stored::Whole { text, .. } => Body::read(text).map(Some),
            Stored::Withheld => Ok(None),
        }
    }

    /// The same entry with its body withheld; the chain stays whole.
    #[must_use]
    pub fn withhold(&self) -> Self {
        Self { header: self.header.clone(), stored: Stored::Withheld }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_header_put_together_by_hand_is_the_canonical_form() {
        for (seq, prev) in [(1, None), (900_719_925_474_099, Some(Digest::of(&[b"before"])))] {
            let device = DeviceId(Digest::of(&[b"device"]));
            let header = Header { format: 1, device, seq, prev, body: Digest::of(&[b"body"]) };
            assert_eq!(header.canonical(), crate::record::to_canonical(&header).unwrap());
        }
    }
}
