//! `office card`: sign a local card.

use super::config;
use super::error::CliError;
use super::exit::Exit;
use super::input;
use super::key::unlock;
use super::streams::Streams;
use crate::bundle::{Fingerprint, strict};
use crate::card::Card;
use crate::office::card_made::{notes, sign};
use std::fs;

/// Signs the card, once it holds together.
pub(super) fn run(config: &config::Card, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let file = input::name(&config.file);
    let no_card = |reason: String| CliError::Card { file: file.clone(), reason };
    let bytes = input::read(&config.file, streams)?.map_err(|error| no_card(error.to_string()))?;
    let text = String::from_utf8(bytes).map_err(|error| no_card(error.to_string()))?;
    let card = Card::from_json(&text).map_err(|error| no_card(error.to_string()))?;
    for note in notes(&card, streams.now) {
        streams.note(&format!("{file}: {note}"));
    }
    let value: serde_json::Value = strict::read_as(text.as_bytes()).map_err(|error| no_card(error.to_string()))?;
    let value = match &config.table {
        Some(path) => carrying(value, path, &file, config, streams)?,
        None => value,
    };
    let key = unlock(&config.archive, streams)?.ok_or(CliError::NoOfficeKey)?;
    let signed = sign(&value, &key).map_err(no_card)?;
    config.archive.keep_card(signed.as_bytes())?;
    match &config.out {
        Some(path) => fs::write(path, signed + "\n")
            .map_err(|error| CliError::File { file: path.display().to_string(), error })?,
        None => streams.line(&signed)?,
    }
    streams.note(&format!("signed; phones that load it show the office as: {}", Fingerprint::of(key.public().id())));
    Ok(Exit::Done)
}

/// The card with the table in it: only one that this office signed.
fn carrying(
    mut value: serde_json::Value,
    path: &std::path::Path,
    file: &str,
    config: &config::Card,
    streams: &mut Streams<'_>,
) -> Result<serde_json::Value, CliError> {
    let no_card = |reason: String| CliError::Card { file: file.to_owned(), reason };
    let (table, signer) = super::table::read(path, streams)?;
    let ours = config.archive.office_key()?.ok_or(CliError::NoOfficeKey)?.public()?;
    if signer != Some(ours.id()) {
        let reason = "this evidence table is not signed by this office; sign it with: office table sign".to_owned();
        return Err(CliError::Evidence { file: input::name(path), reason });
    }
    let table = serde_json::to_value(&table).map_err(|error| no_card(error.to_string()))?;
    match value.get_mut("cause").and_then(serde_json::Value::as_object_mut) {
        Some(cause) => drop(cause.insert("table".to_owned(), table)),
        None => {
            return Err(no_card(
                "it names no area: add \"cause\": {\"area\": ...} before it carries a table".to_owned(),
            ));
        }
    }
    // The whole card again: the area has to be one of the table's.
    Card::from_json(&value.to_string()).map_err(|error| no_card(error.to_string()))?;
    Ok(value)
}
