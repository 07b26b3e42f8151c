//! How likely two carcasses are one animal that was reported twice. Nothing is ever joined by it: a person decides.
//!
//! Odds before, times what place, days, age, sex and jaw say. All figures are expert judgement [ours].

use libm::exp;

/// Share of carcasses that are doubles, before anything is compared.
pub const DOUBLED_SHARE: f64 = 0.02;
/// Share of doubles whose two places do not agree at all: typed wrong, or the body dragged.
const MISPLACED: f64 = 0.05;
/// Distance that a body moves or a place errs beside the receiver's own error, metres.
const MOVED_M: f64 = 20.0;
/// Error of a receiver that gave none, metres, 95 %.
pub const UNKNOWN_ERROR_M: f64 = 50.0;
/// What a contradiction is worth that only a mistake explains: days that do not meet, two jaws of one side.
const MISTAKE: f64 = 0.02;
/// From this probability a pair is listed.
pub const LISTED_FROM: f64 = 0.05;

/// What two carcasses have beside each other. `None` where it was not told of both.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Pair {
    /// Between the two places, metres, and both receivers' errors, metres, 95 %.
    pub apart: Option<(f64, f64, f64)>,
    /// Days on which both can have died, days of the first, days of the second.
    pub days: Option<(i64, i64, i64)>,
    /// How much more often two looks at one animal would say this of age and sex than looks at two animals.
    pub age_and_sex: Option<f64>,
    /// True where both had the same half of the jaw taken, or the whole of it; false where halves differ.
    pub same_jaw: Option<bool>,
    /// A crew wrote that the carcass was known before.
    pub known_before: bool,
}

/// The season around the pair.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Around {
    /// Carcasses.
    pub carcasses: usize,
    /// Area over which they lie, square metres, at least a square kilometre.
    pub area_m2: f64,
    /// Days of the season.
    pub season_days: i64,
}

/// Probability that the two are one, 0 to 1, and the factor of each part: place, days, age and sex, jaw.
pub fn probability(pair: &Pair, around: &Around) -> (f64, [f64; 4]) {
    let others = around.carcasses.saturating_sub(1).max(1) as f64;
    let place = pair.apart.map_or(1.0, |(distance_m, error_a_m, error_b_m)| {
        // 95 % of a round normal lies within 2.448 standard deviations.
        let sd = |error: f64| error / 2.448;
        let variance = sd(error_a_m) * sd(error_a_m) + sd(error_b_m) * sd(error_b_m) + MOVED_M * MOVED_M;
        let near = exp(-distance_m * distance_m / (2.0 * variance)) / (core::f64::consts::TAU * variance);
        let area = around.area_m2.max(1e6);
        ((1.0 - MISPLACED) * near + MISPLACED / area) * area
    });
    let days = pair.days.map_or(1.0, |(both, a, b)| {
        let meet = both as f64 * around.season_days.max(1) as f64 / (a.max(1) as f64 * b.max(1) as f64);
        MISTAKE + (1.0 - MISTAKE) * meet
    });
    let age_and_sex = pair.age_and_sex.map_or(1.0, |ratio| MISTAKE + (1.0 - MISTAKE) * ratio);
    // Two halves of one jaw are what a crew that comes second finds left.
    let jaw = pair.same_jaw.map_or(1.0, |same| if same { MISTAKE } else { 1.0 });
    let before = DOUBLED_SHARE / others * if pair.known_before { 5.0 } else { 1.0 };
    let odds = before * place * days * age_and_sex * jaw;
    (odds / (1.0 + odds), [place, days, age_and_sex, jaw])
}

/// Days on which both of two windows can hold, given as first and last day numbers; 0 where they do not meet.
pub fn common_days(a: (i32, i32), b: (i32, i32)) -> i64 {
    (i64::from(a.1.min(b.1)) - i64::from(a.0.max(b.0)) + 1).max(0)
}
