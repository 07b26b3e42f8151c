//! `office reader`: how well jaws of known age are read, and the table for the local card.

use super::config::Reader;
use super::error::CliError;
use super::exit::Exit;
use super::gather::opened;
use super::input;
use super::reader_table::print;
use super::streams::Streams;
use crate::card::Card;
use crate::office::findings_table::FindingsTable;
use crate::office::readers::Record;
use crate::record::{Moment, fold};
use std::fs;
use std::path::Path;

/// Prints every reader's record, or writes the table of all onto a card.
pub(super) fn run(config: &Reader, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let record = gather(config, streams)?;
    for id in &record.left_out {
        streams.note(&format!("{id}: its known ages differ or cannot be, so it was left out"));
    }
    if record.again_count > 0 {
        streams.note(&format!(
            "{} further calls of a jaw by a reader who had called it before are not counted; the first call is",
            record.again_count
        ));
    }
    if let Some(path) = &config.onto {
        return onto(path, &record, streams);
    }
    if record.jaws == 0 {
        return Err(CliError::NoReadings);
    }
    for line in record.lines() {
        if config.json {
            streams.line(&serde_json::to_string(&line).map_err(|error| CliError::Output(error.into()))?)?;
        } else {
            print(&line, streams)?;
        }
    }
    Ok(Exit::Done)
}

/// The record over the archive's files, or over the tables named.
fn gather(config: &Reader, streams: &mut Streams<'_>) -> Result<Record, CliError> {
    let mut record = Record::default();
    if config.tables.is_empty() {
        let held = opened(&config.archive, streams)?;
        held.folded.carcasses.values().for_each(|carcass| record.take(carcass));
        return Ok(record);
    }
    for path in &config.tables {
        let file = input::name(path);
        let no_table = |reason: String| CliError::Table { file: file.clone(), reason };
        let bytes = input::read(path, streams)?.map_err(|error| no_table(error.to_string()))?;
        let table = FindingsTable::read(&bytes).map_err(|error| no_table(error.to_string()))?;
        let tabled = table.journal().map_err(|error| no_table(error.to_string()))?;
        for row in &tabled.set_aside {
            streams.note(&format!("{file}: \"{}\": set aside: {row}", row.carcass));
        }
        fold(&tabled.journal).carcasses.values().for_each(|carcass| record.take(carcass));
    }
    Ok(record)
}

fn day(at: Moment) -> String {
    let (year, month, day) = at.date();
    format!("{year:04}-{month:02}-{day:02}")
}

/// Writes the table into a card, with the next serial and the next version.
fn onto(path: &Path, record: &Record, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let file = input::name(path);
    let no_card = |reason: String| CliError::Card { file: file.clone(), reason };
    let bytes = input::read(path, streams)?.map_err(|error| no_card(error.to_string()))?;
    let text = String::from_utf8(bytes).map_err(|error| no_card(error.to_string()))?;
    let mut card = Card::from_json(&text).map_err(|error| no_card(error.to_string()))?;
    let version = card.figures.reader_model.as_ref().map_or(1, |table| table.version.saturating_add(1));
    let table = record.table(version, day(streams.now)).ok_or(CliError::NoReadings)?;
    let told = format!(
        "readers: {}, readings of known age: {}, by rings: {}",
        table.readers_count, table.known_count, table.by_rings_count
    );
    card.figures.reader_model = Some(table);
    card.serial = card.serial.saturating_add(1);
    card.check().map_err(|error| no_card(error.to_string()))?;
    let text = serde_json::to_string_pretty(&card).map_err(|error| no_card(error.to_string()))? + "\n";
    // A new file first, so that a power cut leaves one of the two whole.
    let fresh = path.with_extension("new");
    let written = fs::write(&fresh, text).and_then(|()| fs::rename(&fresh, path));
    written.map_err(|error| CliError::File { file: file.clone(), error })?;
    streams.line(&format!("{file}: card {} now has the reader table, version {version} ({told})", card.serial))?;
    streams.note(&format!("sign it with: office card {file}"));
    Ok(Exit::Done)
}
