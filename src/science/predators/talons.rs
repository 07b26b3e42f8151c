//! Talons: three holes in a row and one opposite.

/// Distance between neighbouring front talons of an eagle, mm (Texas A&M AgriLife).
const FRONT_MM: core::ops::RangeInclusive<f64> = 25.0..=76.0;
/// Distance of the hind talon from the middle front one, mm.
const HIND_MM: core::ops::RangeInclusive<f64> = 102.0..=152.0;

/// What a pattern of holes is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Talons {
    /// Three and one at an eagle's distances: talons, not canines.
    Eagle,
    /// One of the distances does not fit, or is not known.
    CannotTell,
}

/// From the distance of the front holes and of the one opposite, mm.
pub fn talons(front_mm: f64, hind_mm: Option<f64>) -> Talons {
    match hind_mm {
        Some(hind) if FRONT_MM.contains(&front_mm) && HIND_MM.contains(&hind) => Talons::Eagle,
        _ => Talons::CannotTell,
    }
}
