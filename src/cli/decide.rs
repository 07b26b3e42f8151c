//! `office decide`: doubles and answers that differ, settled by signed decisions.

use std::collections::BTreeSet;

use super::config::{Refusal, value};
use super::error::CliError;
use super::exit::Exit;
use super::key::unlock;
use super::lab::{enrol_self, find, random};
use super::streams::Streams;
use crate::guide::answer_words;
use crate::office::archive::Archive;
use crate::office::cards::Cards;
use crate::office::chains::{clocks, forks_and_gaps};
use crate::office::decide::{all_open, answer, apart, said_same, same, two_animals};
use crate::office::own_chain::{Writing, append, held};
use crate::office::recompute::Gathered;
use crate::office::to_decide::{Double, ToCompare, odd_words, question_words};
use crate::reading::{Given, winter_log};
use crate::record::{EntryId, Fold, Moment, PersonCode, fold, short_code};
use crate::words::{Language, say_office};

/// The arguments as typed.
#[derive(Debug, clap::Subcommand)]
pub(super) enum DecideCommand {
    /// List what waits for a person: carcasses that may be one animal, likeliest first, with why; questions on which
    /// different results stand, each answer with the name of its entry; forks, gaps and clocks that went back.
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
        #[arg(long, value_name = "CODE")]
        by: String,
    },
    /// They are two: takes a decision that joined them back, and the pair is not listed again.
    Apart {
        /// The id under which the one was reported.
        #[arg(value_name = "ID")]
        one: uuid::Uuid,
        /// The id under which the other was reported.
        #[arg(value_name = "ID")]
        other: uuid::Uuid,
        /// Code of who decides.
        #[arg(long, value_name = "CODE")]
        by: String,
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
        #[arg(long, value_name = "CODE")]
        by: String,
    },
}

/// What is to be done.
#[derive(Debug)]
pub(super) struct Decide {
    archive: Archive,
    what: DecideCommand,
    /// Who decides; nobody where only a list is asked for.
    by: Option<PersonCode>,
}

impl Decide {
    /// The arguments, checked.
    pub(super) fn of(what: DecideCommand, archive: Archive) -> Result<Self, Refusal> {
        let by = match &what {
            DecideCommand::List => None,
            DecideCommand::Same { by, .. } | DecideCommand::Apart { by, .. } | DecideCommand::Answer { by, .. } => {
                Some(PersonCode::new(by).map_err(|error| value("--by", &error))?)
            }
        };
        Ok(Self { archive, what, by })
    }
}

/// Lists, or writes the decision and says where it lies.
pub(super) fn run(config: &Decide, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let keyring = config.archive.keyring()?;
    let before = held(&config.archive, &keyring)?;
    for (path, reason) in &before.unused {
        streams.note(&format!("{}: not used: {reason}", path.display()));
    }
    let journal = &before.gathered.journal;
    let folded = fold(journal);
    let Some(person) = config.by.clone() else { return list(config, &before.gathered, &folded, streams) };
    let key = |streams: &mut Streams<'_>| unlock(&config.archive, streams)?.ok_or(CliError::NoOfficeKey);
    let (acts, key) = match &config.what {
        DecideCommand::List => return list(config, &before.gathered, &folded, streams),
        DecideCommand::Same { one, other, .. } => {
            (vec![same(find(&folded, one)?, find(&folded, other)?)?], key(streams)?)
        }
        DecideCommand::Apart { one, other, .. } => {
            let key = key(streams)?;
            let device = key.public().id();
            let next = EntryId { device, seq: journal.head(device).seq + 1 };
            (apart(&folded, &journal.bodies().0, *one, *other, next)?, key)
        }
        DecideCommand::Answer { carcass, entry, reason, .. } => {
            (vec![answer(find(&folded, carcass)?, entry, reason)?], key(streams)?)
        }
    };
    enrol_self(&config.archive, &keyring, &key, streams)?;
    let writing = Writing { key: &key, person, at: streams.now, id: random()?, salts: vec![random()?, random()?] };
    let path = append(&config.archive, journal, acts, &writing)?;
    streams.line(&format!("decided; kept in {}", path.display()))?;
    Ok(Exit::Done)
}

/// Everything that waits for a person; the page of the office shows the same.
fn list(config: &Decide, gathered: &Gathered, folded: &Fold, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let language = Language::English;
    let keyring = config.archive.keyring()?;
    let bodies = gathered.journal.bodies().0;
    let two = two_animals(&bodies);
    let code = |id: uuid::Uuid| short_code::short_code(id);
    for (one, other) in said_same(folded, &two) {
        let args = [("one", code(one.id).into()), ("other", code(other.id).into())];
        streams.line(&say_office(language, "decide.said_same.why", &args))?;
        same_or_two(one.id, other.id, streams)?;
    }
    for double in doubles(config, folded, &two)? {
        let [likely, why] = double.words();
        streams.line(&format!("{} and {}: {likely} {why}", code(double.one), code(double.other)))?;
        same_or_two(double.one, double.other, streams)?;
    }
    for (carcass, open) in all_open(folded) {
        streams.line(&format!("{} ({})", code(carcass.id), carcass.id))?;
        for one in open {
            streams.line(&format!("  {}", question_words(&one.finding, one.site)))?;
            for standing in one.standing {
                let said = answer_words::answer(language, &one.finding, &standing.answer);
                streams.line(&format!(
                    "    {} by {} at {}: {said}",
                    standing.id,
                    standing.observer.as_str(),
                    standing.at
                ))?;
            }
        }
    }
    for odd in forks_and_gaps(&gathered.journal).into_iter().chain(clocks(&bodies)) {
        let (head, said) = odd_words(&odd, &keyring, &bodies);
        streams.line(&head)?;
        for said in said {
            streams.line(&format!("  {said}"))?;
        }
    }
    Ok(Exit::Done)
}

fn same_or_two(one: uuid::Uuid, other: uuid::Uuid, streams: &mut Streams<'_>) -> Result<(), CliError> {
    streams.line(&format!("  one animal:  office decide same {one} {other} --by CODE"))?;
    streams.line(&format!("  two animals: office decide apart {one} {other} --by CODE"))
}

fn doubles(config: &Decide, folded: &Fold, two: &BTreeSet<[uuid::Uuid; 2]>) -> Result<Vec<Double>, CliError> {
    let office = config.archive.office_key()?.and_then(|file| file.public().ok());
    let mut cards = Cards::default();
    for path in config.archive.cards()? {
        // A card that does not hold is named by `office read`; here it is not in force.
        let _ = cards.take(&config.archive.read(&path)?, office.as_ref());
    }
    let logs = winter_log::logs(folded);
    let given = Given { card: cards.today(Moment::EPOCH), ..Given::default() }.with(folded, &logs);
    let mut compare = ToCompare::default();
    folded.carcasses.values().for_each(|carcass| compare.take(carcass, &given));
    Ok(compare.doubles(folded, two))
}
