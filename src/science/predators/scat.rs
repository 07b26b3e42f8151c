//! Diameter of droppings. One dropping never decides.

use super::Animal::{Bear, Bobcat, Cougar, Coyote, Fisher, GrayFox, Lynx, RedFox, Wolf};
use super::{Animal, Likelihoods, Model};

/// The span of the flat part, mm.
const SPAN_MM: f64 = 40.0;
/// Odds among coyote, bobcat, lynx, foxes and fisher go no further. Expert judgement.
const MOST_ODDS_MIDDLING: f64 = 3.0;

/// Diameters. Coyote and gray fox: printed means and errors of 179 and 95; wolf: expert judgement; red fox: a
/// printed mean; bobcat, cougar: printed ranges, a quarter each; lynx, fisher and bear from memory.
pub(super) const DIAMETER_MM: [Model; 9] = [
    (Coyote, 20.0, 3.6),
    (Wolf, 27.0, 5.0),
    (GrayFox, 15.0, 2.05),
    (RedFox, 16.0, 2.5),
    (Bobcat, 17.5, 3.75),
    (Lynx, 17.5, 3.75),
    (Cougar, 31.5, 3.25),
    (Fisher, 15.0, 2.5),
    (Bear, 45.0, 7.5),
];

/// Likelihoods of a diameter, without the cap; mm.
pub fn raw(mm: f64) -> Likelihoods {
    Likelihoods::of(mm, &DIAMETER_MM, 0.0, SPAN_MM)
}

/// The same, odds among the middling animals held within three to one.
pub fn scat(mm: f64) -> Likelihoods {
    let mut all = raw(mm);
    all.cap(MOST_ODDS_MIDDLING, |animal| matches!(animal, Animal::Coyote | Bobcat | Lynx | RedFox | GrayFox | Fisher));
    all
}

/// Wolf or coyote by diameter alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum WolfOrCoyote {
    Wolf,
    Coyote,
    CannotTell,
}

/// Droppings checked by DNA: 29 mm and more 95 % wolf, 14 mm and less 95 % coyote or a cross (Dellinger et
/// al. 2011, red wolf).
pub const fn wolf_or_coyote(whole_mm: i64) -> WolfOrCoyote {
    match whole_mm {
        29.. => WolfOrCoyote::Wolf,
        15..=28 => WolfOrCoyote::CannotTell,
        _ => WolfOrCoyote::Coyote,
    }
}
