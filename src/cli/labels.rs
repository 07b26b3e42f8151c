//! `office labels`: a label for everything that was taken.

use std::fs;
use std::path::PathBuf;

use super::error::CliError;
use super::exit::Exit;
use super::gather;
use super::lab::find;
use super::streams::Streams;
use crate::office::archive::Archive;
use crate::office::labels::labels_page;
use crate::office::paper::Sheet;
use crate::words::{Arg, Language, say_office};

/// A checked `office labels`.
#[derive(Debug)]
pub(super) struct Labels {
    pub archive: Archive,
    /// Bundles and tables; empty for all that the archive holds.
    pub files: Vec<PathBuf>,
    /// A carcass's short code or id.
    pub carcass: Option<String>,
    pub out: PathBuf,
    pub letter: bool,
}

/// Writes the page; the worst file decides the exit code.
pub(super) fn run(config: &Labels, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let files = if config.files.is_empty() { config.archive.received()? } else { config.files.clone() };
    let (mut carcasses, exit) = gather::carcasses(&config.archive, &files, streams)?;
    if let Some(named) = &config.carcass {
        let id = find(carcasses.iter().map(|(_, carcass)| carcass), named)?.id;
        carcasses.retain(|(_, carcass)| carcass.id == id);
    }
    let sheet = if config.letter { Sheet::Letter } else { Sheet::A4 };
    let Some((page, count)) = labels_page(carcasses.iter().map(|(_, carcass)| carcass), sheet) else {
        streams.note(&say_office(Language::English, "labels.none", &[]));
        return Ok(exit);
    };
    let file = config.out.display().to_string();
    fs::write(&config.out, page).map_err(|error| CliError::File { file: file.clone(), error })?;
    let args = [("n", Arg::Count(i64::try_from(count).unwrap_or_default())), ("file", Arg::Text(file))];
    streams.line(&say_office(Language::English, "labels.written", &args))?;
    Ok(exit)
}
