//! What the office itself writes: a chain of entries under its own key, kept in the archive like any other
//! phone's.
//!
//! The office is a device among the others: its entries name their finding, their carcass and who typed
//! them, form one chain, and come in signed bundles under `received/`. Nothing that a crew wrote is
//! touched. The chain's end is found by opening those bundles again, so the folder alone decides.

use super::archive::{Archive, ArchiveError};
use super::keyring::Keyring;
use super::opening::{Verdict, judge};
use super::recompute::Gathered;
use crate::bundle::{Cover, DeviceKey, Extras, FourVersions, MakeError, make};
use crate::guide::PROTOCOL;
use crate::record::{
    Act, Answer, Body, Digest, ENTRY_SCHEMA, Entry, EntryId, Flaw, Head, Journal, JsonError, Key, Moment, PersonCode,
    Salt, Site, Subject, Versions, uuid_v7, validate_office,
};
use std::path::PathBuf;
use uuid::Uuid;

/// Why nothing was written.
#[derive(Debug, thiserror::Error)]
pub enum WriteError {
    /// The archive could not be used.
    #[error("{0}")]
    Archive(#[from] ArchiveError),
    /// A value cannot be true of its finding.
    #[error("{0}")]
    Flaw(#[from] Flaw),
    /// An entry could not be written.
    #[error("the entry could not be written: {0}")]
    Entry(#[from] JsonError),
    /// The bundle could not be made.
    #[error("{0}")]
    Bundle(#[from] MakeError),
    /// Fewer random salts than entries: written without one, an entry could be guessed from its digest.
    #[error("{acts} entries were to be written with {salts} random salts; nothing was kept")]
    FewSalts {
        /// Entries.
        acts: usize,
        /// Salts.
        salts: usize,
    },
}

/// One answer to write down.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Said {
    /// Of what.
    pub examination: Uuid,
    /// Which finding.
    pub finding: &'static str,
    /// The answer.
    pub answer: Answer,
    /// Entries on the same question that it corrects.
    pub supersedes: Vec<EntryId>,
}

/// Who writes, when, and what the machine gives for it.
#[derive(Clone, Debug)]
pub struct Writing<'a> {
    /// The office's key.
    pub key: &'a DeviceKey,
    /// Who typed it.
    pub person: PersonCode,
    /// Now.
    pub at: Moment,
    /// Ten random bytes for the bundle's id.
    pub id: [u8; 10],
    /// Random bytes for each answer.
    pub salts: Vec<[u8; 16]>,
}

/// Everything that the archive holds.
#[derive(Debug, Default)]
pub struct Held {
    /// All entries of intact files of enrolled devices.
    pub gathered: Gathered,
    /// Files that could not be used, each with its reason.
    pub unused: Vec<(PathBuf, String)>,
}

/// Opens every file under `received/` and takes what enrolled devices signed. What others signed is left
/// out here: a card or a result of the office's must not rest on it.
///
/// # Errors
/// The folder or a file in it cannot be read.
pub fn held(archive: &Archive, keyring: &Keyring) -> Result<Held, ArchiveError> {
    let mut held = Held::default();
    for path in archive.received()? {
        let bytes = archive.read(&path)?;
        let judged = judge(&bytes, keyring);
        match &judged.verdict {
            Verdict::Intact { .. } => held.gathered.take_counted(&judged),
            Verdict::Unknown | Verdict::Retired { .. } => {
                held.unused.push((path, "the device that signed it is not enrolled".to_owned()));
            }
            Verdict::Damaged { reason, .. } | Verdict::Newer { reason } => held.unused.push((path, reason.clone())),
        }
    }
    Ok(held)
}

/// A new id from random bytes.
pub fn new_id(at: Moment, random: [u8; 10]) -> Uuid {
    uuid_v7(u64::try_from(at.unix_seconds()).unwrap_or_default().saturating_mul(1000), random)
}

/// Appends the answers to the office's chain and keeps them in the archive as a signed bundle; the path
/// under which it lies.
///
/// # Errors
/// See [`WriteError`]. Nothing is kept then.
pub fn write(
    archive: &Archive,
    journal: &Journal,
    said: Vec<Said>,
    writing: &Writing<'_>,
) -> Result<PathBuf, WriteError> {
    append(archive, journal, acts_of(said, &writing.person)?, writing)
}

/// The answers as acts.
///
/// # Errors
/// A value cannot be true of its finding.
pub fn acts_of(said: Vec<Said>, person: &PersonCode) -> Result<Vec<Act>, Flaw> {
    let act = |one: Said| {
        let key = Key {
            subject: Subject::Examination(one.examination),
            finding: one.finding.into(),
            site: Site::NONE,
            observer: person.clone(),
        };
        validate_office(&key, &one.answer)?;
        Ok(Act::Answer { key, answer: one.answer, supersedes: one.supersedes })
    };
    said.into_iter().map(act).collect()
}

/// The same for acts of any kind: a decision, a decision taken back.
///
/// # Errors
/// See [`WriteError`]. Nothing is kept then.
pub fn append(
    archive: &Archive,
    journal: &Journal,
    acts: Vec<Act>,
    writing: &Writing<'_>,
) -> Result<PathBuf, WriteError> {
    if writing.salts.len() < acts.len() {
        return Err(WriteError::FewSalts { acts: acts.len(), salts: writing.salts.len() });
    }
    let mut head = journal.head(writing.key.public().id());
    let mut entries: Vec<Entry> = Vec::new();
    for (act, salt) in acts.into_iter().zip(&writing.salts) {
        let body = Body {
            schema: ENTRY_SCHEMA,
            act,
            typed_by: writing.person.clone(),
            at: writing.at,
            zone: String::new(),
            since_start_ms: None,
            versions: Versions { protocol: PROTOCOL, step: None, card: None },
        };
        let entry = head.next(&body, Salt(*salt))?;
        head = Head::after(&entry);
        entries.push(entry);
    }
    let cover = Cover {
        bundle: new_id(writing.at, writing.id),
        made_at: writing.at,
        zone: String::new(),
        app: env!("CARGO_PKG_VERSION").to_owned(),
        versions: FourVersions {
            envelope: 1,
            entry_schema: ENTRY_SCHEMA,
            protocol: PROTOCOL,
            science: crate::science::VERSION.parse().unwrap_or_default(),
        },
        label: LABEL.to_owned(),
        crew: None,
        card: None::<Digest>,
    };
    let text = make(cover, &entries, Extras::default(), writing.key)?;
    Ok(archive.keep(text.as_bytes())?)
}

/// What the office's own key is called in its keyring.
pub const LABEL: &str = "the office";
