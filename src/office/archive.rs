//! The archive: one folder that holds the keyring and every file as it was received.
//!
//! ```text
//! ARCHIVE/
//!   office-key.json   the office's signing key, wrapped by its passphrase (optional)
//!   keyring.txt       devices enrolled and retired, signed by the office key; or, without one,
//!   keyring.json      the same as plain text
//!   cards/            every local card that was signed here, named likewise: readings made on a phone are
//!                     worked out again with the card that it had
//!   received/         files as received, each named by the SHA-256 of its bytes; the office's own
//!                     results lie here too, as bundles that its key signed
//!   photos/           photos as received, each named likewise, where a file under received/ names it
//!   winter/           winter logs byte for byte, each named likewise, and beside each what a person confirmed of
//!                     it: units, place, gauge (see `office::winter::kept`)
//! ```
//!
//! Without an office key whoever can write into the folder can enrol a device. With one, a keyring
//! that the office did not sign is refused.
//!
//! A file handed in twice lies there once. Nothing in `received` is ever changed; whoever has the
//! folder can work out everything else again.

use super::files::{Files, HeldFiles};
use super::key_file::{KeyFile, KeyFileError};
use super::keyring::{Keyring, KeyringError};
use crate::bundle::{DeviceKey, Kind, PublicKey, canonical, open, seal};
use crate::record::Digest;
use std::collections::BTreeMap;
use std::io;
use std::path::{Path, PathBuf};

/// An archive folder. It need not exist until something is put into it.
#[derive(Clone, Debug)]
pub struct Archive {
    folder: PathBuf,
    files: Files,
}

/// Why the archive could not be used.
#[derive(Debug, thiserror::Error)]
pub enum ArchiveError {
    /// A file could not be read or written.
    #[error("{}: {error}", path.display())]
    File {
        /// Which.
        path: PathBuf,
        /// What the system says.
        error: io::Error,
    },
    /// The office key in it is not usable.
    #[error("{}: {error}", path.display())]
    OfficeKey {
        /// Its file.
        path: PathBuf,
        /// What is wrong.
        error: KeyFileError,
    },
    /// There is an office key already.
    #[error("{}: this archive has an office key already", path.display())]
    KeyThere {
        /// Its file.
        path: PathBuf,
    },
    /// The signed keyring was not signed by this office, or was changed since.
    #[error("{}: the keyring does not hold: {reason}", path.display())]
    KeyringNotOurs {
        /// Its file.
        path: PathBuf,
        /// What is wrong, as a lower-case clause.
        reason: String,
    },
    /// The keyring in it is not usable.
    #[error("{}: {error}", path.display())]
    Keyring {
        /// Its file.
        path: PathBuf,
        /// What is wrong.
        error: KeyringError,
    },
}

impl Archive {
    /// The archive in that folder.
    pub fn at(folder: impl Into<PathBuf>) -> Self {
        Self { folder: folder.into(), files: Files::Disk }
    }

    /// The archive whose files are held in memory.
    pub fn held(files: &HeldFiles) -> Self {
        Self { folder: PathBuf::new(), files: Files::Held(files.clone()) }
    }

    pub(in crate::office) const fn files(&self) -> &Files {
        &self.files
    }

    /// The bytes of one of its files.
    ///
    /// # Errors
    /// It cannot be read.
    pub fn read(&self, path: &Path) -> Result<Vec<u8>, ArchiveError> {
        self.files.read(path).map_err(|error| ArchiveError::File { path: path.to_owned(), error })
    }

    /// The folder.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    fn office_key_path(&self) -> PathBuf {
        self.folder.join("office-key.json")
    }

    fn signed_keyring_path(&self) -> PathBuf {
        self.folder.join("keyring.txt")
    }

    fn plain_keyring_path(&self) -> PathBuf {
        self.folder.join("keyring.json")
    }

    /// The office's key file, where there is one.
    ///
    /// # Errors
    /// It cannot be read, or is no key file.
    pub fn office_key(&self) -> Result<Option<KeyFile>, ArchiveError> {
        let path = self.office_key_path();
        let text = self.read_if_there(&path)?;
        text.map(|text| KeyFile::read(&text)).transpose().map_err(|error| ArchiveError::OfficeKey { path, error })
    }

    /// Takes an office key, once, and signs the keyring with it. A keyring that this key signed before is taken up
    /// again: the key's file may have been kept apart from the archive.
    ///
    /// # Errors
    /// There is one already, another key signed the keyring that lies there, `more` does not fit beside it, or the folder
    /// cannot be written.
    pub fn take_office_key(&self, file: &KeyFile, key: &DeviceKey, more: &Keyring) -> Result<PathBuf, ArchiveError> {
        let path = self.office_key_path();
        if self.files.exists(&path) {
            return Err(ArchiveError::KeyThere { path });
        }
        // In this order a power cut leaves a keyring that is still read: the plain one counts until
        // the key is there, the signed one from then on.
        let mut ring = self.ring_for(key)?;
        ring.take_over(more, key.public().id())
            .map_err(|error| ArchiveError::Keyring { path: self.signed_keyring_path(), error })?;
        self.put_signed_keyring(&ring, key)?;
        let text = file.write().map_err(|error| ArchiveError::OfficeKey { path: path.clone(), error })?;
        self.files.put(&path, text.as_bytes()).map_err(|error| ArchiveError::File { path: path.clone(), error })?;
        let plain = self.plain_keyring_path();
        match self.files.remove(&plain) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => Err(ArchiveError::File { path: plain, error }),
            _ => Ok(path),
        }
    }

    /// The keyring; empty where there is no file yet.
    ///
    /// # Errors
    /// The file cannot be read, is no keyring, or is not signed by the office key where there is one. It
    /// is never taken as empty then: every device would look unknown.
    pub fn keyring(&self) -> Result<Keyring, ArchiveError> {
        if let Some(office) = self.office_key()? {
            return self.signed_keyring(&office);
        }
        let path = self.plain_keyring_path();
        let ring = self.read_if_there(&path)?.map(|text| Keyring::read(&text)).transpose();
        Ok(ring.map_err(|error| ArchiveError::Keyring { path, error })?.unwrap_or_default())
    }

    /// The ring that a key which is new to the archive signs: no phone of a signed ring that lies there is lost.
    fn ring_for(&self, key: &DeviceKey) -> Result<Keyring, ArchiveError> {
        let plain = self.keyring()?;
        let Some((by, ring)) = self.opened_keyring()? else { return Ok(plain) };
        // Left by a power cut while a key was made, before its file lay there: the plain ring holds all of it.
        if ring.devices().iter().all(|one| plain.devices().contains(one)) {
            return Ok(plain);
        }
        let reason = if by != key.public() {
            "another office key signed it; load that key's file, or move keyring.txt out of the archive and enrol the \
             phones anew"
        } else if plain.devices().is_empty() {
            return Ok(ring);
        } else {
            "keyring.json beside it names other phones; move the one that is not in use out of the archive"
        };
        Err(ArchiveError::KeyringNotOurs { path: self.signed_keyring_path(), reason: reason.to_owned() })
    }

    fn signed_keyring(&self, office: &KeyFile) -> Result<Keyring, ArchiveError> {
        let path = self.office_key_path();
        let public = office.public().map_err(|error| ArchiveError::OfficeKey { path, error })?;
        match self.opened_keyring()? {
            None => Ok(Keyring::default()),
            Some((signer, ring)) if signer == public => Ok(ring),
            Some(_) => {
                let reason = "it was signed by another key than the office's".to_owned();
                Err(ArchiveError::KeyringNotOurs { path: self.signed_keyring_path(), reason })
            }
        }
    }

    /// The signed keyring and who signed it; nothing here says that this is the office.
    ///
    /// # Errors
    /// It cannot be read, or was changed since it was signed.
    pub fn opened_keyring(&self) -> Result<Option<(PublicKey, Keyring)>, ArchiveError> {
        let path = self.signed_keyring_path();
        let not_ours = |reason: String| ArchiveError::KeyringNotOurs { path: path.clone(), reason };
        let Some(text) = self.read_if_there(&path)? else { return Ok(None) };
        let opened = open(text.as_bytes(), Kind::Keyring).map_err(|error| not_ours(error.to_string()))?;
        let payload = String::from_utf8(opened.payload).map_err(|error| not_ours(error.to_string()))?;
        let ring = Keyring::read(&payload).map_err(|error| ArchiveError::Keyring { path: path.clone(), error })?;
        Ok(Some((opened.signer, ring)))
    }

    /// Writes the keyring, signed where the office has a key. The path under which it lies.
    ///
    /// # Errors
    /// The folder or file cannot be written.
    pub fn save_keyring(&self, keyring: &Keyring, office: Option<&DeviceKey>) -> Result<PathBuf, ArchiveError> {
        if let Some(key) = office {
            return self.put_signed_keyring(keyring, key);
        }
        let path = self.plain_keyring_path();
        let text = keyring.write().map_err(|error| ArchiveError::Keyring { path: path.clone(), error })?;
        self.files
            .put(&path, text.as_bytes())
            .map(|()| path.clone())
            .map_err(|error| ArchiveError::File { path, error })
    }

    fn put_signed_keyring(&self, keyring: &Keyring, key: &DeviceKey) -> Result<PathBuf, ArchiveError> {
        let path = self.signed_keyring_path();
        let not_signed = |reason: String| ArchiveError::KeyringNotOurs { path: path.clone(), reason };
        let payload = canonical::to_vec(keyring).map_err(|error| not_signed(error.to_string()))?;
        let text = seal(Kind::Keyring, &payload, key).map_err(|error| not_signed(error.to_string()))?;
        self.files
            .put(&path, text.as_bytes())
            .map(|()| path.clone())
            .map_err(|error| ArchiveError::File { path, error })
    }

    /// Every file kept as received, in order of its name; none where nothing was kept yet.
    ///
    /// # Errors
    /// The folder cannot be read.
    pub fn received(&self) -> Result<Vec<PathBuf>, ArchiveError> {
        self.listed("received")
    }

    /// Every local card kept, in order of its name.
    ///
    /// # Errors
    /// The folder cannot be read.
    pub fn cards(&self) -> Result<Vec<PathBuf>, ArchiveError> {
        self.listed("cards")
    }

    fn listed(&self, folder: &str) -> Result<Vec<PathBuf>, ArchiveError> {
        self.listed_as(folder, &["txt"])
    }

    fn listed_as(&self, folder: &str, endings: &[&str]) -> Result<Vec<PathBuf>, ArchiveError> {
        let folder = self.folder.join(folder);
        let failed = |error| ArchiveError::File { path: folder.clone(), error };
        let mut paths = self.files.list(&folder).map_err(failed)?;
        paths.retain(|path| path.extension().is_some_and(|ending| endings.iter().any(|one| ending == *one)));
        Ok(paths)
    }

    /// Keeps a file as received. The path under which it lies; one that is there already stays.
    ///
    /// # Errors
    /// The folder or file cannot be written.
    pub fn keep(&self, bytes: &[u8]) -> Result<PathBuf, ArchiveError> {
        self.keep_in("received", bytes)
    }

    /// Keeps a signed local card; one that is there already stays.
    ///
    /// # Errors
    /// The folder or file cannot be written.
    pub fn keep_card(&self, bytes: &[u8]) -> Result<PathBuf, ArchiveError> {
        self.keep_in("cards", bytes)
    }

    /// Keeps a photo as received; one that is there already stays.
    ///
    /// # Errors
    /// The folder or file cannot be written.
    pub fn keep_photo(&self, bytes: &[u8]) -> Result<PathBuf, ArchiveError> {
        self.keep_as("photos", if bytes.starts_with(b"\x89PNG") { "png" } else { "jpg" }, bytes)
    }

    /// The photos kept, by digests worked out from their bytes: a file that was changed since is not under its name.
    ///
    /// # Errors
    /// The folder or a file cannot be read.
    pub fn photos(&self) -> Result<BTreeMap<Digest, PathBuf>, ArchiveError> {
        let paths = self.listed_as("photos", &["jpg", "png"])?;
        paths.into_iter().map(|path| Ok((Digest::of(&[&self.read(&path)?]), path))).collect()
    }

    fn keep_in(&self, folder: &str, bytes: &[u8]) -> Result<PathBuf, ArchiveError> {
        self.keep_as(folder, "txt", bytes)
    }

    fn keep_as(&self, folder: &str, ending: &str, bytes: &[u8]) -> Result<PathBuf, ArchiveError> {
        let path = self.folder.join(folder).join(format!("{}.{ending}", hex(Digest::of(&[bytes]))));
        if self.files.exists(&path) {
            return Ok(path);
        }
        self.files.put(&path, bytes).map(|()| path.clone()).map_err(|error| ArchiveError::File { path, error })
    }

    fn read_if_there(&self, path: &Path) -> Result<Option<String>, ArchiveError> {
        let failed = |error| ArchiveError::File { path: path.to_owned(), error };
        match self.files.read(path) {
            Ok(bytes) => String::from_utf8(bytes).map(Some).map_err(|error| failed(io::Error::other(error))),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
            Err(error) => Err(failed(error)),
        }
    }
}

/// The files of an archive that other programs may change too, not named by a digest; in the order in which they are
/// written: a power cut in between leaves a keyring that is still read.
pub const SHARED: [&str; 3] = ["keyring.json", "keyring.txt", "office-key.json"];

/// The folders of an archive.
pub const FOLDERS: [&str; 4] = ["received", "cards", "photos", "winter"];

/// Digests name files in hexadecimal, because some file systems do not tell `a` from `A`.
pub(in crate::office) fn hex(digest: Digest) -> String {
    digest
        .0
        .iter()
        .flat_map(|byte| [byte >> 4, byte & 15])
        .filter_map(|nibble| char::from_digit(nibble.into(), 16))
        .collect()
}
