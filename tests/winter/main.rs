//! The winter log: its days in the journal, the agencies' indices, snowfalls and degree days.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::float_cmp,
    clippy::unnecessary_wraps
)]

mod days;
mod indices;
mod journal;
mod storms;
