//! A local card made by a person: a draft with fields, what keeps it from being signed, and the signing that page
//! and command line share.

mod draft;
mod faults;
pub mod fields;
mod figures;
mod sign;
#[cfg(test)]
mod tests;

pub use draft::{Draft, day_begins};
pub use faults::Fault;
pub use figures::{TableFile, read_table};
pub use sign::{notes, sign};
