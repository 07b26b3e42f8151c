//! Of the looks still open, the one that would narrow the answer most.
//!
//! For each, the expected fall of the entropy over the ten classes, forecast from the model as it
//! stands. A look forecast to bring nothing is listed at zero.

use serde::{Deserialize, Serialize};

use super::eruption::{FLOOR, Progress};
use super::evidence::{AgeEvidence, P4State};
use super::item::Item;
use super::posterior::Posterior;
use super::summary::entropy_bits;

/// One open look and what it is worth.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Gain {
    /// The look.
    pub item: Item,
    /// Expected fall of entropy over the ten classes, bits, never below zero.
    pub bits: f64,
}

/// Open looks, most worth first; equal ones in the order of [`Item`].
pub(super) fn gains(evidence: &AgeEvidence, posterior: &Posterior) -> Vec<Gain> {
    let now = entropy_bits(&posterior.classes);
    let mut list: Vec<Gain> = Item::ERUPTION
        .into_iter()
        .chain(Item::WEAR)
        .filter(|item| is_open(*item, evidence))
        .map(|item| Gain { item, bits: (now - expected_entropy(item, evidence, posterior)).max(0.0) })
        .collect();
    list.sort_by(|a, b| b.bits.total_cmp(&a.bits).then(a.item.cmp(&b.item)));
    list
}

fn is_open(item: Item, evidence: &AgeEvidence) -> bool {
    let seen = evidence.sides().into_iter().any(|side| item.answered(side));
    let sensible = match item {
        // Molars that were looked at have told what a count would.
        Item::CheekTeeth => (0..3).all(|m| evidence.molar(m).is_none()),
        Item::P4Dentine | Item::PremolarWear => evidence.p4() >= Some(P4State::PermanentWhite),
        _ => true,
    };
    !seen && sensible
}

fn expected_entropy(item: Item, evidence: &AgeEvidence, posterior: &Posterior) -> f64 {
    outcomes(item, evidence, posterior)
        .into_iter()
        .map(|mut classes| {
            let probability: f64 = classes.iter().sum();
            if probability <= 0.0 {
                return 0.0;
            }
            for p in &mut classes {
                *p /= probability;
            }
            probability * entropy_bits(&classes)
        })
        .sum()
}

/// For each outcome of a look, the joint probability of it and each class.
fn outcomes(item: Item, evidence: &AgeEvidence, posterior: &Posterior) -> Vec<[f64; 10]> {
    if Item::WEAR.contains(&item) {
        let mut by_code = posterior.wear.forecast(item);
        for classes in &mut by_code {
            for (slot, class) in classes.iter_mut().zip(posterior.classes) {
                *slot *= class;
            }
        }
        return by_code;
    }
    let row = evidence.row_count();
    let mut by_group: Vec<[f64; 10]> = Vec::new();
    for state in &posterior.states {
        let groups = forecast(item, &state.progress, row);
        by_group.resize(groups.len(), [0.0; 10]);
        for (slots, p) in by_group.iter_mut().zip(groups) {
            if let Some(slot) = slots.get_mut(state.class) {
                *slot += state.probability * p;
            }
        }
    }
    by_group
}

/// Probability of each outcome in one state, floored and brought to one.
fn forecast(item: Item, progress: &Progress, row: Option<u8>) -> Vec<f64> {
    let mut groups = match item {
        Item::CheekTeeth => progress.count_groups().to_vec(),
        Item::P4State => progress.p4_groups().to_vec(),
        Item::M1State => molar(progress, 0, row),
        Item::M2State => molar(progress, 1, row),
        Item::M3State => molar(progress, 2, row),
        Item::I1State => progress.i1_groups().to_vec(),
        _ => progress.other_front_groups().to_vec(),
    };
    for p in &mut groups {
        *p = p.max(FLOOR);
    }
    let total: f64 = groups.iter().sum();
    for p in &mut groups {
        *p /= total;
    }
    groups
}

/// A molar's outcomes, less what the count has told already.
fn molar(progress: &Progress, molar: u8, row: Option<u8>) -> Vec<f64> {
    let [hidden, cusps, full] = progress.molar_groups(usize::from(molar));
    match row {
        None => vec![hidden, cusps, full],
        Some(row) if row >= 4 + molar => vec![cusps.max(FLOOR), full.max(FLOOR)],
        Some(_) => vec![1.0],
    }
}
