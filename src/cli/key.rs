//! `office key`: the office's own signing key.

use super::config::Key;
use super::error::CliError;
use super::exit::Exit;
use super::streams::Streams;
use crate::bundle::{DeviceKey, Fingerprint, PublicKey};
use crate::office::archive::Archive;
use crate::office::key_file::{KeyFile, Randomness};
use crate::office::keyring::Keyring;

/// Makes or shows the key.
pub(super) fn run(config: &Key, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let public = if config.new { make(&config.archive, streams)? } else { public(&config.archive)? };
    let fingerprint = Fingerprint::of(public.id());
    streams.line(&format!("fingerprint: {fingerprint}"))?;
    streams.line(&format!("in digits: {}", fingerprint.digits()))?;
    Ok(Exit::Done)
}

fn make(archive: &Archive, streams: &mut Streams<'_>) -> Result<PublicKey, CliError> {
    let passphrase = streams.passphrase("A passphrase for the new office key (four or five unrelated words):")?;
    if passphrase != streams.passphrase("The same again:")? {
        return Err(CliError::PassphrasesDiffer);
    }
    let file = KeyFile::make(&passphrase, randomness()?)?;
    let key = file.unlock(&passphrase)?;
    let path = archive.take_office_key(&file, &key, &Keyring::default())?;
    streams.note(&format!("made {}; keep a copy, and the passphrase apart from it", path.display()));
    Ok(key.public())
}

fn randomness() -> Result<Randomness, CliError> {
    let mut random = Randomness { seed: [0; 32], salt: [0; 16], nonce: [0; 12] };
    [&mut random.seed[..], &mut random.salt[..], &mut random.nonce[..]]
        .into_iter()
        .try_for_each(getrandom::fill)
        .map_err(|error| CliError::NoRandomness(error.to_string()))?;
    Ok(random)
}

fn public(archive: &Archive) -> Result<PublicKey, CliError> {
    Ok(archive.office_key()?.ok_or(CliError::NoOfficeKey)?.public()?)
}

/// The office key, opened with its passphrase; `None` where the archive has none.
pub(super) fn unlock(archive: &Archive, streams: &mut Streams<'_>) -> Result<Option<DeviceKey>, CliError> {
    match archive.office_key()? {
        None => Ok(None),
        Some(file) => Ok(Some(file.unlock(&streams.passphrase("The office key's passphrase:")?)?)),
    }
}
