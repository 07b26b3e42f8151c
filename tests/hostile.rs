//! What others wrote and may have written to do harm: files that are cut, swollen or made by hand, and words that would be
//! a formula, markup, a path or an order to the terminal if they were let. Rules of the house; the shapes of the words are
//! those of OWASP's pages on CSV injection and cross-site scripting (from memory).
//!
//! The inputs under `tests/corpus` are those that `tests/tools/fuzz.sh` starts from and found.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "hostile/corpus.rs"]
mod corpus;
#[path = "hostile/injection.rs"]
mod injection;
#[path = "office/kit.rs"]
mod kit;
#[path = "hostile/large.rs"]
mod large;
#[path = "office/ran.rs"]
mod ran;
#[path = "office/sampled.rs"]
mod sampled;
#[path = "hostile/seeds.rs"]
mod seeds;
#[path = "fuzz/src/targets/mod.rs"]
mod targets;
#[path = "office/written.rs"]
mod written;
