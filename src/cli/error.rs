//! What can go wrong in a command, one variant a condition.

use super::exit::Exit;
use crate::bundle::Fingerprint;
use crate::office::archive::ArchiveError;
use crate::office::calls_made::NotMarked;
use crate::office::cards::NoLaboratories;
use crate::office::decide::NoDecision;
use crate::office::key_file::KeyFileError;
use crate::office::keyring::KeyringError;
use crate::office::lab::NotEntered;
use crate::office::lab_sheet::NoSheet;
use crate::office::not_noted::NotNoted;
use crate::office::own_chain::WriteError;
use crate::office::season::build::{NoCarcass, NoSeason};
use crate::office::season::gather::GatherError;
use crate::office::season::manifest::NoManifest;
use crate::office::streamed::StreamError;
use crate::office::winter::kept::KeptError;
use std::io;

/// What went wrong. Displays as one clause that names the file; [`CliError::next`] says what to do.
#[derive(Debug, thiserror::Error)]
pub(super) enum CliError {
    /// The archive could not be used.
    #[error("{0}")]
    Archive(#[from] ArchiveError),
    /// A file could not be read.
    #[error("{file}: {error}")]
    File { file: String, error: io::Error },
    /// The file cannot vouch for a device.
    #[error("{file}: {outcome}")]
    NotIntact { file: String, outcome: String },
    /// The file says its form, and is no findings table of a form known here.
    #[error("{file}: {reason}")]
    Table { file: String, reason: String },
    /// The file is no daily log.
    #[error("{file}: {reason}")]
    NoLog { file: String, reason: String },
    /// A winter log of the archive cannot be kept or read.
    #[error("{0}")]
    Kept(#[from] KeptError),
    /// Nobody confirmed the units.
    #[error("{file}: the units were not confirmed: {what}")]
    Units { file: String, what: String },
    /// Nothing to draw or to work out.
    #[error("no daily log was found")]
    NoLogs,
    /// The plot has nothing in it.
    #[error("{file}: not drawn: no log and no death falls into that winter")]
    NothingToDraw { file: String },
    /// The words from the phone are not the file's.
    #[error("the fingerprints differ: the file's reads \"{of_file}\", the phone's \"{of_phone}\"")]
    WordsDiffer { of_file: Fingerprint, of_phone: Fingerprint },
    /// Nobody compared the words.
    #[error("the fingerprint was not compared, so nothing was enrolled")]
    NotCompared,
    /// Nobody gave the passphrase.
    #[error("the office key needs its passphrase")]
    NoPassphrase,
    /// The two passphrases typed are not the same.
    #[error("the two passphrases are not the same; nothing was made")]
    PassphrasesDiffer,
    /// The office key did not open or was not made.
    #[error("{0}")]
    OfficeKey(#[from] KeyFileError),
    /// There is no office key to sign with.
    #[error("this archive has no office key")]
    NoOfficeKey,
    /// The system gave no random bytes.
    #[error("the system gave no random bytes: {0}")]
    NoRandomness(String),
    /// The file is no local card.
    #[error("{file}: this is no local card: {reason}")]
    Card { file: String, reason: String },
    /// The file is no signed local card.
    #[error("{file}: this is no signed local card: {reason}")]
    SignedCard { file: String, reason: String },
    /// The file is no evidence table that can be used.
    #[error("{file}: {reason}")]
    Evidence { file: String, reason: String },
    /// No such carcass among what the archive holds.
    #[error("no carcass `{0}` among what the archive holds")]
    NoCarcass(String),
    /// More than one carcass has that code.
    #[error("{count} carcasses have the code `{code}`")]
    ManyCarcasses { code: String, count: usize },
    /// The same was entered before.
    #[error("{0}")]
    NotEntered(#[from] NotEntered),
    /// The local card in force names no laboratory, or its laboratories do not hold.
    #[error("{0}")]
    Laboratories(#[from] NoLaboratories),
    /// A parcel was not noted.
    #[error("{0}; nothing was noted")]
    NotNoted(#[from] NotNoted),
    /// A list of what the card does not name.
    #[error("{0}")]
    NotListed(NotNoted),
    /// A call was not marked.
    #[error("{0}")]
    NotMarked(#[from] NotMarked),
    /// The file is no list of numbers to call.
    #[error("{file}: {reason}")]
    Numbers { file: String, reason: String },
    /// The file is no sheet of a laboratory.
    #[error("{file}: {error}")]
    Sheet { file: String, error: NoSheet },
    /// Lines of a sheet do not fit.
    #[error("{file}: {lines} of its lines do not fit; nothing was entered")]
    Mismatches { file: String, lines: usize },
    /// The office's own entries were not written.
    #[error("{0}")]
    Write(#[from] WriteError),
    /// No reader called a jaw of known age.
    #[error("no wear class was called on a jaw of known age, so there is no table yet")]
    NoReadings,
    /// The keyring did not take the change.
    #[error("{0}")]
    Keyring(#[from] KeyringError),
    /// A received file is another one than a moment ago.
    #[error("{0}: this file was changed or taken away while the archive was read")]
    Changed(String),
    /// What lies in between could not be written or read.
    #[error("{0}")]
    InBetween(io::Error),
    /// There is nothing to make a season of.
    #[error("{0}")]
    NoSeason(#[from] NoCarcass),
    /// The manifest cannot be used.
    #[error("{file}: {error}")]
    Manifest { file: String, error: NoManifest },
    /// A run from a manifest gave other bytes.
    #[error("{}: other bytes than the manifest says", .0.join(", "))]
    OtherBytes(Vec<String>),
    /// The office's decision was not made.
    #[error("{0}")]
    NoDecision(#[from] NoDecision),
    /// The folder for an export holds something already.
    #[error("{0}: the folder is not empty")]
    NotEmpty(String),
    /// There is nothing to export.
    #[error("no carcass is in the files of enrolled devices{}", .0.as_ref().map(|winter| format!(" that was found in the winter of {winter}")).unwrap_or_default())]
    NothingToExport(Option<String>),
    /// The output could not be written.
    #[error("the output could not be written: {0}")]
    Output(io::Error),
}

impl From<StreamError> for CliError {
    fn from(error: StreamError) -> Self {
        match error {
            StreamError::Gather(GatherError::Archive(error)) => error.into(),
            StreamError::Gather(GatherError::Kept(error)) => error.into(),
            StreamError::Changed(path) => Self::Changed(path.display().to_string()),
            StreamError::Store(error) => Self::InBetween(error),
        }
    }
}

impl From<NoSeason> for CliError {
    fn from(error: NoSeason) -> Self {
        match error {
            NoSeason::NoCarcass(none) => none.into(),
            NoSeason::Stream(error) => error.into(),
        }
    }
}

impl CliError {
    pub(super) fn exit(&self) -> Exit {
        match self {
            Self::NotIntact { .. } => Exit::Damaged,
            _ => Exit::Failed,
        }
    }

    pub(super) fn next(&self) -> Option<&'static str> {
        Some(match self {
            Self::Archive(ArchiveError::Keyring { .. } | ArchiveError::KeyringNotOurs { .. }) => {
                "put the keyring back from a copy; until then every device would look unknown"
            }
            Self::Archive(ArchiveError::File { .. }) | Self::Kept(KeptError::Archive(_)) => {
                "check the folder named with --archive, and who may write there"
            }
            Self::Archive(ArchiveError::OfficeKey { .. }) => "put the key file back from a copy",
            Self::Archive(ArchiveError::KeyThere { .. }) => {
                "keep it: a new key means new cards for every phone; office key show prints its fingerprint"
            }
            Self::NoPassphrase => "run it at a terminal, or give the passphrase in the variable MARROWBOOK_PASSPHRASE",
            Self::PassphrasesDiffer => "run it again",
            Self::NoOfficeKey => "make one with: office key new",
            Self::Card { .. } => "correct the card's JSON; demo/card.json shows its form",
            Self::SignedCard { .. } => "give the signed file that phones load; office card makes it",
            Self::Evidence { .. } => {
                "correct the row that is named; office table export prints the program's own table"
            }
            Self::File { .. } => "check the name, and that file and folder can be read or written",
            Self::NotIntact { .. } => "ask the crew to hand over again; their phone still has everything",
            Self::NoLog { .. } => "the header needs a date and at least one reading; the README shows an example",
            Self::Kept(_) => "nothing in the archive was changed",
            Self::Units { .. } => {
                "look at the file, and say its units: --temperature c or f, --snow cm or in (see --help)"
            }
            Self::NoLogs => {
                "give a CSV, or a bundle from a phone on which a winter log is kept; office winter --keep FILE keeps a CSV"
            }
            Self::NothingToDraw { .. } => "check --winter",
            Self::Table { .. } => "office schema marrowbook-findings-1 prints what a table looks like",
            Self::WordsDiffer { .. } => {
                "the file was signed by another device than the one in the hand; do not enrol it"
            }
            Self::NotCompared => {
                "compare the words above with the phone's hand-over screen, then add --words \"...\" as read from the phone"
            }
            Self::NoCarcass(_) => {
                "keep its bundle first (office open --keep), from an enrolled device; office read prints ids"
            }
            Self::ManyCarcasses { .. } => "give the carcass's whole id; office read prints it",
            Self::NotEntered(NotEntered::Before { .. }) => {
                "add --correct if it was a slip, or --another for a second tooth or laboratory"
            }
            Self::NotEntered(NotEntered::OtherCarcass { .. }) => {
                "look at the label: enter it for the carcass that the sample is of, or type the number anew; office lab \
                 list --all names every sample"
            }
            Self::NotEntered(NotEntered::TwoSamples { .. }) => {
                "look which one the laboratory had, and name it by a number that is its own alone"
            }
            Self::NoReadings => {
                "enter known ages with office lab; calls are the wear class that a person named on the bench"
            }
            Self::NoDecision(NoDecision::NotJoined) => {
                "give both ids as they were reported; office decide same joins two"
            }
            Self::NoDecision(NoDecision::NoReason) => "say with --reason why this answer stands",
            Self::Changed(_) => "run it again when nobody writes into the archive; no file was changed by this program",
            Self::InBetween(_) => {
                "entries lie there while the archive is read, about twice the size of the folder received: make room, or name \
                 another folder in the variable TMPDIR (on Windows TMP)"
            }
            Self::NotEmpty(_) => {
                "name an empty folder: parts of an earlier export would be read together with this one"
            }
            Self::NothingToExport(Some(_)) => {
                "look at --winter: the year in which the winter begins; without it, all are written"
            }
            Self::NoSeason(_) | Self::NothingToExport(None) => {
                "keep bundles first: office enrol for each phone, then office open --keep"
            }
            Self::Manifest { error: NoManifest::Missing(_), .. } => "put the files back from a copy of the archive",
            Self::Manifest { .. } => "give the manifest.txt that a run of office season wrote for this archive",
            Self::OtherBytes(_) => {
                "compare the versions that the manifest names with this program's; what was written now lies in the folder"
            }
            Self::Laboratories(NoLaboratories::None) => {
                "name them on the card (\"laboratories\", see demo/card.json) and sign it with: office card"
            }
            Self::Laboratories(NoLaboratories::Flaw(_)) => {
                "correct the card, give it the next serial, and sign it with: office card"
            }
            Self::NotListed(_) => "office lab list without --lab names every laboratory of the card",
            Self::NotNoted(NotNoted::NotTheOffices(_)) => "what a crew noted wrong is corrected on its phone",
            Self::NotNoted(NotNoted::ResultCame { .. }) => {
                "correct the result first, with office lab read --correct, where it is another sample's"
            }
            Self::NotNoted(_) => "office lab list names every sample with its number, laboratory and tests",
            Self::Numbers { .. } => "save the list as CSV with the columns code and number, each code once",
            Self::Sheet { error: NoSheet::NoLine(_), .. } => {
                "run it without --without: every line that does not fit is named by its number in the file"
            }
            Self::Sheet { .. } => "save the sheet as CSV with one line of column names; the README shows one",
            Self::Mismatches { .. } => {
                "ask the laboratory, and correct the sheet; a line that is wrong for good is left out with --without LINE, \
                 and one that corrects what was entered before goes in with --correct"
            }
            Self::Write(_) => "check the value against the laboratory's sheet",
            Self::Keyring(KeyringError::Already(_))
            | Self::NoDecision(NoDecision::Already)
            | Self::NotMarked(NotMarked::Before(_)) => "nothing more is to be done",
            Self::Keyring(KeyringError::OfficeElsewhere(_)) => {
                "retire that name with office retire, and run this again: it is enrolled as the office then"
            }
            Self::Keyring(KeyringError::NameTaken(_)) => "choose another name, or retire that device first",
            Self::Keyring(KeyringError::NoSuchDevice(_)) => "office phones lists every device with its name",
            Self::NotMarked(_) => "office calls list --all names every call",
            Self::NoDecision(_) => "office decide list names every open question and the entries on it",
            Self::Keyring(_) | Self::OfficeKey(_) | Self::NoRandomness(_) | Self::Output(_) => return None,
        })
    }
}
