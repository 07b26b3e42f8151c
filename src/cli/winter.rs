//! `office winter`: severity indices over daily logs, and the plot of the winter against the deaths.

use super::config::{Refusal, value};
use super::error::CliError;
use super::exit::Exit;
use super::gather::opened;
use super::input;
use super::streams::Streams;
use crate::office::archive::Archive;
use crate::office::opening::{Outcome, judge, judge_unread};
use crate::office::recompute::Gathered;
use crate::office::report::report;
use crate::office::winter::cells::DateOrder;
use crate::office::winter::deaths::deaths;
use crate::office::winter::join::{FromFile, join};
use crate::office::winter::kept::{DATES, GAUGES, Kept, Sheet};
use crate::office::winter::plot::{Style, plot};
use crate::office::winter::report::{json, last_winter, lines, plain, text};
use crate::office::winter::table::{Confirmed, Draft, NoLog, Open};
use crate::office::winter::units::{From, Proposed, SnowUnit, TemperatureUnit};
use crate::reading::winter_log;
use crate::record::{Day, Fold};
use crate::science::winter::agency::{INDICES, Index, find};
use crate::science::winter::index::Asked;
use crate::science::winter::log::{Gauge, Log};
use crate::words::{Arg, Language, say_office};
use std::path::{Path, PathBuf};
use time::Date;

const LANGUAGE: Language = Language::English;

/// What is to be done.
#[derive(Debug)]
#[allow(clippy::struct_excessive_bools)] // flags that stand alone
pub(super) struct Winter {
    pub archive: Archive,
    pub files: Vec<PathBuf>,
    pub keep: bool,
    pub correct: bool,
    pub indices: Vec<&'static Index>,
    pub begins: Option<i32>,
    pub from: Option<Date>,
    pub to: Option<Date>,
    pub through: Option<Date>,
    pub temperature: Option<TemperatureUnit>,
    pub snow: Option<SnowUnit>,
    pub dates: Option<DateOrder>,
    pub place: Option<String>,
    pub gauge: Option<Gauge>,
    pub json: bool,
    pub svg: Option<PathBuf>,
    pub us_units: bool,
}

/// One of the names of a list; an error that gives them all.
fn named<T: Copy>(
    argument: &'static str,
    given: Option<String>,
    all: &[(&'static str, T)],
) -> Result<Option<T>, Refusal> {
    let Some(given) = given else { return Ok(None) };
    let found = all.iter().find(|(name, _)| *name == given).map(|(_, one)| *one);
    let names = || all.iter().map(|(name, _)| *name).collect::<Vec<_>>().join(", ");
    found.map(Some).ok_or_else(|| value(argument, &format!("`{given}` is none of {}", names())))
}

pub(super) fn temperature(given: Option<String>) -> Result<Option<TemperatureUnit>, Refusal> {
    named("--temperature", given, &TemperatureUnit::ALL)
}

pub(super) fn snow(given: Option<String>) -> Result<Option<SnowUnit>, Refusal> {
    named("--snow", given, &SnowUnit::ALL)
}

pub(super) fn dates(given: Option<String>) -> Result<Option<DateOrder>, Refusal> {
    named("--dates", given, &DATES)
}

pub(super) fn gauge(given: Option<String>) -> Result<Option<Gauge>, Refusal> {
    named("--gauge", given, &GAUGES)
}

pub(super) fn indices(given: &[String]) -> Result<Vec<&'static Index>, Refusal> {
    let names = || INDICES.iter().map(|index| index.id).collect::<Vec<_>>().join(", ");
    let one = |name: &String| find(name).ok_or_else(|| value("--index", &format!("`{name}` is none of {}", names())));
    if given.is_empty() { Ok(plain().collect()) } else { given.iter().map(one).collect() }
}

pub(super) fn day(argument: &'static str, given: Option<String>) -> Result<Option<Date>, Refusal> {
    let parse = |text: String| Day::parse(&text).map(Day::date).map_err(|error| value(argument, &error));
    given.map(parse).transpose()
}

/// Reads every file, then prints each index.
pub(super) fn run(config: &Winter, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let reads_archive = config.keep || config.files.is_empty();
    let (keyring, mut gathered) = if reads_archive {
        let held = opened(&config.archive, streams)?;
        (held.keyring, held.gathered)
    } else {
        (config.archive.keyring()?, Gathered::default())
    };
    let mut from_files = Vec::new();
    let mut exit = Exit::Done;
    for path in &config.files {
        let name = input::name(path);
        match input::read(path, streams)? {
            Ok(bytes) if is_bundle(&bytes) => {
                let judged = judge(&bytes, &keyring);
                gathered.take(&judged);
                if judged.worst() != Outcome::Intact {
                    streams.note(&format!("{name}: {}", report(&judged, LANGUAGE, &|_| true).outcome));
                }
                exit = exit.max(judged.worst().into());
            }
            Ok(bytes) => from_files.extend(csv(&name, path, &bytes, config, streams)?),
            Err(too_large) => {
                streams.note(&format!("{name}: {}", report(&judge_unread(&too_large), LANGUAGE, &|_| true).outcome));
                exit = exit.max(Exit::Failed);
            }
        }
    }
    if reads_archive {
        from_files = kept(&config.archive, streams)?;
    }
    let (mut logs, clashes) = join(from_files);
    for clash in &clashes {
        let [first, second] = &clash.files;
        streams.note(&format!(
            "{}, {}: {first} and {second} disagree; both readings are in the ends",
            clash.place, clash.day
        ));
    }
    let folded = gathered.recompute().folded;
    logs.extend(winter_log::logs(&folded));
    let winter = config.begins.or_else(|| last_winter(&logs)).ok_or(CliError::NoLogs)?;
    let asked = Asked { winter, from: config.from, to: config.to, through: config.through };
    for line in lines(&logs, &config.indices, &asked) {
        if config.json {
            streams.line(&json(LANGUAGE, &line).to_string())?;
        } else {
            let (head, below) = text(LANGUAGE, &line);
            streams.line(&head)?;
            for one in below {
                streams.line(&format!("  {one}"))?;
            }
        }
    }
    if !config.json {
        streams.line(&say_office(LANGUAGE, "winter.local", &[]))?;
    }
    if let Some(path) = &config.svg {
        draw(path, &logs, &folded, winter, config, streams)?;
    }
    Ok(exit)
}

/// A signed file is JSON; a log begins with the names of its columns.
fn is_bundle(bytes: &[u8]) -> bool {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    bytes.iter().find(|byte| !byte.is_ascii_whitespace()) == Some(&b'{')
}

/// Every log that the archive keeps.
fn kept(archive: &Archive, streams: &mut Streams<'_>) -> Result<Vec<FromFile>, CliError> {
    let mut all = Vec::new();
    for one in archive.winter_logs()? {
        let file = one.path.display().to_string();
        let no_log = |error: NoLog| CliError::NoLog { file, reason: error.say(LANGUAGE) };
        let table = Draft::read(&one.bytes).map_err(no_log)?.table(&one.confirmed);
        let lost = table.notes.iter().filter(|note| note.lost).count();
        streams.note(&format!("{}: {} lines kept, {lost} things left out", one.sheet.file, table.kept));
        all.extend(table.logs.into_iter().map(|log| FromFile { file: one.sheet.file.clone(), log }));
    }
    Ok(all)
}

fn csv(
    name: &str,
    path: &Path,
    bytes: &[u8],
    config: &Winter,
    streams: &mut Streams<'_>,
) -> Result<Vec<FromFile>, CliError> {
    let no_log = |reason: String| CliError::NoLog { file: name.to_owned(), reason };
    let draft = Draft::read(bytes).map_err(|error| no_log(error.say(LANGUAGE)))?;
    let stem = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let before = if config.keep { config.archive.winter_sheet(bytes)?.map(|(_, confirmed)| confirmed) } else { None };
    // What was confirmed of these very bytes before need not be told again, whatever the file is called now.
    let known = before.unwrap_or_else(|| Confirmed { place: stem, ..Confirmed::default() });
    let told = Confirmed {
        temperature: config.temperature.or(known.temperature),
        snow: config.snow.or(known.snow),
        dates: config.dates.or(known.dates),
        place: config.place.clone().unwrap_or(known.place),
        gauge: config.gauge.or(known.gauge),
        read_at: None,
    };
    let told = confirm(name, &draft, told, streams)?;
    let table = draft.table(&told);
    for note in &table.notes {
        streams.note(&format!("{name}: {}", note.say(LANGUAGE)));
    }
    let lost = table.notes.iter().filter(|note| note.lost).count();
    streams.note(&format!(
        "{name}: {} lines kept, {} left out whole, {lost} things named above",
        table.kept, table.dropped
    ));
    if config.keep {
        // The name alone: where it lay on somebody's disk is nobody's business.
        let file_name = path.file_name().map_or_else(|| name.to_owned(), |own| own.to_string_lossy().into_owned());
        match config.archive.keep_winter(bytes, &Sheet::of(&file_name, &told, streams.now), config.correct)? {
            Kept::New(path) => streams.note(&format!("{name}: kept in {}", path.display())),
            Kept::Before => streams.note(&format!("{name}: lies in the archive already; nothing new")),
            Kept::Corrected(path) => streams.note(&format!("{name}: corrected what was said of {}", path.display())),
        }
    }
    Ok(table.logs.into_iter().map(|log| FromFile { file: name.to_owned(), log }).collect())
}

/// The units as told; what was not told is proposed, and taken only where a person says yes.
fn confirm(name: &str, draft: &Draft, told: Confirmed, streams: &mut Streams<'_>) -> Result<Confirmed, CliError> {
    let open = draft.open(&told);
    if open.is_empty() {
        return Ok(told);
    }
    let (mut asks, mut unknown) = (Vec::new(), Vec::new());
    let mut taken = told.clone();
    for one in open {
        match one {
            Open::Temperature => {
                taken.temperature = draft.temperature.map(|p| p.unit);
                propose("temperature", draft.temperature, TemperatureUnit::name, &mut asks, &mut unknown);
            }
            Open::Snow => {
                taken.snow = draft.snow.map(|p| p.unit);
                propose("snow", draft.snow, SnowUnit::name, &mut asks, &mut unknown);
            }
            Open::Dates => unknown.push("--dates (2/3/2027 may be read either way)".to_owned()),
        }
    }
    let units = |what: String| CliError::Units { file: name.to_owned(), what };
    if !unknown.is_empty() {
        return Err(units(format!("nothing in the file tells {}", unknown.join(" and "))));
    }
    if streams.confirmed(&format!("{name}: {}. Is that right? Type yes:", asks.join(", ")))? {
        Ok(taken)
    } else {
        Err(units(format!("it looks like {}", asks.join(", "))))
    }
}

fn propose<U: Copy>(
    what: &str,
    proposed: Option<Proposed<U>>,
    name: fn(U) -> &'static str,
    asks: &mut Vec<String>,
    unknown: &mut Vec<String>,
) {
    match proposed {
        Some(proposed) => {
            let from = match proposed.from {
                From::Header => "the header says so",
                From::Numbers => "by the numbers",
            };
            asks.push(format!("--{what} {} ({from})", name(proposed.unit)));
        }
        None => unknown.push(format!("--{what}")),
    }
}

fn draw(
    path: &Path,
    logs: &[Log],
    folded: &Fold,
    winter: i32,
    config: &Winter,
    streams: &mut Streams<'_>,
) -> Result<(), CliError> {
    let file = || path.display().to_string();
    let (deaths, undated) = deaths(folded);
    if undated > 0 {
        let n = [("n", Arg::Count(i64::try_from(undated).unwrap_or(i64::MAX)))];
        streams.note(&say_office(LANGUAGE, "winter.undated", &n));
    }
    let day = |year, month, day| Day::new(year, month, day).map(Day::date);
    let span = config.from.or_else(|| day(winter, 11, 1)).zip(config.to.or_else(|| day(winter + 1, 5, 31)));
    let style = Style { us_units: config.us_units, language: LANGUAGE };
    let drawn = span.and_then(|(from, to)| plot(logs, &deaths, from, to, style));
    let drawn = drawn.ok_or_else(|| CliError::NothingToDraw { file: file() })?;
    std::fs::write(path, drawn).map_err(|error| CliError::File { file: file(), error })
}
