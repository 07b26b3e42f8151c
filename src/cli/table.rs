//! `office table`: the evidence table of the causes of death.

use super::config::Table;
use super::error::CliError;
use super::exit::Exit;
use super::input;
use super::key::unlock;
use super::streams::Streams;
use crate::bundle::{Kind, canonical, seal};
use crate::card::EvidenceTable;
use crate::office::card_made::{TableFile, read_table};
use crate::reading::{built_in, digest_of_table};
use crate::record::DeviceId;
use std::fs;
use std::path::Path;

/// Prints, checks or signs a table.
pub(super) fn run(config: &Table, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    match config {
        Table::Export => {
            let text = serde_json::to_string_pretty(&built_in()).map_err(|error| CliError::Output(error.into()))?;
            streams.own_text(&text)?;
        }
        Table::Check(path) => {
            let (table, signer) = read(path, streams)?;
            streams.line(&format!("{}: {} holds", input::name(path), table.name))?;
            streams.line(&format!("digest: {}", digest_of_table(&table)))?;
            streams.line(match signer {
                Some(_) => "signed",
                None => "not signed",
            })?;
        }
        Table::Sign { archive, file, out } => {
            let (table, _) = read(file, streams)?;
            let refused = |reason: String| CliError::Evidence { file: input::name(file), reason };
            let value = serde_json::to_value(&table).map_err(|error| refused(error.to_string()))?;
            let payload = canonical::to_vec(&value).map_err(|error| refused(error.to_string()))?;
            let key = unlock(archive, streams)?.ok_or(CliError::NoOfficeKey)?;
            let signed = seal(Kind::Table, &payload, &key).map_err(|error| refused(error.to_string()))?;
            match out {
                Some(path) => fs::write(path, signed + "\n")
                    .map_err(|error| CliError::File { file: path.display().to_string(), error })?,
                None => streams.line(&signed)?,
            }
            streams.note(&format!("signed: {}, digest {}", table.name, digest_of_table(&table)));
        }
    }
    Ok(Exit::Done)
}

/// A table from a file, JSON or signed, with who signed it. It holds: every row was checked.
pub(super) fn read(path: &Path, streams: &mut Streams<'_>) -> Result<(EvidenceTable, Option<DeviceId>), CliError> {
    let refused = |reason: String| CliError::Evidence { file: input::name(path), reason };
    let bytes = input::read(path, streams)?.map_err(|error| refused(error.to_string()))?;
    let TableFile { table, signer } = read_table(&bytes).map_err(refused)?;
    Ok((table, signer))
}
