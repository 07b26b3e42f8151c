//! What a deer had eaten: proportions of plants in one rumen, and over several deer.
//!
//! Three rules stand above the rest. How full a rumen is says nothing of condition: deer die with full
//! rumens. Shares of one rumen are of that rumen and not of the herd. Poor food in a rumen supports poor
//! range and nothing more.
//!
//! | file | holds |
//! |---|---|
//! | [`plants`] | what may be tapped: trade and Latin names, tiers by region, digestibility, cautions |
//! | [`points`] | points under a frame's pins, as they stand in the record |
//! | [`proportions`] | several shares of one count, with intervals that hold together |
//! | [`volume`] | shares by volume |
//! | [`pooled`] | several deer, resampled |
//! | [`grain`] | when much grain should be sent to a laboratory |
//! | [`sources`] | what all of it rests on |

pub mod grain;
pub mod plants;
pub mod points;
pub mod pooled;
pub mod proportions;
pub mod sources;
#[cfg(test)]
mod tests;
pub mod volume;

pub use plants::{PLANTS, Plant, Tier};
