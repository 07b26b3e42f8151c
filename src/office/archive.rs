//! The archive: one folder that holds the keyring and every file as it was received.
//!
//! ```text
//! ARCHIVE/
//!   keyring.json      devices enrolled and retired
//!   received/         files as received, each named by the SHA-256 of its bytes
//! ```
//!
//! A file handed in twice lies there once. Nothing in `received` is ever changed; whoever has the
//! folder can work out everything else again.

use super::keyring::{Keyring, KeyringError};
use crate::record::Digest;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

/// An archive folder. It need not exist until something is put into it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Archive {
    folder: PathBuf,
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
        Self { folder: folder.into() }
    }

    /// The folder.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// The keyring's file.
    pub fn keyring_path(&self) -> PathBuf {
        self.folder.join("keyring.json")
    }

    /// The keyring; empty where there is no file yet.
    ///
    /// # Errors
    /// The file cannot be read, or is no keyring. It is never taken as empty then: every device would
    /// look unknown.
    pub fn keyring(&self) -> Result<Keyring, ArchiveError> {
        let path = self.keyring_path();
        match fs::read_to_string(&path) {
            Ok(text) => Keyring::read(&text).map_err(|error| ArchiveError::Keyring { path, error }),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(Keyring::default()),
            Err(error) => Err(ArchiveError::File { path, error }),
        }
    }

    /// Writes the keyring: a new file first, then put in the place of the old one, so that a power cut
    /// leaves one of the two whole.
    ///
    /// # Errors
    /// The folder or file cannot be written.
    pub fn save_keyring(&self, keyring: &Keyring) -> Result<(), ArchiveError> {
        let path = self.keyring_path();
        let text = keyring.write().map_err(|error| ArchiveError::Keyring { path: path.clone(), error })?;
        put(&path, text.as_bytes()).map_err(|error| ArchiveError::File { path, error })
    }

    /// Keeps a file as received. The path under which it lies; one that is there already stays.
    ///
    /// # Errors
    /// The folder or file cannot be written.
    pub fn keep(&self, bytes: &[u8]) -> Result<PathBuf, ArchiveError> {
        let path = self.folder.join("received").join(format!("{}.txt", hex(Digest::of(&[bytes]))));
        if path.exists() {
            return Ok(path);
        }
        put(&path, bytes).map(|()| path.clone()).map_err(|error| ArchiveError::File { path, error })
    }
}

/// Digests name files in hexadecimal, because some file systems do not tell `a` from `A`.
fn hex(digest: Digest) -> String {
    digest
        .0
        .iter()
        .flat_map(|byte| [byte >> 4, byte & 15])
        .filter_map(|nibble| char::from_digit(nibble.into(), 16))
        .collect()
}

fn put(path: &Path, bytes: &[u8]) -> io::Result<()> {
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder)?;
    }
    let fresh = path.with_extension("new");
    let mut file = fs::File::create(&fresh)?;
    io::Write::write_all(&mut file, bytes)?;
    file.sync_all()?;
    fs::rename(&fresh, path)
}
