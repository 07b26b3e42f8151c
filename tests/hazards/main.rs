//! Hazards: what fires, what it closes, who may open it again, and how it is said.
//!
//! Numbers and rules are checked against the agencies' pages named beside each check. What a scene
//! is expected to raise is a reading of those pages; where none says it, the line says
//! `common practice, no source`.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod bands;
mod closing;
mod demo_card;
mod next_look;
mod people;
mod reopening;
mod rules;
mod scene;
mod scenes;
mod wording;
