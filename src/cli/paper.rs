//! `office paper`: the protocol on two sheets.

use super::config::Paper;
use super::error::CliError;
use super::exit::Exit;
use super::streams::Streams;
use crate::office::paper::{Sheet, paper};
use crate::words::Language;

/// Writes the page and says what to do with it.
pub(super) fn run(config: &Paper, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let sheet = if config.letter { Sheet::Letter } else { Sheet::A4 };
    let page = paper(Language::English, sheet);
    std::fs::write(&config.out, page)
        .map_err(|error| CliError::File { file: config.out.display().to_string(), error })?;
    streams.line(&format!(
        "written: {}. Open it in a browser and print it on two sheets, both sides, without scaling.",
        config.out.display()
    ))?;
    Ok(Exit::Done)
}
