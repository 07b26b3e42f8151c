//! `office card`: sign a local card.

use super::config;
use super::error::CliError;
use super::exit::Exit;
use super::input;
use super::key::unlock;
use super::streams::Streams;
use crate::bundle::{Fingerprint, Kind, canonical, seal, strict};
use crate::card::Card;
use std::fs;

/// Signs the card, once it holds together.
pub(super) fn run(config: &config::Card, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let file = input::name(&config.file);
    let no_card = |reason: String| CliError::Card { file: file.clone(), reason };
    let bytes = input::read(&config.file, streams)?.map_err(|error| no_card(error.to_string()))?;
    let text = String::from_utf8(bytes).map_err(|error| no_card(error.to_string()))?;
    let card = Card::from_json(&text).map_err(|error| no_card(error.to_string()))?;
    if !card.holds_at(streams.now) {
        streams.note(&format!("{file}: today lies outside the card's dates; phones will keep hands-on steps closed"));
    }
    let value: serde_json::Value = strict::read_as(text.as_bytes()).map_err(|error| no_card(error.to_string()))?;
    let payload = canonical::to_vec(&value).map_err(|error| no_card(error.to_string()))?;
    let key = unlock(&config.archive, streams)?.ok_or(CliError::NoOfficeKey)?;
    let signed = seal(Kind::Card, &payload, &key).map_err(|error| no_card(error.to_string()))?;
    match &config.out {
        Some(path) => fs::write(path, signed + "\n")
            .map_err(|error| CliError::File { file: path.display().to_string(), error })?,
        None => streams.line(&signed)?,
    }
    streams.note(&format!("signed; phones that load it show the office as: {}", Fingerprint::of(key.public().id())));
    Ok(Exit::Done)
}
