//! Every file of the archive, opened and judged; what is intact and of an enrolled device counts.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use super::table::NotUsed;
use super::winter_files;
use crate::office::archive::{Archive, ArchiveError};
use crate::office::cards::Cards;
use crate::office::keyring::Keyring;
use crate::office::opening::{Judged, Outcome, Verdict, judge};
use crate::office::recompute;
use crate::record::{DeviceId, Digest, Moment};
use crate::science::winter::log::Log;

/// One file that the season rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Used {
    /// Its folder in the archive.
    pub folder: Folder,
    /// Digest of its bytes.
    pub sha256: Digest,
}

/// A folder of the archive.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Folder {
    /// Files as received.
    Received,
    /// Local cards.
    Cards,
    /// Daily logs.
    Winter,
}

/// Everything that the archive holds for a season.
#[derive(Debug, Default)]
pub struct Gathered {
    /// Entries of intact files of enrolled devices.
    pub entries: recompute::Gathered,
    /// The crew of each device, by its latest bundle.
    pub crews: BTreeMap<DeviceId, String>,
    /// Local cards.
    pub cards: Cards,
    /// Daily logs of files; those on phones lie among the entries.
    pub logs: Vec<Log>,
    /// Every file that was opened.
    pub opened: BTreeSet<Used>,
    /// What was used.
    pub used: BTreeSet<Used>,
    /// What was not, and why.
    pub not_used: Vec<NotUsed>,
    /// The worst that a received file came to.
    pub worst: Option<Outcome>,
}

/// Opens all of it. `only`, where given, are the files that a manifest names: what came later is passed over.
///
/// # Errors
/// A folder, a file or the office's key cannot be read.
pub fn gather(archive: &Archive, keyring: &Keyring, only: Option<&BTreeSet<Used>>) -> Result<Gathered, ArchiveError> {
    let mut out = Gathered::default();
    let wanted = |used: Used| only.is_none_or(|only| only.contains(&used));
    let mut latest: BTreeMap<DeviceId, (Moment, String)> = BTreeMap::new();
    for path in archive.received()? {
        let bytes = read(&path)?;
        let used = Used { folder: Folder::Received, sha256: Digest::of(&[&bytes]) };
        if wanted(used) && out.opened.insert(used) {
            take(&bytes, keyring, used, &mut latest, &mut out);
        }
    }
    out.crews = latest.into_iter().map(|(device, (_, crew))| (device, crew)).collect();
    let office = archive.office_key()?;
    let office = office.as_ref().and_then(|file| file.public().ok());
    for path in archive.cards()? {
        let bytes = read(&path)?;
        let used = Used { folder: Folder::Cards, sha256: Digest::of(&[&bytes]) };
        if wanted(used) && out.opened.insert(used) {
            match out.cards.take(&bytes, office.as_ref()) {
                Ok(_) => drop(out.used.insert(used)),
                Err(error) => out.not_used.push(NotUsed::new(used, &error.to_string())),
            }
        }
    }
    for (stem, bytes, units) in winter(archive.folder())? {
        let with_units = [Some(&bytes), units.as_ref()];
        let digests =
            with_units.map(|file| file.map(|file| Used { folder: Folder::Winter, sha256: Digest::of(&[file]) }));
        if !digests.iter().flatten().all(|used| wanted(*used)) {
            continue;
        }
        out.opened.extend(digests.into_iter().flatten());
        match winter_files::read(&stem, &bytes, units.as_deref()) {
            Ok(logs) => {
                out.logs.extend(logs);
                out.used.extend(digests.into_iter().flatten());
            }
            Err(reason) => out.not_used.extend(digests.into_iter().flatten().take(1).map(|u| NotUsed::new(u, &reason))),
        }
    }
    out.not_used.sort();
    Ok(out)
}

fn read(path: &Path) -> Result<Vec<u8>, ArchiveError> {
    fs::read(path).map_err(|error| ArchiveError::File { path: path.to_owned(), error })
}

fn take(
    bytes: &[u8],
    keyring: &Keyring,
    used: Used,
    latest: &mut BTreeMap<DeviceId, (Moment, String)>,
    out: &mut Gathered,
) {
    let mut judged = judge(bytes, keyring);
    let outcome = judged.outcome();
    out.worst = Some(out.worst.map_or(judged.worst(), |worst| worst.max(judged.worst())));
    // What another phone's bundle carries counts only where its own device is enrolled.
    judged.carried.retain(|carried| carried.outcome() == Outcome::Intact);
    match &judged.verdict {
        Verdict::Intact { .. } => {
            out.used.insert(used);
            crews(&judged, latest);
            out.entries.take(&judged);
        }
        Verdict::Unknown | Verdict::Retired { .. } => {
            out.not_used.push(NotUsed::new(used, "the device that signed it is not enrolled"));
        }
        Verdict::Damaged { reason, .. } | Verdict::Newer { reason } => {
            out.not_used.push(NotUsed::new(used, &format!("{}: {reason}", outcome.code())));
        }
    }
}

fn crews(judged: &Judged, latest: &mut BTreeMap<DeviceId, (Moment, String)>) {
    if let Some((device, payload)) = judged.signer.zip(judged.contents.as_ref().map(|c| &c.payload))
        && let Some(crew) = &payload.crew
    {
        let made = (payload.made_at, crew.clone());
        let slot = latest.entry(device).or_insert_with(|| made.clone());
        if (made.0.unix_seconds(), &made.1) > (slot.0.unix_seconds(), &slot.1) {
            *slot = made;
        }
    }
    for carried in &judged.carried {
        crews(carried, latest);
    }
}

/// Name, bytes, and the units beside it.
type WinterFile = (String, Vec<u8>, Option<Vec<u8>>);

/// The daily logs, in the order of their bytes: names decide nothing but what a place is called.
fn winter(archive: &Path) -> Result<Vec<WinterFile>, ArchiveError> {
    let folder = archive.join("winter");
    let failed = |error| ArchiveError::File { path: folder.clone(), error };
    let listed = match fs::read_dir(&folder) {
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => return Ok(Vec::new()),
        listed => listed.map_err(failed)?,
    };
    let mut files = Vec::new();
    for entry in listed {
        let path = entry.map_err(failed)?.path();
        if path.extension().is_some_and(|ending| ending == "csv") {
            let stem = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
            let beside = path.with_extension("units.json");
            let units = if beside.exists() { Some(read(&beside)?) } else { None };
            files.push((stem, read(&path)?, units));
        }
    }
    files.sort();
    Ok(files)
}
