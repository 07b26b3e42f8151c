//! The stored form of an entry: the header's text and the body's text, both verbatim, and the salt.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use serde::{Deserialize, Serialize};

use crate::record::{DeviceId, Digest, Entry, EntryId, Head, Header, Salt, Stored, read_strict, to_canonical};

/// The header's form that this program knows.
const HEADER_FORMAT: u32 = 1;

/// Why a row is not taken, in a plain clause.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Broken {
    /// Not a row at all.
    #[error("it is not a whole stored entry ({0})")]
    Row(String),
    /// The header cannot be read.
    #[error("its header cannot be read ({0})")]
    Header(String),
    /// The header's text is not the one text that stands for it, so its digest would be another.
    #[error("its header was written by something else")]
    HeaderText,
    /// A newer program wrote it.
    #[error("its header has form {0}, which this version does not know")]
    Format(u32),
    /// The body is not the one that the header was made over.
    #[error("its text was altered")]
    Body,
    /// The salt is not 16 bytes.
    #[error("its salt is damaged")]
    Salt,
    /// It is stored under another number than its own.
    #[error("it is stored as entry {stored} but says that it is entry {says}")]
    Place {
        /// The number it is stored under.
        stored: u64,
        /// The number in its header.
        says: u64,
    },
    /// It is stored under no entry's number.
    #[error("it is stored under no entry number")]
    NoPlace,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    body: Option<String>,
    header: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    salt: Option<String>,
}

/// The row of an entry.
pub fn write(entry: &Entry) -> String {
    let (body, salt) = match &entry.stored {
        Stored::Whole { text, salt } => (Some(text.clone()), Some(URL_SAFE_NO_PAD.encode(salt.0))),
        Stored::Withheld => (None, None),
    };
    // Texts and small numbers only: writing cannot fail.
    let header = to_canonical(&entry.header).unwrap_or_default();
    to_canonical(&Written { body, header, salt }).unwrap_or_default()
}

/// An entry as read, with the digest of its header's text: thousands are compared at each start, and
/// a digest costs more than all the comparing.
#[derive(Clone, Debug)]
pub(super) struct Kept {
    pub(super) entry: Entry,
    pub(super) digest: Digest,
}

impl Kept {
    /// Of an entry that was just made.
    pub(super) fn of(entry: Entry) -> Self {
        let digest = entry.header.digest();
        Self { entry, digest }
    }

    pub(super) fn id(&self) -> EntryId {
        self.entry.id()
    }

    /// The head once this entry has been appended.
    pub(super) fn head(&self) -> Head {
        Head { device: self.entry.header.device, seq: self.entry.header.seq, digest: Some(self.digest) }
    }

    /// Whether it follows a head. Form and body were checked on reading.
    pub(super) fn follows(&self, head: &Head) -> bool {
        let header = &self.entry.header;
        header.device == head.device && header.seq == head.seq + 1 && header.prev == head.digest
    }
}

/// Read a row strictly.
///
/// # Errors
/// One variant for each condition that fails. The text then goes aside, as it is.
pub fn read(text: &str) -> Result<Entry, Broken> {
    read_kept(text).map(|kept| kept.entry)
}

/// As [`read`], with the digest.
pub(super) fn read_kept(text: &str) -> Result<Kept, Broken> {
    let written: Written = read_strict(text).map_err(|e| Broken::Row(e.reason))?;
    let header = read_header(&written.header)?;
    // The text was found to be the canonical one, so its digest is the header's.
    let digest = Digest::of(&[written.header.as_bytes()]);
    let stored = match (written.body, written.salt) {
        (Some(text), Some(salt)) => Stored::Whole { text, salt: read_salt(&salt)? },
        (None, None) => Stored::Withheld,
        _ => return Err(Broken::Row("text and salt belong together".to_owned())),
    };
    let entry = Entry { header, stored };
    if entry.body_agrees() { Ok(Kept { entry, digest }) } else { Err(Broken::Body) }
}

/// Read a row that is stored under an entry's number.
///
/// # Errors
/// As [`read`], and where it says that it is another entry.
pub(super) fn read_at(at: Option<EntryId>, text: &str) -> Result<Kept, Broken> {
    let at = at.ok_or(Broken::NoPlace)?;
    let kept = read_kept(text)?;
    if kept.id() == at { Ok(kept) } else { Err(Broken::Place { stored: at.seq, says: kept.entry.header.seq }) }
}

fn read_header(text: &str) -> Result<Header, Broken> {
    let header: Header = match read_strict(text) {
        Ok(header) => header,
        Err(fault) => return Err(newer(text).unwrap_or(Broken::Header(fault.reason))),
    };
    if header.format != HEADER_FORMAT {
        return Err(Broken::Format(header.format));
    }
    if to_canonical(&header).as_deref() == Ok(text) { Ok(header) } else { Err(Broken::HeaderText) }
}

/// A header of a newer form must be called newer, not damaged.
fn newer(text: &str) -> Option<Broken> {
    #[derive(Deserialize)]
    struct Format {
        format: u32,
    }
    let Format { format } = read_strict(text).ok()?;
    (format != HEADER_FORMAT).then_some(Broken::Format(format))
}

fn read_salt(text: &str) -> Result<Salt, Broken> {
    let bytes = URL_SAFE_NO_PAD.decode(text).map_err(|_| Broken::Salt)?;
    bytes.try_into().map(Salt).map_err(|_| Broken::Salt)
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenHead {
    device: DeviceId,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    digest: Option<Digest>,
    seq: u64,
}

/// The stored form of a head.
pub fn write_head(head: &Head) -> String {
    to_canonical(&WrittenHead { device: head.device, digest: head.digest, seq: head.seq }).unwrap_or_default()
}

/// Read a head; `None` where it is damaged. A head is a help only: the entries say the same.
pub fn read_head(text: &str) -> Option<Head> {
    let written: WrittenHead = read_strict(text).ok()?;
    Some(Head { device: written.device, seq: written.seq, digest: written.digest })
}

#[cfg(test)]
mod tests {
    use super::super::test_kit::{chain, device};
    use super::*;

    fn sample() -> Entry {
        chain(device(1), 3).swap_remove(2)
    }

    #[test]
    fn written_and_read_again_is_the_same() {
        let entry = sample();
        assert_eq!(read(&write(&entry)), Ok(entry.clone()));
        assert_eq!(read_at(Some(entry.id()), &write(&entry)).unwrap().entry, entry);
        assert_eq!(read_kept(&write(&entry)).unwrap().digest, entry.header.digest());
        let withheld = entry.withhold();
        assert_eq!(read(&write(&withheld)), Ok(withheld));
        let head = Head::after(&entry);
        assert_eq!(read_head(&write_head(&head)), Some(head));
        assert_eq!(read_head(&write_head(&Head::start(device(1)))), Some(Head::start(device(1))));
    }

    #[test]
    fn every_altered_character_is_seen() {
        // A changed letter anywhere, in the header, body or salt, must never be read as another entry.
        let entry = sample();
        let text = write(&entry);
        for (at, was) in text.char_indices() {
            for new in ['0', 'z', '"', '{'] {
                if new == was {
                    continue;
                }
                let mut changed = text.clone();
                changed.replace_range(at..at + was.len_utf8(), &new.to_string());
                // base64url without padding: 22 characters of salt hold 4 bits more than 16 bytes,
                // and a strict reader refuses those bits too, so no change at all may pass.
                // A changed `prev`, `seq` or `device` gives another well-formed header; the place or
                // the chain catches those.
                if let Ok(other) = read(&changed) {
                    assert_ne!(other.header.digest(), entry.header.digest(), "{changed}");
                }
            }
        }
    }

    #[test]
    fn each_kind_of_damage_has_its_own_reason() {
        let entry = sample();
        let text = write(&entry);
        assert!(matches!(read(&text[..text.len() - 5]), Err(Broken::Row(_))));
        assert!(matches!(read("null"), Err(Broken::Row(_))));
        assert!(matches!(read(&text.replacen('{', r#"{"mood":"calm","#, 1)), Err(Broken::Row(_))));
        assert_eq!(read(&text.replace("whole", "eaten")), Err(Broken::Body));
        assert_eq!(read(&text.replace(r#"\"format\":1"#, r#"\"format\":2"#)), Err(Broken::Format(2)));
        assert_eq!(read(&text.replace(r#"\"format\":1"#, r#"\"format\": 1"#)), Err(Broken::HeaderText));
        let other = EntryId { seq: 9, ..entry.id() };
        assert_eq!(read_at(Some(other), &text).unwrap_err(), Broken::Place { stored: 9, says: 3 });
        assert_eq!(read_at(None, &text).unwrap_err(), Broken::NoPlace);
        let newer = text.replace(r#"\"format\":1"#, r#"\"format\":2,\"mood\":\"calm\""#);
        assert_eq!(read(&newer), Err(Broken::Format(2)));
        let headless = text.split(r#""header""#).next().unwrap().trim_end_matches(',').to_owned() + "}";
        assert!(matches!(read(&headless), Err(Broken::Row(_))));
    }
}
