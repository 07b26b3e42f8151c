//! The season: from the archive folder to tables that an office stands by.
//!
//! A pure function of the folder and of what was asked: nothing of the clock, of file names or of their order goes in.
//!
//! | file | holds |
//! |---|---|
//! | [`asked`] | what was asked for: which winter, which grid |
//! | [`gather`] | every file of the archive, opened and judged |
//! | [`rows`] | one row a carcass: readings, days, place, crew |
//! | [`kept`] | what is kept of each row, of the whole archive |
//! | [`table`] | the season's types |
//! | [`build`] | all of it put together |
//! | [`weeks`], [`ages`], [`causes`], [`condition`], [`findings`], [`places`], [`survival`], [`density`], [`doubles`], [`compare`] | one part each |
//! | [`csv`], [`tables`] | one CSV a table |
//! | [`svg`], [`plots`] | plots that print in grey |
//! | [`manifest`] | everything that was used, to be signed and rerun |
//! | [`written`] | all that a run writes, for command line and page |
//! | [`told`], [`shown`] | tables in words, and what the page shows |

pub mod ages;
pub mod asked;
pub mod build;
pub mod causes;
pub mod compare;
pub mod condition;
pub mod csv;
pub mod density;
pub mod doubles;
pub mod findings;
pub mod gather;
pub mod kept;
pub mod manifest;
pub mod places;
pub mod plots;
pub mod rows;
pub mod shown;
pub mod survival;
pub mod svg;
pub mod table;
pub mod tables;
pub mod told;
pub mod weeks;
pub mod written;

use crate::words::{Arg, Language, say_office};

pub use asked::Asked;
pub use build::{season, season_streamed};
pub use gather::{Files, Gathered, gather};
pub use table::Season;

/// The language of the office.
pub(crate) const LANGUAGE: Language = Language::English;

/// A sentence of the season's own catalogue.
pub(crate) fn tell(id: &str, args: &[(&str, Arg)]) -> String {
    say_office(LANGUAGE, id, args)
}

/// A count for a sentence.
pub(crate) fn count(n: usize) -> Arg {
    Arg::Count(i64::try_from(n).unwrap_or(i64::MAX))
}

/// Rounded to so many decimals: a table prints no more digits than it can stand by.
pub(crate) fn rounded(value: f64, decimals: i32) -> f64 {
    let scale = libm::pow(10.0, f64::from(decimals));
    let whole = (value * scale).round() / scale;
    // No table shows minus nothing: minus nothing and nothing add up to nothing.
    whole + 0.0
}

/// A share, to the ten-thousandth.
pub(crate) fn share(value: f64) -> f64 {
    rounded(value, 4)
}
