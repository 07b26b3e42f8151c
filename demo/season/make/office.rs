//! The office's archive of the invented winter: key, keyring, card, files, laboratory, calls, daily log.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::path::Path;

use marrowbook::bundle::{DeviceKey, Fingerprint, Kind, canonical, seal};
use marrowbook::card::Card;
use marrowbook::office::archive::Archive;
use marrowbook::office::calls::{From, calls};
use marrowbook::office::calls_made::mark;
use marrowbook::office::key_file::{KeyFile, Randomness};
use marrowbook::office::keyring::Keyring;
use marrowbook::office::lab_sheet::{At, Taking, read};
use marrowbook::office::opening::{Outcome, judge};
use marrowbook::office::own_chain::{LABEL, Writing, acts_of, append, held, new_id};
use marrowbook::office::send_out::{Parcel, send};
use marrowbook::office::winter::kept::Sheet;
use marrowbook::office::winter::table::Confirmed;
use marrowbook::office::winter::units::{SnowUnit, TemperatureUnit};
use marrowbook::record::{Act, Fold, Moment, PersonCode, fold};

use super::Made;
use super::crews::Winter;
use super::dice::Dice;
use super::people::GATEHOUSE;
use super::samples::{Taken, Thing};
use super::{people, winter};

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
    archive.take_office_key(&file, &key, &Keyring::default())?;
    archive.save_keyring(&ring, Some(&key))?;
    archive.keep_card(seal(Kind::Card, &canonical::to_vec(&people::card()?)?, &key)?.as_bytes())?;
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

/// Says what came of it, and when.
fn said(
    archive: &Archive,
    ring: &Keyring,
    key: &DeviceKey,
    at: Moment,
    dice: &mut Dice,
    acts: &dyn Fn(&Fold, &mut Dice) -> Made<Vec<Act>>,
) -> Made<()> {
    let journal = held(archive, ring)?.gathered.journal;
    let acts = acts(&fold(&journal), dice)?;
    let salts = acts.iter().map(|_| dice.bytes()).collect();
    append(archive, &journal, acts, &Writing { key, person: PersonCode::new("K7")?, at, id: dice.bytes(), salts })?;
    Ok(())
}

/// What the office reads of its own card.
fn card() -> Made<Card> {
    Ok(Card::from_json(&serde_json::to_string(&people::card()?)?)?)
}

/// Numbers of things of one kind, of one in so many of the carcasses.
fn numbers(season: &Winter, step: usize, kind: fn(&Taken) -> &Option<Thing>) -> Vec<String> {
    season.taken.iter().step_by(step).filter_map(|one| kind(one).as_ref()).map(|thing| thing.number.clone()).collect()
}

/// Three parcels, what came back of them, and one call that was made. One sheet of the veterinary laboratory is still to
/// be entered: it lies in `sheets/`.
fn laboratory(archive: &Archive, ring: &Keyring, key: &DeviceKey, season: &Winter, dice: &mut Dice) -> Made<()> {
    let card = card()?;
    let laboratories = card.laboratories()?;
    let parcels = [
        ("ROOT", numbers(season, 2, |one| &one.jaw), "dry", "2027-04-20T09:30:00-05:00"),
        ("ROOT", numbers(season, 3, |one| &one.femur), "frozen", "2027-04-20T09:42:00-05:00"),
        ("VETLAB", numbers(season, 1, |one| &one.head), "frozen", "2027-04-20T10:05:00-05:00"),
    ];
    for (laboratory, numbers, condition, sent) in parcels {
        said(archive, ring, key, Moment::parse(sent)?, dice, &|folded, _| {
            let parcel = Parcel {
                laboratory,
                numbers: &numbers,
                tests: &[],
                from: PersonCode::new(GATEHOUSE)?,
                place: "gatehouse".to_owned(),
                seal: String::new(),
                condition: condition.to_owned(),
            };
            Ok(send(folded, &laboratories, &parcel)?)
        })?;
    }
    let sheets =
        [(ages_and_fat(season), "2027-05-14T10:20:00-05:00"), (first_sheet(season), "2027-05-19T14:00:00-05:00")];
    for (sheet, at) in sheets {
        let at = Moment::parse(at)?;
        said(archive, ring, key, at, dice, &|folded, dice| {
            let (by, without) = (PersonCode::new("K7")?, BTreeSet::new());
            let taking = Taking {
                folded,
                laboratories: &laboratories,
                own: key.public().id(),
                by,
                now: at,
                correct: false,
                without: &without,
            };
            let lines = read(sheet.as_bytes(), &taking, || new_id(at, dice.bytes()))?;
            match lines.iter().find(|line| line.outcome.acts().is_empty()) {
                Some(line) => Err(line.words(At::CommandLine).into()),
                None => Ok(lines.iter().flat_map(|line| line.outcome.acts().to_vec()).collect()),
            }
        })?;
    }
    // The first of the people who had it in hand was told the next morning.
    let next = Moment::parse("2027-05-20T08:15:00-05:00")?;
    said(archive, ring, key, next, dice, &|folded, dice| {
        let from = From {
            folded,
            card: Some(&card),
            laboratories: &laboratories,
            office: Some(key.public().id()),
            numbers: &BTreeMap::new(),
        };
        let all = calls(&from);
        let call = all
            .iter()
            .find(|call| call.call == format!("exposed:{GATEHOUSE}:cwd:suspect"))
            .ok_or("nobody is to be called")?;
        let carcass = folded.carcasses.get(&call.carcass).ok_or("a call of no carcass")?;
        let marked = mark(carcass, &all, &call.call, key.public().id(), new_id(next, dice.bytes()))?;
        Ok(acts_of(marked, &PersonCode::new("K7")?)?)
    })
}

/// Rings of cementum, one count in nine off by a year, and dry weights of marrow.
fn ages_and_fat(season: &Winter) -> String {
    let mut sheet = "sample,test,reported,years,grade,tooth,percent,bone\n".to_owned();
    for (place, one) in season.taken.iter().enumerate() {
        if let Some(jaw) = one.jaw.as_ref().filter(|_| place % 4 == 0) {
            let jaw = &jaw.number;
            let off = i64::from(place % 9 == 4 && one.birthdays > 0);
            let grade = if off == 1 { "C" } else { "A" };
            let _ = writeln!(sheet, "{jaw},cementum,2027-05-12,{},{grade},first_incisor,,", one.birthdays + off);
        }
        if let Some(femur) = one.femur.as_ref().filter(|_| place % 6 == 0) {
            // Another piece of the same marrow.
            let percent = one.dry_percent + if place % 4 == 0 { 2 } else { -1 };
            let _ = writeln!(sheet, "{},marrow,2027-05-11,,,,{percent},femur", femur.number);
        }
    }
    sheet
}

/// What the veterinary laboratory wrote first: one suspect, one sample of no use, the last one not looked at yet.
fn first_sheet(season: &Winter) -> String {
    let heads = numbers(season, 1, |one| &one.head);
    let mut sheet = "sample,test,result,reported\n".to_owned();
    for (place, head) in heads.iter().enumerate() {
        let result = match place {
            1 => "suspect",
            3 => "unsuitable",
            _ if place + 1 == heads.len() => "pending",
            _ => "not detected",
        };
        let _ = writeln!(sheet, "{head},cwd,{result},2027-05-18");
    }
    sheet
}

/// The name of the sheet that is still to be entered.
pub(crate) const SECOND_SHEET: &str = "veterinary laboratory, second sheet.csv";

/// It confirms the suspect, and says what came of the one that was pending.
pub(crate) fn second_sheet(season: &Winter) -> String {
    let heads = numbers(season, 1, |one| &one.head);
    let mut sheet = "sample,test,result\n".to_owned();
    for (head, result) in heads.get(1).zip(Some("positive")).into_iter().chain(heads.last().zip(Some("not detected"))) {
        let _ = writeln!(sheet, "{head},cwd,{result}");
    }
    sheet
}
