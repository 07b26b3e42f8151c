//! The office's archive of the invented winter: key, keyring, card, files, laboratory, daily log.

use std::path::Path;

use marrowbook::bundle::{DeviceKey, Fingerprint, Kind, canonical, seal};
use marrowbook::office::archive::Archive;
use marrowbook::office::key_file::{KeyFile, Randomness};
use marrowbook::office::keyring::Keyring;
use marrowbook::office::lab::{self, Again};
use marrowbook::office::opening::{Outcome, judge};
use marrowbook::office::own_chain::{LABEL, Writing, held, new_id, write};
use marrowbook::office::winter::kept::Sheet;
use marrowbook::office::winter::table::Confirmed;
use marrowbook::office::winter::units::{SnowUnit, TemperatureUnit};
use marrowbook::record::{Moment, PersonCode, fold};

use super::Made;
use super::crews::Winter;
use super::dice::Dice;
use super::winter;

/// The passphrase of the invented office. No real office has one that is printed.
pub(crate) const PASSPHRASE: &str = "quillback ridge is invented";

/// Fills the folder.
pub(crate) fn archive(folder: &Path, season: &Winter) -> Made<()> {
    let archive = Archive::at(folder);
    let mut dice = Dice::new(50);
    let seed: [u8; 32] = dice.bytes();
    let file = KeyFile::make(PASSPHRASE, Randomness { seed, salt: dice.bytes(), nonce: dice.bytes() })?;
    let key = DeviceKey::from_seed(&seed);
    let begun = Moment::parse("2026-12-28T09:00:00-06:00")?;
    let mut ring = Keyring::default();
    for (label, phone) in &season.enrolled {
        ring.enrol(label, Fingerprint::of(phone.public().id()), Some(phone.public().id()), begun)?;
    }
    ring.enrol(LABEL, Fingerprint::of(key.public().id()), Some(key.public().id()), begun)?;
    archive.take_office_key(&file, &key)?;
    archive.save_keyring(&ring, Some(&key))?;
    card(&archive, &key)?;
    for (_, bytes) in &season.handed {
        if judge(bytes, &ring).outcome() != Outcome::Damaged {
            archive.keep(bytes)?;
        }
    }
    laboratory(&archive, &ring, &key, season, &mut dice)?;
    let confirmed = Confirmed {
        temperature: Some(TemperatureUnit::Fahrenheit),
        snow: Some(SnowUnit::Inches),
        place: "Gatehouse, invented".to_owned(),
        ..Confirmed::default()
    };
    let sheet = Sheet::of("gatehouse-2026-27.csv", &confirmed, Moment::parse("2027-04-20T10:00:00-05:00")?);
    archive.keep_winter(winter::log().as_bytes(), &sheet, false)?;
    Ok(())
}

/// The reserve's card with the people of all five crews.
fn card(archive: &Archive, key: &DeviceKey) -> Made<()> {
    let mut card: serde_json::Value = serde_json::from_str(include_str!("../../card.json"))?;
    let more = [("M3", "Nell Harrow (invented)"), ("P5", "Sam Oster (invented)")];
    if let Some(people) = card.get_mut("people").and_then(serde_json::Value::as_array_mut) {
        people.extend(more.map(|(code, name)| serde_json::json!({ "code": code, "name": name })));
    }
    archive.keep_card(seal(Kind::Card, &canonical::to_vec(&card)?, key)?.as_bytes())?;
    Ok(())
}

/// Rings of cementum, as a laboratory might count them: one count in nine is off by a year.
fn laboratory(archive: &Archive, ring: &Keyring, key: &DeviceKey, season: &Winter, dice: &mut Dice) -> Made<()> {
    let at = Moment::parse("2027-05-19T14:00:00-05:00")?;
    let journal = held(archive, ring)?.gathered.journal;
    let folded = fold(&journal);
    let mut said = Vec::new();
    for (place, (carcass, birthdays)) in season.to_lab.iter().enumerate() {
        let Some(carcass) = folded.carcasses.values().find(|one| one.joined.contains(carcass)) else { continue };
        let off = i64::from(place % 9 == 5 && *birthdays > 0);
        let result = lab::Result {
            cementum_years: Some(birthdays + off),
            grade: Some(if off == 1 { "grade_lowest" } else { "grade_best" }.to_owned()),
            lab: Some("Laboratory, invented".to_owned()),
            tooth: Some("first_incisor".to_owned()),
            reported_at: Some(at),
            ..lab::Result::default()
        };
        said.extend(result.said(carcass, key.public().id(), new_id(at, dice.bytes()), Again::Refuse)?);
    }
    let salts = said.iter().map(|_| dice.bytes()).collect();
    let writing = Writing { key, person: PersonCode::new("K7")?, at, id: dice.bytes(), salts };
    write(archive, &journal, said, &writing)?;
    Ok(())
}
