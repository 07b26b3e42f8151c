//! The reading, put together from what was worked out.

use super::sharpen::sharpen;
use super::told::{self, Say};
use super::{DeathRead, Read, Way, found_at, ids};
use crate::reading::lens::{Lens, Picks, digest_of, ids_of};
use crate::reading::shape::{Outcome, Reading, Statement, Val, Variant};
use crate::reading::{Given, Taken as Chosen, message_ids};
use crate::record::Carcass;
use crate::science::death::{Found, Instant, Rule, Window};

/// Four weeks: a wider window stands apart in a season's figures.
const WIDE_H: f64 = 28.0 * 24.0;

/// The reading.
pub(in crate::reading) fn read<'a>(carcass: &'a Carcass, given: &Given<'a>) -> DeathRead<'a> {
    let read = Read::of(carcass, given);
    let say = Say { offset_minutes: read.offset_minutes() };
    let mut reading = Reading {
        method: "death.window".to_owned(),
        title: ids::TITLE.to_owned(),
        outcome: Outcome::NoEvidence,
        estimates: Vec::new(),
        statements: Vec::new(),
        cautions: Vec::new(),
        sharpen: Vec::new(),
        variants: Vec::new(),
        rests_on: ids_of(&read.used),
        entries_digest: digest_of(&read.used),
        sources: Vec::new(),
    };
    let (Some(found), Some(first)) = (found_at(&read.takens), read.ways.first()) else {
        reading.statements.push(Statement::plain(ids::NO_EVIDENCE));
        return DeathRead { reading, days: read.days(), used: read.used };
    };
    match &first.result {
        Err(conflict) => {
            reading.outcome = Outcome::Refused;
            reading.statements = vec![say.conflict(conflict), say.offset()];
            reading.sources = told::sources([conflict.low.rule, conflict.high.rule].into_iter());
        }
        Ok(_) => tell(&read, &say, found, &mut reading),
    }
    if read.ways.len() > 1 {
        differ(&read, &say, found, &mut reading);
    }
    DeathRead { reading, days: read.days(), used: read.used }
}

fn tell(read: &Read, say: &Say, found: Instant, reading: &mut Reading) {
    let spread = spread(read);
    reading.outcome = Outcome::Read;
    reading.statements.extend(say.headline(&spread));
    reading.estimates.extend(told::estimate(&spread, found));
    let windows: Vec<&Window> = read.windows().collect();
    for said in windows.iter().flat_map(|window| say.bounds(window)) {
        if !reading.statements.contains(&said) {
            reading.statements.push(said);
        }
    }
    let mut silent = Found::default();
    for taken in &read.takens {
        silent.silent.extend(taken.found.silent.iter().copied());
    }
    reading.statements.extend(told::silent(&silent.silent));
    if !read.log.place.is_empty() {
        let place = Val::Text(read.log.place.clone());
        reading.statements.push(Statement::plain(ids::LOG).with("place", place));
    }
    reading.statements.push(say.offset());
    let bounds =
        windows.iter().flat_map(|w| w.taken.iter().map(|b| b.rule).chain(w.dropped.iter().map(|d| d.bound.rule)));
    reading.sources = told::sources(bounds.chain(silent.silent.iter().map(|(rule, _)| *rule)));
    let seen_dropped = |w: &&Window| w.dropped.iter().any(|d| !d.bound.rule.is_assumed());
    let any = |rule: Rule| windows.iter().any(|w| w.taken.iter().any(|b| b.rule == rule));
    let bounded = spread.low.is_some_and(|low| !low.rule.is_assumed());
    let cautions = [
        (windows.iter().any(seen_dropped), ids::CONFLICTS),
        (read.takens.iter().all(|t| t.by_clock), ids::BY_CLOCK),
        (read.jumped, ids::CLOCK_JUMPED),
        (bounded && spread.hours().is_some_and(|h| h > WIDE_H), ids::WIDE),
        (read.takens.iter().any(|t| t.steady_air), ids::STEADY_AIR),
        (any(Rule::BoneWeathering), ids::EARLIER_WINTER),
        (read.takens.iter().any(|t| t.layers_of_log), ids::LAYERS_OF_LOG),
        (read.log.several, ids::SEVERAL_LOGS),
    ];
    reading.cautions = cautions.into_iter().filter(|(on, _)| *on).map(|(_, id)| Statement::plain(id)).collect();
    reading.sharpen = sharpen(read, bounded);
}

/// One window over all ways: each end the outermost.
fn spread(read: &Read) -> Window {
    let mut all = Window::default();
    for (n, window) in read.windows().enumerate() {
        let first = n == 0;
        all.low =
            if first { window.low } else { all.low.zip(window.low).map(|(a, b)| if b.at < a.at { b } else { a }) };
        all.high =
            if first { window.high } else { all.high.zip(window.high).map(|(a, b)| if b.at > a.at { b } else { a }) };
    }
    all
}

/// Answers that differ, each way by itself.
fn differ(read: &Read, say: &Say, found: Instant, reading: &mut Reading) {
    let count = i64::try_from(read.ways.len()).unwrap_or(i64::MAX);
    reading.cautions.insert(0, Statement::plain(message_ids::SPLIT).with("count", Val::Count(count)));
    if !read.whole {
        reading.cautions.insert(1, Statement::plain(message_ids::SPLIT_CUT));
    }
    let of = |way: &Way| -> Variant {
        let taken: Vec<Chosen> = match &way.picks {
            Some((place, picks)) => read
                .visits
                .get(*place)
                .map(|visit| Lens::new(&visit.exam, Picks::new()).taken(picks))
                .unwrap_or_default(),
            None => Vec::new(),
        };
        match &way.result {
            Ok(window) => Variant {
                taken,
                headline: say.headline(window).unwrap_or_else(|| Statement::plain(ids::NO_EVIDENCE)),
                estimates: told::estimate(window, found).into_iter().collect(),
            },
            Err(conflict) => Variant { taken, headline: say.conflict(conflict), estimates: Vec::new() },
        }
    };
    reading.variants = read.ways.iter().map(of).collect();
}
