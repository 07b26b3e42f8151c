//! What the rumen held. Fill proves nothing; shares are of this rumen; much poor food supports poor range.

use std::collections::BTreeMap;

use super::browse::{Browse, POOR};
use super::diet_notes;
use super::lens::{Answers, Lens, Picks};
use super::local::Local;
use super::message_ids::diet as say;
use super::rumen_samples::{RumenMeasure, RumenSample, own_names, rumen_samples};
use super::scope::Scope;
use super::shape::{Estimate, Outcome, Reading, Share, Statement, Val};
use super::told::Told;
use crate::order::Short as _;
use crate::record::{Carcass, Site};
use crate::science::diet::plants;
use crate::science::diet::points::FEWEST;
use crate::science::diet::proportions::{COVERAGE, Method, TINY, simultaneous};
use crate::science::diet::volume::{NoVolumes, percent_shares, shares};
use crate::science::diet::{proportions, sources};

const FINDINGS: &[&str] =
    &["rumen_fill", "rumen_smell", "rumen_moisture", "rumen_grain", "rumen_plants", "loose_droppings"];
/// Most plants that a headline names.
const IN_HEADLINE: usize = 4;

/// Names of plants: the list's, or what a person called an own one.
pub(super) struct Names(BTreeMap<String, String>);

impl Names {
    pub(super) fn of(&self, code: &str) -> Val {
        match (self.0.get(code), plants::of_code(code)) {
            (Some(own), _) => Val::Text(own.clone()),
            (None, Some(plant)) => Val::message(&format!("plant.{}", plant.code)),
            (None, None) => Val::Text(code.replace('_', " ")),
        }
    }

    /// What a person called an own plant.
    pub(super) fn own(&self, code: &str) -> Option<&str> {
        self.0.get(code).map(String::as_str)
    }

    /// The message of a plant, for the parts of a distribution.
    fn message(code: &str) -> String {
        plants::of_code(code).map_or_else(|| say::PLANT_UNKNOWN.to_owned(), |plant| format!("plant.{}", plant.code))
    }
}

/// The reading.
pub(super) fn reading<'a>(carcass: &'a Carcass, scope: &Scope<'a>, local: Local<'_>) -> Reading {
    let browse = Browse::of(local);
    let answers = Answers::of(carcass, FINDINGS);
    let lens = Lens::new(&answers, Picks::new());
    let all = rumen_samples(carcass);
    let names = Names(own_names(carcass));
    let mut told = Told::default();
    let (mut read, mut refused) = (false, false);
    for one in &all {
        let could = sample(one, &names, &browse, &mut told);
        (read, refused) = (read || could, refused || !could);
    }
    if all.len() > 1 {
        told.caution(say::APART);
    }
    if all.is_empty() {
        read = seen_by_eye(&lens, &mut told);
        told.look(say::LOOK_COUNT, "rumen_point_count");
    }
    let found = diet_notes::found(&all);
    let (own, basis) = browse.told(&found, &names);
    for said in own {
        told.say(said);
    }
    diet_notes::plants_found(&found, &names, &browse, &mut told);
    let marrow_used = diet_notes::grain(carcass, &all, &lens, &mut told);
    let outcome = match (read, refused) {
        (true, _) => Outcome::Read,
        (false, true) => Outcome::Refused,
        (false, false) => Outcome::NoEvidence,
    };
    if outcome == Outcome::NoEvidence {
        told.statements.insert(0, Statement::plain(say::NO_EVIDENCE));
    }
    fill(&lens, &mut told);
    let mut used = lens.into_used();
    used.extend(all.into_iter().flat_map(|one| one.used));
    used.extend(marrow_used);
    let mut reading = told.close("diet.rumen", say::TITLE, outcome, &used);
    reading.sources.extend(basis);
    scope.guard(used, reading)
}

/// A raw note: it changes no outcome and no figure.
fn fill(lens: &Lens, told: &mut Told) {
    let Some(fill) = lens.choice("rumen_fill", Site::NONE) else { return };
    told.say(Statement::plain(say::FILL).with("fill", Val::message(&format!("option.{fill}"))));
    told.rest_on(&sources::FILL);
}

/// True where plants were named by eye.
fn seen_by_eye(lens: &Lens, told: &mut Told) -> bool {
    let Some(seen) = lens.choices("rumen_plants", Site::NONE).filter(|seen| !seen.is_empty()) else { return false };
    let seen = seen.into_iter().map(|code| Val::message(&format!("option.{code}"))).collect();
    told.say(Statement::plain(say::SEEN_ONLY).with("plants", Val::List(seen)));
    true
}

/// One rumen; false where its shares are refused.
fn sample(sample: &RumenSample, names: &Names, browse: &Browse, told: &mut Told) -> bool {
    let mut ranked: Vec<(&str, f64)> = sample.amounts.iter().map(|(code, amount)| (code.as_str(), *amount)).collect();
    ranked.order_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(b.0)));
    let done = match sample.measure {
        RumenMeasure::Points => points(&ranked, names, browse, told),
        RumenMeasure::Millilitres => by_ml(&ranked, names, browse, told),
        RumenMeasure::Percent => by_percent(&ranked, names, browse, told),
    };
    let read = done.is_ok();
    if let Err(refusal) = done {
        told.say(refusal);
    }
    if sample.left_out > 0 {
        let n = Val::Count(i64::from(sample.left_out));
        told.caution_of(Statement::plain(say::LEFT_OUT).with("n", n));
    }
    if !sample.ended {
        told.caution(say::NOT_ENDED);
    }
    if sample.amounts.keys().any(|code| plants::of_code(code).is_none()) {
        told.caution(say::UNKNOWN);
    }
    told.caution(say::SOFT_FIRST);
    told.rest_on(&sources::BIAS);
    read
}

fn points(ranked: &[(&str, f64)], names: &Names, browse: &Browse, told: &mut Told) -> Result<(), Statement> {
    // Whole numbers of points, far below the limit.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let counts: Vec<u32> = ranked.iter().map(|(_, n)| *n as u32).collect();
    let nothing = |_| Statement::plain(say::NO_POINTS);
    let goodman = simultaneous(&counts, COVERAGE, Method::Goodman).map_err(nothing)?;
    let wide = simultaneous(&counts, COVERAGE, Method::QuesenberryHurst).map_err(nothing)?;
    let total: u32 = counts.iter().sum();
    let parts: Vec<(&str, f64)> = ranked.iter().zip(&goodman).map(|((code, _), share)| (*code, share.best)).collect();
    let headline = Statement::plain(say::BY_POINTS).with("n", Val::Count(i64::from(total)));
    told.say(headline.with("plants", headline_parts(&parts, names)));
    told.estimates.push(distribution(&parts));
    for (((code, _), n), (share, wide)) in ranked.iter().zip(&counts).zip(goodman.iter().zip(&wide)) {
        let said = Statement::plain(say::POINTS_OF).with("plant", names.of(code)).with("n", Val::Count(i64::from(*n)));
        told.say(ends(said, share).with("wide_low", hundred(wide.low)).with("wide_high", hundred(wide.high)));
    }
    tiers_of_points(ranked, &counts, names, browse, told)?;
    if total < FEWEST {
        told.caution_of(Statement::plain(say::FEW_POINTS).with("n", Val::Count(i64::from(total))));
        told.look(say::LOOK_MORE, "rumen_point_count");
    }
    if counts.iter().any(|n| *n < TINY) {
        told.caution(say::TINY);
    }
    told.caution(say::ONE_RUMEN);
    told.rest_on(&sources::POINTS);
    Ok(())
}

fn hundred(share: f64) -> Val {
    Val::number(100.0 * share, 0)
}

fn ends(statement: Statement, share: &proportions::Share) -> Statement {
    statement.with("percent", hundred(share.best)).with("low", hundred(share.low)).with("high", hundred(share.high))
}

/// The largest parts.
fn headline_parts(parts: &[(&str, f64)], names: &Names) -> Val {
    let part = |(code, share): &(&str, f64)| [names.of(code), Val::Text(format!("{:.0} %", 100.0 * share))];
    Val::List(parts.iter().take(IN_HEADLINE).flat_map(part).collect())
}

fn distribution(parts: &[(&str, f64)]) -> Estimate {
    let share = |(code, share): &(&str, f64)| Share { of: Names::message(code), probability: *share };
    Estimate {
        unit: say::UNIT_SHARE.to_owned(),
        best: None,
        low: None,
        high: None,
        coverage: None,
        shares: parts.iter().map(share).collect(),
    }
}

/// The headings, by whose ranks are among them.
fn headings(browse: &Browse) -> [&'static str; 4] {
    if browse.is_used() {
        [say::OWN_GOOD, say::OWN_READILY, say::OWN_POOR, say::OWN_NONE]
    } else {
        [say::TIER_GOOD, say::TIER_READILY, say::TIER_POOR, say::TIER_NONE]
    }
}

fn tiers_of_points(
    ranked: &[(&str, f64)],
    counts: &[u32],
    names: &Names,
    browse: &Browse,
    told: &mut Told,
) -> Result<(), Statement> {
    let mut of_tiers = [0_u32; 4];
    for ((code, _), n) in ranked.iter().zip(counts) {
        if let Some(tier) = of_tiers.get_mut(browse.tier(code, names)) {
            *tier += n;
        }
    }
    let shares = simultaneous(&of_tiers, COVERAGE, Method::Goodman).map_err(|_| Statement::plain(say::NO_POINTS))?;
    for (tier, share) in headings(browse).into_iter().zip(&shares) {
        told.say(ends(Statement::plain(say::TIER_RANGE).with("tier", Val::message(tier)), share));
    }
    if let Some(poor) = shares.get(POOR) {
        told.estimates.push(Estimate {
            unit: (if browse.is_used() { say::OWN_UNIT_POOR } else { say::UNIT_POOR }).to_owned(),
            best: Some(100.0 * poor.best),
            low: Some(100.0 * poor.low),
            high: Some(100.0 * poor.high),
            coverage: Some(COVERAGE),
            shares: Vec::new(),
        });
    }
    of_region(ranked, names, browse, told);
    Ok(())
}

fn of_region(ranked: &[(&str, f64)], names: &Names, browse: &Browse, told: &mut Told) {
    let all_own = ranked.iter().all(|(code, _)| browse.ranks(code, names));
    if !all_own {
        told.caution(if browse.is_used() { say::OWN_AND_LIST } else { say::TIERS_REGION });
        told.rest_on(&sources::TIERS);
    }
    told.caution(say::POOR_RANGE);
}

fn by_ml(ranked: &[(&str, f64)], names: &Names, browse: &Browse, told: &mut Told) -> Result<(), Statement> {
    let amounts: Vec<f64> = ranked.iter().map(|(_, ml)| *ml).collect();
    let shares = shares(&amounts).map_err(|why| no_volumes(&why))?;
    let headline = Statement::plain(say::BY_ML).with("ml", Val::number(amounts.iter().sum(), 0));
    volumes(headline, ranked, &shares, names, browse, told);
    Ok(())
}

fn by_percent(ranked: &[(&str, f64)], names: &Names, browse: &Browse, told: &mut Told) -> Result<(), Statement> {
    let amounts: Vec<f64> = ranked.iter().map(|(_, percent)| *percent).collect();
    let (shares, unnamed) = percent_shares(&amounts).map_err(|why| no_volumes(&why))?;
    volumes(Statement::plain(say::BY_PERCENT), ranked, &shares, names, browse, told);
    if unnamed > 0.0 {
        told.say(Statement::plain(say::UNNAMED).with("percent", hundred(unnamed)));
    }
    Ok(())
}

fn no_volumes(why: &NoVolumes) -> Statement {
    match why {
        NoVolumes::Over100(percent) => Statement::plain(say::OVER_100).with("percent", Val::number(*percent, 0)),
        NoVolumes::Nothing | NoVolumes::NotAVolume(_) | NoVolumes::AllZero => Statement::plain(say::ALL_ZERO),
    }
}

fn volumes(
    headline: Statement,
    ranked: &[(&str, f64)],
    shares: &[f64],
    names: &Names,
    browse: &Browse,
    told: &mut Told,
) {
    let parts: Vec<(&str, f64)> = ranked.iter().zip(shares).map(|((code, _), share)| (*code, *share)).collect();
    told.say(headline.with("plants", headline_parts(&parts, names)));
    told.estimates.push(distribution(&parts));
    for (code, share) in &parts {
        let said = Statement::plain(say::VOLUME_OF).with("plant", names.of(code));
        told.say(said.with("percent", hundred(*share)));
    }
    let mut of_tiers = [0.0; 4];
    for (code, share) in &parts {
        if let Some(tier) = of_tiers.get_mut(browse.tier(code, names)) {
            *tier += share;
        }
    }
    for (tier, share) in headings(browse).into_iter().zip(of_tiers) {
        let said = Statement::plain(say::TIER_ONLY).with("tier", Val::message(tier));
        told.say(said.with("percent", hundred(share)));
    }
    of_region(ranked, names, browse, told);
    told.caution(say::NO_RANGE);
    told.rest_on(&sources::VOLUME);
}
