//! A winter by its daily log: agency severity indices, snowfalls, degree days.
//!
//! All indices are local: numbers of two jurisdictions are never set side by side. A day that nobody
//! logged is counted as missing and bounds the index; it is never read as a mild day.

pub mod agency;
pub mod classes;
pub mod degree_days;
pub mod index;
pub mod log;
pub mod measure;
pub mod snowfall;
pub mod sources;
