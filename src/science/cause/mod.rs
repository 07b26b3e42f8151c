//! Cause of death: what was seen, weighed by a table of likelihoods.
//!
//! Twelve causes, twenty-five observations. Rows that say partly the same stand in one block and are
//! damped together; ranges come from drawing the whole table anew, each random number found from its
//! place. Most cells are expert judgement and say so. Two rules stand above the rest: feeding is not
//! killing, and no animal is named beyond nine in ten without a record of its own.
//!
//! | file | holds |
//! |---|---|
//! | [`causes`] | the causes |
//! | [`table`], `rows` | the likelihood cells with their grades |
//! | [`prior`] | what is likely before anything is seen |
//! | [`case`] | what was seen, and the rules that leave rows out |
//! | [`combine`] | middle figures, pulls, fit |
//! | [`draws`], [`interval`], [`random`] | ranges |
//! | [`undamped`] | what many carcasses say, each by its likelihood alone |
//! | [`gain`] | what a further look is worth |
//! | [`label`] | the word that is printed |
//! | [`sources`] | what all of it rests on |

#![allow(clippy::similar_names)] // case and cause are both the right word

mod animals;
pub mod case;
pub mod causes;
pub mod combine;
pub mod draws;
pub mod gain;
pub mod interval;
pub mod label;
pub mod prior;
pub mod random;
mod rows;
pub mod sources;
pub mod table;
pub mod undamped;
#[cfg(test)]
mod counts_tests;
#[cfg(test)]
mod tests;

pub use animals::Animals;
pub use case::{Answers, Case, row};
pub use causes::{CAUSES, Cause, PerCause, ranked};
pub use combine::{Fit, Pull, fit, posterior, pulls, pulls_for};
pub use draws::{DRAWS, Drawn};
pub use gain::{Gain, LEAST_GAIN_BITS, entropy_bits, gains};
pub use interval::{Ends, each_draw, ends};
pub use label::{Facts, Label, Printed, label, printed};
pub use prior::{AgeModifier, Modifiers, Winter, prior};
pub use table::{AREAS, Cell, Grade, PriorSet, Row, Table, skeleton};
