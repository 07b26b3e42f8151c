//! An archive read part after part, so that no more than a few parts are ever held: what `office season` and
//! `office export` go through.
//!
//! Three passes. The first opens every received file as always and notes only what has to be known of all of them: which
//! chains lie in which files, which entries are superseded, which examination belongs to which carcass, which carcasses
//! the office joined. From that a [`Plan`] cuts the carcasses, in the order of their ids, into parts of bounded size. The
//! second pass goes chain by chain, so that copies, forks and withheld bodies are settled by the journal as ever, and puts
//! each entry down with its part ([`store`]). The third takes part after part and folds it: each part's fold holds its
//! carcasses just as the fold of the whole archive would, and the outings and reports that they name beside them.
//!
//! How large the parts are and how many threads work moves no figure.

pub(in crate::office) mod abreast;
mod plan;
pub mod store;
mod survey;

use std::collections::BTreeSet;
use std::io;
use std::path::PathBuf;

use super::archive::{Archive, ArchiveError};
use super::keyring::Keyring;
use super::opening::{Judged, judge};
use super::season::gather::{Came, Files, Folder, GatherError, Received, Used, wanted};
use crate::record::{Body, Deciders, DeviceId, Digest, EntryId, Fold, Journal, Stored, fold_part};
use abreast::abreast;
use plan::Plan;
use store::{Parts, Store};
use survey::{OfFile, Superseded, Survey, body_of};
pub(in crate::office) use survey::{body_again, unreadable};

/// How much is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bounds {
    /// Bytes of entries in one part, as they stand in the files unpacked. A carcass is never cut in two.
    pub part_bytes: u64,
    /// Most parts; where there would be more, all of them are larger.
    pub most_parts: u64,
    /// Parts, and files, that are worked on at a time.
    pub threads: usize,
}

impl Default for Bounds {
    /// Parts of 2 MB and more, one at a time.
    fn default() -> Self {
        Self { part_bytes: 2 << 20, most_parts: 8192, threads: 1 }
    }
}

/// Why an archive could not be read in parts.
#[derive(Debug, thiserror::Error)]
pub enum StreamError {
    /// As when it is read whole.
    #[error("{0}")]
    Gather(#[from] GatherError),
    /// A file is another one than a moment ago.
    #[error("{}: this file was changed or taken away while the archive was read", .0.display())]
    Changed(PathBuf),
    /// What was put down in between.
    #[error("{0}")]
    Store(io::Error),
}

impl From<ArchiveError> for StreamError {
    fn from(error: ArchiveError) -> Self {
        Self::Gather(error.into())
    }
}

/// An archive cut into parts.
pub struct Streamed<'s> {
    /// What its files came to.
    pub files: Files,
    /// Examinations that name no carcass.
    pub adrift: usize,
    /// Ids that two different entries claim.
    pub forks: usize,
    devices: Vec<DeviceId>,
    deciders: Deciders,
    plan: Plan,
    parts: Parts<'s>,
    /// Parts that are worked on at a time.
    pub threads: usize,
}

/// A received file that counts.
struct Counted {
    path: PathBuf,
    sha256: Digest,
}

/// Bodies of one chain with the parts that they go to, in the order of the journal.
struct OfChain {
    forks: usize,
    records: Vec<(Vec<u32>, store::Record)>,
}

impl<'s> Streamed<'s> {
    /// Reads the archive twice, and cuts it. `only` as in [`super::season::gather()`].
    ///
    /// # Errors
    /// See [`StreamError`].
    pub fn cut(
        archive: &Archive,
        keyring: &Keyring,
        only: Option<&BTreeSet<Used>>,
        store: &'s mut dyn Store,
        bounds: Bounds,
    ) -> Result<Self, StreamError> {
        let deciders = deciders(archive, keyring)?;
        let (files, counted, survey) = surveyed(archive, keyring, only, (&deciders, bounds.threads))?;
        let chains = survey.chains();
        let devices: Vec<DeviceId> = chains.iter().map(|(device, _)| *device).collect();
        let (plan, superseded) = Plan::of(survey, bounds);
        let mut parts = Parts::new(store, plan.count());
        let mut forks = 0;
        let numbered = (0_u32..).zip(chains);
        abreast(
            numbered,
            bounds.threads,
            |(number, (device, of_chain))| {
                let held = of_chain.iter().filter_map(|at| counted.get(*at as usize));
                let (journal, unreadable) = chain(archive, keyring, device, held)?;
                let forks = journal.forks().len();
                let records = records(journal, &unreadable, number, (&plan, &superseded, &deciders));
                Ok::<_, StreamError>(OfChain { forks, records })
            },
            |of_chain| {
                let of_chain = of_chain?;
                forks += of_chain.forks;
                for (to, record) in of_chain.records {
                    parts.put(&to, &record).map_err(StreamError::Store)?;
                }
                Ok::<_, StreamError>(())
            },
        )?;
        parts.close().map_err(StreamError::Store)?;
        Ok(Self { files, adrift: plan.adrift(), forks, devices, deciders, plan, parts, threads: bounds.threads })
    }

    /// Works on the carcasses, part after part in the order of their ids; what comes of it is taken in that order.
    ///
    /// # Errors
    /// What was put down cannot be read, or `take` gives up.
    pub fn carcasses<R: Send, E: From<StreamError>>(
        &self,
        work: impl Fn(Fold) -> R + Sync,
        take: impl FnMut(R) -> Result<(), E>,
    ) -> Result<(), E> {
        self.each(self.plan.carcasses(), work, take)
    }

    /// The same for the outings.
    ///
    /// # Errors
    /// As [`Self::carcasses`].
    pub fn outings<R: Send, E: From<StreamError>>(
        &self,
        work: impl Fn(Fold) -> R + Sync,
        take: impl FnMut(R) -> Result<(), E>,
    ) -> Result<(), E> {
        self.each(self.plan.outings(), work, take)
    }

    /// The same for the reports.
    ///
    /// # Errors
    /// As [`Self::carcasses`].
    pub fn reports<R: Send, E: From<StreamError>>(
        &self,
        work: impl Fn(Fold) -> R + Sync,
        take: impl FnMut(R) -> Result<(), E>,
    ) -> Result<(), E> {
        self.each(self.plan.reports(), work, take)
    }

    /// The winter logs of phones: every carcass is read with them.
    ///
    /// # Errors
    /// What was put down cannot be read.
    pub fn winter_logs(&self) -> Result<Fold, StreamError> {
        self.fold(self.plan.winter_logs())
    }

    fn each<R: Send, E: From<StreamError>>(
        &self,
        parts: std::ops::Range<u32>,
        work: impl Fn(Fold) -> R + Sync,
        mut take: impl FnMut(R) -> Result<(), E>,
    ) -> Result<(), E> {
        abreast(parts, self.threads, |part| self.fold(part).map(&work), |done| take(done?))
    }

    fn fold(&self, part: u32) -> Result<Fold, StreamError> {
        let mut bodies: Vec<(EntryId, Body)> = Vec::new();
        let mut superseded = BTreeSet::new();
        self.parts
            .each(part, |record| {
                let device = self.devices.get(record.device as usize);
                // It was read before it was put down.
                if let (Some(device), Ok(body)) = (device, Body::read_again(record.text)) {
                    let id = EntryId { device: *device, seq: record.seq };
                    if record.superseded {
                        superseded.insert(id);
                    }
                    bodies.push((id, self.deciders.heed(id, body)));
                }
            })
            .map_err(StreamError::Store)?;
        let bodies: Vec<&(EntryId, Body)> = bodies.iter().collect();
        Ok(fold_part(&bodies, &superseded))
    }
}

/// Whose decisions count. Only where an office was enrolled by its words alone have the files to say which device it is.
fn deciders(archive: &Archive, keyring: &Keyring) -> Result<Deciders, StreamError> {
    let (mut deciders, by_words) = keyring.deciders();
    if by_words {
        for path in archive.received()? {
            let judged = judge(&archive.read(&path)?, keyring);
            judged.counted().into_iter().filter_map(Judged::decider).for_each(|device| deciders.add(device));
        }
    }
    Ok(deciders)
}

/// The first pass.
fn surveyed(
    archive: &Archive,
    keyring: &Keyring,
    only: Option<&BTreeSet<Used>>,
    (deciders, threads): (&Deciders, usize),
) -> Result<(Files, Vec<Counted>, Survey), StreamError> {
    let mut received = Received::default();
    let mut counted = Vec::new();
    let mut survey = Survey::default();
    abreast(
        archive.received()?,
        threads,
        |path| -> Result<_, StreamError> {
            let bytes = archive.read(&path)?;
            let used = Used { folder: Folder::Received, sha256: Digest::of(&[&bytes]) };
            if !wanted(used, only) {
                return Ok(None);
            }
            let judged = judge(&bytes, keyring);
            Ok(Some((path, used, Came::of(&judged), OfFile::of(&judged, deciders))))
        },
        |opened| {
            let Some((path, used, came, of_file)) = opened? else { return Ok(()) };
            if received.wants(used, only) {
                received.take(used, came);
                if !of_file.is_empty() {
                    survey.take(counted.len(), of_file);
                    counted.push(Counted { path, sha256: used.sha256 });
                }
            }
            Ok::<_, StreamError>(())
        },
    )?;
    Ok((received.with_others(archive, only)?, counted, survey))
}

/// All that counts of one device's chain, and which of its entries break their form.
fn chain<'a>(
    archive: &Archive,
    keyring: &Keyring,
    device: DeviceId,
    files: impl Iterator<Item = &'a Counted>,
) -> Result<(Journal, BTreeSet<EntryId>), StreamError> {
    let (mut journal, mut broken) = (Journal::new(), BTreeSet::new());
    for file in files {
        let bytes = archive.read(&file.path).map_err(|_| StreamError::Changed(file.path.clone()))?;
        if Digest::of(&[&bytes]) != file.sha256 {
            return Err(StreamError::Changed(file.path.clone()));
        }
        let judged = judge(&bytes, keyring);
        for contents in judged.counted().into_iter().filter_map(|one| one.contents.as_ref()) {
            broken.extend(unreadable(contents));
            for entry in contents.entries.iter().filter(|entry| entry.header.device == device) {
                // Entries rebuilt from a bundle agree with their headers: adding them cannot fail.
                let _ = journal.add(entry.clone());
            }
        }
    }
    Ok((journal, broken))
}

/// Its bodies with the parts that they go to.
fn records(
    journal: Journal,
    unreadable: &BTreeSet<EntryId>,
    device: u32,
    (plan, superseded, deciders): (&Plan, &Superseded, &Deciders),
) -> Vec<(Vec<u32>, store::Record)> {
    let mut all = Vec::new();
    for entry in journal.into_entries() {
        let Some(body) = body_of(&entry, unreadable) else { continue };
        let id = entry.id();
        let to = plan.parts_of(&deciders.heed(id, body).act);
        if let (Stored::Whole { text, .. }, false) = (entry.stored, to.is_empty()) {
            all.push((to, store::Record { device, seq: id.seq, superseded: superseded.holds(id), text }));
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bundle::{DeviceKey, Extras};
    use crate::office::files::HeldFiles;
    use crate::office::test_chain::{TestChain, answer, noon};
    use crate::record::Answer;
    use uuid::Uuid;

    #[test]
    fn a_file_that_is_another_one_when_it_is_opened_again_is_named() {
        let key = DeviceKey::from_seed(&[4; 32]);
        let mut chain_of = TestChain::of(&key);
        chain_of.add(answer(Uuid::from_u128(1), "species", "K7", Answer::NotSeen), "K7", noon());
        let text = chain_of.bundle(&key, "phone", Extras::default());
        let archive = Archive::held(&HeldFiles::default());
        let path = archive.keep(text.as_bytes()).unwrap();
        let open = |sha256: Digest, path: &std::path::Path| {
            let file = Counted { path: path.to_owned(), sha256 };
            chain(&archive, &Keyring::default(), key.public().id(), [&file].into_iter())
        };
        open(Digest::of(&[text.as_bytes()]), &path).unwrap();
        for (digest, path) in [(Digest::of(&[b"other"]), path.clone()), (Digest::of(&[text.as_bytes()]), "gone".into())]
        {
            let error = open(digest, &path).unwrap_err();
            assert!(matches!(&error, StreamError::Changed(named) if *named == path), "{error}");
        }
    }
}
