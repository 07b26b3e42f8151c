//! `office decide`: doubles and answers that differ, settled by signed decisions.

use super::error::CliError;
use super::exit::Exit;
use super::gather::{Opened, opened};
use super::key::unlock;
use super::lab::{enrol_self, find, random};
use super::read::cards;
use super::streams::Streams;
use crate::office::archive::Archive;
use crate::office::chains::{clocks, forks_and_gaps, unheeded};
use crate::office::decide::{answer, apart, same, undo};
use crate::office::own_chain::{Writing, append};
use crate::office::to_decide::{odd_words, waiting};
use crate::reading::{Given, winter_log};
use crate::record::{EntryId, Fold, Moment, PersonCode, plain_number, short_code};
use crate::words::{Language, say_office};
use uuid::Uuid;

/// The arguments as typed.
#[derive(Debug, clap::Subcommand)]
pub(super) enum DecideCommand {
    /// List what waits for a person: carcasses that may be one animal, likeliest first, with why; questions on which
    /// different results stand, each answer with the name of its entry; what was decided before, with what takes it back;
    /// forks, gaps and clocks that went back.
    List,
    /// Two carcasses are one animal reported twice.
    Same {
        /// The one: id, or six-letter code.
        #[arg(value_name = "CARCASS")]
        one: String,
        /// The other.
        #[arg(value_name = "CARCASS")]
        other: String,
        /// Code of who decides.
        #[arg(long, value_name = "CODE", value_parser = PersonCode::new)]
        by: PersonCode,
    },
    /// They are two: takes a decision that joined them back, and the pair is not listed again.
    Apart {
        /// The one, as it was reported: id, or six-letter code.
        #[arg(value_name = "CARCASS")]
        one: String,
        /// The other, as it was reported.
        #[arg(value_name = "CARCASS")]
        other: String,
        /// Code of who decides.
        #[arg(long, value_name = "CODE", value_parser = PersonCode::new)]
        by: PersonCode,
    },
    /// One of the answers to a question stands. What crews wrote is kept; a later answer opens the question again.
    Answer {
        /// The carcass: id, or six-letter code.
        #[arg(value_name = "CARCASS")]
        carcass: String,
        /// The entry whose answer stands, as the list names it.
        #[arg(value_name = "ENTRY")]
        entry: String,
        /// Why.
        #[arg(long, value_name = "WORDS")]
        reason: String,
        /// Code of who decides.
        #[arg(long, value_name = "CODE", value_parser = PersonCode::new)]
        by: PersonCode,
    },
    /// Take a decision on an answer back: what it weighed stands for itself again.
    Undo {
        /// The carcass: id, or six-letter code.
        #[arg(value_name = "CARCASS")]
        carcass: String,
        /// The decision's entry, as office calls, office lab read or the list names it.
        #[arg(value_name = "ENTRY")]
        entry: String,
        /// Code of who takes it back.
        #[arg(long, value_name = "CODE", value_parser = PersonCode::new)]
        by: PersonCode,
    },
}

/// What is to be done.
#[derive(Debug)]
pub(super) struct Decide {
    pub archive: Archive,
    pub what: DecideCommand,
}

/// Lists, or writes the decision and says where it lies.
pub(super) fn run(config: &Decide, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let before = opened(&config.archive, streams)?;
    let journal = &before.gathered.journal;
    let find = |named: &str| find(before.folded.carcasses.values(), named);
    let key = |streams: &mut Streams<'_>| unlock(&config.archive, streams)?.ok_or(CliError::NoOfficeKey);
    let (acts, key, by) = match &config.what {
        DecideCommand::List => return list(config, &before, streams),
        DecideCommand::Same { one, other, by } => (vec![same(find(one)?, find(other)?)?], key(streams)?, by),
        DecideCommand::Apart { one, other, by } => {
            let key = key(streams)?;
            let device = key.public().id();
            let next = EntryId { device, seq: journal.head(device).seq + 1 };
            let [one, other] = [reported(&before.folded, one)?, reported(&before.folded, other)?];
            (apart(&before.folded, &journal.bodies().0, one, other, next)?, key, by)
        }
        DecideCommand::Answer { carcass, entry, reason, by } => {
            (vec![answer(find(carcass)?, entry, reason)?], key(streams)?, by)
        }
        DecideCommand::Undo { carcass, entry, by } => (vec![undo(find(carcass)?, entry)?], key(streams)?, by),
    };
    enrol_self(&config.archive, &before.keyring, &key, streams)?;
    let salts = vec![random()?, random()?];
    let writing = Writing { key: &key, person: by.clone(), at: streams.now, id: random()?, salts };
    let path = append(&config.archive, journal, acts, &writing)?;
    streams.line(&format!("decided; kept in {}", path.display()))?;
    Ok(Exit::Done)
}

/// The id under which a carcass was reported, by itself or by its code: of one that was joined each id has a code.
fn reported(folded: &Fold, named: &str) -> Result<Uuid, CliError> {
    if let Ok(id) = Uuid::parse_str(named.trim()) {
        return Ok(id);
    }
    let carcass = find(folded.carcasses.values(), named)?;
    let of_code = |id: &&Uuid| short_code::short_code(**id) == plain_number(named);
    Ok(carcass.joined.iter().find(of_code).copied().unwrap_or(carcass.id))
}

/// Everything that waits for a person; the page of the office shows the same.
fn list(config: &Decide, before: &Opened, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let language = Language::English;
    let Opened { keyring, gathered, folded } = before;
    let bodies = gathered.journal.bodies().0;
    let code = |id: Uuid| short_code::short_code(id);
    let cards = cards(&config.archive, &[], streams)?;
    let logs = winter_log::logs(folded);
    // As the season judges a card: at each carcass's last entry.
    let given = Given { card: cards.today(Moment::EPOCH), ..Given::default() }.with(folded, &logs);
    let waiting = waiting(folded, &bodies, given);
    for [one, other] in waiting.said_same {
        let args = [("one", code(one).into()), ("other", code(other).into())];
        streams.line(&say_office(language, "decide.said_same.why", &args))?;
        same_or_two(one, other, streams)?;
    }
    if !waiting.doubles.is_empty() {
        // The figures are judgement: said once, before the first.
        streams.line(&say_office(language, "decide.doubles.what", &[]))?;
    }
    for double in waiting.doubles {
        let [likely, why] = double.words();
        streams.line(&format!("{} and {}: {likely} {why}", code(double.one), code(double.other)))?;
        same_or_two(double.one, double.other, streams)?;
    }
    let mut line = |text: &str| streams.line(text);
    let mut before = None;
    for split in waiting.open {
        if before.replace(split.carcass) != Some(split.carcass) {
            line(&format!("{} ({})", code(split.carcass), split.carcass))?;
        }
        line(&format!("  {}", split.question))?;
        for one in split.answers {
            line(&format!("    {} by {} at {}: {}", one.entry, one.by, one.at, one.said))?;
        }
    }
    for [one, other] in waiting.joined {
        let args = [("one", code(one).into()), ("other", code(other).into())];
        line(&say_office(language, "decide.joined.line", &args))?;
        line(&format!("  take apart: office decide apart {one} {other} --by CODE"))?;
    }
    for one in waiting.decided {
        line(&format!("{}: {}: {}, decided by {}", code(one.carcass), one.question, one.made.said, one.made.by))?;
        line(&format!("  take back: office decide undo {} {} --by CODE", one.carcass, one.made.entry))?;
    }
    for odd in forks_and_gaps(&gathered.journal).into_iter().chain(clocks(&bodies)).chain(unheeded(&bodies)) {
        let (head, said) = odd_words(&odd, keyring, &bodies);
        line(&head)?;
        for said in said {
            line(&format!("  {said}"))?;
        }
    }
    Ok(Exit::Done)
}

fn same_or_two(one: Uuid, other: Uuid, streams: &mut Streams<'_>) -> Result<(), CliError> {
    streams.line(&format!("  one animal:  office decide same {one} {other} --by CODE"))?;
    streams.line(&format!("  two animals: office decide apart {one} {other} --by CODE"))
}
