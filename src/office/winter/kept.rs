//! Winter logs in the archive: each file byte for byte, and beside it what a person confirmed of it.
//!
//! ```text
//! ARCHIVE/winter/
//!   DIGEST.csv        the file as received, named by the SHA-256 of its bytes in hexadecimal
//!   DIGEST.1.json     its name, the confirmed units, place and gauge; a correction is DIGEST.2.json, and the
//!                     highest number holds
//! ```

use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::cells::DateOrder;
use super::table::Confirmed;
use super::units::{SnowUnit, TemperatureUnit};
use crate::bundle::strict;
use crate::office::archive::{Archive, ArchiveError, hex};
use crate::record::{Digest, Moment};
use crate::science::winter::log::Gauge;

const FOLDER: &str = "winter";
const FORM: &str = "marrowbook-winter-1";
/// Names of the orders of day and month, as on the command line.
pub const DATES: [(&str, DateOrder); 2] = [("month-first", DateOrder::MonthFirst), ("day-first", DateOrder::DayFirst)];
/// Names of the sinking gauges, as on the command line.
pub const GAUGES: [(&str, Gauge); 4] =
    [("quebec", Gauge::Quebec), ("copper", Gauge::Copper), ("deer-tracks", Gauge::DeerTracks), ("other", Gauge::Other)];

/// What a person confirmed of a file.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sheet {
    /// `marrowbook-winter-1`.
    pub format: String,
    /// What the file was called when it came.
    pub file: String,
    /// Unit of the temperatures.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub temperature: Option<String>,
    /// Unit of the snow.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub snow: Option<String>,
    /// Order of day and month.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dates: Option<String>,
    /// The place, where the file has no column for it.
    pub place: String,
    /// The sinking gauge.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub gauge: Option<String>,
    /// When it was kept.
    pub kept_at: Moment,
}

/// Why a log of the archive cannot be kept or read.
#[derive(Debug, thiserror::Error)]
pub enum KeptError {
    /// The folder cannot be read or written.
    #[error(transparent)]
    Archive(#[from] ArchiveError),
    /// A file in it is not what it should be.
    #[error("{}: {reason}", path.display())]
    Bad {
        /// Which.
        path: PathBuf,
        /// What is wrong and what to do.
        reason: String,
    },
    /// The same bytes were kept before, and other units, place or gauge were confirmed then.
    #[error(
        "this file is in the archive already, kept as \"{}\" with {}; if that was wrong, give it again with --correct",
        before.file, before.told()
    )]
    ToldOtherwise {
        /// What was confirmed then.
        before: Box<Sheet>,
    },
}

/// What became of a file that was to be kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Kept {
    /// It is new.
    New(PathBuf),
    /// It lies there already, with the same said of it.
    Before,
    /// It lies there already; what is said of it is corrected.
    Corrected(PathBuf),
}

/// A log of the archive.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeptLog {
    /// Its file.
    pub path: PathBuf,
    /// Its bytes as received.
    pub bytes: Vec<u8>,
    /// What was confirmed last.
    pub sheet: Sheet,
    /// The same, ready for reading the file.
    pub confirmed: Confirmed,
}

fn name_of<T: Copy + PartialEq>(all: &[(&'static str, T)], one: Option<T>) -> Option<String> {
    let one = one?;
    all.iter().find(|(_, known)| *known == one).map(|(name, _)| (*name).to_owned())
}

fn of_name<T: Copy>(all: &[(&'static str, T)], name: Option<&String>) -> Result<Option<T>, String> {
    let Some(name) = name else { return Ok(None) };
    let found = all.iter().find(|(known, _)| known == name).map(|(_, one)| *one);
    found.map(Some).ok_or_else(|| format!("it names `{name}`, which this version does not know; update it"))
}

impl Sheet {
    /// What was confirmed of a file of that name.
    pub fn of(file: &str, confirmed: &Confirmed, kept_at: Moment) -> Self {
        Self {
            format: FORM.to_owned(),
            file: file.to_owned(),
            temperature: name_of(&TemperatureUnit::ALL, confirmed.temperature),
            snow: name_of(&SnowUnit::ALL, confirmed.snow),
            dates: name_of(&DATES, confirmed.dates),
            place: confirmed.place.clone(),
            gauge: name_of(&GAUGES, confirmed.gauge),
            kept_at,
        }
    }

    fn confirmed(&self) -> Result<Confirmed, String> {
        if self.format != FORM {
            return Err(format!("it is of form `{}`, not {FORM}", self.format));
        }
        Ok(Confirmed {
            temperature: of_name(&TemperatureUnit::ALL, self.temperature.as_ref())?,
            snow: of_name(&SnowUnit::ALL, self.snow.as_ref())?,
            dates: of_name(&DATES, self.dates.as_ref())?,
            place: self.place.clone(),
            gauge: of_name(&GAUGES, self.gauge.as_ref())?,
            read_at: None,
        })
    }

    /// Whether the same was confirmed, whatever the file was called and whenever.
    fn says_the_same(&self, other: &Self) -> bool {
        let of = |sheet: &Self| Self { file: String::new(), kept_at: other.kept_at, ..sheet.clone() };
        of(self) == of(other)
    }

    /// As flags of the command line.
    fn told(&self) -> String {
        let flags = [
            ("temperature", self.temperature.as_deref()),
            ("snow", self.snow.as_deref()),
            ("dates", self.dates.as_deref()),
            ("place", Some(self.place.as_str())),
            ("gauge", self.gauge.as_deref()),
        ];
        let given = flags.into_iter().filter_map(|(flag, value)| Some(format!("--{flag} {}", value?)));
        given.collect::<Vec<_>>().join(" ")
    }
}

impl Archive {
    /// Keeps a winter log and what was confirmed of it. The same file with the same said of it is no news.
    ///
    /// # Errors
    /// Something else was confirmed of the same bytes before and `correct` is not set; a file there is damaged;
    /// or the folder cannot be written.
    pub fn keep_winter(&self, bytes: &[u8], sheet: &Sheet, correct: bool) -> Result<Kept, KeptError> {
        let name = hex(Digest::of(&[bytes]));
        let path = self.winter_folder().join(format!("{name}.csv"));
        let failed = |path: &Path, error| ArchiveError::File { path: path.to_owned(), error };
        let there = self.files().exists(&path);
        if !there {
            self.files().put(&path, bytes).map_err(|error| failed(&path, error))?;
        }
        let (number, before) = match self.sheets(&path)?.pop() {
            Some((_, before)) if before.says_the_same(sheet) => return Ok(Kept::Before),
            Some((number, before)) => (number, Some(before)),
            None => (0, None),
        };
        if let Some(before) = before.clone().filter(|_| !correct) {
            return Err(KeptError::ToldOtherwise { before: Box::new(before) });
        }
        let beside = self.winter_folder().join(format!("{name}.{}.json", number + 1));
        let text = serde_json::to_string(sheet).map_err(|error| failed(&beside, error.into()))?;
        self.files().put(&beside, text.as_bytes()).map_err(|error| failed(&beside, error))?;
        Ok(if before.is_some() { Kept::Corrected(path) } else { Kept::New(path) })
    }

    /// What was confirmed of these bytes when they were kept, if they were.
    ///
    /// # Errors
    /// What lies there cannot be read.
    pub fn winter_sheet(&self, bytes: &[u8]) -> Result<Option<(Sheet, Confirmed)>, KeptError> {
        let path = self.winter_folder().join(format!("{}.csv", hex(Digest::of(&[bytes]))));
        let Some((_, sheet)) = self.sheets(&path)?.pop() else { return Ok(None) };
        let confirmed = sheet.confirmed().map_err(|reason| KeptError::Bad { path, reason })?;
        Ok(Some((sheet, confirmed)))
    }

    /// Every winter log kept, in order of its file's name.
    ///
    /// # Errors
    /// A file was changed since it was kept, what was confirmed of it is missing or cannot be read, or the folder
    /// cannot be read. None is passed over: an index would change without a word.
    pub fn winter_logs(&self) -> Result<Vec<KeptLog>, KeptError> {
        let mut all = Vec::new();
        for path in self.winter_files("csv")? {
            let bad = |reason: String| KeptError::Bad { path: path.clone(), reason };
            let bytes = self.read(&path)?;
            if path.file_stem().is_none_or(|stem| *stem != *hex(Digest::of(&[&bytes]))) {
                return Err(bad(
                    "it was changed since it was kept; put the file as received back in its place".to_owned()
                ));
            }
            let last = self.sheets(&path)?.pop();
            let (_, sheet) = last.ok_or_else(|| {
                bad("nothing says in which units it is; keep it once more: office winter --keep FILE".to_owned())
            })?;
            let confirmed = sheet.confirmed().map_err(bad)?;
            all.push(KeptLog { path, bytes, sheet, confirmed });
        }
        Ok(all)
    }

    fn winter_folder(&self) -> PathBuf {
        self.folder().join(FOLDER)
    }

    fn winter_files(&self, ending: &str) -> Result<Vec<PathBuf>, ArchiveError> {
        let folder = self.winter_folder();
        let failed = |error| ArchiveError::File { path: folder.clone(), error };
        let mut files = self.files().list(&folder).map_err(failed)?;
        files.retain(|path| path.extension().is_some_and(|found| found == ending));
        Ok(files)
    }

    /// What was confirmed of a file, by number.
    fn sheets(&self, csv: &Path) -> Result<Vec<(u32, Sheet)>, KeptError> {
        let stem = csv.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
        let mut found = Vec::new();
        for path in self.winter_files("json")? {
            let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
            let Some(number) = name.strip_prefix(&stem).and_then(|rest| rest.strip_prefix('.')) else { continue };
            let number: Option<u32> = number.strip_suffix(".json").and_then(|number| number.parse().ok());
            let bad = |reason: String| KeptError::Bad { path: path.clone(), reason };
            let number = number.ok_or_else(|| bad("its name has no number".to_owned()))?;
            let text = self.read(&path)?;
            let sheet: Sheet = strict::read_as(&text).map_err(|error| bad(error.to_string()))?;
            found.push((number, sheet));
        }
        found.sort_by_key(|(number, _)| *number);
        Ok(found)
    }
}
