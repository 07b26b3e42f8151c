//! A second person's look, without knowing the first one's: what is worth it, and how far the two agree.
//!
//! Age class, the look of marrow and bruises are calls, not measurements: two people who looked apart show how sure a
//! call is. Both answers stay, each under its own person.

use std::collections::BTreeSet;

use crate::record::{Fold, PersonCode, Site};

use super::view::is_unasked;
use super::{Ask, Situation, View};

/// Steps that are answered twice where there are two.
const STEPS: &[&str] = &[
    "quick_class",
    "bruising",
    "jaw",
    "marrow_consistency",
    "marrow_colour",
    "bench_jaw",
    "bench_wear_class",
    "bench_marrow_consistency",
    "bench_marrow_colour",
];

/// Their findings.
const FINDINGS: &[&str] = &[
    "quick_class",
    "bruising_outside",
    "tooth_state",
    "dentine",
    "crest",
    "wear_class_called",
    "marrow_consistency",
    "marrow_colour",
];

/// Takes out of an examination what others said of these findings: the guide asks this person, and shows nothing of it.
pub fn hide_others(fold: &mut Fold, examination: uuid::Uuid, person: &PersonCode) {
    fold.keep_only_of(examination, FINDINGS, person);
}

/// What is worth a second look: of these steps those that are asked here, in order.
pub fn asks(situation: &Situation) -> impl Iterator<Item = &super::AskState> {
    let wanted = |ask: &Ask| matches!(ask, Ask::Step { step, .. } if STEPS.contains(&step.id));
    situation.asks.iter().filter(move |state| wanted(&state.ask))
}

/// One question that two people or more answered by hand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Compared {
    /// The finding.
    pub finding: &'static str,
    /// Where.
    pub site: Site,
    /// Who said what, by person.
    pub said: Vec<(PersonCode, crate::record::Answer)>,
    /// Whether all said the same.
    pub agree: bool,
}

/// Every question of these findings with answers of more than one person.
pub fn compared(view: &View) -> Vec<Compared> {
    let mut all = Vec::new();
    for (code, site, standing) in view.exam.answers() {
        let Some(finding) = FINDINGS.iter().find(|finding| **finding == code.as_str()) else { continue };
        let said: Vec<_> =
            standing.iter().filter(|s| !is_unasked(s)).map(|s| (s.observer.clone(), s.answer.clone())).collect();
        let people: BTreeSet<&PersonCode> = said.iter().map(|(person, _)| person).collect();
        if people.len() > 1 {
            let agree = said.windows(2).all(|pair| matches!(pair, [(_, a), (_, b)] if a == b));
            all.push(Compared { finding, site, said: said.clone(), agree });
        }
    }
    all
}
