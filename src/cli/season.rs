//! `office season`: from the archive folder to tables, plots and a signed manifest.

use std::fs;
use std::path::PathBuf;

use super::config::{Refusal, value};
use super::error::CliError;
use super::exit::Exit;
use super::in_between::{InBetween, bounds};
use super::input;
use super::key::unlock;
use super::streams::Streams;
use crate::office::archive::Archive;
use crate::office::season;
use crate::office::season::asked::{Asked, CELL_M, LEAST_CELL_M, YOUNGEST};
use crate::office::season::build::carcasses_in_words;
use crate::office::season::manifest::Manifest;
use crate::office::streamed::Streamed;

/// The arguments as typed.
#[derive(Debug, clap::Args)]
pub(super) struct SeasonArgs {
    /// The archive folder [default: that of --archive].
    #[arg(value_name = "DIR")]
    pub folder: Option<PathBuf>,
    /// Where tables, plots and manifest go; made where it is not there.
    #[arg(long, value_name = "DIR")]
    pub out: PathBuf,
    /// The year in which the winter begins: 2026 for 2026-27 [default: the last in which a carcass was found].
    #[arg(long, value_name = "YEAR")]
    pub winter: Option<i32>,
    /// Side of the map's squares, metres, 100 or more. No place is given finer.
    #[arg(long, value_name = "METRES", default_value_t = CELL_M)]
    pub cell: u32,
    /// To how far from a line the searches looked, metres [default: the narrowest that a search was said to have].
    #[arg(long, value_name = "METRES")]
    pub strip: Option<u32>,
    /// Youngest age that counts for survival, completed birthdays, 1 to 4.
    #[arg(long, value_name = "YEARS", default_value_t = YOUNGEST)]
    pub youngest: u32,
    /// Run again from a manifest that an earlier run wrote: with its files, its keyring and what it asked for. Fails
    /// unless every byte comes out the same.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["winter", "cell", "strip", "youngest"])]
    pub again: Option<PathBuf>,
    /// Also print the season as one JSON object.
    #[arg(long)]
    pub json: bool,
}

/// What is to be done.
#[derive(Debug)]
pub(super) struct Season {
    archive: Archive,
    out: PathBuf,
    asked: Asked,
    again: Option<PathBuf>,
    json: bool,
}

impl Season {
    /// The arguments, checked.
    pub(super) fn of(args: SeasonArgs, archive: Archive) -> Result<Self, Refusal> {
        if args.cell < LEAST_CELL_M {
            let reason = format!("{} is too fine: squares of {LEAST_CELL_M} m and more are drawn", args.cell);
            return Err(value("--cell", &reason));
        }
        if args.strip == Some(0) {
            return Err(value("--strip", &"0 is no strip: say how far to each side the searches looked"));
        }
        if !(1..=4).contains(&args.youngest) {
            return Err(value("--youngest", &format!("{} lies outside 1 to 4", args.youngest)));
        }
        let asked = Asked { winter: args.winter, cell_m: args.cell, strip_m: args.strip, youngest: args.youngest };
        let archive = args.folder.map_or(archive, Archive::at);
        Ok(Self { archive, out: args.out, asked, again: args.again, json: args.json })
    }
}

/// Works the season out and writes it; the worst file decides the exit code.
pub(super) fn run(config: &Season, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let key = unlock(&config.archive, streams)?;
    let before = config.again.as_ref().map(|path| manifest(path, config, streams)).transpose()?;
    let keyring = match &before {
        Some((_, before)) => before.keyring.clone(),
        None => config.archive.keyring()?,
    };
    let only = before.as_ref().map(|(_, before)| before.files());
    let mut store = InBetween::default();
    let streamed = Streamed::cut(&config.archive, &keyring, only.as_ref(), &mut store, bounds())?;
    if let Some((file, before)) = &before {
        before.all_there(&streamed.files).map_err(|error| CliError::Manifest { file: file.clone(), error })?;
    }
    for file in &streamed.files.not_used {
        streams.note(&format!("{}: counts in no figure: {}", file.path(), file.reason));
    }
    let asked = before.as_ref().map_or(config.asked, |(_, before)| before.asked);
    let found = season::season_streamed(&streamed, &asked)?;
    let output = |error: &dyn ToString| CliError::Output(std::io::Error::other(error.to_string()));
    let files = season::written::files(&streamed.files, &keyring, asked, &found, key.as_ref())
        .map_err(|error| output(&error))?;
    let failed = |path: &std::path::Path, error| CliError::File { file: path.display().to_string(), error };
    fs::create_dir_all(&config.out).map_err(|error| failed(&config.out, error))?;
    for (name, bytes) in &files {
        let path = config.out.join(name);
        fs::write(&path, bytes).map_err(|error| failed(&path, error))?;
    }
    if key.is_none() {
        streams.note("the manifest is not signed: this archive has no office key; make one with: office key new");
    }
    if found.carcasses.found == 0 && asked.winter.is_some() {
        streams.note(&format!("no carcass of the winter of {} is in the archive: look at --winter", found.winter));
    }
    if config.json {
        streams.line(&serde_json::to_string(&found).map_err(|error| output(&error))?)?;
    } else {
        let carcasses = &found.carcasses;
        streams.line(&format!(
            "{}: {} found, {} counted; written to {}",
            found.winter,
            carcasses_in_words(carcasses.found),
            carcasses.counted,
            config.out.display()
        ))?;
    }
    if let Some((_, before)) = &before {
        let differing = before.differing(&files);
        if !differing.is_empty() {
            return Err(CliError::OtherBytes(differing));
        }
        streams.note("every byte came out as the manifest says");
    }
    Ok(streamed.files.worst.map_or(Exit::Done, Exit::from))
}

/// The manifest of an earlier run, with its file's name.
fn manifest(
    path: &std::path::Path,
    config: &Season,
    streams: &mut Streams<'_>,
) -> Result<(String, Manifest), CliError> {
    let file = input::name(path);
    let bytes = match input::read(path, streams)? {
        Ok(bytes) => bytes,
        Err(too_large) => {
            let error = season::manifest::NoManifest::Form(too_large.to_string());
            return Err(CliError::Manifest { file, error });
        }
    };
    let office = config.archive.office_key()?.map(|file| file.public()).transpose()?;
    // A line's end is no part of the signed text.
    let text = bytes.trim_ascii_end();
    let read = Manifest::read(text, office.as_ref());
    read.map(|manifest| (file.clone(), manifest)).map_err(|error| CliError::Manifest { file, error })
}
