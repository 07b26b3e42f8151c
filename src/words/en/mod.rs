//! English.

mod cause;
mod custody;
mod death;
mod desk;
mod death_reading;
mod drawings;
mod drawings_of_fat;
mod drawings_of_signs;
mod office;
mod options;
mod paper;
mod photos;
mod readings;
mod readings_of_fat;
mod readings_of_food_and_snow;
mod readings_of_size;
mod screens;
mod steps;
mod tracks;
mod practice;
mod short;
mod sketch;
mod hazard_sources;
mod hazards;
mod kill_record;
mod local;
mod rumen;
mod safety;
mod search;
mod season_office;
mod winter;
mod winter_office;

use super::joined::{joined, length};

/// Texts that only the office shows; no phone carries them.
pub(super) const OFFICE: &[&[(&str, &str)]] = &[winter_office::TEXTS, season_office::TEXTS, paper::TEXTS];

/// All parts of the catalogue.
pub(super) const CATALOGUE: &[&[(&str, &str)]] = &[
    steps::REPORT,
    steps::OUTING,
    steps::SCENE,
    steps::SEARCH,
    steps::SIGNS,
    steps::EVIDENCE,
    steps::BODY,
    steps::TEETH_AND_MARROW,
    steps::BENCH,
    steps::CALIPERS,
    steps::LAB,
    steps::FAT,
    steps::RUMEN,
    hazards::TEXTS,
    hazard_sources::TEXTS,
    safety::TEXTS,
    options::CHOICES,
    options::FINDINGS,
    options::NAMES,
    search::TEXTS,
    options::SIGNS,
    options::EVIDENCE,
    custody::TEXTS,
    readings::TEXTS,
    readings_of_size::TEXTS,
    cause::TEXTS,
    tracks::TEXTS,
    short::TEXTS,
    practice::TEXTS,
    local::TEXTS,
    kill_record::STEPS,
    kill_record::TEXTS,
    options::FAT,
    readings_of_fat::TEXTS,
    readings_of_food_and_snow::TEXTS,
    rumen::TEXTS,
    death::STEPS,
    death::OPTIONS,
    death_reading::TEXTS,
    drawings::TEXTS,
    drawings_of_fat::TEXTS,
    drawings_of_signs::TEXTS,
    desk::TEXTS,
    screens::TEXTS,
    photos::STEPS,
    photos::TEXTS,
    sketch::STEPS,
    sketch::OPTIONS,
    sketch::TEXTS,
    office::TEXTS,
    winter::TEXTS,
];

/// The catalogue as one text, which is what a program carries.
pub(super) static JOINED: &[u8] = &joined::<{ length(CATALOGUE) }>(CATALOGUE);
