//! `office phones`: every device on the archive's keyring.

use super::error::CliError;
use super::exit::Exit;
use super::streams::Streams;
use crate::office::archive::Archive;
use crate::office::keyring::Enrolment;

/// What is to be done.
#[derive(Debug)]
pub(super) struct Phones {
    pub archive: Archive,
    pub json: bool,
}

/// Lists them in the order in which they were enrolled.
pub(super) fn run(config: &Phones, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    for device in config.archive.keyring()?.devices() {
        if config.json {
            streams.line(&serde_json::to_string(device).map_err(|error| CliError::Output(error.into()))?)?;
        } else {
            print(device, streams)?;
        }
    }
    Ok(Exit::Done)
}

fn print(device: &Enrolment, streams: &mut Streams<'_>) -> Result<(), CliError> {
    let until = device.retired_at.map(|at| format!(", retired since {at}")).unwrap_or_default();
    streams.line(&format!("\"{}\": enrolled {}{until}", device.label, device.enrolled_at))?;
    streams.line(&format!("  fingerprint: {}", device.fingerprint))?;
    streams.line(&format!("  in digits: {}", device.fingerprint.digits()))
}
