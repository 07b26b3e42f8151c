//! What a distribution over classes is put into words as.

use serde::{Deserialize, Serialize};

use super::birth::cell_half_width;
use crate::order::Short as _;

/// Least probability at which one single year is said. Design.
pub const SINGLE_YEAR_FROM: f64 = 0.8;
/// Coverage of the smallest set.
pub const SET_COVERAGE: f64 = 0.8;
/// Above this the spread is called wide, bits over ten classes. Ours.
pub const WIDE_BITS: f64 = 2.0;

/// Foley's classes with fawn and yearling before them.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Broad {
    /// No completed birthday.
    pub fawn: f64,
    /// One.
    pub yearling: f64,
    /// Two.
    pub two: f64,
    /// Three to five.
    pub three_to_five: f64,
    /// Six or more.
    pub six_and_over: f64,
}

/// Sums the ten classes into the broad ones.
pub fn broad(classes: &[f64; 10]) -> Broad {
    let [fawn, yearling, two, old @ ..] = classes;
    let [c3, c4, c5, over @ ..] = old;
    Broad { fawn: *fawn, yearling: *yearling, two: *two, three_to_five: c3 + c4 + c5, six_and_over: over.iter().sum() }
}

/// The fewest classes that reach a coverage.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct LikelySet {
    /// Completed birthdays, rising; 9 is nine and more.
    pub classes: Vec<u8>,
    /// What they add up to.
    pub probability: f64,
}

/// Takes classes from the most probable down until they reach [`SET_COVERAGE`]; ties go to the
/// younger.
pub fn likely_set(classes: &[f64; 10]) -> LikelySet {
    let mut ranked: Vec<(u8, f64)> = (0_u8..).zip(classes.iter().copied()).collect();
    ranked.order_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    let mut set = LikelySet { classes: Vec::new(), probability: 0.0 };
    for (class, p) in ranked {
        set.classes.push(class);
        set.probability += p;
        if set.probability >= SET_COVERAGE {
            break;
        }
    }
    set.classes.order();
    set
}

/// The most probable class and its probability; ties go to the younger.
pub fn best(classes: &[f64; 10]) -> (u8, f64) {
    (0_u8..).zip(classes.iter().copied()).fold((0, -1.0), |top, here| if here.1 > top.1 { here } else { top })
}

/// Mean of completed birthdays, nine and more counted as nine.
pub fn mean_birthdays(classes: &[f64; 10]) -> f64 {
    (0_u8..).zip(classes).map(|(c, p)| f64::from(c) * p).sum()
}

/// Entropy, bits.
pub fn entropy_bits(shares: &[f64]) -> f64 {
    shares.iter().filter(|p| **p > 0.0).map(|p| -p * libm::log2(*p)).sum()
}

/// An interval of months for a fawn or a yearling, 5 to 95 %.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct MonthsInterval {
    /// 5 %.
    pub low: f64,
    /// 50 %.
    pub middle: f64,
    /// 95 %.
    pub high: f64,
}

/// The interval from months and their weights; `None` without weight.
pub fn months_interval(mut points: Vec<(f64, f64)>) -> Option<MonthsInterval> {
    points.order_by(|a, b| a.0.total_cmp(&b.0));
    let total: f64 = points.iter().map(|(_, w)| w).sum();
    if total <= 0.0 {
        return None;
    }
    let quantile = |share: f64| {
        let mut below = 0.0;
        let mut last = 0.0;
        for (months, weight) in &points {
            let part = weight / total;
            if below + part >= share && part > 0.0 {
                // Each point stands for its cell, filled evenly.
                return months + cell_half_width() * (2.0 * (share - below) / part - 1.0);
            }
            below += part;
            last = *months;
        }
        last
    };
    Some(MonthsInterval { low: quantile(0.05), middle: quantile(0.5), high: quantile(0.95) })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The five classes that a winter kill is put into (reference on age, section 10; rulings): 0, 1, 2, 3-5, 6+.
    #[test]
    fn broad_classes_are_0_1_2_3_to_5_and_6_and_over() {
        let classes = [0.01, 0.02, 0.04, 0.08, 0.16, 0.05, 0.32, 0.07, 0.15, 0.10];
        let told = broad(&classes);
        let expected = [0.01, 0.02, 0.04, 0.29, 0.64];
        for (got, expected) in
            [told.fawn, told.yearling, told.two, told.three_to_five, told.six_and_over].into_iter().zip(expected)
        {
            assert!((got - expected).abs() < 1e-12, "{got} {expected}");
        }
    }
}
