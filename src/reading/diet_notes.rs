//! What is said beside the shares: food values, poison, regions that disagree, and much grain.

use super::browse::Browse;
use super::diet::Names;
use super::lens::{Lens, Used};
use super::marrow;
use super::message_ids::diet as say;
use super::rumen_samples::RumenSample;
use super::shape::{Statement, Val};
use super::told::Told;
use crate::order::Short as _;
use crate::record::{Answer, Carcass, Site};
use crate::science::diet::grain::{Grain, send_to_laboratory};
use crate::science::diet::plants::{self, Plant};
use crate::science::diet::sources;
use crate::science::marrow::MarrowClass;

/// Codes of all that was found, in order.
pub(super) fn found<'a>(all: &'a [RumenSample]) -> Vec<&'a str> {
    let amounts = all.iter().flat_map(|one| &one.amounts);
    let mut found: Vec<&str> = amounts.filter(|(_, n)| **n > 0.0).map(|(code, _)| code.as_str()).collect();
    found.order();
    found.dedup();
    found
}

/// Notes on every plant that was found.
pub(super) fn plants_found(codes: &[&str], names: &Names, browse: &Browse, told: &mut Told) {
    let found: Vec<&Plant> = plants::all().filter(|plant| codes.contains(&plant.code)).collect();
    for plant in &found {
        for value in plant.food_values() {
            told.say(
                Statement::plain(say::FOOD)
                    .with("plant", names.of(plant.code))
                    .with("what", Val::message(say::measured(value.what)))
                    .with("percent", Val::Count(i64::from(value.percent))),
            );
            told.rest_on_one(value.source);
        }
    }
    let disagree: Vec<Val> = found
        .iter()
        .filter(|p| p.regions_disagree() && !browse.ranks(p.code, names))
        .map(|p| names.of(p.code))
        .collect();
    if !disagree.is_empty() {
        told.say(Statement::plain(say::REGIONS).with("plants", Val::List(disagree)));
    }
    for poison in found.iter().filter_map(|plant| plant.poison()) {
        told.say(Statement::plain(say::poison(poison)));
        told.rest_on_one(poison.source());
    }
}

/// The note on much grain, and the entries of marrow that it rests on. It waits until every occasion is
/// closed: until then nothing here may steer the eye.
pub(super) fn grain<'a>(carcass: &'a Carcass, all: &[RumenSample], lens: &Lens<'_, 'a>, told: &mut Told) -> Used<'a> {
    let closed = carcass.examinations.values().all(|e| e.sheet.is_seen("examination_closed"));
    let is = |finding, option: &str| lens.choice(finding, Site::NONE).map(|seen| seen == option);
    let half = counted_half(all).or_else(|| match lens.result("rumen_grain", Site::NONE)? {
        Answer::NotSeen => Some(false),
        _ => is("rumen_grain", "half_or_more"),
    });
    if half != Some(true) || !closed {
        return Used::new();
    }
    let looked = marrow::find(carcass);
    let classes: Vec<MarrowClass> =
        looked.looks.iter().filter_map(|l| l.result.as_ref().ok()).map(|r| r.class).collect();
    let seen = Grain {
        half,
        sour: is("rumen_smell", "sour"),
        watery: is("rumen_moisture", "watery"),
        loose: is("loose_droppings", "there"),
        // Where looks differ the emptiest stands.
        marrow: if classes.contains(&MarrowClass::M3) { Some(MarrowClass::M3) } else { classes.first().copied() },
    };
    if send_to_laboratory(seen) {
        told.say(Statement::plain(say::GRAIN));
        told.rest_on(&sources::GRAIN);
    }
    looked.used
}

/// Whether corn and other grain make up half of any sample; `None` where there is none.
fn counted_half(all: &[RumenSample]) -> Option<bool> {
    let of = |one: &RumenSample| {
        let grain: f64 = plants::all().filter(|p| p.is_grain()).filter_map(|p| one.amounts.get(p.code)).sum();
        let whole: f64 = one.amounts.values().sum();
        (whole > 0.0).then_some(grain >= whole / 2.0)
    };
    all.iter().filter_map(of).reduce(|a, b| a || b)
}
