//! Of the looks still open, the one that would narrow the answer most.
//!
//! For each, the expected fall of the entropy over the ten classes, forecast from the model as it
//! stands. A look forecast to bring nothing is listed at zero.

use serde::{Deserialize, Serialize};

use super::eruption::{FLOOR, Progress};
use super::evidence::{AgeEvidence, P4State};
use super::item::Item;
use super::posterior::{Posterior, State};
use super::summary::entropy_bits;
use crate::order::Short as _;
use crate::science::skeleton::Plate;

/// One open look and what it is worth.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Gain {
    /// The look.
    pub item: Item,
    /// Expected fall of entropy over the ten classes, bits, never below zero.
    pub bits: f64,
}

/// Classes below this probability are left out of the forecast: they cannot earn a look its place.
const LEAST_CLASS: f64 = 1e-3;
/// States below this probability likewise.
const LEAST_STATE: f64 = 1e-6;

/// Open looks, most worth first; equal ones in the order of [`Item`].
pub(super) fn gains(evidence: &AgeEvidence, posterior: &Posterior) -> Vec<Gain> {
    let mut classes = posterior.classes.map(|p| if p < LEAST_CLASS { 0.0 } else { p });
    let kept: f64 = classes.iter().sum();
    for p in &mut classes {
        *p /= kept;
    }
    let states: Vec<(&State, f64)> = posterior
        .states
        .iter()
        .filter(|s| s.probability > LEAST_STATE && classes.get(s.class).is_some_and(|p| *p > 0.0))
        .map(|s| (s, s.probability / kept))
        .collect();
    let now = entropy_bits(&classes);
    let worth = |item: Item| {
        let outcomes = if Item::WEAR.contains(&item) {
            posterior.wear.forecast(item, &classes)
        } else if Item::SKELETON.contains(&item) {
            plate_outcomes(&states)
        } else {
            eruption_outcomes(item, evidence.row_count(), &states)
        };
        Gain { item, bits: (now - expected_entropy(&outcomes)).max(0.0) }
    };
    let open =
        Item::ERUPTION.into_iter().chain(Item::WEAR).chain(Item::SKELETON).filter(|item| is_open(*item, evidence));
    let mut list: Vec<Gain> = open.map(worth).collect();
    list.order_by(|a, b| b.bits.total_cmp(&a.bits).then(a.item.cmp(&b.item)));
    list
}

fn is_open(item: Item, evidence: &AgeEvidence) -> bool {
    let seen = evidence.sides().into_iter().any(|side| item.answered(side));
    let sensible = match item {
        // Molars that were looked at have told what a count would.
        Item::CheekTeeth => (0..3).all(|m| evidence.molar(m).is_none()),
        Item::P4Dentine | Item::PremolarWear => evidence.p4() >= Some(P4State::PermanentWhite),
        Item::CannonPlate => evidence.more.cannon_plate.is_none(),
        _ => true,
    };
    !seen && sensible
}

/// Mean over the outcomes of the entropy of the classes given each, bits.
fn expected_entropy(outcomes: &[[f64; 10]]) -> f64 {
    outcomes.iter().map(|joint| entropy_bits(joint) - entropy_bits(&[joint.iter().sum()])).sum()
}

/// For each outcome of a look at eruption, the joint probability of it and each class.
fn eruption_outcomes(item: Item, row: Option<u8>, states: &[(&State, f64)]) -> Vec<[f64; 10]> {
    let mut by_group = vec![[0.0; 10]; GROUPS];
    for (state, probability) in states {
        for (slots, p) in by_group.iter_mut().zip(forecast(item, state.progress, row)) {
            if let Some(slot) = slots.get_mut(state.class) {
                *slot += probability * p;
            }
        }
    }
    by_group
}

/// The same for the three stages of a growing end.
fn plate_outcomes(states: &[(&State, f64)]) -> Vec<[f64; 10]> {
    let mut by_stage = vec![[0.0; 10]; Plate::ALL.len()];
    for (state, probability) in states {
        let by_plate = state.progress.cannon();
        let total: f64 = by_plate.iter().sum();
        for (slots, p) in by_stage.iter_mut().zip(by_plate) {
            if let Some(slot) = slots.get_mut(state.class) {
                *slot += probability * p / total;
            }
        }
    }
    by_stage
}

/// Most outcomes of a look at eruption.
const GROUPS: usize = 4;

/// Probability of each outcome in one state, floored and brought to one; unused places are zero.
fn forecast(item: Item, progress: &Progress, row: Option<u8>) -> [f64; GROUPS] {
    let padded = |[a, b, c]: [f64; 3]| [Some(a), Some(b), Some(c), None];
    let groups = match item {
        Item::CheekTeeth => progress.count_groups().map(Some),
        Item::P4State => progress.p4_groups().map(Some),
        Item::M1State => molar(progress, 0, row),
        Item::M2State => molar(progress, 1, row),
        Item::M3State => molar(progress, 2, row),
        Item::I1State => padded(progress.i1_groups()),
        _ => padded(progress.other_front_groups()),
    };
    let floored = groups.map(|p| p.map_or(0.0, |p| p.max(FLOOR)));
    let total: f64 = floored.iter().sum();
    floored.map(|p| p / total)
}

/// A molar's outcomes, less what the count has told already.
fn molar(progress: &Progress, molar: u8, row: Option<u8>) -> [Option<f64>; GROUPS] {
    let [hidden, cusps, full] = progress.molar_groups(usize::from(molar));
    match row {
        None => [Some(hidden), Some(cusps), Some(full), None],
        Some(row) if row >= 4 + molar => [None, Some(cusps), Some(full), None],
        Some(_) => [Some(1.0), None, None, None],
    }
}
