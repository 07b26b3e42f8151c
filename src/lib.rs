//! Marrowbook: a field form and an office tool for white-tailed deer found dead on snow.
//!
//! The journal is the record. Every answer is one [`record`] entry appended to a device's journal;
//! a carcass is what folding its entries gives; a [`reading`] is a pure function of the folded
//! carcass, recomputed whenever it is shown. The rooms below are listed in the order in which they
//! may use each other: a room may use what its row in `DEVELOPERS.md` names, never the other way.
#![cfg_attr(
    test,
    allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing, clippy::float_cmp)
)]

pub mod bundle;
pub mod card;
#[cfg(feature = "cli")]
pub mod cli;
pub mod frames;
pub mod guide;
pub mod keep;
pub mod office;
mod order;
pub mod reading;
pub mod record;
pub mod science;
#[cfg(feature = "web")]
pub mod web;
pub mod words;
