//! The office: whom it knows, what it was handed, and what follows from it.
//!
//! The archive is a folder of files as received, beside the keyring. Nothing in it is ever
//! rewritten: what the office knows is worked out from it again each time.

pub mod archive;
pub mod calls;
mod calls_corrected;
pub mod calls_made;
mod calls_owed;
pub mod card_made;
pub mod cards;
pub mod carcass_report;
pub mod chains;
pub mod compare;
pub mod csv_sheet;
pub mod decide;
#[cfg(test)]
mod decide_tests;
#[cfg(test)]
mod desk_tests;
pub mod diet;
pub mod errand;
pub mod export;
pub mod exposure;
pub mod files;
pub mod finding_words;
pub mod findings_table;
pub mod found_line;
pub mod hand;
mod homes;
pub mod judging;
pub mod key_file;
pub mod keyring;
pub mod lab;
pub mod lab_results;
pub mod lab_row;
pub mod lab_sheet;
pub mod labels;
pub mod not_noted;
pub mod opening;
pub mod own_chain;
pub mod paper;
pub mod photos;
pub mod plain;
pub mod readers;
pub mod receipt;
pub mod recompute;
pub mod report;
pub mod season;
pub mod send_out;
pub mod sketch;
pub mod streamed;
#[cfg(test)]
mod test_chain;
pub mod to_decide;
pub mod winter;
pub mod zipped;
