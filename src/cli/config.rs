//! What is to be done, checked. Nothing below sees the argument parser.

use super::args::{Args, Command, KeyCommand, LabArgs, TableCommand};
use super::schema::Name;
use crate::bundle::Fingerprint;
use crate::bundle::qr::read_device_text;
use crate::office::archive::Archive;
use crate::office::lab::{self, Again};
use crate::record::{DeviceId, Digest, Moment, PersonCode};
use crate::science::cementum::OLDEST_YEARS;
use clap::Parser;
use std::ffi::OsString;
use std::path::PathBuf;

/// What is to be done.
#[derive(Debug)]
pub(super) enum Config {
    Open(Open),
    Enrol(Enrol),
    Read(Read),
    Diet(Diet),
    Paper(Paper),
    Report(super::report::Report),
    Phones(super::phones::Phones),
    Retire(Retire),
    Key(Key),
    Card(Card),
    Winter(Box<super::winter::Winter>),
    Season(super::season::Season),
    Labels(super::labels::Labels),
    Sketch(super::sketch::Sketch),
    Export(super::export::Export),
    Decide(super::decide::Decide),
    Table(Table),
    Lab(Box<Lab>),
    Parcels(super::lab_parcels::Parcels),
    Calls(super::calls::Calls),
    Reader(Reader),
    Schema(Option<Name>),
}

#[derive(Debug)]
pub(super) struct Open {
    pub archive: Archive,
    pub files: Vec<PathBuf>,
    pub keep: bool,
    pub json: bool,
}

#[derive(Debug)]
pub(super) struct Read {
    pub archive: Archive,
    /// Local cards beside the archive's.
    pub cards: Vec<PathBuf>,
    pub files: Vec<PathBuf>,
}

#[derive(Debug)]
pub(super) struct Paper {
    pub out: PathBuf,
    pub letter: bool,
}

#[derive(Debug)]
pub(super) struct Enrol {
    pub archive: Archive,
    pub whom: Whom,
    pub name: String,
}

/// Which device is to be enrolled, and what was compared.
#[derive(Debug)]
pub(super) enum Whom {
    /// The signer of a file; the words as read from the phone, where they were given.
    SignerOf(PathBuf, Option<Fingerprint>),
    /// What the phone's own screen shows.
    Shown(Fingerprint, Option<DeviceId>),
}

#[derive(Debug)]
pub(super) struct Retire {
    pub archive: Archive,
    pub name: String,
    pub since: Option<Moment>,
}

#[derive(Debug)]
pub(super) struct Diet {
    pub archive: Archive,
    pub files: Vec<PathBuf>,
    pub json: bool,
}

#[derive(Debug)]
pub(super) struct Key {
    pub archive: Archive,
    /// Make one; else only show it.
    pub new: bool,
}

#[derive(Debug)]
pub(super) struct Card {
    pub archive: Archive,
    pub file: PathBuf,
    pub table: Option<PathBuf>,
    pub out: Option<PathBuf>,
}

#[derive(Debug)]
pub(super) enum Table {
    Export,
    Check(PathBuf),
    Sign { archive: Archive, file: PathBuf, out: Option<PathBuf> },
}

#[derive(Debug)]
pub(super) struct Lab {
    pub archive: Archive,
    pub carcass: String,
    pub by: PersonCode,
    pub result: lab::Result,
    pub again: Again,
}

#[derive(Debug)]
pub(super) struct Reader {
    pub archive: Archive,
    pub tables: Vec<PathBuf>,
    pub json: bool,
    pub onto: Option<PathBuf>,
}

/// Arguments that were not understood, or a wish for help.
#[derive(Debug)]
pub(super) enum Refusal {
    /// From the argument parser; help and version too.
    Parser(clap::Error),
    /// An argument has a value that cannot be.
    Value { argument: &'static str, reason: String },
}

impl Config {
    pub(super) fn from_args(args: impl IntoIterator<Item = OsString>) -> Result<Self, Refusal> {
        let args = Args::try_parse_from(args).map_err(Refusal::Parser)?;
        let named = args.archive.or_else(|| std::env::var_os("MARROWBOOK_ARCHIVE").map(PathBuf::from));
        if let Some(named) = &named
            && is_of_the_archive(&args.command)
            && !named.is_dir()
        {
            let reason = format!("there is no folder {}; look at its spelling", named.display());
            return Err(value("--archive", &reason));
        }
        let archive = Archive::at(named.unwrap_or_else(|| PathBuf::from("marrowbook-archive")));
        Ok(match args.command {
            Command::Open { files, keep, json } => Self::Open(Open { archive, files, keep, json }),
            Command::Enrol { file, fingerprint, words, name } => {
                Self::Enrol(Enrol { archive, whom: whom(file, fingerprint, words)?, name })
            }
            Command::Report { carcass, out, letter } => {
                Self::Report(super::report::Report { archive, carcass, out, letter })
            }
            Command::Labels { files, carcass, out, letter } => {
                Self::Labels(super::labels::Labels { archive, files, carcass, out, letter })
            }
            Command::Paper { out, letter } => Self::Paper(Paper { out, letter }),
            Command::Diet { files, json } => Self::Diet(Diet { archive, files, json }),
            Command::Sketch { files, out, declination } => {
                let declination_deg = declination.map(|text| declination_of(&text)).transpose()?;
                Self::Sketch(super::sketch::Sketch { archive, files, out, declination_deg })
            }
            Command::Read { cards, files } => Self::Read(Read { archive, cards, files }),
            Command::Phones { json } => Self::Phones(super::phones::Phones { archive, json }),
            Command::Retire { name, since } => {
                let since = since.map(|time| Moment::parse(&time)).transpose();
                Self::Retire(Retire { archive, name, since: since.map_err(|error| value("--since", &error))? })
            }
            Command::Key { what } => Self::Key(Key { archive, new: matches!(what, KeyCommand::New) }),
            Command::Winter {
                files,
                keep,
                correct,
                index,
                winter,
                from,
                to,
                through,
                temperature,
                snow,
                dates,
                place,
                gauge,
                json,
                svg,
                us_units,
            } => Self::Winter(Box::new(super::winter::Winter {
                archive,
                files,
                keep,
                correct,
                indices: super::winter::indices(&index)?,
                begins: winter,
                from: super::winter::day("--from", from)?,
                to: super::winter::day("--to", to)?,
                through: super::winter::day("--through", through)?,
                temperature: super::winter::temperature(temperature)?,
                snow: super::winter::snow(snow)?,
                dates: super::winter::dates(dates)?,
                place,
                gauge: super::winter::gauge(gauge)?,
                json,
                svg,
                us_units,
            })),
            Command::Card { file, table, out } => Self::Card(Card { archive, file, table, out }),
            Command::Table { what } => Self::Table(match what {
                TableCommand::Export => Table::Export,
                TableCommand::Check { file } => Table::Check(file),
                TableCommand::Sign { file, out } => Table::Sign { archive, file, out },
            }),
            Command::Decide { what } => Self::Decide(super::decide::Decide { archive, what }),
            Command::Calls { what } => Self::Calls(super::calls::Calls { archive, what }),
            Command::Export(args) => Self::Export(super::export::Export::of(args, archive)?),
            Command::Season(args) => Self::Season(super::season::Season::of(args, archive)?),
            Command::Lab(args) => match *args {
                LabArgs { what: Some(what), .. } => Self::Parcels(super::lab_parcels::Parcels { archive, what }),
                args => Self::Lab(Box::new(lab(archive, args)?)),
            },
            Command::Reader { tables, json, onto } => Self::Reader(Reader { archive, tables, json, onto }),
            Command::Schema { name } => {
                Self::Schema(name.map(|name| name.parse()).transpose().map_err(|error| value("NAME", &error))?)
            }
        })
    }
}

/// Degrees between the compass needle and true north, east positive.
fn declination_of(text: &str) -> Result<f64, Refusal> {
    let degrees: f64 = text.parse().map_err(|error| value("--declination", &error))?;
    if (-180.0..=180.0).contains(&degrees) {
        Ok(degrees)
    } else {
        Err(value("--declination", &"between -180 and 180 degrees, east of true north positive"))
    }
}

/// Whether a command tells of what the archive holds and nothing else: a folder that is not there must not be told as
/// one in which nothing lies. The others begin an archive or can do without.
const fn is_of_the_archive(command: &Command) -> bool {
    matches!(
        command,
        Command::Decide { .. }
            | Command::Calls { .. }
            | Command::Export(_)
            | Command::Season(_)
            | Command::Lab(_)
            | Command::Report { .. }
            | Command::Phones { .. }
            | Command::Retire { .. }
    )
}

pub(super) fn value(argument: &'static str, reason: &dyn ToString) -> Refusal {
    Refusal::Value { argument, reason: reason.to_string() }
}

fn lab(archive: Archive, args: LabArgs) -> Result<Lab, Refusal> {
    let time = |argument, text: Option<String>| {
        text.map(|text| Moment::parse(&text)).transpose().map_err(|error| value(argument, &error))
    };
    let option = |argument, finding: &str, given: Option<String>| match given {
        Some(code) if !lab::options(finding).contains(&code.as_str()) => {
            Err(value(argument, &format!("`{code}` is not one of {}", lab::options(finding).join(", "))))
        }
        given => Ok(given),
    };
    let grade = args.grade.map(|letter| match letter.as_str() {
        "A" | "a" => Ok("grade_best".to_owned()),
        "B" | "b" => Ok("grade_middle".to_owned()),
        "C" | "c" => Ok("grade_lowest".to_owned()),
        _ => Err(value("--grade", &format!("`{letter}` is not A, B or C"))),
    });
    let result = lab::Result {
        cementum_years: args.years,
        grade: grade.transpose()?,
        lab: args.lab,
        tooth: option("--tooth", "cementum_tooth", args.tooth)?,
        sample: args.sample,
        reported_at: time("--reported", args.reported)?,
        known_years: args.known_age,
        known_how: option("--how", "known_age_how", args.how)?,
        died_at: time("--died", args.died)?,
        dna_of: if args.dna.as_deref() == Some(lab::NO_ANIMAL) {
            args.dna
        } else {
            option("--dna", "dna_of", args.dna)?
        },
        dna_from: option("--dna-from", "dna_from", args.dna_from)?,
        dna_lab: args.dna_lab,
        dna_sample: args.dna_sample,
        dna_reported_at: time("--dna-reported", args.dna_reported)?,
        killer: option("--killer", "kill_record_of", args.killer)?,
        killer_how: option("--killer-how", "kill_record_how", args.killer_how)?,
        killer_by: args.killer_by,
        handled_days: args.handled_days,
    };
    if result.is_empty() {
        return Err(value(
            "--years",
            &"nothing is given: name --years, --known-age, --died, --dna, --killer or --handled-days",
        ));
    }
    // More rings than a laboratory has found in any deer is a slip of the pen.
    if let Some(years) = result.cementum_years.filter(|years| !(0..=i64::from(OLDEST_YEARS)).contains(years)) {
        return Err(value(
            "--years",
            &format!("{years} lies outside 0 to {OLDEST_YEARS}: check the laboratory's sheet"),
        ));
    }
    let again = match (args.correct, args.another) {
        (true, _) => Again::Correct,
        (_, true) => Again::Another,
        _ => Again::Refuse,
    };
    // The parser lets neither be left out.
    let by = PersonCode::new(&args.by.unwrap_or_default()).map_err(|error| value("--by", &error))?;
    Ok(Lab { archive, carcass: args.carcass.unwrap_or_default(), by, result, again })
}

fn whom(file: Option<PathBuf>, shown: Option<String>, words: Option<String>) -> Result<Whom, Refusal> {
    if let Some(shown) = shown {
        if let Some(device) = read_device_text(&shown).or_else(|| Digest::parse(shown.trim()).ok().map(DeviceId)) {
            return Ok(Whom::Shown(Fingerprint::of(device), Some(device)));
        }
        let fingerprint = Fingerprint::parse(&shown).map_err(|error| value("--fingerprint", &error))?;
        return Ok(Whom::Shown(fingerprint, None));
    }
    let words = words.map(|words| Fingerprint::parse(&words)).transpose().map_err(|error| value("--words", &error))?;
    // The parser lets nothing through that names neither.
    Ok(Whom::SignerOf(file.unwrap_or_default(), words))
}
