//! `office export`: the archive in open forms, for other programs.

use std::fs;
use std::path::PathBuf;

use super::config::{Refusal, value};
use super::error::CliError;
use super::exit::Exit;
use super::streams::Streams;
use crate::office::archive::Archive;
use crate::office::export::{self, Asked, File, asked::Places};
use crate::office::season::asked::{CELL_M, LEAST_CELL_M};
use crate::office::season::gather;
use crate::office::season::gather::GatherError;

/// The arguments as typed.
#[derive(Debug, clap::Args)]
pub(super) struct ExportArgs {
    /// The archive folder [default: that of --archive].
    #[arg(value_name = "DIR")]
    pub folder: Option<PathBuf>,
    /// Where it goes: an empty folder, or one that is not there yet.
    #[arg(long, value_name = "DIR")]
    pub out: PathBuf,
    /// Only carcasses found in the winter that begins in this year: 2026 for 2026-27 [default: all].
    #[arg(long, value_name = "YEAR")]
    pub winter: Option<i32>,
    /// Places are given as the middle of a square with sides of so many metres, 100 or more.
    #[arg(long, value_name = "METRES", default_value_t = CELL_M, conflicts_with = "exact")]
    pub cell: u32,
    /// Give places as they were recorded.
    #[arg(long)]
    pub exact: bool,
    /// Also codes and names of persons, and what they typed in their own words. Notes on exposure and who may be called
    /// back about a report are never let out.
    #[arg(long)]
    pub names: bool,
    /// Darwin Core: `present` as the status of an occurrence, for readers older than `detected`.
    #[arg(long)]
    pub present: bool,
}

/// What is to be done.
#[derive(Debug)]
pub(super) struct Export {
    archive: Archive,
    out: PathBuf,
    asked: Asked,
}

impl Export {
    /// The arguments, checked.
    pub(super) fn of(args: ExportArgs, archive: Archive) -> Result<Self, Refusal> {
        if args.cell < LEAST_CELL_M {
            let reason = format!(
                "{} is too fine: squares of {LEAST_CELL_M} m and more blur; --exact gives places as recorded",
                args.cell
            );
            return Err(value("--cell", &reason));
        }
        let places = if args.exact { Places::Exact } else { Places::Grid(args.cell) };
        let asked = Asked { winter: args.winter, places, names: args.names, older_status: args.present };
        Ok(Self { archive: args.folder.map_or(archive, Archive::at), out: args.out, asked })
    }
}

/// Writes every form; the worst file of the archive decides the exit code.
pub(super) fn run(config: &Export, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let failed = |path: &std::path::Path, error| CliError::File { file: path.display().to_string(), error };
    // Parts of an earlier export would be read together with this one.
    if fs::read_dir(&config.out).is_ok_and(|mut entries| entries.next().is_some()) {
        return Err(CliError::NotEmpty(config.out.display().to_string()));
    }
    let keyring = config.archive.keyring()?;
    let gathered = gather(&config.archive, &keyring, None).map_err(|error| match error {
        GatherError::Archive(error) => CliError::from(error),
        GatherError::Kept(error) => CliError::from(error),
    })?;
    for file in &gathered.not_used {
        streams.note(&format!("{}: is not in the export: {}", file.sha256, file.reason));
    }
    let tables = export::tables(&gathered, &config.asked);
    if tables.examinations.rows.is_empty() {
        return Err(CliError::NothingToExport);
    }
    let files = all(&tables).map_err(|error| CliError::Output(std::io::Error::other(error.to_string())))?;
    for (name, bytes) in &files {
        let path = name.split('/').fold(config.out.clone(), |path, part| path.join(part));
        if let Some(folder) = path.parent() {
            fs::create_dir_all(folder).map_err(|error| failed(folder, error))?;
        }
        fs::write(&path, bytes).map_err(|error| failed(&path, error))?;
    }
    streams.line(&format!(
        "{} carcasses, {} answers; {} files written to {}",
        tables.carcasses.rows.len(),
        tables.findings.rows.len(),
        files.len(),
        config.out.display()
    ))?;
    streams.line(&config.asked.of_places())?;
    streams.line(&config.asked.of_persons())?;
    Ok(gathered.worst.map_or(Exit::Done, Exit::from))
}

fn all(tables: &export::Tables) -> Result<Vec<File>, export::ExportError> {
    let mut files = export::package::files(tables)?;
    files.push(export::geojson::file(tables)?);
    files.push(export::lines::file(tables)?);
    files.extend(export::dwc::files(tables));
    files.extend(export::parquet::files(tables)?);
    Ok(files)
}
