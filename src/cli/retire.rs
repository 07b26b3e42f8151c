//! `office retire`: from a time on, a device's bundles are not taken as its own.

use super::config::Retire;
use super::enrol::save;
use super::error::CliError;
use super::exit::Exit;
use super::streams::Streams;

/// Retires the device.
pub(super) fn run(config: &Retire, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let mut keyring = config.archive.keyring()?;
    let since = config.since.unwrap_or(streams.now);
    keyring.retire(&config.name, since)?;
    save(&config.archive, &keyring, streams)?;
    streams
        .line(&format!("retired \"{}\" since {since}; what it made before keeps its standing", config.name.trim()))?;
    Ok(Exit::Done)
}
