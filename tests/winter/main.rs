//! The winter log: its days in the journal, the agencies' indices, snowfalls and degree days.
#![cfg(feature = "cli")]
#![allow(
    clippy::case_sensitive_file_extension_comparisons,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::float_cmp,
    clippy::unnecessary_wraps,
    clippy::format_collect
)]

#[path = "../office/ran.rs"]
mod ran;

mod command;
mod csv;
mod days;
mod indices;
mod journal;
mod storms;
