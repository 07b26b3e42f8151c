//! Weight from girth, dressed weight or scales, and measures of bone that are kept for the reserve's own.

use super::lens::{Answers, Ask, Lens};
use super::local::{self, Local};
use super::local_calipers;
use super::measures::{SIDES, both_sides, mean};
use super::scope::Scope;
use super::shape::{Basis, Estimate, Outcome, Reading, Statement, Val};
use super::split::{self, Done};
use super::told::Told;
use super::{local_ids, message_ids as id};
use crate::card::Norm;
use crate::record::{Carcass, Site, Tooth, Unit};
use crate::science::age::Sex;
use crate::science::marrow::AgeGroup;
use crate::science::size::dressed::live_from_dressed;
use crate::science::size::girth::{Girth, GirthReading, GirthRefusal, read_girth};
use crate::science::size::norms::HIND_FOOT_LONGEST_MM;
use crate::science::size::{Weight, sources};

/// Probability that a girth's range holds the weight, in the herd behind the rule.
const GIRTH_COVERAGE: f64 = 0.9;
/// The same for live weight from dressed.
const DRESSED_COVERAGE: f64 = 0.95;

/// What other readings found.
#[derive(Clone, Copy)]
pub(super) struct Known {
    pub(super) p_fawn: Option<f64>,
    pub(super) age_years: Option<f64>,
    pub(super) sex: Option<Sex>,
}

/// Every question that the weight hangs on beside what was measured, of which every reading is kept.
const ASKS: [Ask; 5] = [
    ("species", Site::NONE),
    ("body_state", Site::NONE),
    ("body_frozen", Site::NONE),
    ("decay", Site::NONE),
    ("swollen_belly", Site::NONE),
];

/// The reading.
pub(super) fn reading(carcass: &Carcass, answers: &Answers, known: Known, local: &Local) -> Reading {
    split::over(answers, &ASKS, |lens, _| one(carcass, lens, known, local))
}

fn one<'a>(carcass: &Carcass, lens: Lens<'_, 'a>, known: Known, local: &Local) -> Done<'a> {
    let scope = Scope::of(carcass, &lens);
    let mut told = Told::default();
    scales(&lens, &mut told);
    girth(&lens, known, &mut told);
    let own = bones(&lens, local, &mut told);
    let outcome = match (told.estimates.is_empty(), told.statements.is_empty()) {
        (false, _) => Outcome::Read,
        (true, false) => Outcome::Refused,
        (true, true) => Outcome::NoEvidence,
    };
    if outcome == Outcome::NoEvidence {
        told.say(Statement::plain(id::SIZE_NO_EVIDENCE));
        told.look(id::LOOK_GIRTH, "chest_girth_cm");
    }
    let used = lens.into_used();
    let sources = told.sources.iter().copied().map(Basis::from).chain(own).collect();
    let reading = Reading { sources, ..told.close("size.weight", id::SIZE_TITLE, outcome, &used) };
    scope.guarded(used, reading)
}

fn kilograms(weight: Weight, coverage: f64) -> Estimate {
    Estimate {
        unit: id::UNIT_KG.to_owned(),
        best: Some(weight.best_kg),
        low: Some(weight.low_kg),
        high: Some(weight.high_kg),
        coverage: Some(coverage),
        shares: Vec::new(),
    }
}

const fn kilos(kg: f64, decimals: u8) -> Val {
    Val::measure(kg, Unit::Kilogram, decimals)
}

const fn centimetres(cm: f64) -> Val {
    Val::measure(cm, Unit::Centimetre, 0)
}

pub(super) const fn millimetres(mm: f64, decimals: u8) -> Val {
    Val::measure(mm, Unit::Millimetre, decimals)
}

fn spread(statement: Statement, weight: Weight) -> Statement {
    statement
        .with("kg", kilos(weight.best_kg, 0))
        .with("low", kilos(weight.low_kg, 0))
        .with("high", kilos(weight.high_kg, 0))
}

/// Scales first: they need no rule.
fn scales(lens: &Lens, told: &mut Told) {
    if let Some(kg) = mean(lens, "whole_weight_kg", &[Site::NONE], 10.0) {
        told.say(Statement::plain(id::SIZE_WEIGHED).with("kg", kilos(kg, 1)));
        told.estimates.push(Estimate {
            unit: id::UNIT_KG.to_owned(),
            best: Some(kg),
            low: None,
            high: None,
            coverage: None,
            shares: Vec::new(),
        });
        if lens.choice("body_state", Site::NONE).is_some_and(|state| state != "whole") {
            told.caution(id::SIZE_WEIGHED_IN_PART);
        }
    }
    if let Some(kg) = mean(lens, "dressed_weight_kg", &[Site::NONE], 10.0)
        && let Some(live) = live_from_dressed(kg)
    {
        let said = Statement::plain(id::SIZE_FROM_DRESSED).with("dressed", kilos(kg, 1));
        told.say(spread(said, live));
        told.estimates.push(kilograms(live, DRESSED_COVERAGE));
        told.rest_on(&sources::DRESSED);
    }
}

fn girth(lens: &Lens, known: Known, told: &mut Told) {
    let Some(girth_cm) = mean(lens, "chest_girth_cm", &[Site::NONE], 10.0) else { return };
    let given = Girth {
        girth_cm,
        body_length_cm: mean(lens, "body_length_cm", &[Site::NONE], 10.0),
        fawn: known.p_fawn.and_then(AgeGroup::from_fawn_probability).map(|group| group == AgeGroup::Fawn),
        age_years: known.age_years,
        sex: known.sex,
        frozen: lens.choice("body_frozen", Site::NONE).map(|state| state != "not_frozen"),
        bloated: bloated(lens),
        opened: lens.choice("body_state", Site::NONE).map(|state| state != "whole"),
    };
    match read_girth(&given) {
        Ok(reading) => by_rules(&given, &reading, told),
        Err(refusal) => refused(&given, refusal, told),
    }
}

fn bloated(lens: &Lens) -> Option<bool> {
    let swollen = lens.choice("swollen_belly", Site::NONE) == Some("there");
    let soft = lens.choice("decay", Site::NONE).map(|decay| decay == "bloated_or_soft");
    if swollen { Some(true) } else { soft }
}

fn by_rules(given: &Girth, reading: &GirthReading, told: &mut Told) {
    let of_girth = |id: &str| Statement::plain(id).with("girth", centimetres(given.girth_cm));
    let all = reading.weights.iter().map(|w| w.live);
    let widest = all.reduce(|a, b| Weight {
        best_kg: a.best_kg,
        low_kg: a.low_kg.min(b.low_kg),
        high_kg: a.high_kg.max(b.high_kg),
    });
    match widest {
        Some(widest) => told.say(spread(of_girth(id::SIZE_GIRTH), widest)),
        None => told.say(of_girth(id::SIZE_GIRTH_NO_RULE)),
    }
    for weight in &reading.weights {
        let (from, to) = weight.rule.girths_cm();
        let said = match weight.dressed_kg {
            Some(dressed) => Statement::plain(id::SIZE_RULE_DRESSED).with("dressed", kilos(dressed, 0)),
            None => Statement::plain(id::SIZE_RULE),
        };
        let said = said
            .with("rule", Val::message(id::girth_rule(weight.rule)))
            .with("from", centimetres(from))
            .with("to", centimetres(to));
        told.say(spread(said, weight.live));
        told.estimates.push(kilograms(weight.live, GIRTH_COVERAGE));
        told.rest_on_one(weight.rule.source());
    }
    for (rule, why) in &reading.silent {
        let said = Statement::plain(id::SIZE_RULE_SILENT).with("rule", Val::message(id::girth_rule(*rule)));
        told.say(said.with("why", Val::message(id::rule_silent(*why))));
    }
    if !reading.weights.is_empty() {
        told.rest_on(&sources::GIRTH);
        told.caution(id::SIZE_AUTUMN);
    }
    if reading.disagree {
        told.caution(id::SIZE_RULES_DISAGREE);
    }
    if reading.state_not_asked {
        told.caution(id::SIZE_STATE_NOT_ASKED);
    }
}

/// The refusal; for the other unit, what the girth would be then, offered and not taken.
fn refused(given: &Girth, refusal: GirthRefusal, told: &mut Told) {
    // Where the unit itself is in doubt the figure stays as it was typed.
    let in_doubt = matches!(refusal, GirthRefusal::OtherUnit { .. } | GirthRefusal::Impossible);
    let girth = if in_doubt { Val::number(given.girth_cm, 0) } else { centimetres(given.girth_cm) };
    let said = Statement::plain(id::girth_refusal(refusal)).with("girth", girth);
    let GirthRefusal::OtherUnit { would_be_cm, .. } = refusal else {
        told.say(said);
        return;
    };
    told.say(said.with("other", Val::number(would_be_cm, 0)));
    told.look(id::LOOK_GIRTH, "chest_girth_cm");
    if let Ok(reading) = read_girth(&Girth { girth_cm: would_be_cm, ..*given }) {
        for weight in &reading.weights {
            let said = Statement::plain(id::SIZE_IF_OTHER_UNIT).with("rule", Val::message(id::girth_rule(weight.rule)));
            told.say(spread(said, weight.live));
        }
    }
}

/// Bones that are measured: finding, steps a millimetre, decimals shown.
const BONES: [(&str, f64, u8); 4] =
    [("hind_foot_mm", 1.0, 0), ("mandible_mm", 1.0, 0), ("diastema_mm", 1.0, 0), ("femur_width_mm", 10.0, 1)];

/// The message that names a measure of bone.
pub(super) fn measure_name(finding: &str) -> &'static str {
    match finding {
        "hind_foot_mm" => id::SIZE_HIND_FOOT,
        "mandible_mm" => id::SIZE_MANDIBLE,
        "diastema_mm" => id::SIZE_DIASTEMA,
        _ => id::SIZE_FEMUR_WIDTH,
    }
}

/// A measure beside one group of the reserve's deer.
fn beside(norm: &Norm, mm: f64, decimals: u8) -> Option<Statement> {
    let spread = local::spread(norm);
    let group = local_ids::norm_group(norm.age, norm.sex);
    Some(
        Statement::plain(local_ids::SIZE_NORM)
            .with("what", Val::message(measure_name(&norm.measure)))
            .with("mm", millimetres(mm, decimals))
            .with("z", Val::number(spread.z(mm)?, 1))
            .with("group", Val::message(group))
            .with("mean", millimetres(spread.mean_mm, 0))
            .with("sd", millimetres(spread.sd_mm, 0))
            .with("n", Val::Count(i64::from(norm.deer_count))),
    )
}

/// Measures of bone and crown: beside the reserve's own norms, or kept, and said to say nothing of age by
/// themselves. What the reserve's own norms rest on comes back.
fn bones(lens: &Lens, local: &Local, told: &mut Told) -> Vec<Basis> {
    let (mut kept, mut own) = (false, Vec::new());
    for (finding, steps, decimals) in BONES {
        let Some(mm) = mean(lens, finding, &SIDES, steps) else { continue };
        if finding == "hind_foot_mm" && mm > HIND_FOOT_LONGEST_MM {
            told.caution(id::SIZE_HIND_FOOT_LONG);
            told.rest_on_one(&sources::HIND_FOOT);
        }
        let norms = local.norms(finding);
        for norm in &norms {
            told.statements.extend(beside(norm, mm, decimals));
            let basis = local.norm_basis(norm);
            if !own.contains(&basis) {
                own.push(basis);
            }
        }
        if norms.is_empty() {
            kept = true;
            let said = Statement::plain(id::SIZE_RECORDED).with("what", Val::message(measure_name(finding)));
            told.say(said.with("mm", millimetres(mm, decimals)));
        }
    }
    told.cautions.extend(local.caution());
    if let Some(ratio) = local_calipers::ratio(lens) {
        kept = true;
        told.say(Statement::plain(id::SIZE_MOLAR_RATIO).with("ratio", Val::number(ratio, 2)));
    }
    for tooth in Tooth::MOLARS {
        if let Some(mm) = mean(lens, "crown_height_mm", &both_sides(tooth), 10.0) {
            kept = true;
            let said = Statement::plain(id::SIZE_CROWN).with("tooth", Val::message(local_calipers::tooth_name(tooth)));
            told.say(said.with("mm", millimetres(mm, 1)));
        }
    }
    if kept {
        told.caution(id::SIZE_NO_NORMS);
        told.rest_on_one(&sources::NO_NORMS);
    }
    own
}
