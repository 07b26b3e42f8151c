//! A winter in the office: a daily log as CSV, the agencies' indices over it, and the plot of the winter
//! against the deaths.

pub mod cells;
pub mod columns;
pub mod deaths;
pub mod join;
pub mod kept;
pub mod note;
pub mod plot;
pub mod report;
pub mod table;
pub mod text;
pub mod units;
