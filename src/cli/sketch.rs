//! `office sketch`: what lay where, as GeoJSON and SVG.

use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;

use super::error::CliError;
use super::exit::Exit;
use super::gather;
use super::streams::Streams;
use crate::office::archive::Archive;
use crate::office::sketch::drawn;
use crate::words::{Language, say_office};

/// A checked `office sketch`.
#[derive(Debug)]
pub(super) struct Sketch {
    pub archive: Archive,
    pub files: Vec<PathBuf>,
    /// The folder that the files go into.
    pub out: PathBuf,
    /// East positive.
    pub declination_deg: Option<f64>,
}

/// Writes two files a sketch; the worst file decides the exit code.
pub(super) fn run(config: &Sketch, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let (carcasses, exit) = gather::carcasses(&config.archive, &config.files, streams)?;
    let mut taken = BTreeSet::new();
    for (name, carcass) in &carcasses {
        for sketch in drawn(carcass, config.declination_deg) {
            // A table's name for the carcass says more than a code made up for it.
            let mut file = name.as_deref().map_or_else(|| sketch.code.clone(), safe);
            if let Some(which) = sketch.which {
                file = format!("{file}-{which}");
            }
            while !taken.insert(file.clone()) {
                file.push_str("-again");
            }
            for (ending, text) in [("geojson", &sketch.geojson), ("svg", &sketch.svg)] {
                let path = config.out.join(format!("sketch-{file}.{ending}"));
                let failed = |error| CliError::File { file: path.display().to_string(), error };
                fs::create_dir_all(&config.out).map_err(failed)?;
                fs::write(&path, format!("{text}\n")).map_err(failed)?;
                streams.line(&path.display().to_string())?;
            }
            for note in sketch.notes {
                streams.note(&say_office(Language::English, note, &[("name", file.as_str().into())]));
            }
        }
    }
    if taken.is_empty() {
        streams.note(&say_office(Language::English, "office.sketch.none", &[]));
    }
    Ok(exit)
}

/// A name that is safe in a file's.
fn safe(name: &str) -> String {
    // As long as every file system takes, with what stands round it.
    name.chars().take(60).map(|c| if c.is_alphanumeric() || matches!(c, '-' | '_' | '.') { c } else { '-' }).collect()
}
