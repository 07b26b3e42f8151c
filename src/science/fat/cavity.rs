//! Fat in the hollow of the lower jaw, from one side or both.
//!
//! It is used before femur marrow, and left and right differ, more so up to one and a half years (Nichols and
//! Pelton 1974, SEAFWA). So both sides are averaged where both were dried.

use serde::Serialize;

use crate::science::marrow::FatPercent;

/// Both sides, or the one there is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Cavity {
    /// Fat, percent of the fresh tissue: the mean of both sides where both were dried.
    pub fat: FatPercent,
    /// Both sides were dried.
    pub both: bool,
    /// Points by which the sides differ; zero for one side.
    pub apart: f64,
}

/// Puts the sides together. `None` where neither was dried.
pub fn read_cavity(left: Option<FatPercent>, right: Option<FatPercent>) -> Option<Cavity> {
    let one = |fat| Some(Cavity { fat, both: false, apart: 0.0 });
    match (left, right) {
        (Some(l), Some(r)) => {
            let fat = FatPercent::new(f64::midpoint(l.get(), r.get()))?;
            Some(Cavity { fat, both: true, apart: (l.get() - r.get()).abs() })
        }
        (Some(fat), None) | (None, Some(fat)) => one(fat),
        (None, None) => None,
    }
}
