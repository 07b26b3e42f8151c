//! English.

mod archive_page;
mod card_made;
mod carcass_report;
mod cause;
mod custody;
mod death;
mod decide;
mod desk;
mod desk_carcasses;
mod death_reading;
mod drawings;
mod drawings_of_fat;
mod drawings_of_signs;
mod exports_page;
mod frames;
#[cfg(not(target_arch = "wasm32"))]
mod frames_part;
mod laboratory_page;
mod lab_office;
mod labels_page;
mod office;
mod options;
mod pair;
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
mod languages;
mod local;
mod reasons;
mod rumen;
mod safety;
mod search;
mod season_office;
mod season_tables;
mod winter;
mod winter_office;

use super::joined::{joined, length};

/// Texts that only the office shows; no phone carries them.
pub(super) const OFFICE: &[&[(&str, &str)]] = &[
    desk::TEXTS,
    office::TEXTS,
    winter_office::TEXTS,
    season_office::TEXTS,
    season_tables::TEXTS,
    paper::TEXTS,
    card_made::TEXTS,
    archive_page::TEXTS,
    carcass_report::TEXTS,
    labels_page::TEXTS,
    decide::TEXTS,
    desk_carcasses::TEXTS,
    lab_office::TEXTS,
    laboratory_page::TEXTS,
    exports_page::TEXTS,
];

/// Texts that the part for codes says by itself, which travel beside it.
#[cfg(not(target_arch = "wasm32"))]
pub(super) const PART: &[(&str, &str)] = frames_part::TEXTS;

/// Calls a macro with every file of the catalogue and the tables in it, in the order in which they stand there.
/// A translation has a file beside each.
macro_rules! each_file {
    ($then:ident) => {
        $then! {
            "steps/report" steps::REPORT;
            "steps/outing" steps::OUTING;
            "steps/scene" steps::SCENE;
            "steps/search" steps::SEARCH;
            "steps/signs" steps::SIGNS;
            "steps/evidence" steps::EVIDENCE;
            "steps/body" steps::BODY;
            "steps/teeth_and_marrow" steps::TEETH_AND_MARROW;
            "steps/bench" steps::BENCH;
            "steps/calipers" steps::CALIPERS;
            "steps/lab" steps::LAB;
            "steps/fat" steps::FAT;
            "steps/rumen" steps::RUMEN;
            "hazards" hazards::TEXTS;
            "hazard_sources" hazard_sources::TEXTS;
            "safety" safety::TEXTS;
            "options/choices" options::CHOICES;
            "options/findings" options::FINDINGS;
            "options/names" options::NAMES;
            "search" search::TEXTS;
            "options/signs" options::SIGNS;
            "options/evidence" options::EVIDENCE;
            "custody" custody::TEXTS;
            "readings" readings::TEXTS;
            "readings_of_size" readings_of_size::TEXTS;
            "cause" cause::TEXTS;
            "tracks" tracks::TEXTS;
            "short" short::TEXTS;
            "practice" practice::TEXTS;
            "local" local::TEXTS;
            "kill_record" kill_record::STEPS, kill_record::TEXTS;
            "options/fat" options::FAT;
            "readings_of_fat" readings_of_fat::TEXTS;
            "readings_of_food_and_snow" readings_of_food_and_snow::TEXTS;
            "rumen" rumen::TEXTS;
            "death" death::STEPS, death::OPTIONS;
            "death_reading" death_reading::TEXTS;
            "drawings" drawings::TEXTS;
            "drawings_of_fat" drawings_of_fat::TEXTS;
            "drawings_of_signs" drawings_of_signs::TEXTS;
            "languages" languages::TEXTS;
            "reasons" reasons::TEXTS;
            "screens" screens::TEXTS;
            "winter" winter::TEXTS;
            "photos" photos::STEPS, photos::TEXTS;
            "pair" pair::TEXTS;
            "sketch" sketch::STEPS, sketch::OPTIONS, sketch::TEXTS;
            "frames" frames::TEXTS;
        }
    };
}
#[cfg(not(target_arch = "wasm32"))]
pub(super) use each_file;

macro_rules! catalogue {
    ($($path:literal $($table:path),+;)*) => {
        /// All parts of the catalogue.
        pub(super) const CATALOGUE: &[&[(&str, &str)]] = &[$($($table),+),*];

        /// The same by file.
        #[cfg(not(target_arch = "wasm32"))]
        #[cfg_attr(test, allow(dead_code))]
        pub(super) const FILES: super::checked::Files = &[$(($path, &[$($table),+])),*];
    };
}
each_file!(catalogue);

/// The catalogue as one text, which is what a program carries.
pub(super) static JOINED: &[u8] = &joined::<{ length(CATALOGUE) }>(CATALOGUE);
