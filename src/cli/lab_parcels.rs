//! `office lab list`, `send`, `receive`, `back`, `read`: what waits for a laboratory, what arrived, what came back.

use std::path::{Path, PathBuf};

use super::error::CliError;
use super::exit::Exit;
use super::gather::opened;
use super::input;
use super::key::unlock;
use super::lab::{enrol_self, random};
use super::read::cards;
use super::streams::Streams;
use crate::card::Laboratory;
use crate::guide::answer_words;
use crate::office::archive::Archive;
use crate::office::lab_sheet::{At, Checked, Outcome, Taking, check};
use crate::office::not_noted::NotNoted;
use crate::office::own_chain::{Writing, append};
use crate::office::receipt::{Receipt, receive, take_back};
use crate::office::send_out::{Line, Parcel, Sample, State, list, samples, send};
use crate::record::{Act, PersonCode};
use crate::words::{Language, say};

/// The arguments as typed.
#[derive(Debug, clap::Subcommand)]
pub(super) enum LabCommand {
    /// The send-out list: every sample with who has it, how it is kept, where it goes for which test, its label, and
    /// whether it was sent and answered. Laboratories and tests are those of today's local card.
    List {
        /// Only of this laboratory.
        #[arg(long, value_name = "CODE")]
        lab: Option<String>,
        /// Also what is answered.
        #[arg(long)]
        all: bool,
        /// Print one JSON object a line.
        #[arg(long)]
        json: bool,
    },
    /// Note that samples left for a laboratory: an entry of custody a sample, signed. For one that cannot go there
    /// nothing is noted of any.
    Send {
        /// The laboratory's code on the local card.
        #[arg(value_name = "LAB")]
        laboratory: String,
        /// The samples' numbers.
        #[arg(required = true, value_name = "NUMBER")]
        numbers: Vec<String>,
        /// Code of who gave them out of hand.
        #[arg(long, value_name = "CODE", value_parser = PersonCode::new)]
        by: PersonCode,
        /// Only for this test, as often as wanted [default: all that the laboratory does on such a sample].
        #[arg(long = "test", value_name = "CODE")]
        tests: Vec<String>,
        /// Where they were given away.
        #[arg(long, value_name = "WORDS", default_value = "", hide_default_value = true)]
        place: String,
        /// The number on the parcel's seal.
        #[arg(long, value_name = "NUMBER", default_value = "", hide_default_value = true)]
        seal: String,
        /// In what state: frozen, cool, dry.
        #[arg(long, value_name = "WORDS", default_value = "", hide_default_value = true)]
        condition: String,
    },
    /// Note that samples were received, here or at a laboratory: an entry of custody a sample, signed.
    Receive {
        /// The samples' numbers.
        #[arg(required = true, value_name = "NUMBER")]
        numbers: Vec<String>,
        /// Code of who notes it, and has them now where no laboratory is named.
        #[arg(long, value_name = "CODE", value_parser = PersonCode::new)]
        by: PersonCode,
        /// They arrived at this laboratory of the local card [default: here].
        #[arg(long, value_name = "LAB")]
        at: Option<String>,
        /// Code of who gave them.
        #[arg(long, value_name = "CODE", value_parser = PersonCode::new)]
        from: Option<PersonCode>,
        /// Where.
        #[arg(long, value_name = "WORDS", default_value = "", hide_default_value = true)]
        place: String,
        /// The number read off the seal.
        #[arg(long, value_name = "NUMBER", default_value = "", hide_default_value = true)]
        seal: String,
        /// Somebody looked, and every seal was whole.
        #[arg(long, conflicts_with = "seal_broken")]
        seal_whole: bool,
        /// A seal was broken.
        #[arg(long)]
        seal_broken: bool,
        /// In what state: frozen, cool, dry, leaking.
        #[arg(long, value_name = "WORDS", default_value = "", hide_default_value = true)]
        condition: String,
    },
    /// Take back the last that the office noted of the way of these samples, sent or received, by a signed entry. What a
    /// crew noted stands, and so does what a result came back from.
    Back {
        /// The samples' numbers.
        #[arg(required = true, value_name = "NUMBER")]
        numbers: Vec<String>,
        /// Code of who takes it back.
        #[arg(long, value_name = "CODE", value_parser = PersonCode::new)]
        by: PersonCode,
    },
    /// Enter a laboratory's sheet of results, a CSV with the columns sample and test (the codes on label and local
    /// card), and result, reported, years, grade, tooth, percent, bone, from, carcass as far as the test has them. A
    /// disease is positive, suspect, not detected, unsuitable or pending. Every line that does not fit is named;
    /// while one is left, nothing is entered.
    Read {
        /// The sheet; `-` reads standard input.
        #[arg(value_name = "FILE")]
        file: PathBuf,
        /// Code of who enters it.
        #[arg(long, value_name = "CODE", value_parser = PersonCode::new)]
        by: PersonCode,
        /// Lines that say otherwise than what the office entered before stand in its place; those that say otherwise than
        /// a phone stand beside it, which no sheet corrects.
        #[arg(long)]
        correct: bool,
        /// Leave this line out, by its number in the file, as often as wanted.
        #[arg(long, value_name = "LINE")]
        without: Vec<u64>,
        /// Only say what would be entered.
        #[arg(long)]
        check: bool,
    },
}

/// What is to be done.
#[derive(Debug)]
pub(super) struct Parcels {
    pub archive: Archive,
    pub what: LabCommand,
}

/// Lists, notes or enters.
pub(super) fn run(config: &Parcels, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let before = opened(&config.archive, streams)?;
    let laboratories = laboratories(&config.archive, streams)?;
    let (by, acts) = match &config.what {
        LabCommand::List { lab, all, json } => {
            let is_one = |named: &&String| !laboratories.iter().any(|one| one.code.as_str() == **named);
            if let Some(named) = lab.as_ref().filter(is_one) {
                return Err(CliError::NotListed(NotNoted::NoLaboratory(named.clone())));
            }
            let samples = samples(&before.folded);
            let mut lines = list(&samples, &laboratories);
            let is_of = |line: &Line| lab.as_ref().is_none_or(|lab| line.laboratory == *lab);
            lines.retain(|line| is_of(line) && (*all || line.state < State::Answered));
            return print(&lines, *json, &laboratories, &samples, streams);
        }
        LabCommand::Send { laboratory, numbers, tests, place, seal, condition, by } => {
            let parcel = Parcel {
                laboratory,
                numbers,
                tests,
                from: by.clone(),
                place: place.clone(),
                seal: seal.clone(),
                condition: condition.clone(),
            };
            (by, send(&before.folded, &laboratories, &parcel)?)
        }
        LabCommand::Receive { numbers, by, at, from, place, seal, seal_whole, seal_broken, condition } => {
            let to = match at {
                Some(named) => {
                    let laboratory = laboratories.iter().find(|one| one.code.as_str() == named);
                    laboratory.ok_or_else(|| NotNoted::NoLaboratory(named.clone()))?.code.clone()
                }
                None => by.clone(),
            };
            let receipt = Receipt {
                numbers,
                to,
                from: from.clone(),
                place: place.clone(),
                seal: seal.clone(),
                seal_intact: (*seal_whole || *seal_broken).then_some(*seal_whole),
                condition: condition.clone(),
            };
            (by, receive(&before.folded, &receipt)?)
        }
        LabCommand::Back { numbers, by } => {
            let office = config.archive.office_key()?.ok_or(CliError::NoOfficeKey)?.public()?.id();
            (by, take_back(&before.folded, &laboratories, numbers, office)?)
        }
        LabCommand::Read { file, by, correct, without, check } => {
            let office = config.archive.office_key()?.ok_or(CliError::NoOfficeKey)?.public()?;
            let taking = Taking {
                folded: &before.folded,
                laboratories: &laboratories,
                own: office.id(),
                by: by.clone(),
                now: streams.now,
                correct: *correct,
                without: &without.iter().copied().collect(),
            };
            match sheet(file, &taking, *check, streams)? {
                Some(acts) => (by, acts),
                None => return Ok(Exit::Done),
            }
        }
    };
    let key = unlock(&config.archive, streams)?.ok_or(CliError::NoOfficeKey)?;
    enrol_self(&config.archive, &before.keyring, &key, streams)?;
    let salts = acts.iter().map(|_| random()).collect::<Result<_, _>>()?;
    let writing = Writing { key: &key, person: by.clone(), at: streams.now, id: random()?, salts };
    let path = append(&config.archive, &before.gathered.journal, acts, &writing)?;
    streams.line(&format!("kept in {}", path.display()))?;
    Ok(Exit::Done)
}

/// The laboratories of today's card.
pub(super) fn laboratories(archive: &Archive, streams: &mut Streams<'_>) -> Result<Vec<Laboratory>, CliError> {
    Ok(cards(archive, &[], streams)?.laboratories(streams.now)?)
}

/// The entries of a sheet; `None` where there is nothing to enter, or only a check was asked for.
fn sheet(
    file: &Path,
    taking: &Taking,
    only_check: bool,
    streams: &mut Streams<'_>,
) -> Result<Option<Vec<Act>>, CliError> {
    let name = input::name(file);
    let no_file =
        |error: &dyn ToString| CliError::File { file: name.clone(), error: std::io::Error::other(error.to_string()) };
    let bytes = input::read(file, streams)?.map_err(|error| no_file(&error))?;
    let no_sheet = |error| CliError::Sheet { file: name.clone(), error };
    let Checked { lines, acts, wrong } = check(&bytes, taking, random)?.map_err(no_sheet)?;
    for line in &lines {
        let said = line.words(At::CommandLine);
        match line.outcome {
            Outcome::Mismatch(_) => streams.note(&format!("{name}: {said}")),
            _ => streams.line(&said)?,
        }
    }
    if wrong > 0 {
        return Err(CliError::Mismatches { file: name, lines: wrong });
    }
    if acts.is_empty() || only_check {
        streams.line(if acts.is_empty() { "nothing new" } else { "nothing was entered: this was a check" })?;
        return Ok(None);
    }
    Ok(Some(acts))
}

fn print(
    lines: &[Line],
    json: bool,
    laboratories: &[Laboratory],
    samples: &[Sample],
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    if json {
        for line in lines {
            streams.line(&serde_json::to_string(line).map_err(|error| CliError::Output(error.into()))?)?;
        }
        return Ok(Exit::Done);
    }
    // Labels, places and remarks are words of others.
    let mut print_line = |line: &str| streams.line(line);
    for laboratory in laboratories {
        let mut here = lines.iter().filter(|line| line.laboratory == laboratory.code.as_str()).peekable();
        if here.peek().is_none() {
            continue;
        }
        print_line(&format!("{}: {}. {}", laboratory.code, laboratory.name, laboratory.address))?;
        for line in here {
            let holder = if line.holder.is_empty() { "nobody" } else { &line.holder };
            print_line(&format!("  {}, {}: {}; with {holder}", line.number, line.test, line.state_words()))?;
            for label in &line.label {
                print_line(&format!("    | {label}"))?;
            }
            if !line.packing.is_empty() {
                print_line(&format!("    packing: {}", line.packing))?;
            }
            print_line(&format!("    custody: {}", line.custody.join("; ")))?;
            if !line.gaps.is_empty() {
                let gap = |gap: &crate::record::CustodyGap| {
                    say(Language::English, &format!("custody.gap.{}", gap.code()), &[])
                };
                let gaps: Vec<String> = line.gaps.iter().map(gap).collect();
                print_line(&format!("    gaps: {}", gaps.join("; ")))?;
            }
        }
    }
    // What no laboratory of the card takes is not passed over.
    let taken = |what: &str| laboratories.iter().flat_map(|lab| &lab.tests).any(|test| test.takes(what));
    for item in samples.iter().map(|sample| &sample.item).filter(|item| !taken(&item.what)) {
        let what = answer_words::option(Language::English, "sample_what", &item.what);
        let said = format!("sample {} ({what}): no laboratory of the card tests such a sample", item.number);
        streams.note(&said);
    }
    Ok(Exit::Done)
}
