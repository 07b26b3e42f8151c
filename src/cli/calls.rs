//! `office calls`: whom to call after a result, what answers are owed, and which calls were made.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use super::error::CliError;
use super::exit::Exit;
use super::gather::opened;
use super::input;
use super::key::unlock;
use super::lab::{enrol_self, find, random};
use super::read::cards;
use super::streams::Streams;
use crate::guide::answer_words;
use crate::office::archive::Archive;
use crate::office::calls::{Call, From, calls};
use crate::office::calls_made::{mark, unmark};
use crate::office::cards::NoLaboratories;
use crate::office::csv_sheet::CsvSheet;
use crate::office::own_chain::{Writing, append, new_id, write};
use crate::record::PersonCode;

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
    Done(Which),
    /// Take such a mark back.
    Undo(Which),
}

/// Which call, and who says so.
#[derive(Debug, clap::Args)]
pub(super) struct Which {
    /// The carcass: its id or six-letter code.
    #[arg(value_name = "CARCASS")]
    carcass: String,
    /// The call, as the list names it.
    #[arg(value_name = "CALL")]
    call: String,
    /// Code of who made it, or takes it back.
    #[arg(long, value_name = "CODE", value_parser = PersonCode::new)]
    by: PersonCode,
}

/// What is to be done.
#[derive(Debug)]
pub(super) struct Calls {
    pub archive: Archive,
    pub what: CallsCommand,
}

/// Lists, marks, or takes a mark back.
pub(super) fn run(config: &Calls, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let before = opened(&config.archive, streams)?;
    let cards = cards(&config.archive, &[], streams)?;
    let card = cards.today(streams.now).map(|given| given.card);
    if card.is_none() {
        streams.note("no local card: names and numbers are missing, and every disease counts as one to call for");
    }
    let laboratories = card.map(crate::card::Card::laboratories).transpose().map_err(NoLaboratories::from)?;
    let laboratories = laboratories.unwrap_or_default();
    let office = config.archive.office_key()?.map(|file| file.public()).transpose()?.map(|key| key.id());
    let numbers = match &config.what {
        CallsCommand::List { numbers: Some(file), .. } => numbers(file, streams)?,
        _ => BTreeMap::new(),
    };
    let (journal, folded) = (&before.gathered.journal, &before.folded);
    let all = calls(&From { folded, card, laboratories: &laboratories, office, numbers: &numbers });
    let (which, is_done) = match &config.what {
        CallsCommand::List { all: also_done, json, .. } => return print(&all, *also_done, *json, streams),
        CallsCommand::Done(which) => (which, true),
        CallsCommand::Undo(which) => (which, false),
    };
    let carcass = find(folded.carcasses.values(), &which.carcass)?;
    let key = unlock(&config.archive, streams)?.ok_or(CliError::NoOfficeKey)?;
    let mut writing =
        Writing { key: &key, person: which.by.clone(), at: streams.now, id: random()?, salts: Vec::new() };
    let path = if is_done {
        let fresh = new_id(streams.now, random()?);
        let said = mark(carcass, &all, &which.call, key.public().id(), fresh)?;
        writing.salts = said.iter().map(|_| random()).collect::<Result<_, _>>()?;
        enrol_self(&config.archive, &before.keyring, &key, streams)?;
        write(&config.archive, journal, said, &writing)?
    } else {
        let act = unmark(carcass, &all, &which.call)?;
        writing.salts.push(random()?);
        enrol_self(&config.archive, &before.keyring, &key, streams)?;
        append(&config.archive, journal, vec![act], &writing)?
    };
    streams.line(&format!("kept in {}", path.display()))?;
    Ok(Exit::Done)
}

fn print(all: &[Call], also_done: bool, json: bool, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let mut shown = all.iter().filter(|call| also_done || call.done.is_none()).peekable();
    if shown.peek().is_none() && !json {
        streams.line("no call is owed")?;
    }
    for call in shown {
        if json {
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
    let failed = |reason: String| CliError::Numbers { file: name.clone(), reason };
    let bytes = input::read(file, streams)?.map_err(|error| failed(error.to_string()))?;
    CsvSheet::numbers(&bytes).map_err(|error| failed(error.to_string()))
}
