//! `office report`: one carcass for paper.

use std::fs;
use std::io;
use std::path::PathBuf;

use super::error::CliError;
use super::exit::Exit;
use super::lab::find;
use super::streams::Streams;
use crate::office::archive::Archive;
use crate::office::carcass_report::carcass_report;
use crate::office::files::HeldFiles;
use crate::office::hand::{DeskError, Hand};
use crate::office::paper::Sheet;
use crate::record::fold;

/// A checked `office report`.
#[derive(Debug)]
pub(super) struct Report {
    pub archive: Archive,
    /// A carcass's short code or id.
    pub carcass: String,
    pub out: PathBuf,
    pub letter: bool,
}

/// Writes the page.
pub(super) fn run(config: &Report, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let folder = config.archive.folder();
    let failed = |file: &std::path::Path, error| CliError::File { file: file.display().to_string(), error };
    let held = HeldFiles::of_folder(folder).map_err(|error| failed(folder, error))?;
    let mut hand = Hand::default();
    match hand.take_archive(held.all()) {
        Ok(()) => {}
        Err(DeskError::Archive(error)) => return Err(error.into()),
        Err(error) => {
            return Err(CliError::File { file: folder.display().to_string(), error: io::Error::other(error) });
        }
    }
    // First among what counts: what an unknown phone says may join its id with another's.
    let carcass = match find(hand.folded().carcasses.values(), &config.carcass) {
        Err(CliError::NoCarcass(_)) => find(fold(&hand.journal(false)).carcasses.values(), &config.carcass)?.id,
        found => found?.id,
    };
    let sheet = if config.letter { Sheet::Letter } else { Sheet::A4 };
    let html = carcass_report(&hand, carcass, streams.now, Some(sheet))
        .ok_or_else(|| CliError::NoCarcass(config.carcass.clone()))?;
    fs::write(&config.out, html).map_err(|error| failed(&config.out, error))?;
    streams.line(&format!("written: {}. Open it in a browser and print it.", config.out.display()))?;
    Ok(Exit::Done)
}
