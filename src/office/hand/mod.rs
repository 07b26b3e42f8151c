//! The office at its desk: what was handed in, the archive that it goes into, the keyring, and what follows from it.
//! Nothing here knows a browser.

mod anew;
mod deciding;
mod fading;
mod figures;
mod laboratory;
mod listing;
mod opening;
mod photos;
mod places;
mod ring;
mod taking;
#[cfg(test)]
mod tests;
mod winter;
mod working;

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;
use std::sync::Arc;

use crate::bundle::Fingerprint;
use crate::office::archive::{Archive, ArchiveError, SHARED, hex};
use crate::office::files::HeldFiles;
use crate::office::keyring::{Keyring, KeyringError, decides};
use crate::office::opening::{Judged, Outcome, judge, rejudge};
use crate::office::photos::named;
use crate::office::zipped::Tree;
use crate::record::{Digest, Moment};
use opening::JudgedFiles;

pub use super::lab_sheet::Checked;
pub use anew::{Bearers, Stand};
pub use deciding::{Decision, NotDecided, Random};
pub use fading::Fading;
pub use figures::{Figures, Worked};
pub use laboratory::{By, Fill};
pub use listing::{Listed, Listing, Local};
pub use opening::ArchiveOpening;
pub use places::Places;
pub use taking::Taking;
pub use working::Working;

/// A file as it was picked.
#[derive(Clone, Debug)]
pub struct Picked {
    /// Its name, which proves nothing.
    pub name: String,
    /// What it turned out to be.
    pub what: What,
    /// What became of it.
    pub kept: Kept,
    /// False for one too large, or that the browser could not read: its bytes are not here.
    was_read: bool,
    bytes: Arc<[u8]>,
    sha256: Digest,
}

/// What a file turned out to be.
#[derive(Clone, Debug)]
pub enum What {
    /// A photo, by the digest of its bytes.
    Photo(Digest),
    /// Anything else, judged as a bundle.
    Judged(Box<Judged>),
    /// The browser could not read it, with its own words for why.
    Unread(String),
}

/// What became of a file that was handed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kept {
    /// It lies in the archive now.
    New,
    /// It lay there before: no news.
    Before,
    /// It does not go there: damaged, unread, or a photo that nothing vouches for yet.
    Not,
}

/// What the keyring in use rests on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum RingFrom {
    /// None was given: every device is unknown.
    #[default]
    Nowhere,
    /// A plain file: whoever could write it could enrol a device.
    Plain,
    /// A file signed by this key, which the person has to compare.
    Signed(Fingerprint),
    /// The archive's own, signed by the office key that lies in it.
    Archive(Fingerprint),
    /// The archive's own was signed by this key, whose file does not lie in it: every device is unknown until it does.
    KeyMissing(Fingerprint),
}

/// Why a thing was not done at the desk.
#[derive(Debug, thiserror::Error)]
pub enum DeskError {
    /// The archive.
    #[error("{0}")]
    Archive(#[from] ArchiveError),
    /// A ring by itself, beside the office's own.
    #[error("this archive has its own keyring, signed by its office key; enrol a phone under Phones")]
    RingThere,
    /// A file that is no keyring.
    #[error("{0}")]
    NoRing(String),
    /// The keyring.
    #[error("{0}")]
    Keyring(#[from] KeyringError),
    /// The office key has not been opened.
    #[error("this is signed with the office key: open it with its passphrase first, or make one")]
    NoKey,
    /// Two archives that cannot be one.
    #[error(
        "this page and what was opened have different files `{0}`; save this page's archive as a zip, open this page \
         again, and then open the other one"
    )]
    Apart(String),
}

/// A device that signed files here and does not count.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stranger {
    /// The label that it gives itself.
    pub label: String,
    /// What the office called it, and from when it is retired; `None` where it was never enrolled.
    pub retired: Option<(String, Moment)>,
}

impl Stranger {
    /// The name under which it may be enrolled, where nobody types another: none that makes its decisions count.
    pub fn proposed_name(&self) -> String {
        if decides(&self.label) { String::new() } else { self.label.clone() }
    }
}

/// All that lies on the office's desk.
#[derive(Debug, Default)]
pub struct Hand {
    /// The devices that count as enrolled.
    pub keyring: Keyring,
    /// What the keyring rests on.
    pub ring_from: RingFrom,
    /// The files, in the order in which they were picked.
    pub files: Vec<Picked>,
    held: HeldFiles,
    /// Every file under received/, judged by the keyring.
    received: BTreeMap<Digest, Arc<Judged>>,
    /// Photos that those files name: asked again at every file that is picked.
    named: BTreeSet<Digest>,
    /// Photos of the archive by the digest of their bytes, with where they lie.
    photos: BTreeMap<Digest, PathBuf>,
}

impl Hand {
    /// The archive on the desk.
    pub fn archive(&self) -> Archive {
        Archive::held(&self.held)
    }

    /// Its files.
    pub const fn held(&self) -> &HeldFiles {
        &self.held
    }

    /// Takes an archive that was read from a folder or a zip. What came into this page before and was not saved goes
    /// into it: files named by their digest go together whatever they are.
    ///
    /// # Errors
    /// Both have a key or a keyring, and not the same; or its key or keyring does not hold. The archive before stays.
    pub fn take_archive(&mut self, files: Tree) -> Result<(), DeskError> {
        self.take_opened(ArchiveOpening::of(files))
    }

    /// The same of one whose files were opened before, as far as they were.
    ///
    /// # Errors
    /// As [`Self::take_archive`].
    pub fn take_opened(&mut self, opening: ArchiveOpening) -> Result<(), DeskError> {
        let ArchiveOpening { files, mut judged, .. } = opening;
        let before = self.held.unsaved().written;
        let mine = self.held.all();
        // Key and ring belong together: half of the one archive's with half of the other's would lose phones.
        let differs = SHARED.into_iter().find(|name| mine.get(*name) != files.get(*name));
        if let Some(name) = differs
            && SHARED.iter().any(|name| before.contains(*name))
            && SHARED.iter().any(|name| files.contains_key(*name))
        {
            return Err(DeskError::Apart(name.to_owned()));
        }
        let held = HeldFiles::of(files.clone());
        for path in &before {
            if let Some(bytes) = mine.get(path)
                && files.get(path) != Some(bytes)
            {
                held.put(path, bytes);
                judged.remove(path);
            }
        }
        let mut next = Self { held, files: self.files.clone(), ..Self::default() };
        next.load(judged)?;
        next.settle();
        *self = next;
        self.keep_waiting();
        Ok(())
    }

    /// What became of each file, told anew of an archive that was opened. One that was saved in the archive before and
    /// does not lie in this one leaves the desk, so that nothing is said of it here.
    fn settle(&mut self) {
        let written = self.held.unsaved().written;
        let (received, photos) = (&self.received, &self.photos);
        self.files.retain_mut(|file| {
            let digest = file.sha256;
            let path = match file.what {
                What::Photo(_) => photos.get(&digest).map(|path| path.to_string_lossy().into_owned()),
                What::Judged(_) => received.contains_key(&digest).then(|| format!("received/{}.txt", hex(digest))),
                What::Unread(_) => None,
            };
            match path {
                Some(path) => file.kept = if written.contains(&path) { Kept::New } else { Kept::Before },
                None => return file.kept == Kept::Not,
            }
            true
        });
    }

    /// Reads keyring, files and photos of the archive anew.
    fn load(&mut self, judged: JudgedFiles) -> Result<(), DeskError> {
        self.load_ring()?;
        self.photos = self.archive().photos()?;
        self.judge_all(judged)
    }

    fn load_ring(&mut self) -> Result<(), DeskError> {
        let archive = self.archive();
        self.keyring = archive.keyring()?;
        let key = archive.office_key()?;
        let public = key.as_ref().map(|key| (key, key.public()));
        self.ring_from = match public {
            Some((_, Ok(public))) => RingFrom::Archive(Fingerprint::of(public.id())),
            Some((_, Err(error))) => {
                return Err(ArchiveError::OfficeKey { path: "office-key.json".into(), error }.into());
            }
            None if !self.keyring.devices().is_empty() => RingFrom::Plain,
            None => match archive.opened_keyring()? {
                Some((signer, ring)) if !ring.devices().is_empty() => {
                    RingFrom::KeyMissing(Fingerprint::of(signer.id()))
                }
                _ => RingFrom::Nowhere,
            },
        };
        Ok(())
    }

    /// Every file by the keyring as it is now. What was opened is not opened again: only who signed it is asked anew.
    fn stand_all(&mut self) {
        let keyring = &self.keyring;
        self.received.values_mut().for_each(|judged| rejudge(judged, keyring));
        self.stand_files();
    }

    fn stand_files(&mut self) {
        let keyring = &self.keyring;
        for file in &mut self.files {
            if let What::Judged(judged) = &mut file.what {
                judged.stand(keyring);
            }
        }
    }

    /// Every file of the archive; what was opened is not opened again.
    fn judge_all(&mut self, mut opened: JudgedFiles) -> Result<(), DeskError> {
        let archive = self.archive();
        self.received.clear();
        self.named.clear();
        for path in archive.received()? {
            let (digest, judged) = if let Some((digest, mut judged)) = opened.remove(&*path.to_string_lossy()) {
                judged.stand(&self.keyring);
                (digest, judged)
            } else {
                let bytes = archive.read(&path)?;
                (Digest::of(&[&bytes]), judge(&bytes, &self.keyring))
            };
            self.receive(digest, Arc::new(judged));
        }
        self.stand_files();
        Ok(())
    }

    /// A file that lies under received/, with the photos that it names.
    fn receive(&mut self, digest: Digest, judged: Arc<Judged>) {
        self.named.extend(named(&judged).into_iter().map(|photo| photo.sha256));
        self.received.insert(digest, judged);
    }

    fn judged(&self) -> impl Iterator<Item = &Judged> {
        self.files.iter().filter_map(|file| match &file.what {
            What::Judged(judged) => Some(&**judged),
            _ => None,
        })
    }

    /// Every file under received/, by the digest of its bytes.
    pub const fn received(&self) -> &BTreeMap<Digest, Arc<Judged>> {
        &self.received
    }

    /// How many files there are of each outcome, worst counted for what a bundle carries; photos that no
    /// bundle names are left out.
    pub fn count(&self, outcome: Outcome) -> usize {
        self.judged().filter(|judged| judged.worst() == outcome).count()
    }
}
