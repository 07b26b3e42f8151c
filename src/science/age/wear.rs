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
const POINTS: usize = 64;
const LN_LOW: f64 = -1.9;
const LN_STEP: f64 = 0.08;
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
    /// What that amounts to as a forecast of the look: the powered probabilities brought to one.
    forecast: Vec<[f64; CODES]>,
}

fn tables() -> &'static [ItemTable] {
    static TABLES: OnceLock<Vec<ItemTable>> = OnceLock::new();
    TABLES.get_or_init(|| SCALES.iter().map(table_of).collect())
}

fn table_of(scale: &Scale) -> ItemTable {
    let rows: Vec<[f64; CODES]> = grid().map(|ln_u| scale.ln_codes(libm::exp(ln_u))).collect();
    ItemTable {
        ln_power: rows.iter().map(|ln| ln.map(|v| v * KAPPA)).collect(),
        forecast: rows.iter().map(|ln| normalise(*ln, KAPPA).map(libm::exp)).collect(),
    }
}

fn grid() -> impl Iterator<Item = f64> {
    (0..POINTS).map(|i| LN_LOW + LN_STEP * i as f64)
}

/// Wear ages of one age, as shares over the grid.
fn wear_ages(age_years: f64) -> Vec<f64> {
    let centre = libm::log(age_years);
    let raw: Vec<f64> = grid()
        .map(|ln_u| {
            let r = (ln_u - centre) / SD_LN_RATE;
            libm::exp(-0.5 * r * r)
        })
        .collect();
    let total: f64 = raw.iter().sum();
    raw.into_iter().map(|w| w / total).collect()
}

/// What the wear seen says of each class, kept so that looks still open can be weighed.
pub(super) struct WearTerms {
    /// Likelihood of each class given the wear seen; any common factor is left out.
    pub(super) likelihood: [f64; 10],
    /// Wear ages of each class after what was seen.
    after: Vec<Vec<f64>>,
}

impl WearTerms {
    /// `ages_years` are the ages of the ten classes at death. Two sides of one look count as one:
    /// their mean. `power` below one makes the whole wear speak more softly.
    pub(super) fn new(ages_years: [f64; 10], sides: [&JawSide; 2], power: f64) -> Self {
        let mut ln_seen = vec![0.0; POINTS];
        for (scale, table) in SCALES.iter().zip(tables()) {
            let codes: Vec<u8> = sides.into_iter().filter_map(|side| scale.item.wear_code(side)).collect();
            for code in &codes {
                for (sum, row) in ln_seen.iter_mut().zip(&table.ln_power) {
                    *sum += row.get(usize::from(*code)).copied().unwrap_or(0.0) / codes.len() as f64;
                }
            }
        }
        let top = ln_seen.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let seen: Vec<f64> = ln_seen.into_iter().map(|v| libm::exp((v - top) * power)).collect();
        let mut after = Vec::with_capacity(10);
        let mut likelihood = [0.0; 10];
        for (slot, age) in likelihood.iter_mut().zip(ages_years) {
            let mut shares: Vec<f64> = wear_ages(age).iter().zip(&seen).map(|(p, l)| p * l).collect();
            *slot = shares.iter().sum();
            if *slot > 0.0 {
                for s in &mut shares {
                    *s /= *slot;
                }
            }
            after.push(shares);
        }
        Self { likelihood, after }
    }

    /// Forecast of one more look: for each of its codes, its probability in each class.
    pub(super) fn forecast(&self, item: Item) -> Vec<[f64; 10]> {
        let Some((scale, table)) = SCALES.iter().zip(tables()).find(|(s, _)| s.item == item) else {
            return Vec::new();
        };
        let mut by_code = vec![[0.0; 10]; usize::from(scale.top) + 1];
        for (class, shares) in self.after.iter().enumerate() {
            for (share, row) in shares.iter().zip(&table.forecast) {
                for (slots, p) in by_code.iter_mut().zip(row) {
                    if let Some(slot) = slots.get_mut(class) {
                        *slot += share * p;
                    }
                }
            }
        }
        by_code
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
