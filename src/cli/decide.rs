//! `office decide`: doubles and answers that differ, settled by signed decisions.

use super::config::{Refusal, value};
use super::error::CliError;
use super::exit::Exit;
use super::key::unlock;
use super::lab::{enrol_self, find, random};
use super::streams::Streams;
use crate::guide::answer_words;
use crate::office::archive::Archive;
use crate::office::decide::{all_open, answer, apart, said_same, same};
use crate::office::own_chain::{Writing, append, held};
use crate::record::{PersonCode, fold, short_code};
use crate::words::Language;

/// The arguments as typed.
#[derive(Debug, clap::Subcommand)]
pub(super) enum DecideCommand {
    /// List every question on which different results stand, each answer with the name of its entry.
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
    /// They are two after all: takes such a decision back.
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
    let Some(person) = config.by.clone() else { return list(&folded, streams) };
    let act = match &config.what {
        DecideCommand::List => return list(&folded, streams),
        DecideCommand::Same { one, other, .. } => same(find(&folded, one)?, find(&folded, other)?)?,
        DecideCommand::Apart { one, other, .. } => apart(&journal.bodies().0, *one, *other)?,
        DecideCommand::Answer { carcass, entry, reason, .. } => answer(find(&folded, carcass)?, entry, reason)?,
    };
    let key = unlock(&config.archive, streams)?.ok_or(CliError::NoOfficeKey)?;
    enrol_self(&config.archive, &keyring, &key, streams)?;
    let writing = Writing { key: &key, person, at: streams.now, id: random()?, salts: vec![random()?] };
    let path = append(&config.archive, journal, vec![act], &writing)?;
    streams.line(&format!("decided; kept in {}", path.display()))?;
    Ok(Exit::Done)
}

fn list(folded: &crate::record::Fold, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let language = Language::English;
    for (one, other) in said_same(folded) {
        let (code, with) = (short_code::short_code(one.id), short_code::short_code(other.id));
        streams.line(&format!(
            "{code} and {with}: the crew began {code} by the code of {with}. If they are one animal:"
        ))?;
        streams.line(&format!("  office decide same {} {} --by CODE", one.id, other.id))?;
    }
    for (carcass, open) in all_open(folded) {
        streams.line(&format!("{} ({})", short_code::short_code(carcass.id), carcass.id))?;
        for one in open {
            let site = answer_words::site(language, one.site);
            let site = if site.is_empty() { site } else { format!(", {site}") };
            streams.line(&format!("  {}{site}", answer_words::finding(language, &one.finding)))?;
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
    Ok(Exit::Done)
}
