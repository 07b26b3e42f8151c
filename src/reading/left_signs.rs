//! Who left the signs: canines, tracks, droppings and talons, each measure by itself. Shown with the cause
//! of death and never before it.

use super::cause_ids::measures as id;
use super::lens::{Answers, Lens, Picks, digest_of, ids_of};
use super::scope::Scope;
use super::shape::{Basis, Estimate, Outcome, Reading, Share, Statement, Val};
use crate::record::Site;
use crate::science::predators::canines::{FEWEST_PAIRS, Jaw, canines};
use crate::science::predators::scat::{WolfOrCoyote, scat, wolf_or_coyote};
use crate::science::predators::sources::{CANINES, SCAT, TALONS, TRACKS};
use crate::science::predators::talons::{Talons, talons};
use crate::science::predators::{Animal, Likelihoods, tracks};
use crate::science::source::Source;

/// Findings that it reads.
pub(super) const FINDINGS: &[&str] = &[
    "upper_canines_mm",
    "lower_canines_mm",
    "track_edges",
    "front_track_width_mm",
    "front_track_length_mm",
    "walking_stride_cm",
    "track_toes_count",
    "scat_width_mm",
    "talon_front_mm",
    "talon_hind_mm",
];

struct Told {
    statements: Vec<Statement>,
    estimates: Vec<Estimate>,
    sources: Vec<&'static Source>,
}

impl Told {
    fn rest_on(&mut self, sources: &'static [Source]) {
        let new = sources.iter().filter(|source| !self.sources.contains(source));
        let new: Vec<_> = new.collect();
        self.sources.extend(new);
    }

    /// One measure: what it was, its figure in words, and what it says.
    fn measure(&mut self, what: &str, value: String, all: &Likelihoods, sources: &'static [Source]) {
        self.rest_on(sources);
        let said =
            |id: &str| Statement::plain(id).with("what", Val::message(what)).with("value", Val::Text(value.clone()));
        let name = |animal: Animal| Val::Message(id::animal(animal.code()));
        self.statements.push(match all.told() {
            Some((animal, _)) if what.starts_with("cause.measure.upper") && !animal.kills_deer() => {
                said(id::NO_PREDATOR).with("animal", name(animal))
            }
            Some((animal, odds)) => said(id::TOLD).with("animal", name(animal)).with("odds", Val::number(odds, 0)),
            None => said(id::OPEN).with("animals", Val::List(all.candidates().into_iter().map(name).collect())),
        });
        let shares = all.shares().into_iter();
        self.estimates.push(Estimate {
            unit: what.to_owned(),
            best: None,
            low: None,
            high: None,
            coverage: None,
            shares: shares.map(|(animal, p)| Share { of: id::animal(animal.code()), probability: p }).collect(),
        });
    }
}

fn mean(all: &[i64]) -> Option<f64> {
    (!all.is_empty()).then(|| all.iter().sum::<i64>() as f64 / all.len() as f64)
}

/// The reading.
pub(super) fn reading<'a>(answers: &Answers<'a>, scope: &Scope<'a>) -> Reading {
    let lens = Lens::new(answers, Picks::new());
    let mut told = Told { statements: Vec::new(), estimates: Vec::new(), sources: Vec::new() };
    let few_pairs = bites(&lens, &mut told);
    let melted = lens.choice("track_edges", Site::NONE) == Some("melted_or_blurred");
    if !melted {
        feet(&lens, &mut told);
    }
    let of_one = |finding| mean(&lens.every_number(finding, Site::NONE));
    if let Some(cm) = of_one("walking_stride_cm") {
        told.measure(id::STRIDE, format!("{cm:.0}\u{a0}cm"), &tracks::stride(cm), TRACKS);
    }
    droppings(&lens, &mut told);
    holes(&lens, &mut told);
    let nothing = told.statements.is_empty();
    let mut cautions = Vec::new();
    for (id, holds) in [(id::ALIVE, !nothing), (id::FEW_PAIRS, few_pairs), (id::MELTED, melted)] {
        if holds {
            cautions.push(Statement::plain(id));
        }
    }
    if nothing {
        told.statements.push(Statement::plain(id::NONE));
    }
    let used = lens.into_used();
    let reading = Reading {
        method: "cause.left_signs".to_owned(),
        title: id::TITLE.to_owned(),
        outcome: if nothing { Outcome::NoEvidence } else { Outcome::Read },
        estimates: told.estimates,
        statements: told.statements,
        cautions,
        sharpen: Vec::new(),
        variants: Vec::new(),
        rests_on: ids_of(&used),
        entries_digest: digest_of(&used),
        sources: told.sources.into_iter().map(Basis::from).collect(),
    };
    scope.guard(used, reading)
}

/// Pairs of canines, bite by bite; whether some bite has too few pairs.
fn bites(lens: &Lens, told: &mut Told) -> bool {
    let mut few = false;
    for (finding, what, jaw) in
        [("upper_canines_mm", id::UPPER, Jaw::Upper), ("lower_canines_mm", id::LOWER, Jaw::Lower)]
    {
        for wound in lens.sites(&[finding]) {
            let pairs = lens.every_number(finding, wound);
            if let Some(mm) = mean(&pairs) {
                few |= pairs.len() < FEWEST_PAIRS;
                told.measure(what, format!("{mm:.0}\u{a0}mm ({})", pairs.len()), &canines(mm, jaw), CANINES);
            }
        }
    }
    few
}

fn feet(lens: &Lens, told: &mut Told) {
    type Of = fn(f64) -> Likelihoods;
    let all: [(&'static str, &str, Of); 2] =
        [("front_track_width_mm", id::WIDTH, tracks::width), ("front_track_length_mm", id::LENGTH, tracks::length)];
    for (finding, what, of) in all {
        if let Some(mm) = mean(&lens.every_number(finding, Site::NONE)) {
            told.measure(what, format!("{mm:.0}\u{a0}mm"), &of(mm / 10.0), TRACKS);
        }
    }
    let toes = lens.number("track_toes_count", Site::NONE).and_then(|n| u8::try_from(n).ok());
    if let Some((count, all)) = toes.and_then(|n| Some((n, tracks::toes(n)?))) {
        told.measure(id::TOES, count.to_string(), &all, TRACKS);
    }
}

fn droppings(lens: &Lens, told: &mut Told) {
    let Some(mm) = mean(&lens.every_number("scat_width_mm", Site::NONE)) else { return };
    told.measure(id::SCAT, format!("{mm:.0}\u{a0}mm"), &scat(mm), SCAT);
    #[allow(clippy::cast_possible_truncation)] // tens of millimetres
    let said = match wolf_or_coyote((mm + 0.5).floor() as i64) {
        WolfOrCoyote::Wolf => id::SCAT_WOLF,
        WolfOrCoyote::Coyote => id::SCAT_COYOTE,
        WolfOrCoyote::CannotTell => id::SCAT_OPEN,
    };
    told.statements.push(Statement::plain(said));
}

fn holes(lens: &Lens, told: &mut Told) {
    for wound in lens.sites(&["talon_front_mm"]) {
        let Some(front) = mean(&lens.every_number("talon_front_mm", wound)) else { continue };
        told.rest_on(TALONS);
        told.statements.push(Statement::plain(match talons(front, mean(&lens.every_number("talon_hind_mm", wound))) {
            Talons::Eagle => id::EAGLE,
            Talons::CannotTell => id::TALONS_OPEN,
        }));
    }
}
