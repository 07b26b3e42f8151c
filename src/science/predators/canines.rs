//! Distance between the points of a pair of canines, from the holes of one bite.

use super::Animal::{Bear, Bobcat, Cougar, Coyote, Dog, Fisher, GrayFox, Lynx, Marten, RedFox, Wolf};
use super::{Likelihoods, Model};

/// Measuring error: hide stretches and slides. Expert judgement, mm.
const HIDE_SD_MM: f64 = 2.0;
/// The span of the flat part: 8 to 70 mm.
const SPAN_MM: f64 = 62.0;
/// Odds of any two animals go no further. Expert judgement.
const MOST_ODDS: f64 = 30.0;
/// Pairs of one animal that should be measured.
pub const FEWEST_PAIRS: usize = 3;

/// Upper canines. Coyote, bobcat, marten: printed skulls and handbooks; wolf, bear: a leaflet whose column
/// heads were partly lost; lynx, fisher, dog: expert judgement; foxes from memory.
pub(super) const UPPER: [Model; 11] = [
    (Coyote, 31.5, 2.5),
    (Wolf, 44.0, 4.0),
    (Dog, 35.0, 9.0),
    (Bobcat, 24.0, 2.3),
    (Lynx, 25.0, 2.5),
    (Cougar, 46.0, 5.0),
    (Bear, 50.0, 7.0),
    (RedFox, 19.5, 2.5),
    (GrayFox, 16.5, 2.0),
    (Fisher, 17.0, 2.5),
    (Marten, 11.0, 1.0),
];

/// Lower canines: ranges of 32 to 45 (wolf) and 28 to 45 mm (cougar), each taken as four standard deviations.
/// No figure was found for the others.
pub(super) const LOWER: [Model; 4] =
    [(Coyote, 28.5, 2.2), (Wolf, 38.5, 3.25), (Bobcat, 20.0, 2.3), (Cougar, 36.5, 4.25)];

/// Which jaw.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Jaw {
    Upper,
    Lower,
}

/// Likelihoods of the mean of the pairs of one bite, without the cap; mm.
pub fn raw(mean_mm: f64, jaw: Jaw) -> Likelihoods {
    let models: &[Model] = match jaw {
        Jaw::Upper => &UPPER,
        Jaw::Lower => &LOWER,
    };
    Likelihoods::of(mean_mm, models, HIDE_SD_MM, SPAN_MM)
}

/// The same, odds of any two animals held within thirty to one.
pub fn canines(mean_mm: f64, jaw: Jaw) -> Likelihoods {
    let mut all = raw(mean_mm, jaw);
    all.cap(MOST_ODDS, |_| true);
    all
}
