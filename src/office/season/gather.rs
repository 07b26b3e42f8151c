//! Every file of the archive, opened and judged; what is intact and of an enrolled device counts.

use std::collections::{BTreeMap, BTreeSet};

use super::LANGUAGE;
use super::table::NotUsed;
use crate::office::archive::{Archive, ArchiveError, hex};
use crate::office::cards::Cards;
use crate::office::keyring::Keyring;
use crate::office::opening::{Judged, Outcome, Verdict, judge};
use crate::office::recompute;
use crate::office::winter::join::{FromFile, join};
use crate::office::winter::kept::KeptError;
use crate::office::winter::table::Draft;
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

impl Used {
    /// Its path in the archive.
    pub fn path(self) -> String {
        let (folder, ending) = match self.folder {
            Folder::Received => ("received", "txt"),
            Folder::Cards => ("cards", "txt"),
            Folder::Winter => ("winter", "csv"),
        };
        format!("{folder}/{}.{ending}", hex(self.sha256))
    }
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

/// What the files of an archive came to, their entries apart.
#[derive(Debug, Default)]
pub struct Files {
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

/// Everything that the archive holds for a season.
#[derive(Debug, Default)]
pub struct Gathered {
    /// Entries of intact files of enrolled devices.
    pub entries: recompute::Gathered,
    /// What the files came to.
    pub files: Files,
}

/// Why the archive could not be gathered.
#[derive(Debug, thiserror::Error)]
pub enum GatherError {
    /// A folder, a file or the office's key.
    #[error("{0}")]
    Archive(#[from] ArchiveError),
    /// A daily log, or what was confirmed of it.
    #[error("{0}")]
    Kept(#[from] KeptError),
}

/// Opens all of it and holds it. `only`, where given, are the files that a manifest names: what came later is passed
/// over.
///
/// # Errors
/// A folder, a file or the office's key cannot be read.
pub fn gather(archive: &Archive, keyring: &Keyring, only: Option<&BTreeSet<Used>>) -> Result<Gathered, GatherError> {
    let mut received = Received::default();
    let mut entries = recompute::Gathered::default();
    for path in archive.received()? {
        let bytes = archive.read(&path)?;
        let used = Used { folder: Folder::Received, sha256: Digest::of(&[&bytes]) };
        if received.wants(used, only) {
            let judged = judge(&bytes, keyring);
            received.take(used, Came::of(&judged));
            entries.take_counted(&judged);
        }
    }
    Ok(Gathered { entries, files: received.with_others(archive, only)? })
}

/// Received files, one after the other.
#[derive(Debug, Default)]
pub(in crate::office) struct Received {
    files: Files,
    latest: BTreeMap<DeviceId, (Moment, String)>,
}

pub(in crate::office) fn wanted(used: Used, only: Option<&BTreeSet<Used>>) -> bool {
    only.is_none_or(|only| only.contains(&used))
}

impl Received {
    /// Whether it is to be opened: it is wanted, and no copy of it was opened before.
    pub(in crate::office) fn wants(&mut self, used: Used, only: Option<&BTreeSet<Used>>) -> bool {
        wanted(used, only) && self.files.opened.insert(used)
    }

    /// Notes what it came to.
    pub(in crate::office) fn take(&mut self, used: Used, came: Came) {
        let out = &mut self.files;
        out.worst = Some(out.worst.map_or(came.worst, |worst| worst.max(came.worst)));
        match came.not_used {
            None => drop(out.used.insert(used)),
            Some(reason) => out.not_used.push(NotUsed::new(used, &reason)),
        }
        for (device, made_at, crew) in came.crews {
            let made = (made_at, crew);
            let slot = self.latest.entry(device).or_insert_with(|| made.clone());
            if (made.0.unix_seconds(), &made.1) > (slot.0.unix_seconds(), &slot.1) {
                *slot = made;
            }
        }
    }

    /// When all were taken: cards and daily logs.
    pub(in crate::office) fn with_others(
        self,
        archive: &Archive,
        only: Option<&BTreeSet<Used>>,
    ) -> Result<Files, GatherError> {
        let mut out = self.files;
        out.crews = self.latest.into_iter().map(|(device, (_, crew))| (device, crew)).collect();
        let office = archive.office_key()?;
        let office = office.as_ref().and_then(|file| file.public().ok());
        for path in archive.cards()? {
            let bytes = archive.read(&path)?;
            let used = Used { folder: Folder::Cards, sha256: Digest::of(&[&bytes]) };
            if wanted(used, only) && out.opened.insert(used) {
                match out.cards.take(&bytes, office.as_ref()) {
                    Ok(_) => drop(out.used.insert(used)),
                    Err(error) => out.not_used.push(NotUsed::new(used, &error.to_string())),
                }
            }
        }
        let mut logs = Vec::new();
        for one in archive.winter_logs()? {
            let sheet = crate::record::to_canonical(&one.sheet).unwrap_or_default();
            let digests = [one.bytes.as_slice(), sheet.as_bytes()];
            let used = digests.map(|file| Used { folder: Folder::Winter, sha256: Digest::of(&[file]) });
            if !used.iter().all(|used| wanted(*used, only)) {
                continue;
            }
            out.opened.extend(used);
            match Draft::read(&one.bytes) {
                Ok(draft) => {
                    let table = draft.table(&one.confirmed);
                    logs.extend(table.logs.into_iter().map(|log| FromFile { file: one.sheet.file.clone(), log }));
                    out.used.extend(used);
                }
                Err(error) => {
                    let reason = error.say(LANGUAGE);
                    out.not_used.extend(used.into_iter().take(1).map(|used| NotUsed::new(used, &reason)));
                }
            }
        }
        out.logs = join(logs).0;
        out.not_used.sort();
        Ok(out)
    }
}

/// What a received file came to.
#[derive(Debug)]
pub(in crate::office) struct Came {
    worst: Outcome,
    not_used: Option<String>,
    /// Device, moment and crew of each bundle that counts.
    crews: Vec<(DeviceId, Moment, String)>,
}

impl Came {
    /// Of a judged file.
    pub(in crate::office) fn of(judged: &Judged) -> Self {
        let not_used = match &judged.verdict {
            Verdict::Intact { .. } => None,
            Verdict::Unknown | Verdict::Retired { .. } => Some("the device that signed it is not enrolled".to_owned()),
            Verdict::Damaged { reason, .. } | Verdict::Newer { reason } => {
                Some(format!("{}: {reason}", judged.outcome().code()))
            }
        };
        let mut crews = Vec::new();
        add_crews(judged, &mut crews);
        Self { worst: judged.worst(), not_used, crews }
    }
}

/// Of the same bundles as count: what another phone's bundle carries counts only where its own device is enrolled.
fn add_crews(judged: &Judged, all: &mut Vec<(DeviceId, Moment, String)>) {
    if judged.outcome() != Outcome::Intact {
        return;
    }
    if let Some((device, payload)) = judged.signer.zip(judged.contents.as_ref().map(|c| &c.payload))
        && let Some(crew) = &payload.crew
    {
        all.push((device, payload.made_at, crew.clone()));
    }
    judged.carried.iter().for_each(|carried| add_crews(carried, all));
}
