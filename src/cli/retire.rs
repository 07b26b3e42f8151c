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
    let own = config.archive.office_key()?.and_then(|file| file.public().ok()).map(|key| key.id());
    let enrolled = keyring.retire(&config.name, since, streams.now, own)?.enrolled_at;
    save(&config.archive, &keyring, streams)?;
    streams
        .line(&format!("retired \"{}\" since {since}; what it made before keeps its standing", config.name.trim()))?;
    if since < enrolled {
        streams.line(&format!(
            "that is before it was enrolled ({enrolled}): what it made in between counts no longer; where the date is \
             mistyped, compare its words and enrol it again"
        ))?;
    }
    Ok(Exit::Done)
}
