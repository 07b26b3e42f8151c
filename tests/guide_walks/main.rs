//! The protocol walked through from end to end by a small answering hand, as a crew would.
//!
//! What is asked of which carcass follows the project's skip matrix (a rule of the project, no outside
//! source); the methods behind the answers are checked elsewhere.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::missing_docs_in_private_items,
    missing_docs
)]

mod answering;
mod calipers;
mod evidence;
mod fat;
mod leaving;
mod random;
mod reports;
mod resuming;
mod tables;
mod taps;
mod visit;
mod walks;
