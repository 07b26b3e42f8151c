//! Prior and looks joined: the distribution over classes and sexes.

use super::birth::{CELLS_PER_YEAR, MonthCell, middle_of};
use super::eruption::{COMPLETE, Progress};
use super::evidence::{AgeEvidence, ClassCall, QuickClass, Sex};
use super::more::{Measures, dentine_likelihood};
use super::wear::WearTerms;
use super::{Basis, Settings};

/// Mean age of the class nine and more, years of completed birthdays: 136 over 13 wolf-killed deer,
/// Mech and Frenzel 1971, table 4.
const NINE_AND_MORE: f64 = 10.46;
/// From this class on every tooth is in.
const COMPLETE_FROM: u8 = 3;
/// How much more often the hands-off call is right than wrong. Design.
const QUICK_RATIO: f64 = 3.0;

/// One way for a deer of a class to be: its months and whether its teeth run late.
pub(super) struct State {
    pub(super) class: usize,
    pub(super) months: f64,
    pub(super) late: bool,
    pub(super) progress: &'static Progress,
    /// Probability, given all that was seen.
    pub(super) probability: f64,
}

pub(super) struct Posterior {
    pub(super) classes: [f64; 10],
    /// Female, male.
    pub(super) joint: [[f64; 2]; 10],
    pub(super) states: Vec<State>,
    pub(super) wear: WearTerms,
}

impl Posterior {
    /// `basis` says which parts speak, `cells` are the months at death within a class; `wear_power` below
    /// one widens the wear. All is multiplied, so that its order does not matter. A tooth row moves the
    /// months within the class of yearlings and nothing else.
    pub(super) fn new(
        evidence: &AgeEvidence,
        settings: &Settings,
        basis: Basis,
        measures: &Measures,
        cells: &[MonthCell],
        wear_power: f64,
    ) -> Self {
        let sides = evidence.sides();
        let mean_months: f64 = cells.iter().map(|c| c.months() * c.weight).sum();
        let worn_sides = if basis.wear { sides } else { [&NOTHING_SEEN; 2] };
        let ages = ages_years(mean_months);
        let wear = WearTerms::new(ages, worn_sides, wear_power);
        let mut states = states(cells, mean_months, settings.late_share);
        for state in &mut states {
            if basis.eruption {
                state.probability *= state.progress.likelihood(sides);
            }
            if basis.growth_plate {
                state.probability *= evidence.more.plates(state.months, state.progress.cannon());
            }
        }
        let mut likelihood = class_sums(&states);
        if let Some(row) = measures.row() {
            for state in states.iter_mut().filter(|s| s.class == 1) {
                state.probability *= row.likelihood(state.months);
            }
        }
        let within = class_sums(&states);
        let called = call_likelihood(evidence, settings, basis);
        let width = measures.dentine().map_or([1.0; 10], |seen| dentine_likelihood(seen, &ages));
        let local = evidence.more.local_age.map_or([1.0; 10], |age| age.likelihood(&ages));
        let parts = called.into_iter().zip(width).zip(evidence.more.size()).zip(local);
        for ((slot, worn), (((call, width), size), local)) in likelihood.iter_mut().zip(wear.likelihood).zip(parts) {
            *slot *= worn * call * width * size * local;
        }
        let joint = joint(evidence, settings, &likelihood);
        let classes = joint.map(|[female, male]| female + male);
        for state in &mut states {
            let class = classes.get(state.class).copied().unwrap_or(0.0);
            let total = within.get(state.class).copied().unwrap_or(0.0);
            state.probability = if total > 0.0 { state.probability / total * class } else { 0.0 };
        }
        Self { classes, joint, states, wear }
    }

    /// Probability that the teeth of a deer of that class run late.
    pub(super) fn late_in(&self, class: u8) -> f64 {
        let of_class = || self.states.iter().filter(|s| s.class == usize::from(class));
        let all: f64 = of_class().map(|s| s.probability).sum();
        let late: f64 = of_class().filter(|s| s.late).map(|s| s.probability).sum();
        if all > 0.0 { late / all } else { 0.0 }
    }
}

static NOTHING_SEEN: super::evidence::JawSide = super::evidence::JawSide {
    cheek_teeth: None,
    extra_p1: None,
    p2_missing: None,
    p4: None,
    molars: [None; 3],
    i1: None,
    other_front: [None; 3],
    p4_dentine: None,
    dentine: [None; 3],
    crest: [None; 3],
    m3_posterior: None,
    infundibulum: [None; 3],
    premolar_wear: None,
};

fn class_sums(states: &[State]) -> [f64; 10] {
    let mut sums = [0.0; 10];
    for state in states {
        if let Some(slot) = sums.get_mut(state.class) {
            *slot += state.probability;
        }
    }
    sums
}

fn ages_years(mean_months: f64) -> [f64; 10] {
    let mut ages = [0.0; 10];
    for (class, slot) in (0_u8..).zip(&mut ages) {
        let birthdays = if class == 9 { NINE_AND_MORE } else { f64::from(class) };
        *slot = birthdays + mean_months / 12.0;
    }
    ages
}

/// All ways to be, before anything was seen: probabilities sum to one within each class.
fn states(cells: &[MonthCell], mean_months: f64, late_share: f64) -> Vec<State> {
    let mut states = Vec::with_capacity(cells.len() * 6 + 7);
    for class in 0..COMPLETE_FROM {
        for cell in cells {
            for (late, share) in [(false, 1.0 - late_share), (true, late_share)] {
                let index = cell.index + CELLS_PER_YEAR * usize::from(class);
                states.push(State {
                    class: usize::from(class),
                    months: middle_of(index),
                    late,
                    progress: Progress::in_cell(index, late),
                    probability: cell.weight * share,
                });
            }
        }
    }
    for class in COMPLETE_FROM..10 {
        states.push(State {
            class: usize::from(class),
            months: mean_months + 12.0 * f64::from(class),
            late: false,
            progress: &COMPLETE,
            probability: 1.0,
        });
    }
    states
}

fn call_likelihood(evidence: &AgeEvidence, settings: &Settings, basis: Basis) -> [f64; 10] {
    let called: Option<ClassCall> = evidence.class_call.filter(|_| basis.class_call);
    let mut likelihood = called.map_or([1.0; 10], |call| settings.reader.likelihood(call));
    if let Some(quick) = evidence.quick_class.filter(|_| basis.quick_class) {
        let right = QUICK_RATIO / (1.0 + QUICK_RATIO);
        for (class, slot) in likelihood.iter_mut().enumerate() {
            let fits = (class == 0) == (quick == QuickClass::Fawn);
            *slot *= if fits { right } else { 1.0 - right };
        }
    }
    if let Some(lab) = evidence.more.cementum.filter(|_| basis.cementum) {
        for (slot, given) in likelihood.iter_mut().zip(lab.likelihood()) {
            *slot *= given;
        }
    }
    likelihood
}

/// Prior, likelihood and signs of sex, brought to one.
fn joint(evidence: &AgeEvidence, settings: &Settings, likelihood: &[f64; 10]) -> [[f64; 2]; 10] {
    let weight = |which: Sex| match evidence.sex {
        None => 0.5,
        Some(known) if known == which => 1.0,
        Some(_) => 0.0,
    };
    let female = settings.prior.shares(Sex::Female);
    let male = settings.prior.shares(Sex::Male);
    let mut joint = [[0.0; 2]; 10];
    for (class, (((slot, f), m), l)) in joint.iter_mut().zip(female).zip(male).zip(likelihood).enumerate() {
        let [as_female, as_male] = evidence.more.by_sex(class, evidence.sex);
        *slot = [f * weight(Sex::Female) * l * as_female, m * weight(Sex::Male) * l * as_male];
    }
    let total: f64 = joint.iter().flatten().sum();
    if total > 0.0 {
        joint.iter_mut().flatten().for_each(|p| *p /= total);
    }
    joint
}
