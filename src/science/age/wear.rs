//! How worn the teeth are: each look against what the printed keys expect at an age.
//!
//! One latent wear age `u` (years) stands behind all looks of a jaw: a deer of age `a` has `ln u`
//! normal about `ln a`, because soils, diet and jaws differ. Given `u`, each look scatters about its
//! expected code. Looks at one jaw still share more than that, so each speaks with power [`KAPPA`].

use std::sync::OnceLock;

use super::evidence::JawSide;
use super::item::Item;
use crate::science::source::Mark;

/// Spread of the natural log of wear age about age. Design.
const SD_LN_RATE: f64 = 0.25;
/// Scatter of a code about its expectation. Design.
const SD_CODE: f64 = 0.7;
/// Power of each look. Design.
const KAPPA: f64 = 0.5;
/// Beyond this many standard deviations the tails are straight, so that no look speaks below about
/// 0.002: the same guard as elsewhere, in the one form that keeps "more wear is never younger" true.
const STRAIGHT_FROM: f64 = 2.0;
/// Grid of ln u.
const POINTS: usize = 40;
const LN_LOW: f64 = -1.9;
const LN_STEP: f64 = 0.128;
/// Most codes of any scale.
const CODES: usize = 6;

/// Expected code of one look at 0.5, 1.5, ... 9.5 years.
pub(super) struct Scale {
    /// The look.
    pub(super) item: Item,
    /// Highest code.
    top: u8,
    expected: [f64; 10],
    /// How well the row is supported at its weakest.
    pub(super) mark: Mark,
}

const fn scale(item: Item, top: u8, expected: [f64; 10], mark: Mark) -> Scale {
    Scale { item, top, expected, mark }
}

/// From 2.5 years: the middle of the agencies' class descriptions. Below, and the P4 and funnel rows:
/// from memory of them, filled in here.
#[rustfmt::skip]
pub(super) static SCALES: [Scale; 12] = [
    //                                     0.5  1.5  2.5  3.5  4.5  5.5  6.5  7.5  8.5  9.5
    scale(Item::P4Dentine,          5, [0.0, 0.0, 0.5, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0, 5.0], Mark::Memory),
    scale(Item::M1Dentine,          5, [0.0, 0.7, 1.0, 3.0, 4.0, 4.0, 5.0, 5.0, 5.0, 5.0], Mark::Design),
    scale(Item::M2Dentine,          5, [0.0, 0.5, 1.0, 1.0, 3.0, 3.5, 4.0, 5.0, 5.0, 5.0], Mark::Design),
    scale(Item::M3Dentine,          5, [0.0, 0.0, 0.5, 1.0, 1.0, 3.0, 3.5, 4.0, 5.0, 5.0], Mark::Design),
    scale(Item::M1Crest,            4, [0.0, 0.0, 0.0, 2.0, 2.5, 4.0, 4.0, 4.0, 4.0, 4.0], Mark::Design),
    scale(Item::M2Crest,            4, [0.0, 0.0, 0.0, 0.5, 2.0, 3.0, 3.3, 3.8, 4.0, 4.0], Mark::Design),
    scale(Item::M3Crest,            4, [0.0, 0.0, 0.0, 0.0, 0.5, 2.0, 2.3, 3.0, 3.8, 4.0], Mark::Design),
    scale(Item::M3Posterior,        4, [0.0, 0.0, 1.0, 2.0, 3.0, 3.0, 3.5, 4.0, 4.0, 4.0], Mark::Design),
    scale(Item::M1Infundibulum,     3, [0.0, 0.0, 0.0, 0.0, 0.0, 1.0, 2.0, 3.0, 3.0, 3.0], Mark::Memory),
    scale(Item::M2Infundibulum,     3, [0.0, 0.0, 0.0, 0.0, 0.0, 0.5, 1.0, 2.0, 3.0, 3.0], Mark::Memory),
    scale(Item::M3Infundibulum,     3, [0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.5, 1.0, 2.0, 3.0], Mark::Memory),
    scale(Item::PremolarWear,       4, [0.0, 0.0, 0.5, 1.0, 1.5, 2.0, 3.0, 3.0, 3.5, 4.0], Mark::Memory),
];

impl Scale {
    /// Expected code at a wear age of `years`, straight between the columns, flat beyond the ends.
    fn expected_at(&self, years: f64) -> f64 {
        let mut previous = (0.5, self.expected.first().copied().unwrap_or(0.0));
        if years <= previous.0 {
            return previous.1;
        }
        for (step, code) in (1_u32..).zip(self.expected.iter().skip(1)) {
            let here = (0.5 + f64::from(step), *code);
            if years <= here.0 {
                return previous.1 + (here.1 - previous.1) * (years - previous.0);
            }
            previous = here;
        }
        previous.1
    }

    /// Logs of the probabilities of every code at a wear age.
    fn ln_codes(&self, years: f64) -> [f64; CODES] {
        let middle = self.expected_at(years);
        let mut ln = [f64::NEG_INFINITY; CODES];
        for (code, slot) in (0..=self.top).zip(&mut ln) {
            *slot = -tail((f64::from(code) - middle) / SD_CODE);
        }
        normalise(ln, 1.0)
    }
}

/// Expected code of a look at a wear age; 0 for looks that are not of wear.
pub(super) fn expected(item: Item, wear_years: f64) -> f64 {
    SCALES.iter().find(|s| s.item == item).map_or(0.0, |s| s.expected_at(wear_years))
}

/// Half the square in the middle, straight outside.
fn tail(r: f64) -> f64 {
    let r = r.abs();
    if r <= STRAIGHT_FROM { 0.5 * r * r } else { STRAIGHT_FROM * (r - 0.5 * STRAIGHT_FROM) }
}

/// Raises to a power and brings the sum of probabilities to one.
fn normalise(ln: [f64; CODES], power: f64) -> [f64; CODES] {
    let raised = ln.map(|v| v * power);
    let total: f64 = raised.iter().map(|v| libm::exp(*v)).sum();
    let ln_total = libm::log(total);
    raised.map(|v| v - ln_total)
}

/// One look over the grid.
struct ItemTable {
    /// Log likelihood with the power applied, by grid point and code.
    ln_power: Vec<[f64; CODES]>,
    /// What that amounts to as a forecast of the look, by code and grid point: the powered probabilities
    /// brought to one.
    forecast: Vec<[f64; POINTS]>,
}

fn tables() -> &'static [ItemTable] {
    static TABLES: OnceLock<Vec<ItemTable>> = OnceLock::new();
    TABLES.get_or_init(|| SCALES.iter().map(table_of).collect())
}

fn table_of(scale: &Scale) -> ItemTable {
    let rows: Vec<[f64; CODES]> = grid().map(|ln_u| scale.ln_codes(libm::exp(ln_u))).collect();
    let mut forecast = vec![[0.0; POINTS]; usize::from(scale.top) + 1];
    for (point, ln) in rows.iter().enumerate() {
        for (slots, p) in forecast.iter_mut().zip(normalise(*ln, KAPPA)) {
            if let Some(slot) = slots.get_mut(point) {
                *slot = libm::exp(p);
            }
        }
    }
    ItemTable { ln_power: rows.iter().map(|ln| ln.map(|v| v * KAPPA)).collect(), forecast }
}

fn grid() -> impl Iterator<Item = f64> {
    (0..POINTS).map(|i| LN_LOW + LN_STEP * i as f64)
}

/// Wear ages of one age, as shares over the grid: a normal density, each point from the one before.
fn wear_ages(age_years: f64) -> [f64; POINTS] {
    let step = LN_STEP / SD_LN_RATE;
    let first = (LN_LOW - libm::log(age_years)) / SD_LN_RATE;
    let mut weight = libm::exp(-0.5 * first * first);
    let mut ratio = libm::exp(-step * (first + 0.5 * step));
    let ratio_of_ratios = libm::exp(-step * step);
    let (mut weights, mut total) = ([0.0; POINTS], 0.0);
    for slot in &mut weights {
        *slot = weight;
        total += weight;
        weight *= ratio;
        ratio *= ratio_of_ratios;
    }
    weights.map(|w| w / total)
}

/// What the wear seen says of each class, kept so that looks still open can be weighed.
pub(super) struct WearTerms {
    /// Likelihood of each class given the wear seen; any common factor is left out.
    pub(super) likelihood: [f64; 10],
    /// Wear ages of each class after what was seen.
    after: [[f64; POINTS]; 10],
}

impl WearTerms {
    /// `ages_years` are the ages of the ten classes at death. Two sides of one look count as one:
    /// their mean. `power` below one makes the whole wear speak more softly.
    pub(super) fn new(ages_years: [f64; 10], sides: [&JawSide; 2], power: f64) -> Self {
        let mut ln_seen = [0.0; POINTS];
        for (scale, table) in SCALES.iter().zip(tables()) {
            let codes = sides.map(|side| scale.item.wear_code(side));
            let n = codes.iter().flatten().count();
            for code in codes.into_iter().flatten() {
                for (sum, row) in ln_seen.iter_mut().zip(&table.ln_power) {
                    *sum += row.get(usize::from(code)).copied().unwrap_or(0.0) / n as f64;
                }
            }
        }
        let top = ln_seen.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let seen = ln_seen.map(|v| libm::exp((v - top) * power));
        let mut after = ages_years.map(wear_ages);
        let mut likelihood = [0.0; 10];
        for (slot, shares) in likelihood.iter_mut().zip(&mut after) {
            for (share, seen) in shares.iter_mut().zip(seen) {
                *share *= seen;
            }
            *slot = shares.iter().sum();
            if *slot > 0.0 {
                for share in shares {
                    *share /= *slot;
                }
            }
        }
        Self { likelihood, after }
    }

    /// Forecast of one more look: for each of its codes, the joint probability of it and each class,
    /// from the `classes`' own probabilities. A class without probability costs nothing.
    pub(super) fn forecast(&self, item: Item, classes: &[f64; 10]) -> Vec<[f64; 10]> {
        let Some(table) = SCALES.iter().zip(tables()).find_map(|(s, t)| (s.item == item).then_some(t)) else {
            return Vec::new();
        };
        let joint_of = |code: &[f64; POINTS]| {
            let mut joint = [0.0; 10];
            for ((slot, class), shares) in
                joint.iter_mut().zip(classes).zip(&self.after).filter(|((_, c), _)| **c > 0.0)
            {
                *slot = class * shares.iter().zip(code).map(|(share, p)| share * p).sum::<f64>();
            }
            joint
        };
        table.forecast.iter().map(joint_of).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// "More wear is never younger" rests on rows that never fall.
    #[test]
    fn rows_rise_and_stay_on_their_scale() {
        for scale in &SCALES {
            assert!(scale.expected.windows(2).all(|w| w[0] <= w[1]), "{:?}", scale.item);
            assert!(scale.expected.iter().all(|e| (0.0..=f64::from(scale.top)).contains(e)));
        }
        assert_eq!(SCALES.each_ref().map(|s| s.item), Item::WEAR);
    }

    #[test]
    fn no_look_speaks_below_the_floor() {
        for table in tables() {
            let worst = table.ln_power.iter().flatten().copied().filter(|v| v.is_finite()).fold(0.0, f64::min);
            assert!(libm::exp(worst) > 0.001, "{}", libm::exp(worst));
        }
    }

    /// The grid spans the wear ages of every class.
    #[test]
    fn grid_is_wide_enough() {
        for age in [0.5, 1.6, 5.5, 11.3] {
            let mean: f64 = wear_ages(age).iter().zip(grid()).map(|(w, ln_u)| w * ln_u).sum();
            assert!((mean - libm::log(age)).abs() < 0.01, "{age}");
        }
    }
}
