//! `office enrol`: take a device into the keyring, once somebody has compared its fingerprint.

use super::config::{Enrol, Whom};
use super::error::CliError;
use super::exit::Exit;
use super::input;
use super::streams::Streams;
use crate::bundle::Fingerprint;
use crate::office::archive::Archive;
use crate::office::keyring::Keyring;
use crate::office::opening::{Outcome, judge, judge_unread};
use crate::office::report::report;
use crate::record::DeviceId;
use crate::words::Language;
use std::path::{Path, PathBuf};

/// Enrols the device.
pub(super) fn run(config: &Enrol, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let mut keyring = config.archive.keyring()?;
    let (fingerprint, device) = match &config.whom {
        Whom::Shown(fingerprint, device) => (*fingerprint, *device),
        Whom::SignerOf(file, from_phone) => {
            let device = signer(file, streams)?;
            let of_file = Fingerprint::of(device);
            streams.line(&format!("fingerprint: {of_file}"))?;
            streams.line(&format!("in digits: {}", of_file.digits()))?;
            compare(of_file, *from_phone, streams)?;
            (of_file, Some(device))
        }
    };
    let label = keyring.enrol_phone(&config.name, fingerprint, device, streams.now)?.label.clone();
    let path = save(&config.archive, &keyring, streams)?;
    streams.line(&format!("enrolled as \"{label}\" in {}", path.display()))?;
    Ok(Exit::Done)
}

/// Writes the keyring, signed where the archive has an office key.
pub(super) fn save(archive: &Archive, keyring: &Keyring, streams: &mut Streams<'_>) -> Result<PathBuf, CliError> {
    let key = super::key::unlock(archive, streams)?;
    Ok(archive.save_keyring(keyring, key.as_ref())?)
}

/// The device that signed the file, which must be undamaged.
fn signer(file: &Path, streams: &mut Streams<'_>) -> Result<DeviceId, CliError> {
    let read = input::read(file, streams)?;
    let judged = read.map_or_else(|error| judge_unread(&error), |bytes| judge(&bytes, &Keyring::default()));
    match judged.signer.filter(|_| judged.outcome() == Outcome::UnknownDevice) {
        Some(device) => Ok(device),
        None => Err(CliError::NotIntact {
            file: file.display().to_string(),
            outcome: report(&judged, Language::English, &|_| false).outcome,
        }),
    }
}

fn compare(of_file: Fingerprint, from_phone: Option<Fingerprint>, streams: &mut Streams<'_>) -> Result<(), CliError> {
    match from_phone {
        Some(of_phone) if of_phone == of_file => Ok(()),
        Some(of_phone) => Err(CliError::WordsDiffer { of_file, of_phone }),
        None if streams.confirmed("Do these eight words stand on the phone's own screen? Type yes:")? => Ok(()),
        None => Err(CliError::NotCompared),
    }
}
