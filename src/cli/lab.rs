//! `office lab`: enter a laboratory's result, a known age or day of death, a record of the kill.
//!
//! The office writes as a device among the others: its key is put on the keyring, its entries form a chain
//! of their own and lie in the archive as a signed bundle. What crews wrote stays as it is.

use super::config::Lab;
use super::error::CliError;
use super::exit::Exit;
use super::gather::opened;
use super::key::unlock;
use super::streams::Streams;
use crate::bundle::DeviceKey;
use crate::office::archive::Archive;
use crate::office::keyring::Keyring;
use crate::office::lab::Answers;
use crate::office::own_chain::{LABEL, Writing, held, new_id, write};
use crate::reading::cause_ids::OF_RECORDS;
use crate::reading::{self, Given, Reading};
use crate::record::{Carcass, fold};
use crate::words::Language;

/// Writes the result and prints what the age reading says with it.
pub(super) fn run(config: Lab, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let before = opened(&config.archive, streams)?;
    let carcass = find(before.folded.carcasses.values(), &config.carcass)?;
    let key = unlock(&config.archive, streams)?.ok_or(CliError::NoOfficeKey)?;
    let (own, fresh) = (key.public().id(), new_id(streams.now, random()?));
    let Answers { said, notes } = config.result.said(&before.folded, carcass, own, fresh, config.again)?;
    for note in &notes {
        streams.note(note);
    }
    enrol_self(&config.archive, &before.keyring, &key, streams)?;
    let salts = said.iter().map(|_| random()).collect::<Result<_, _>>()?;
    let writing = Writing { key: &key, person: config.by, at: streams.now, id: random()?, salts };
    let path = write(&config.archive, &before.gathered.journal, said, &writing)?;
    streams.line(&format!("kept in {}", path.display()))?;
    let after = held(&config.archive, &config.archive.keyring()?)?;
    if let Some(carcass) = fold(&after.gathered.journal).carcasses.get(&carcass.id) {
        let readings = reading::all(carcass, &Given::default());
        let all = |reading: &Reading| [reading.statements.clone(), reading.cautions.clone()].concat();
        // The figures of the cause hang on the card's area: `office read` has them.
        let of_records = readings.cause.iter().flat_map(all).filter(|s| OF_RECORDS.contains(&s.id.as_str()));
        for one in all(&readings.age).into_iter().chain(of_records) {
            streams.line(&format!("  {}", one.say(Language::English)))?;
        }
    }
    Ok(Exit::Done)
}

/// The office's key on its own ring: nobody need compare words, since it is unlocked here.
pub(super) fn enrol_self(
    archive: &Archive,
    keyring: &Keyring,
    key: &DeviceKey,
    streams: &mut Streams<'_>,
) -> Result<(), CliError> {
    let mut ring = keyring.clone();
    if ring.enrol_office(key.public().id(), streams.now)? {
        archive.save_keyring(&ring, Some(key))?;
        streams.note(&format!("the office's own key is on the keyring now, as \"{LABEL}\""));
    }
    Ok(())
}

/// The carcass of an id or of a short code, which only one of them may have.
pub(super) fn find<'a>(all: impl Iterator<Item = &'a Carcass>, named: &str) -> Result<&'a Carcass, CliError> {
    let mut called = all.filter(|carcass| carcass.is_called(named));
    let one = called.next().ok_or_else(|| CliError::NoCarcass(named.to_owned()))?;
    // A table may hold what a bundle holds as well.
    match called.filter(|other| other.id != one.id).count() {
        0 => Ok(one),
        others => Err(CliError::ManyCarcasses { code: named.to_owned(), count: others + 1 }),
    }
}

pub(super) fn random<const N: usize>() -> Result<[u8; N], CliError> {
    let mut bytes = [0; N];
    getrandom::fill(&mut bytes).map_err(|error| CliError::NoRandomness(error.to_string()))?;
    Ok(bytes)
}
