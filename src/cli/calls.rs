//! `office calls`: whom to call after a result, what answers are owed, and which calls were made.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use super::config::{Refusal, value};
use super::error::CliError;
use super::exit::Exit;
use super::input;
use super::key::unlock;
use super::lab::{enrol_self, find, random};
use super::read::cards;
use super::streams::Streams;
use crate::guide::answer_words;
use crate::office::archive::Archive;
use crate::office::calls::{Call, From, calls, mark, unmark};
use crate::office::own_chain::{Writing, append, held, new_id, write};
use crate::record::{PersonCode, fold};

/// The arguments as typed.
#[derive(Debug, clap::Subcommand)]
pub(super) enum CallsCommand {
    /// The list. It holds names, numbers and what hurt whom: keep it apart from everything that is handed on.
    List {
        /// Numbers of people: a CSV with the columns code and number. It is read and kept nowhere.
        #[arg(long, value_name = "FILE")]
        numbers: Option<PathBuf>,
        /// Also calls that were made.
        #[arg(long)]
        all: bool,
        /// Print one JSON object a call.
        #[arg(long)]
        json: bool,
    },
    /// Mark a call as made, by a signed entry.
    Done {
        /// The carcass: its id or six-letter code.
        #[arg(value_name = "CARCASS")]
        carcass: String,
        /// The call, as the list names it.
        #[arg(value_name = "CALL")]
        call: String,
        /// Code of who made it.
        #[arg(long, value_name = "CODE")]
        by: String,
    },
    /// Take such a mark back.
    Undo {
        /// The carcass: its id or six-letter code.
        #[arg(value_name = "CARCASS")]
        carcass: String,
        /// The call, as the list names it.
        #[arg(value_name = "CALL")]
        call: String,
        /// Code of who takes it back.
        #[arg(long, value_name = "CODE")]
        by: String,
    },
}

/// What is to be done.
#[derive(Debug)]
pub(super) struct Calls {
    archive: Archive,
    what: CallsCommand,
    /// Who does it; nobody where only the list is asked for.
    by: Option<PersonCode>,
}

impl Calls {
    /// The arguments, checked.
    pub(super) fn of(what: CallsCommand, archive: Archive) -> Result<Self, Refusal> {
        let by = match &what {
            CallsCommand::List { .. } => None,
            CallsCommand::Done { by, .. } | CallsCommand::Undo { by, .. } => {
                Some(PersonCode::new(by).map_err(|error| value("--by", &error))?)
            }
        };
        Ok(Self { archive, what, by })
    }
}

/// Lists, marks, or takes a mark back.
pub(super) fn run(config: &Calls, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let keyring = config.archive.keyring()?;
    let before = held(&config.archive, &keyring)?;
    for (path, reason) in &before.unused {
        streams.note(&format!("{}: not used: {reason}", path.display()));
    }
    let cards = cards(&config.archive, &[], streams)?;
    let card = cards.today(streams.now).map(|given| given.card);
    if card.is_none() {
        streams.note("no local card: names and numbers are missing, and every disease counts as one to call for");
    }
    let laboratories = card.map(crate::card::Card::laboratories).transpose()?.unwrap_or_default();
    let office = config.archive.office_key()?.map(|file| file.public()).transpose()?.map(|key| key.id());
    let numbers = match &config.what {
        CallsCommand::List { numbers: Some(file), .. } => numbers(file, streams)?,
        _ => BTreeMap::new(),
    };
    let journal = &before.gathered.journal;
    let folded = fold(journal);
    let all = calls(&From { folded: &folded, card, laboratories: &laboratories, office, numbers: &numbers });
    let Some(person) = config.by.clone() else { return print(&all, &config.what, streams) };
    let key = unlock(&config.archive, streams)?.ok_or(CliError::NoOfficeKey)?;
    let mut writing = Writing { key: &key, person, at: streams.now, id: random()?, salts: Vec::new() };
    let path = match &config.what {
        CallsCommand::Undo { carcass, call, .. } => {
            let act = unmark(find(&folded, carcass)?, call)?;
            writing.salts.push(random()?);
            enrol_self(&config.archive, &keyring, &key, streams)?;
            append(&config.archive, journal, vec![act], &writing)?
        }
        CallsCommand::Done { carcass, call, .. } => {
            let fresh = new_id(streams.now, random()?);
            let said = mark(find(&folded, carcass)?, &all, call, key.public().id(), fresh)?;
            writing.salts = said.iter().map(|_| random()).collect::<Result<_, _>>()?;
            enrol_self(&config.archive, &keyring, &key, streams)?;
            write(&config.archive, journal, said, &writing)?
        }
        CallsCommand::List { .. } => return Ok(Exit::Done),
    };
    streams.line(&format!("kept in {}", path.display()))?;
    Ok(Exit::Done)
}

fn print(all: &[Call], what: &CallsCommand, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let CallsCommand::List { all: also_done, json, .. } = what else { return Ok(Exit::Done) };
    let mut shown = all.iter().filter(|call| *also_done || call.done.is_none()).peekable();
    if shown.peek().is_none() && !json {
        streams.line("no call is owed")?;
    }
    for call in shown {
        if *json {
            streams.line(&serde_json::to_string(call).map_err(|error| CliError::Output(error.into()))?)?;
            continue;
        }
        let number = if call.number.is_empty() { "no number here" } else { &call.number };
        let done = call
            .done
            .as_ref()
            .map_or("[ ]".to_owned(), |done| format!("[x] {} {}:", done.by, answer_words::date_and_time(done.at)));
        streams.line(&format!("{done} {} {}: {}, {number}", call.code, call.call, call.who))?;
        for why in &call.why {
            streams.line(&format!("      {why}"))?;
        }
    }
    Ok(Exit::Done)
}

/// Numbers by code.
fn numbers(file: &Path, streams: &mut Streams<'_>) -> Result<BTreeMap<String, String>, CliError> {
    let name = input::name(file);
    let failed = |reason: String| CliError::File { file: name.clone(), error: std::io::Error::other(reason) };
    let bytes = input::read(file, streams)?.map_err(|error| failed(error.to_string()))?;
    let mut reader = csv::ReaderBuilder::new().trim(csv::Trim::All).from_reader(bytes.as_slice());
    let head = reader.headers().map_err(|error| failed(error.to_string()))?.clone();
    let place = |column: &str| {
        let at = head.iter().position(|one| one.trim_start_matches('\u{feff}').eq_ignore_ascii_case(column));
        at.ok_or_else(|| failed(format!("it has no column `{column}`")))
    };
    let (code, number) = (place("code")?, place("number")?);
    let mut out = BTreeMap::new();
    for record in reader.records() {
        let record = record.map_err(|error| failed(error.to_string()))?;
        if let (Some(code), Some(number)) = (record.get(code), record.get(number)) {
            out.insert(code.to_owned(), number.to_owned());
        }
    }
    Ok(out)
}
