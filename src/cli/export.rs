//! `office export`: the archive in open forms, for other programs.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use super::config::{Refusal, value};
use super::error::CliError;
use super::exit::Exit;
use super::in_between::{InBetween, bounds};
use super::streams::Streams;
use crate::office::archive::Archive;
use crate::office::export::{self, Asked, ExportError, Out, asked::Places};
use crate::office::season::asked::{CELL_M, LEAST_CELL_M};
use crate::office::season::build::name_of;
use crate::office::streamed::Streamed;

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
    // Parts of an earlier export would be read together with this one.
    if fs::read_dir(&config.out).is_ok_and(|mut entries| entries.next().is_some()) {
        return Err(CliError::NotEmpty(config.out.display().to_string()));
    }
    let keyring = config.archive.keyring()?;
    let mut store = InBetween::default();
    let streamed = Streamed::cut(&config.archive, &keyring, None, &mut store, bounds())?;
    for file in &streamed.files.not_used {
        streams.note(&format!("{}: is not in the export: {}", file.path(), file.reason));
    }
    let mut out = Folder::at(&config.out);
    let written = export::write(&streamed, &config.asked, &mut out).map_err(|error| {
        // Half a file would be read as a whole one.
        out.take_back();
        match error {
            ExportError::Stream(error) => error.into(),
            ExportError::Nothing => CliError::NothingToExport(config.asked.winter.map(name_of)),
            error => CliError::Output(std::io::Error::other(error.to_string())),
        }
    })?;
    streams.line(&format!(
        "{} carcasses, {} answers; {} files written to {}",
        written.carcasses,
        written.answers,
        written.files,
        config.out.display()
    ))?;
    streams.line(&config.asked.of_places())?;
    streams.line(&config.asked.of_persons())?;
    Ok(streamed.files.worst.map_or(Exit::Done, Exit::from))
}

/// The folder of an export.
struct Folder {
    path: PathBuf,
    /// What was made in it, and the folder itself where it was not there.
    made: Vec<PathBuf>,
}

impl Folder {
    fn at(path: &Path) -> Self {
        Self { path: path.to_owned(), made: Vec::new() }
    }

    /// Takes away again what was written.
    fn take_back(&self) {
        for path in self.made.iter().rev() {
            let _ = fs::remove_file(path).or_else(|_| fs::remove_dir(path));
        }
    }

    /// Makes a folder and those above it.
    fn folder(&mut self, path: &Path) -> io::Result<()> {
        if path.as_os_str().is_empty() || path.is_dir() {
            return Ok(());
        }
        if let Some(above) = path.parent() {
            self.folder(above)?;
        }
        fs::create_dir(path)?;
        self.made.push(path.to_owned());
        Ok(())
    }
}

impl Out for Folder {
    fn file(&mut self, name: &str) -> io::Result<Box<dyn Write + Send>> {
        let path = name.split('/').fold(self.path.clone(), |path, part| path.join(part));
        let named = |error: io::Error| io::Error::new(error.kind(), format!("{}: {error}", path.display()));
        if let Some(folder) = path.parent() {
            self.folder(folder).map_err(named)?;
        }
        File::create_new(&path).map_err(named)?;
        self.made.push(path.clone());
        Ok(Box::new(Behind { path, waiting: Vec::new() }))
    }
}

/// A file that is opened for as long as something is written behind what it holds: there may be more files at a time (a
/// table and season each) than a process may hold open.
struct Behind {
    path: PathBuf,
    waiting: Vec<u8>,
}

/// Bytes that wait until it is worth opening the file.
const WAIT: usize = 256 << 10;

impl Write for Behind {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        // What is long goes past the bytes that wait: room for it would be kept as long as the file.
        if self.waiting.len() + bytes.len() > WAIT {
            self.flush()?;
            if bytes.len() >= WAIT {
                self.append(bytes)?;
                return Ok(bytes.len());
            }
        }
        self.waiting.extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        if !self.waiting.is_empty() {
            self.append(&self.waiting)?;
            self.waiting.clear();
        }
        Ok(())
    }
}

impl Behind {
    fn append(&self, bytes: &[u8]) -> io::Result<()> {
        let file = OpenOptions::new().append(true).open(&self.path);
        let written = file.and_then(|mut file| file.write_all(bytes));
        written.map_err(|error| io::Error::new(error.kind(), format!("{}: {error}", self.path.display())))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_export_that_failed_is_taken_away_again() {
        let above = std::env::temp_dir().join(format!("marrowbook-export-{}", std::process::id()));
        fs::create_dir_all(&above).unwrap();
        for there in [false, true] {
            let path = above.join("out");
            if there {
                fs::create_dir(&path).unwrap();
            }
            let mut folder = Folder::at(&path);
            for name in ["a.txt", "csv/b.csv", "parquet/c/d/e.parquet"] {
                let mut file = folder.file(name).unwrap();
                file.write_all(&vec![7; WAIT])
                    .and_then(|()| file.write_all(b"end"))
                    .and_then(|()| file.flush())
                    .unwrap();
                assert_eq!(fs::read(path.join(name)).unwrap().len(), WAIT + 3);
            }
            folder.file("a.txt").err().unwrap();
            folder.take_back();
            assert_eq!(path.exists(), there);
            let _ = fs::remove_dir(&path);
        }
        fs::remove_dir(&above).unwrap();
    }
}
