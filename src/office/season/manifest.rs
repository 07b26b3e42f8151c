//! The manifest of a season run: everything that went in and everything that came out, by digest.
//!
//! The office signs it with its key, as an office decision (`typ` of [`Kind::Decision`], told apart by `format`). A run
//! from a manifest takes the files that it names, its keyring and what it asked for, and has to give the same bytes; what
//! reached the archive later is passed over.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::Asked;
use super::gather::{Files, Folder, Used};
use crate::bundle::{DeviceKey, Kind, PublicKey, SealError, canonical, open, seal, strict};
use crate::office::keyring::Keyring;
use crate::record::Digest;

/// What the member `format` says.
pub const FORMAT: &str = "marrowbook-season-manifest-1";

/// Everything that a season rests on, and what it came to. Members stand in the order of the canonical form.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Manifest {
    /// Version of the program.
    pub app: String,
    /// What was asked for, the winter among it.
    pub asked: Asked,
    /// Files of the archive that were opened.
    pub files: Vec<FileLine>,
    /// `marrowbook-season-manifest-1`.
    pub format: String,
    /// The keyring as it stood.
    pub keyring: Keyring,
    /// Files that were written.
    pub outputs: Vec<OutputLine>,
    /// Version of the methods.
    pub science: String,
}

/// One file of the archive.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct FileLine {
    /// Its folder.
    pub folder: Folder,
    /// Digest of its bytes.
    pub sha256: Digest,
    /// It counts in the figures.
    pub used: bool,
}

/// One file that was written.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct OutputLine {
    /// Its name.
    pub name: String,
    /// Digest of its bytes.
    pub sha256: Digest,
}

/// Why a manifest cannot be used.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoManifest {
    /// It does not open, or is of another form.
    #[error("this is no season manifest: {0}")]
    Form(String),
    /// Somebody else signed it.
    #[error("it was signed by another key than this office's")]
    NotOurs,
    /// A file that it names is not in the archive any more.
    #[error("{0} of the files that it names {verb} not in the archive, or changed", verb = if *.0 == 1 { "is" } else { "are" })]
    Missing(usize),
}

impl Manifest {
    /// Of a run.
    pub fn of(from: &Files, keyring: &Keyring, asked: Asked, outputs: &[(String, Vec<u8>)]) -> Self {
        let file = |used: &Used| FileLine { folder: used.folder, sha256: used.sha256, used: from.used.contains(used) };
        let output =
            |(name, bytes): &(String, Vec<u8>)| OutputLine { name: name.clone(), sha256: Digest::of(&[bytes]) };
        Self {
            app: env!("CARGO_PKG_VERSION").to_owned(),
            asked,
            files: from.opened.iter().map(file).collect(),
            format: FORMAT.to_owned(),
            keyring: keyring.clone(),
            outputs: outputs.iter().map(output).collect(),
            science: crate::science::VERSION.to_owned(),
        }
    }

    /// As a signed file; plain JSON where the office has no key.
    ///
    /// # Errors
    /// It cannot be written in canonical form, or is too large.
    pub fn write(&self, key: Option<&DeviceKey>) -> Result<String, SealError> {
        let payload = canonical::to_vec(self).map_err(|_| SealError::TooLarge { bytes: 0, limit: 0 })?;
        match key {
            Some(key) => seal(Kind::Decision, &payload, key),
            None => Ok(String::from_utf8_lossy(&payload).into_owned()),
        }
    }

    /// Reads one. With an office key only one that it signed is taken; without, a plain one.
    ///
    /// # Errors
    /// [`NoManifest`].
    pub fn read(bytes: &[u8], office: Option<&PublicKey>) -> Result<Self, NoManifest> {
        let form = |error: &dyn ToString| NoManifest::Form(error.to_string());
        let manifest: Self = match office {
            Some(office) => {
                let opened = open(bytes, Kind::Decision).map_err(|error| form(&error))?;
                if opened.signer.id() != office.id() {
                    return Err(NoManifest::NotOurs);
                }
                strict::read_as(&opened.payload).map_err(|error| form(&error))?
            }
            None => strict::read_as(bytes).map_err(|error| form(&error))?,
        };
        if manifest.format == FORMAT { Ok(manifest) } else { Err(NoManifest::Form(manifest.format)) }
    }

    /// The files that it names.
    pub fn files(&self) -> BTreeSet<Used> {
        self.files.iter().map(|file| Used { folder: file.folder, sha256: file.sha256 }).collect()
    }

    /// Whether everything that it names was opened.
    ///
    /// # Errors
    /// [`NoManifest::Missing`].
    pub fn all_there(&self, from: &Files) -> Result<(), NoManifest> {
        match self.files().difference(&from.opened).count() {
            0 => Ok(()),
            missing => Err(NoManifest::Missing(missing)),
        }
    }

    /// Names of files that came out otherwise than it says.
    pub fn differing(&self, outputs: &[(String, Vec<u8>)]) -> Vec<String> {
        let same = |line: &OutputLine| {
            let made = outputs.iter().find(|(name, _)| *name == line.name);
            made.is_some_and(|(_, bytes)| Digest::of(&[bytes]) == line.sha256)
        };
        self.outputs.iter().filter(|line| !same(line)).map(|line| line.name.clone()).collect()
    }
}
