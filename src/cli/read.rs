//! `office read`: recompute the readings of every carcass and print them, one JSON object a line.
//!
//! The carcasses of each findings table come first, in the order given; those of all bundles together
//! follow, because two bundles may hold two halves of one carcass.

use super::config::Read;
use super::error::CliError;
use super::exit::Exit;
use super::input;
use super::streams::Streams;
use crate::bundle::Step;
use crate::bundle::strict::{self, Strict};
use crate::office::archive::Archive;
use crate::office::cards::Cards;
use crate::office::findings_table::FindingsTable;
use crate::office::keyring::Keyring;
use crate::office::opening::{Judged, Outcome, Verdict, judge, judge_unread};
use crate::office::recompute::{CarcassLine, Gathered, Recomputed};
use crate::office::report::report;
use crate::reading::{self, Given, winter_log};
use crate::record::{Digest, Hands, fold};
use crate::words::Language;
use std::collections::BTreeSet;
use std::path::PathBuf;

/// Reads every file; the worst decides the exit code.
pub(super) fn run(config: &Read, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let keyring = config.archive.keyring()?;
    let cards = cards(&config.archive, &config.cards, streams)?;
    let mut gathered = Gathered::default();
    let mut exit = Exit::Done;
    for path in &config.files {
        let name = input::name(path);
        let one = match input::read(path, streams) {
            Err(error) => streams.fail(&error),
            Ok(Err(too_large)) => bundle(&name, &judge_unread(&too_large), &mut gathered, streams),
            Ok(Ok(bytes)) => file(&name, &bytes, &keyring, &cards, &mut gathered, streams)?,
        };
        exit = exit.max(one);
    }
    let recomputed = gathered.recompute_with(&cards, streams.now);
    for carcass in &recomputed.carcasses {
        print(carcass, streams)?;
    }
    for digest in missing_cards(&recomputed) {
        streams.note(&format!(
            "a phone had local card {digest}, which is not at hand, so what its readings differ in is not explained; \
             give it with --card"
        ));
    }
    for fork in &recomputed.forks {
        streams.note(&format!("two different entries claim the number {} of one device; both are kept", fork.seq));
    }
    for setback in &recomputed.folded.set_aside {
        streams.note(&format!("entry {} is set aside: {}", setback.id.seq, setback.reason));
    }
    let adrift = recomputed.folded.adrift.len();
    if adrift > 0 {
        streams.note(&format!("{adrift} of the examinations name no carcass, so they have no readings yet"));
    }
    if !recomputed.forks.is_empty() || !recomputed.folded.set_aside.is_empty() {
        exit = exit.max(Exit::Failed);
    }
    Ok(exit)
}

/// The cards of the archive and those named. One that does not hold is named; one of the archive's own is
/// never passed over, because figures would change without a word.
pub(super) fn cards(archive: &Archive, more: &[PathBuf], streams: &mut Streams<'_>) -> Result<Cards, CliError> {
    let office = archive.office_key()?.map(|file| file.public()).transpose()?;
    let mut cards = Cards::default();
    for path in archive.cards()?.iter().chain(more) {
        let file = input::name(path);
        let no_card = |reason: String| CliError::SignedCard { file: file.clone(), reason };
        let bytes = input::read(path, streams)?.map_err(|error| no_card(error.to_string()))?;
        let ours = cards.take(&bytes, office.as_ref()).map_err(|error| no_card(error.to_string()))?;
        if !ours {
            streams.note(&format!(
                "{file}: not signed by this office; used only for readings of phones that had this card"
            ));
        }
    }
    if !cards.is_empty() && !cards.any_in_force(streams.now) {
        streams.note(
            "no local card of this office is in force today; its newest is used where it was in force at a \
             carcass's last entry",
        );
    }
    Ok(cards)
}

/// Cards that phones had and that are not here, where it matters, each once.
fn missing_cards(recomputed: &Recomputed) -> BTreeSet<Digest> {
    let phones = recomputed.carcasses.iter().flat_map(|carcass| &carcass.phones);
    phones.filter(|phone| !phone.agrees).filter_map(|phone| phone.card_not_here).collect()
}

fn file(
    name: &str,
    bytes: &[u8],
    keyring: &Keyring,
    cards: &Cards,
    gathered: &mut Gathered,
    streams: &mut Streams<'_>,
) -> Result<Exit, CliError> {
    let judged = judge(bytes, keyring);
    let no_envelope = matches!(judged.verdict, Verdict::Damaged { step: Step::Envelope | Step::Text, .. });
    if no_envelope && says_its_form(bytes) {
        table(name, bytes, cards, streams)
    } else {
        Ok(bundle(name, &judged, gathered, streams))
    }
}

/// Whether this is JSON that says its form, as a table does and a signed file does not.
fn says_its_form(bytes: &[u8]) -> bool {
    match strict::read(bytes) {
        Ok(Strict::Object(members)) => matches!(members.get("format"), Some(Strict::Text(_))),
        _ => false,
    }
}

fn bundle(name: &str, judged: &Judged, gathered: &mut Gathered, streams: &mut Streams<'_>) -> Exit {
    gathered.take(judged);
    if judged.worst() != Outcome::Intact {
        let report = report(judged, Language::English, &|_| true);
        let used = match judged.outcome() {
            Outcome::Intact | Outcome::UnknownDevice => "read all the same",
            Outcome::Newer | Outcome::Damaged => "not read",
        };
        streams.note(&format!("{name}: {} ({used})", report.outcome));
    }
    judged.worst().into()
}

fn table(name: &str, bytes: &[u8], cards: &Cards, streams: &mut Streams<'_>) -> Result<Exit, CliError> {
    let no_table = |reason: String| CliError::Table { file: name.to_owned(), reason };
    let table = FindingsTable::read(bytes).map_err(|error| no_table(error.to_string()))?;
    let tabled = table.journal().map_err(|error| no_table(error.to_string()))?;
    let folded = fold(&tabled.journal);
    let hands = Hands::of(&folded);
    let logs = winter_log::logs(&folded);
    let given = Given { card: cards.today(streams.now), ..Given::default() }.with(&folded, &logs);
    for (carcass_name, id) in &tabled.carcasses {
        let Some(carcass) = folded.carcasses.get(id) else {
            streams.note(&format!("{name}: \"{carcass_name}\" has no examination, so it has no readings"));
            continue;
        };
        let of_this = tabled.set_aside.iter().filter(|row| row.carcass == *carcass_name);
        let line = CarcassLine {
            name: Some(carcass_name.clone()),
            custody: hands.list(&folded, carcass),
            set_aside: of_this.map(ToString::to_string).collect(),
            ..CarcassLine::of(reading::all(carcass, &given))
        };
        print(&line, streams)?;
    }
    for row in &tabled.set_aside {
        streams.note(&format!("{name}: \"{}\": set aside: {row}", row.carcass));
    }
    Ok(if tabled.set_aside.is_empty() { Exit::Done } else { Exit::Failed })
}

fn print(carcass: &CarcassLine, streams: &mut Streams<'_>) -> Result<(), CliError> {
    streams.line(&serde_json::to_string(carcass).map_err(|error| CliError::Output(error.into()))?)
}
