//! How a person's call of a class relates to the true class.
//!
//! No full published table of calls against known ages exists. This one is made: a call is normal
//! about `a - b (a - 2.5)` with spread `s0 + s1 (a - 2.5)`, fitted so that it gives back the shares in
//! classes 2, 3-5 and 6 and over that Foley and others (2022) print.

use serde::{Deserialize, Serialize};

use super::evidence::ClassCall;
use crate::science::reader_record::ReaderModel;
use crate::science::special::normal_cdf;

/// Who called.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Reader {
    /// First-molar-centred rule: Foley's 72, 73 and 68 %.
    #[default]
    FirstMolar,
    /// Customary key, little practice: Foley's 79, 48 and 28 %.
    Volunteer,
    /// Between Foley and Jacobson and Reiner (1989).
    Experienced,
    /// As the reserve's own record has it.
    Own(Box<ReaderModel>),
}

/// Least probability of a call: no single reading may veto an age. Design.
const FLOOR: f64 = 0.002;
/// A yearling is told by its teeth changing: 0.94, the rest called 2.5. Design, on Maine's 6.3 %.
const YEARLING_RIGHT: f64 = 0.94;
/// A fawn likewise. Design.
const FAWN_RIGHT: f64 = 0.99;

impl Reader {
    /// Probability of `call` if the deer has `birthdays` completed birthdays (9 for nine and more),
    /// before the floor.
    pub fn probability(&self, birthdays: u8, call: ClassCall) -> f64 {
        let constants = match self {
            Self::FirstMolar => (0.17, 0.86, 0.10),
            Self::Volunteer => (0.65, 0.62, 0.46),
            Self::Experienced => (0.15, 0.50, 0.15),
            Self::Own(model) => return model.probability(birthdays, call),
        };
        match (birthdays, call) {
            (0, ClassCall::Fawn) => FAWN_RIGHT,
            (0, ClassCall::Yearling) => 1.0 - FAWN_RIGHT,
            (1, ClassCall::Yearling) => YEARLING_RIGHT,
            (1, ClassCall::Two) => 1.0 - YEARLING_RIGHT,
            (0 | 1, _) | (_, ClassCall::Fawn | ClassCall::Yearling) => 0.0,
            (true_class, call) => adult(constants, f64::from(true_class) + 0.5, call),
        }
    }

    /// Likelihood of each of the ten classes given a call, floored.
    pub fn likelihood(&self, call: ClassCall) -> [f64; 10] {
        let mut classes = [0.0; 10];
        for (birthdays, slot) in (0_u8..).zip(&mut classes) {
            *slot = self.probability(birthdays, call).max(FLOOR);
        }
        classes
    }
}

/// Calls on an adult of `age` years: normal, cut into classes.
fn adult((b, s0, s1): (f64, f64, f64), age: f64, call: ClassCall) -> f64 {
    let mean = age - b * (age - 2.5);
    let sd = s0 + s1 * (age - 2.5);
    let below = |edge: f64| normal_cdf((edge - mean) / sd);
    // A call of k + 0.5 takes what lies within k and k + 1; the ends are open.
    let k = call.index() as f64;
    match call {
        ClassCall::Two => below(k + 1.0),
        ClassCall::TenPlus => 1.0 - below(k),
        _ => below(k + 1.0) - below(k),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Foley and others 2022, Wildl. Res. 49:237-249, abstract: first-molar rule 72 / 73 / 68 % in the
    /// right one of classes 2, 3-5, 6 and over; customary 79 / 48 / 28 %. True ages weighted 0.79^(a-2.5).
    #[test]
    fn gives_back_foley() {
        for (reader, expected) in [(Reader::FirstMolar, [0.72, 0.73, 0.68]), (Reader::Volunteer, [0.79, 0.48, 0.28])] {
            for (group, target) in [2..=2_u8, 3..=5, 6..=9].into_iter().zip(expected) {
                let weight = |c: u8| libm::pow(0.79, f64::from(c) - 2.0);
                let all: f64 = group.clone().map(weight).sum();
                let right: f64 = group
                    .clone()
                    .map(|c| {
                        let calls = ClassCall::ALL.iter().filter(|call| {
                            let k = u8::try_from(call.index()).unwrap();
                            group.contains(&k) || (k == 10 && group.contains(&9))
                        });
                        weight(c) * calls.map(|call| reader.probability(c, *call)).sum::<f64>()
                    })
                    .sum();
                assert!((right / all - target).abs() < 0.012, "{reader:?} {group:?}: {}", right / all);
            }
        }
    }

    /// The printed constructed table, its cells rounded to 0.01.
    #[test]
    fn table_cells() {
        use ClassCall::{Eight, Five, Four, Nine, Seven, Six, TenPlus, Three, Two};
        let cell = |birthdays, call| Reader::FirstMolar.probability(birthdays, call);
        for (birthdays, call, expected) in [
            (2, Two, 0.720),
            (2, Three, 0.24),
            (3, Two, 0.37),
            (4, Four, 0.35),
            (5, Four, 0.31),
            (6, Five, 0.30),
            (7, Six, 0.29),
            (8, Seven, 0.27),
            (9, Eight, 0.25),
        ] {
            assert!((cell(birthdays, call) - expected).abs() < 0.0055, "{birthdays} {call:?}");
        }
        assert!((cell(9, Nine) + cell(9, TenPlus) - 0.33).abs() < 0.0055);
    }

    #[test]
    fn rows_are_distributions_and_nothing_is_vetoed() {
        for reader in [Reader::FirstMolar, Reader::Volunteer, Reader::Experienced] {
            for birthdays in 0..=9 {
                let total: f64 = ClassCall::ALL.iter().map(|c| reader.probability(birthdays, *c)).sum();
                assert!((total - 1.0).abs() < 1e-12, "{reader:?} {birthdays}");
            }
            assert!(reader.likelihood(ClassCall::Fawn).iter().all(|p| *p >= FLOOR));
        }
    }
}
