//! Height of the chest above the hoof's tip, measured or taken by age, and the depth that impedes.

use super::SnowRefusal;
use crate::science::marrow::AgeGroup;

/// Kelsall 1969 as quoted in NC-52: 20 in, the lowest measured.
pub const LOWEST_CM: f64 = 50.8;
/// The same: 24 in, the highest.
pub const HIGHEST_CM: f64 = 60.96;
/// Older deer, middle of the measured range. Ours.
pub const OLDER_CM: f64 = 56.0;
/// Fawns, its low end. Ours.
pub const FAWN_CM: f64 = 51.0;
/// Snow so much of the chest's height impedes seriously. Kelsall 1969 (abstract): about 30 % less.
pub const IMPEDES: f64 = 0.7;
/// A measured chest outside these is asked to be measured again. Ours.
const RECHECK_CM: (f64, f64) = (40.0, 70.0);
/// No deer's chest lies outside these. Ours: half the lowest and twice the highest measured.
const POSSIBLE_CM: (f64, f64) = (25.0, 122.0);

/// A chest's height.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chest {
    /// Best value, centimetres.
    pub cm: f64,
    /// Lowest that it may be; the measure itself where it was measured.
    pub low_cm: f64,
    /// Highest that it may be.
    pub high_cm: f64,
    /// Measured on this deer.
    pub measured: bool,
    /// Measured, and so far out that it should be measured again.
    pub recheck: bool,
}

impl Chest {
    /// As measured, sternum to the tip of the hoof, leg straight.
    ///
    /// # Errors
    /// Where no deer's chest is so high.
    pub fn measured(cm: f64) -> Result<Self, SnowRefusal> {
        if !(POSSIBLE_CM.0..=POSSIBLE_CM.1).contains(&cm) {
            return Err(SnowRefusal::NotAChest(cm));
        }
        let recheck = !(RECHECK_CM.0..=RECHECK_CM.1).contains(&cm);
        Ok(Self { cm, low_cm: cm, high_cm: cm, measured: true, recheck })
    }

    /// Taken by age; sex makes a difference that was not found in figures.
    pub const fn by_age(group: AgeGroup) -> Self {
        let cm = match group {
            AgeGroup::Fawn => FAWN_CM,
            AgeGroup::Adult => OLDER_CM,
        };
        Self { cm, low_cm: LOWEST_CM, high_cm: HIGHEST_CM, measured: false, recheck: false }
    }

    /// Depth of snow that seriously impedes, centimetres: best, lowest, highest.
    pub fn impede_cm(&self) -> [f64; 3] {
        [self.cm, self.low_cm, self.high_cm].map(|cm| IMPEDES * cm)
    }
}
