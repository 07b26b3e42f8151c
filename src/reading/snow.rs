//! Snow at the carcass: how far a deer sank against its chest. It hinders; it is no cause of death.

use super::lens::{Answers, Lens, Picks};
use super::message_ids::{self as id, snow as say};
use super::scope::Scope;
use super::shape::{Estimate, Outcome, Reading, Statement, Val};
use super::told::Told;
use crate::order::Short as _;
use crate::record::{Carcass, Examination, Site};
use crate::science::marrow::AgeGroup;
use crate::science::snow::chest::Chest;
use crate::science::snow::sinking::{Hindrance, Printed, checked, hindrance, relative_percent};
use crate::science::snow::travel::{DENSITIES, added_percent};
use crate::science::snow::{Crust, SnowRefusal, sources};

const FINDINGS: &[&str] =
    &["snow_depth_cm", "sinking_depth_cm", "sinking_predator_cm", "sinking_person_cm", "snow_crust", "chest_height_cm"];
/// Density of snow, g/cm3, at which the cost is given as best: settled, dry snow. Our choice, and said with the
/// figure; the range is over all densities that were fitted.
const DENSITY: f64 = 0.2;

/// The reading; `p_fawn` decides which chest is taken where none was measured, both where it is not known.
pub(super) fn reading<'a>(carcass: &'a Carcass, scope: &Scope<'a>, p_fawn: Option<f64>) -> Reading {
    let whole = Answers::of(carcass, FINDINGS);
    let mut exams: Vec<&Examination> = carcass.examinations.values().collect();
    exams.order_by_key(|e| (begun(e), e.id));
    let mut visits: Vec<Answers> = exams
        .into_iter()
        .map(|e| Answers::of_examination(carcass, &e.sheet, FINDINGS))
        .filter(|answers| !answers.sites(&["snow_depth_cm", "sinking_depth_cm", "snow_crust"]).is_empty())
        .filter(|answers| measured(&Lens::new(answers, Picks::new())))
        .collect();
    visits.truncate(2);
    let mut told = Told::default();
    if visits.len() > 1 {
        told.caution(say::MORE_VISITS);
    }
    let lens = Lens::new(visits.first().unwrap_or(&whole), Picks::new());
    let any = Lens::new(&whole, Picks::new());
    let refused = measured(&lens) && !read(&lens, &any, p_fawn, &mut told);
    lens.also_used(any);
    let outcome = match (refused, told.statements.is_empty()) {
        (true, _) => Outcome::Refused,
        (false, true) => Outcome::NoEvidence,
        (false, false) => Outcome::Read,
    };
    if outcome == Outcome::NoEvidence {
        told.say(Statement::plain(say::NO_EVIDENCE));
        told.look(say::LOOK_SINKING, "sinking_depth_cm");
    }
    let used = lens.into_used();
    let reading = told.close("snow.at_carcass", say::TITLE, outcome, &used);
    scope.guard(used, reading)
}

/// The first moment of an occasion, by the phone's clock.
fn begun(exam: &Examination) -> Option<i64> {
    exam.sheet.answers().flat_map(|(_, _, all)| all).map(|s| s.at.unix_seconds()).min()
}

fn measured(lens: &Lens) -> bool {
    let number = |finding| !lens.numbers(finding, Site::NONE).is_empty();
    number("snow_depth_cm") || number("sinking_depth_cm") || lens.choice("snow_crust", Site::NONE).is_some()
}

/// Mean of every measure taken on the visit, in centimetres.
fn mean(lens: &Lens, finding: &'static str, steps: f64, told: &mut Told) -> Option<f64> {
    let all = lens.numbers(finding, Site::NONE);
    if all.is_empty() {
        return None;
    }
    if all.len() > 1 {
        told.caution(say::MEAN_USED);
    }
    Some(all.iter().map(|n| *n as f64).sum::<f64>() / all.len() as f64 / steps)
}

/// False where what was measured cannot be so.
fn read(lens: &Lens, any: &Lens, p_fawn: Option<f64>, told: &mut Told) -> bool {
    let depth = mean(lens, "snow_depth_cm", 1.0, told);
    let sinking = mean(lens, "sinking_depth_cm", 1.0, told);
    if let Some(Err(refusal)) = sinking.map(|cm| checked(cm, depth)) {
        told.say(refusal_said(refusal));
        told.look(say::LOOK_SINKING, "sinking_depth_cm");
        return false;
    }
    let chests = chests(any, p_fawn, told);
    match sinking {
        Some(cm) => sank(cm, &chests, told),
        None => told.look(say::LOOK_SINKING, "sinking_depth_cm"),
    }
    if let Some(cm) = depth {
        told.say(Statement::plain(say::DEPTH).with("depth", Val::number(cm, 0)));
        told.caution(say::DEPTH_TELLS_LITTLE);
        if sinking.is_none() {
            told.say(Statement::plain(say::NOT_SUNK));
        }
    }
    impedes(&chests, told);
    for printed in Printed::ALL.into_iter().filter(|printed| printed.is_reached(depth, sinking)) {
        told.say(Statement::plain(say::printed(printed)));
    }
    if depth.is_some() || sinking.is_some() {
        told.caution(say::PLACES);
    }
    others(lens, sinking, told);
    crust(lens, told);
    told.caution(say::NOT_CAUSE);
    told.rest_on(&sources::DEPTH);
    true
}

fn refusal_said(refusal: SnowRefusal) -> Statement {
    match refusal {
        SnowRefusal::DeeperThanSnow { sinking_cm, depth_cm } => Statement::plain(say::DEEPER)
            .with("sinking", Val::number(sinking_cm, 0))
            .with("depth", Val::number(depth_cm, 0)),
        SnowRefusal::NotAChest(cm) => Statement::plain(say::NOT_A_CHEST).with("cm", Val::number(cm, 1)),
        _ => Statement::plain(say::NOT_A_DEPTH),
    }
}

/// The chest as measured, or taken for each age that the deer may have had.
fn chests(lens: &Lens, p_fawn: Option<f64>, told: &mut Told) -> Vec<(Option<AgeGroup>, Chest)> {
    match mean(lens, "chest_height_cm", 10.0, told).map(Chest::measured) {
        Some(Ok(chest)) => {
            if chest.recheck {
                told.caution(say::CHEST_RECHECK);
            }
            return vec![(None, chest)];
        }
        Some(Err(refusal)) => told.say(refusal_said(refusal)),
        None => {}
    }
    told.caution(say::CHEST_BY_AGE);
    told.look(say::LOOK_CHEST, "chest_height_cm");
    let groups = match p_fawn.and_then(AgeGroup::from_fawn_probability) {
        Some(group) => vec![group],
        None => vec![AgeGroup::Fawn, AgeGroup::Adult],
    };
    groups.into_iter().map(|group| (Some(group), Chest::by_age(group))).collect()
}

fn sank(cm: f64, chests: &[(Option<AgeGroup>, Chest)], told: &mut Told) {
    let percents: Vec<[f64; 3]> = chests.iter().map(|(_, chest)| relative_percent(cm, chest)).collect();
    let low = percents.iter().map(|[_, low, _]| *low).reduce(f64::min).unwrap_or(0.0);
    let high = percents.iter().map(|[_, _, high]| *high).reduce(f64::max).unwrap_or(0.0);
    // Where the age is open the middle stands in the headline and each age under it.
    let best = percents.iter().map(|[best, ..]| *best).sum::<f64>() / percents.len().max(1) as f64;
    let is_range = chests.iter().any(|(_, chest)| !chest.measured);
    let headline = Statement::plain(if is_range { say::SANK_RANGE } else { say::SANK })
        .with("sinking", Val::number(cm, 0))
        .with("percent", Val::number(best, 0));
    let headline =
        if is_range { headline.with("low", Val::number(low, 0)).with("high", Val::number(high, 0)) } else { headline };
    told.statements.insert(0, headline);
    if chests.len() > 1 {
        for ((group, _), [best, low, high]) in chests.iter().zip(&percents) {
            let said = Statement::plain(say::FOR_GROUP).with("group", group_name(*group));
            let said = said.with("percent", Val::number(*best, 0)).with("low", Val::number(*low, 0));
            told.say(said.with("high", Val::number(*high, 0)));
        }
    }
    classes(cm, chests, told);
    told.estimates.push(Estimate {
        unit: say::UNIT_RELATIVE.to_owned(),
        best: Some(best),
        low: is_range.then_some(low),
        high: is_range.then_some(high),
        coverage: None,
        shares: Vec::new(),
    });
    told.caution(say::RUNNING);
    told.rest_on(&sources::SINKING);
    cost(best, low, high, told);
}

fn group_name(group: Option<AgeGroup>) -> Val {
    Val::message(match group {
        Some(AgeGroup::Fawn) => id::group(AgeGroup::Fawn),
        Some(AgeGroup::Adult) => id::group(AgeGroup::Adult),
        None => id::GROUP_BOTH,
    })
}

fn classes(cm: f64, chests: &[(Option<AgeGroup>, Chest)], told: &mut Told) {
    let all = chests.iter().flat_map(|(_, chest)| [chest.low_cm, chest.high_cm]).map(|chest| hindrance(cm, chest));
    let all: Vec<Hindrance> = all.collect();
    let (Some(least), Some(most)) = (all.iter().min(), all.iter().max()) else { return };
    let name = |class: &Hindrance| Val::message(say::class(*class));
    told.say(if least == most {
        Statement::plain(say::CLASS).with("class", name(least))
    } else {
        Statement::plain(say::CLASSES_OF).with("least", name(least)).with("most", name(most))
    });
}

fn impedes(chests: &[(Option<AgeGroup>, Chest)], told: &mut Told) {
    for (group, chest) in chests {
        let [best, low, high] = chest.impede_cm();
        told.say(if chest.measured {
            Statement::plain(say::IMPEDES_MEASURED).with("best", Val::number(best, 0))
        } else {
            Statement::plain(say::IMPEDES)
                .with("group", group_name(*group))
                .with("best", Val::number(best, 0))
                .with("low", Val::number(low, 0))
                .with("high", Val::number(high, 0))
        });
    }
    told.rest_on(&sources::CHEST);
}

/// The cost of walking, over the chest's range and every density that was fitted. Never past the chest.
fn cost(best: f64, low: f64, high: f64, told: &mut Told) {
    let (Ok(at_best), Ok(at_low), Ok(at_high)) =
        (added_percent(best, DENSITY), added_percent(low, DENSITIES.0), added_percent(high, DENSITIES.1))
    else {
        return told.say(Statement::plain(say::COST_NOT));
    };
    told.say(
        Statement::plain(say::COST)
            .with("best", Val::number(at_best, 0))
            .with("low", Val::number(at_low, 0))
            .with("high", Val::number(at_high, 0)),
    );
    told.figure(say::UNIT_COST, Some(at_best), Some(at_low), Some(at_high));
    told.caution(say::COST_OF_OTHERS);
    told.rest_on(&sources::TRAVEL);
}

fn others(lens: &Lens, sinking: Option<f64>, told: &mut Told) {
    if let Some(cm) = mean(lens, "sinking_predator_cm", 1.0, told) {
        let said = match sinking {
            None => Statement::plain(say::OTHER_SANK),
            Some(deer) if cm < deer => Statement::plain(say::OTHER_LESS).with("less", Val::number(deer - cm, 0)),
            Some(_) => Statement::plain(say::OTHER_NOT_LESS),
        };
        told.say(said.with("cm", Val::number(cm, 0)));
    }
    if let Some(cm) = mean(lens, "sinking_person_cm", 1.0, told) {
        told.say(Statement::plain(say::PERSON_SANK).with("cm", Val::number(cm, 0)));
    }
}

fn crust(lens: &Lens, told: &mut Told) {
    let crust = match lens.choice("snow_crust", Site::NONE) {
        Some("none") => Crust::None,
        Some("breaks_under_deer") => Crust::BreaksUnderDeer,
        Some("holds_predator_only") => Crust::HoldsPredatorOnly,
        Some("holds_deer") => Crust::HoldsDeer,
        _ => return,
    };
    told.say(Statement::plain(say::crust(crust)));
    if crust == Crust::HoldsPredatorOnly {
        told.rest_on(&sources::CRUST);
    }
}
