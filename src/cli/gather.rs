//! Carcasses out of bundles and findings tables, for commands that look at several of them together.

use std::path::PathBuf;

use super::error::CliError;
use super::exit::Exit;
use super::input;
use super::streams::Streams;
use crate::bundle::Step;
use crate::bundle::strict::{self, Strict};
use crate::office::archive::Archive;
use crate::office::findings_table::FindingsTable;
use crate::office::keyring::Keyring;
use crate::office::opening::{Outcome, Verdict, judge, judge_unread};
use crate::office::own_chain::held;
use crate::office::recompute::Gathered;
use crate::office::report::report;
use crate::record::{Carcass, Fold, fold};
use crate::words::Language;

/// A carcass, with its name in a table.
pub(super) type Named = (Option<String>, Carcass);

/// What the archive holds of enrolled devices.
pub(super) struct Opened {
    pub(super) keyring: Keyring,
    pub(super) gathered: Gathered,
    pub(super) folded: Fold,
}

/// Opens the archive; each file that is not used is named with its reason.
pub(super) fn opened(archive: &Archive, streams: &mut Streams<'_>) -> Result<Opened, CliError> {
    let keyring = archive.keyring()?;
    let held = held(archive, &keyring)?;
    for (path, reason) in &held.unused {
        streams.note(&format!("{}: not used: {reason}", path.display()));
    }
    let folded = fold(&held.gathered.journal);
    Ok(Opened { keyring, gathered: held.gathered, folded })
}

/// Carcasses with the names that tables gave them, and the worst that a file came to.
pub(super) fn carcasses(
    archive: &Archive,
    files: &[PathBuf],
    streams: &mut Streams<'_>,
) -> Result<(Vec<Named>, Exit), CliError> {
    let keyring = archive.keyring()?;
    let mut gathered = Gathered::default();
    let mut all = Vec::new();
    let mut exit = Exit::Done;
    for path in files {
        let name = input::name(path);
        let judged = match input::read(path, streams) {
            Err(error) => {
                exit = exit.max(streams.fail(&error));
                continue;
            }
            Ok(Err(too_large)) => judge_unread(&too_large),
            Ok(Ok(bytes)) => {
                let judged = judge(&bytes, &keyring);
                let no_envelope = matches!(judged.verdict, Verdict::Damaged { step: Step::Envelope | Step::Text, .. });
                if no_envelope && says_its_form(&bytes) {
                    let set_aside = table(&name, &bytes, &mut all, streams)?;
                    exit = exit.max(if set_aside { Exit::Failed } else { Exit::Done });
                    continue;
                }
                judged
            }
        };
        gathered.take(&judged);
        if judged.worst() != Outcome::Intact {
            streams.note(&format!("{name}: {}", report(&judged, Language::English, &|_| true).outcome));
        }
        exit = exit.max(judged.worst().into());
    }
    all.extend(fold(&gathered.journal).carcasses.into_values().map(|carcass| (None, carcass)));
    Ok((all, exit))
}

/// Whether this is JSON that says its form, as a table does and a signed file does not.
fn says_its_form(bytes: &[u8]) -> bool {
    match strict::read(bytes) {
        Ok(Strict::Object(members)) => matches!(members.get("format"), Some(Strict::Text(_))),
        _ => false,
    }
}

/// The carcasses of a table; true where a row was set aside.
fn table(name: &str, bytes: &[u8], all: &mut Vec<Named>, streams: &mut Streams<'_>) -> Result<bool, CliError> {
    let no_table = |reason: String| CliError::Table { file: name.to_owned(), reason };
    let table = FindingsTable::read(bytes).map_err(|error| no_table(error.to_string()))?;
    let tabled = table.journal().map_err(|error| no_table(error.to_string()))?;
    let mut folded = fold(&tabled.journal);
    for (carcass, id) in tabled.carcasses {
        all.extend(folded.carcasses.remove(&id).map(|one| (Some(carcass), one)));
    }
    for row in &tabled.set_aside {
        streams.note(&format!("{name}: \"{}\": set aside: {row}", row.carcass));
    }
    Ok(!tabled.set_aside.is_empty())
}
