//! The season put together.

use std::collections::BTreeMap;

use super::gather::{Files, Gathered};
use super::kept::{All, Cited, Kept, OfFold};
use super::table::{Carcasses, FORMAT, LeftOut, Season, SeverityLine, SourceLine};
use super::{
    Asked, LANGUAGE, ages, causes, compare, condition, density, doubles, findings, places, survival, tell, weeks,
};
use crate::office::diet::pooled;
use crate::office::streamed::{StreamError, Streamed};
use crate::office::winter::report::{lines, plain, text};
use crate::reading::{Given, winter_log};
use crate::record::short_code::short_code;
use crate::record::{Fold, Moment, fold};
use crate::science::season::sources;
use crate::science::source::Source;
use crate::science::winter::index::Asked as AskedOfIndex;
use crate::science::winter::log::Log;
use crate::words::Arg;

/// Of carcasses that are in no figure so many are named.
const MOST_CODES: usize = 20;
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
    let mut all = All::beside(folded.adrift.len(), gathered.entries.journal.forks().len());
    all.take(read(&folded, &of_phones, &gathered.files));
    all.take_outings(&folded);
    season_of(&all, &of_phones, &gathered.files, asked, 1)
}

/// The same of an archive that is read part after part.
///
/// # Errors
/// [`NoSeason`].
pub fn season_streamed(streamed: &Streamed, asked: &Asked) -> Result<Season, NoSeason> {
    let of_phones = winter_log::logs(&streamed.winter_logs()?);
    let mut all = All::beside(streamed.adrift, streamed.forks);
    streamed.carcasses(
        |folded| read(&folded, &of_phones, &streamed.files),
        |of_fold| {
            all.take(of_fold);
            Ok::<_, StreamError>(())
        },
    )?;
    streamed.outings(
        |folded| folded,
        |folded| {
            all.take_outings(&folded);
            Ok::<_, StreamError>(())
        },
    )?;
    Ok(season_of(&all, &of_phones, &streamed.files, asked, streamed.threads)?)
}

/// Why there is no season of an archive that is read part after part.
#[derive(Debug, thiserror::Error)]
pub enum NoSeason {
    /// There is nothing in it.
    #[error("{0}")]
    NoCarcass(#[from] NoCarcass),
    /// It could not be read.
    #[error("{0}")]
    Stream(#[from] StreamError),
}

/// The carcasses of a fold. Each is read with the logs of the phones alone, as its own reading was.
fn read(folded: &Fold, of_phones: &[Log], files: &Files) -> OfFold {
    let given = Given { card: files.cards.today(Moment::EPOCH), ..Given::default() }.with(folded, of_phones);
    OfFold::of(folded, &given, &files.crews)
}

fn season_of(all: &All, of_phones: &[Log], files: &Files, asked: &Asked, threads: usize) -> Result<Season, NoCarcass> {
    let rows: Vec<&Kept> = all.rows.iter().filter(|row| !row.nothing_lay_there).collect();
    let no_carcass = all.rows.len() - rows.len();
    let winter = asked.winter.or_else(|| rows.iter().filter_map(|row| row.winter).max()).ok_or(NoCarcass)?;
    let found: Vec<&Kept> = rows.iter().copied().filter(|row| row.winter == Some(winter)).collect();
    let here: Vec<&Kept> = found.iter().copied().filter(|row| row.counts()).collect();
    let mut logs: Vec<Log> = of_phones.iter().chain(&files.logs).cloned().collect();
    logs.retain(|log| log.span().is_some());
    let of_ages = ages::draws(&here, WHOLE);
    let of_causes = causes::draws(&here, WHOLE);
    Ok(Season {
        format: FORMAT.to_owned(),
        winter: name_of(winter),
        science: crate::science::VERSION.to_owned(),
        carcasses: Carcasses { no_carcass, adrift: all.adrift, forks: all.forks, ..carcasses(&rows, &found, &here) },
        cautions: ["not_random", "unknown_counts", "memory"]
            .map(|id| tell(&format!("season.caution.{id}"), &[("n", super::count(here.len()))]))
            .into(),
        weeks: weeks::table(&here, &logs),
        severity: severity(&logs, winter),
        ages: ages::table(&here, of_ages.as_ref()),
        causes: causes::table(&here, of_causes.as_ref()),
        condition: condition::table(&here),
        findings: findings::table(&here),
        diet: pooled(here.iter().map(|row| &*row.diet)),
        places: places::table(&here, asked.cell_m),
        comparisons: compare::table(&here, &rows, winter, threads),
        survival: survival::table(&here, of_ages.as_ref(), asked.youngest),
        density: density::table(&here, &all.outings, winter, asked.strip_m),
        doubles: doubles::table(&here),
        not_used: files.not_used.clone(),
        sources: every_source(all.sources(winter)),
    })
}

fn carcasses(all: &[&Kept], found: &[&Kept], here: &[&Kept]) -> Carcasses {
    let mut left_out: BTreeMap<String, LeftOut> = BTreeMap::new();
    for (row, why) in found.iter().filter_map(|row| Some((row, row.closed?))) {
        let why = tell(why, &[]);
        let line = left_out.entry(why.clone()).or_insert(LeftOut { why, carcasses: 0, codes: Vec::new() });
        line.carcasses += 1;
        if line.codes.len() < MOST_CODES {
            line.codes.push(short_code(row.carcass));
        }
    }
    let undated = all.iter().filter(|row| row.winter.is_none()).count();
    Carcasses {
        found: found.len(),
        counted: here.len(),
        left_out: left_out.into_values().collect(),
        joined: found.iter().filter(|row| row.joined).count(),
        other_winters: all.len() - found.len() - undated,
        undated,
        no_carcass: 0,
        adrift: 0,
        forks: 0,
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
fn every_source<'a>(of_readings: impl Iterator<Item = &'a Cited>) -> Vec<SourceLine> {
    let single: [&[Source]; 4] = [&sources::MIXTURE, &sources::TWO_GROUPS, &sources::SURVIVAL, &sources::TRANSECT];
    let mut all: Vec<SourceLine> = single.into_iter().flatten().map(SourceLine::from).collect();
    all.extend([&sources::WILSON, &sources::WEEKS, &sources::DOUBLES].map(SourceLine::from));
    all.extend(of_readings.map(|(id, cite, mark)| SourceLine {
        id: id.to_string(),
        cite: cite.to_string(),
        mark: mark.to_string(),
    }));
    all
}

/// A word for a count of carcasses.
pub fn carcasses_in_words(n: usize) -> String {
    let n: Arg = super::count(n);
    tell("season.carcasses", &[("n", n)])
}
