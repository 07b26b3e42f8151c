//! Figures over a whole season: numbers of many carcasses in, estimates with ranges out.
//!
//! Carcasses that were found are no random sample of the dead, and detection differs by cause, age and place:
//! every figure here is of the carcasses found. Random numbers are found from their place, so that the order
//! of the carcasses moves no digit.
//!
//! | file | holds |
//! |---|---|
//! | [`keyed`] | random numbers found from their place |
//! | [`maximum`] | the shares that fit best, one weighing of the carcasses at a time |
//! | [`mixture`] | shares of causes, ages and sexes over a season, with ranges |
//! | [`two_groups`] | findings seen or not in two groups: Newcombe's interval, Fisher's test |
//! | [`weeks`] | deaths by week, each window spread over its days |
//! | [`survival`] | Chapman and Robson's survival from ages at death |
//! | [`transect`] | density from distances to a line, half-normal |
//! | [`effort`] | lines walked, spread between them, the range of a density |
//! | [`doubles`] | how likely two carcasses are one |
//! | [`sources`] | what all of it rests on |

pub mod doubles;
pub mod effort;
pub mod keyed;
pub mod maximum;
pub mod mixture;
pub mod sources;
pub mod survival;
pub mod transect;
pub mod two_groups;
pub mod weeks;

#[cfg(test)]
mod outside_tests;
#[cfg(test)]
mod property_tests;

/// Coverage of every range of a season.
pub const COVERAGE: f64 = 0.95;
