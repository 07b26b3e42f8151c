//! Tracks: length and width of a front foot, walking stride, toes. Only where the edges of the pads are
//! crisp: melt makes tracks larger.

use super::Animal::{Bear, Bobcat, Cougar, Coyote, Fisher, GrayFox, Lynx, RedFox, Wolf};
use super::{Animal, Likelihoods, Model};
use crate::order::Short as _;

/// The span of the flat part for a foot: 2 to 16 cm.
const FOOT_SPAN_CM: f64 = 14.0;
/// The span of the flat part for a stride. Ours.
const STRIDE_SPAN_CM: f64 = 140.0;
/// Share of toes counted rightly. Ours.
const TOES_RIGHT: f64 = 0.95;
const MOST_ODDS: f64 = 30.0;

/// Front width. Wolf and coyote: a quarter of the printed range; the others: a printed mean or range with a
/// quarter of it, at least half a centimetre, expert judgement.
pub(super) const WIDTH_CM: [Model; 9] = [
    (Wolf, 9.8, 1.15),
    (Coyote, 5.3, 0.53),
    (RedFox, 5.0, 0.5),
    (GrayFox, 3.75, 0.5),
    (Bobcat, 5.1, 0.65),
    (Lynx, 8.8, 0.9),
    (Cougar, 8.25, 0.5),
    (Fisher, 7.0, 0.5),
    (Bear, 10.5, 1.25),
];

/// Front length, in the same way.
pub(super) const LENGTH_CM: [Model; 8] = [
    (Wolf, 11.0, 0.98),
    (Coyote, 6.7, 0.6),
    (RedFox, 5.5, 0.5),
    (GrayFox, 4.0, 0.5),
    (Bobcat, 5.1, 0.65),
    (Lynx, 9.25, 0.88),
    (Fisher, 7.1, 0.5),
    (Bear, 11.5, 0.75),
];

/// Walking stride, from a print to the next of the same foot. Where a step was printed it counts twice.
pub(super) const STRIDE_CM: [Model; 6] = [
    (Wolf, 75.0, 10.0),
    (Coyote, 70.0, 5.0),
    (RedFox, 70.0, 5.0),
    (Bobcat, 27.0, 7.0),
    (Lynx, 50.5, 10.25),
    (Cougar, 95.0, 10.0),
];

/// Likelihoods of a front width, cm.
pub fn width(cm: f64) -> Likelihoods {
    capped(Likelihoods::of(cm, &WIDTH_CM, 0.0, FOOT_SPAN_CM))
}

/// The same without the cap.
pub fn raw_width(cm: f64) -> Likelihoods {
    Likelihoods::of(cm, &WIDTH_CM, 0.0, FOOT_SPAN_CM)
}

/// Likelihoods of a front length, cm.
pub fn length(cm: f64) -> Likelihoods {
    capped(Likelihoods::of(cm, &LENGTH_CM, 0.0, FOOT_SPAN_CM))
}

/// Likelihoods of a walking stride, cm.
pub fn stride(cm: f64) -> Likelihoods {
    capped(Likelihoods::of(cm, &STRIDE_CM, 0.0, STRIDE_SPAN_CM))
}

/// How many toes a foot shows.
pub const fn toes_of(animal: Animal) -> u8 {
    match animal {
        Animal::Bear | Animal::Fisher | Animal::Marten => 5,
        _ => 4,
    }
}

/// Likelihoods of a count of toes. `None` where it is neither four nor five.
pub fn toes(count: u8) -> Option<Likelihoods> {
    if !matches!(count, 4 | 5) {
        return None;
    }
    let p = |animal| if toes_of(animal) == count { TOES_RIGHT } else { 1.0 - TOES_RIGHT };
    let mut each: Vec<(Animal, f64)> = Animal::ALL.into_iter().map(|animal| (animal, p(animal))).collect();
    each.order_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    Some(Likelihoods { each })
}

fn capped(mut all: Likelihoods) -> Likelihoods {
    all.cap(MOST_ODDS, |_| true);
    all
}
