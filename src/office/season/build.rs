//! The season put together.

use std::collections::{BTreeMap, BTreeSet};

use super::gather::Gathered;
use super::rows::{Row, rows};
use super::table::{Carcasses, FORMAT, LeftOut, Season, SeverityLine, SourceLine};
use super::{
    Asked, LANGUAGE, ages, causes, compare, condition, density, doubles, findings, places, survival, tell, weeks,
};
use crate::office::diet::diet;
use crate::office::winter::report::{lines, plain, text};
use crate::reading::{Given, winter_log};
use crate::record::{Fold, Moment, fold};
use crate::science::season::sources;
use crate::science::source::Source;
use crate::science::winter::index::Asked as AskedOfIndex;
use crate::science::winter::log::Log;
use crate::words::Arg;

/// The draws of the whole season.
const WHOLE: u64 = 0;

/// Nothing to make a season of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("no carcass with a date is in the files of enrolled devices")]
pub struct NoCarcass;

/// The name of a winter: 2026 is 2026-27.
pub fn name_of(winter: i32) -> String {
    format!("{winter}-{:02}", (winter + 1).rem_euclid(100))
}

/// All of a season. It is a pure function of what was gathered and asked.
///
/// # Errors
/// [`NoCarcass`] where no winter was asked for and nothing has a date.
pub fn season(gathered: &Gathered, asked: &Asked) -> Result<Season, NoCarcass> {
    let folded = fold(&gathered.entries.journal);
    let of_phones = winter_log::logs(&folded);
    // A carcass is read with the logs of the phones alone, as its own reading was.
    let card = gathered.cards.today(Moment::EPOCH);
    let given = Given { card, ..Given::default() }.with(&folded, &of_phones);
    let mut all = rows(&folded, &given, &gathered.crews);
    let visited = all.len();
    all.retain(|row| !row.nothing_lay_there());
    let no_carcass = visited - all.len();
    let winter = asked.winter.or_else(|| all.iter().filter_map(|row| row.winter).max()).ok_or(NoCarcass)?;
    let found: Vec<&Row> = all.iter().filter(|row| row.winter == Some(winter)).collect();
    let here: Vec<&Row> = found.iter().copied().filter(|row| row.counts()).collect();
    let mut logs: Vec<Log> = of_phones.iter().chain(&gathered.logs).cloned().collect();
    logs.retain(|log| log.span().is_some());
    let of_ages = ages::draws(&here, WHOLE);
    let of_causes = causes::draws(&here, WHOLE);
    Ok(Season {
        format: FORMAT.to_owned(),
        winter: name_of(winter),
        science: crate::science::VERSION.to_owned(),
        carcasses: Carcasses { no_carcass, ..carcasses(&all, &found, &here, &folded, gathered) },
        cautions: ["not_random", "unknown_counts", "memory"]
            .map(|id| tell(&format!("season.caution.{id}"), &[("n", super::count(here.len()))]))
            .into(),
        weeks: weeks::table(&here, &logs),
        severity: severity(&logs, winter),
        ages: ages::table(&here, of_ages.as_ref()),
        causes: causes::table(&here, of_causes.as_ref()),
        condition: condition::table(&here),
        findings: findings::table(&here),
        diet: diet(here.iter().map(|row| row.carcass)),
        places: places::table(&here, asked.cell_m),
        comparisons: compare::table(&here, &all, winter),
        survival: survival::table(&here, of_ages.as_ref(), asked.youngest),
        density: density::table(&here, &folded, winter, asked.strip_m),
        doubles: doubles::table(&here),
        not_used: gathered.not_used.clone(),
        sources: every_source(&here),
    })
}

fn carcasses(all: &[Row], found: &[&Row], here: &[&Row], folded: &Fold, gathered: &Gathered) -> Carcasses {
    let mut left_out: BTreeMap<String, usize> = BTreeMap::new();
    for why in found.iter().filter_map(|row| row.view.closed) {
        *left_out.entry(tell(why, &[])).or_default() += 1;
    }
    let undated = all.iter().filter(|row| row.winter.is_none()).count();
    Carcasses {
        found: found.len(),
        counted: here.len(),
        left_out: left_out.into_iter().map(|(why, carcasses)| LeftOut { why, carcasses }).collect(),
        joined: found.iter().filter(|row| row.carcass.joined.len() > 1).count(),
        other_winters: all.len() - found.len() - undated,
        undated,
        no_carcass: 0,
        adrift: folded.adrift.len(),
        forks: gathered.entries.journal.forks().len(),
    }
}

/// The indices whose season their source names.
fn severity(logs: &[Log], winter: i32) -> Vec<SeverityLine> {
    if logs.is_empty() {
        return Vec::new();
    }
    let indices: Vec<_> = plain().collect();
    let lines = lines(logs, &indices, &AskedOfIndex::winter(winter));
    lines.iter().map(|line| SeverityLine { index: line.index.id.to_owned(), said: text(LANGUAGE, line).0 }).collect()
}

/// Sources of the season's own figures, then those of the readings that went in, each with its mark.
fn every_source(here: &[&Row]) -> Vec<SourceLine> {
    let single: [&[Source]; 4] = [&sources::MIXTURE, &sources::TWO_GROUPS, &sources::SURVIVAL, &sources::TRANSECT];
    let mut all: Vec<SourceLine> = single.into_iter().flatten().map(SourceLine::from).collect();
    all.extend([&sources::WILSON, &sources::WEEKS, &sources::DOUBLES].map(SourceLine::from));
    let mut of_readings: BTreeSet<(&str, &str, &str)> = BTreeSet::new();
    for row in here {
        for source in row.view.readings.each().into_iter().flat_map(|reading| &reading.sources) {
            of_readings.insert((&source.id, &source.cite, &source.mark));
        }
    }
    all.extend(of_readings.into_iter().map(|(id, cite, mark)| SourceLine {
        id: id.to_owned(),
        cite: cite.to_owned(),
        mark: mark.to_owned(),
    }));
    all
}

/// A word for a count of carcasses.
pub fn carcasses_in_words(n: usize) -> String {
    let n: Arg = super::count(n);
    tell("season.carcasses", &[("n", n)])
}
