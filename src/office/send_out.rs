//! The send-out list: which samples lie where, to which laboratory of the local card they go, and what came back.
//!
//! Nothing is kept of it. What was sent is an entry of custody of the office's own chain, from the office to the
//! laboratory's code, with the tests asked for in its note; what came back is a result that names the sample.

use std::collections::BTreeMap;

use serde::Serialize;
use uuid::Uuid;

use super::lab_results::{Entered, entered};
use crate::card::{Laboratory, Test};
use crate::guide::answer_words;
use crate::record::short_code::short_code;
use crate::record::{
    Act, Carcass, Custody, CustodyGap, CustodyItem, CustodyStep, Fold, Moment, PersonCode, Site, custody_list,
    same_number,
};
use crate::words::{Language, say};

/// How far a test of a sample has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum State {
    /// It lies here.
    NotSent,
    /// On its way, or there; nothing came back.
    Sent,
    /// The laboratory said that it is not done yet.
    Pending,
    /// A result is entered; also that the sample was unsuitable.
    Answered,
}

/// One test of one sample.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Line {
    /// The carcass.
    pub carcass: Uuid,
    /// Its short code.
    pub code: String,
    /// The sample's number: on its label, or, with a gap that says so, the one that the form gives.
    pub number: String,
    /// What it is, by the code of `sample_what`.
    pub what: String,
    /// The laboratory's code.
    pub laboratory: String,
    /// The test's code.
    pub test: String,
    /// How far it is.
    pub state: State,
    /// Who has it now, by code.
    pub holder: String,
    /// When it was sent there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub sent_at: Option<Moment>,
    /// How it was put up in the field, by the code of `sample_kept`; empty where nobody said.
    pub kept: String,
    /// How the laboratory wants it packed.
    pub packing: String,
    /// The lines of its label.
    pub label: Vec<String>,
    /// Custody so far, one line a hand.
    pub custody: Vec<String>,
    /// What is missing of the custody, by code.
    pub gaps: Vec<CustodyGap>,
}

/// Every sample of a carcass, with its number.
#[derive(Clone, Debug)]
pub struct Sample<'a> {
    /// Of what.
    pub carcass: &'a Carcass,
    /// What was taken, and who had it.
    pub item: CustodyItem,
}

const LANGUAGE: Language = Language::English;

/// All samples of all carcasses, in order of carcasses.
pub fn samples(folded: &Fold) -> Vec<Sample<'_>> {
    let of = |carcass| custody_list(folded, carcass).into_iter().map(move |item| Sample { carcass, item });
    folded.carcasses.values().flat_map(of).collect()
}

/// What a sample is, where somebody said it; a jaw, a long bone by its place.
fn kind<'a>(sample: &'a Sample<'_>) -> &'a str {
    &sample.item.what
}

/// The list: for every sample every test of the card that is done on its kind, and each that it was sent for.
pub fn list(folded: &Fold, laboratories: &[Laboratory]) -> Vec<Line> {
    let mut out = Vec::new();
    for sample in samples(folded) {
        let results = entered(sample.carcass);
        for laboratory in laboratories {
            let sent = sent_to(&folded.custody, &sample.item.number, &laboratory.code);
            for test in &laboratory.tests {
                let at = sent.get(test.code.as_str()).copied();
                let result = results.iter().find(|one| one.is_of(&test.code, &sample.item.number, test.kind));
                if test.takes(kind(&sample)) || at.is_some() || result.is_some() {
                    out.push(line(&sample, laboratory, test, at, result));
                }
            }
        }
    }
    out
}

fn line(
    sample: &Sample,
    laboratory: &Laboratory,
    test: &Test,
    sent_at: Option<Moment>,
    result: Option<&Entered>,
) -> Line {
    let item = &sample.item;
    let state = match result {
        Some(result) if result.is_pending() => State::Pending,
        Some(_) => State::Answered,
        None if sent_at.is_some() => State::Sent,
        None => State::NotSent,
    };
    let kept = kept(sample.carcass, item);
    Line {
        carcass: sample.carcass.id,
        code: short_code(sample.carcass.id),
        number: item.number.clone(),
        what: item.what.clone(),
        laboratory: laboratory.code.to_string(),
        test: test.code.clone(),
        state,
        holder: item.lines.last().map(|line| line.to.clone()).unwrap_or_default(),
        sent_at,
        packing: test.packing.clone(),
        label: label(sample, laboratory, test),
        custody: item.lines.iter().map(hand).collect(),
        gaps: item.gaps.clone(),
        kept,
    }
}

fn kept(carcass: &Carcass, item: &CustodyItem) -> String {
    let sheet = carcass.examinations.get(&item.examination).map(|examination| &examination.sheet);
    let question = sheet.map(|sheet| sheet.question("sample_kept", Site::item(item.item)).answer());
    match question.as_ref().and_then(|answer| answer.value()) {
        Some(crate::record::Value::Choice(code)) => code.clone(),
        _ => String::new(),
    }
}

/// The crew's label, then for what and where it goes.
fn label(sample: &Sample, laboratory: &Laboratory, test: &Test) -> Vec<String> {
    let label = crate::guide::label(LANGUAGE, sample.carcass, &sample.item);
    let mut lines = vec![format!("{}: {}", say(LANGUAGE, "label.item", &[]), label.number)];
    lines.extend(label.lines.into_iter().map(|(name, value)| format!("{name}: {value}")));
    lines.push(format!("For: {} ({}), {}", test.name, test.code, laboratory.name));
    lines
}

fn hand(line: &crate::record::CustodyLine) -> String {
    let step = say(LANGUAGE, &format!("custody.step.{}", line.step.code()), &[]);
    let from = line.from.as_ref().map(|from| format!("{from} > ")).unwrap_or_default();
    let mut parts = vec![format!("{step}: {from}{}", line.to)];
    parts.extend(line.at.map(answer_words::date_and_time));
    parts.extend([&line.place, &line.seal, &line.condition].into_iter().filter(|text| !text.is_empty()).cloned());
    parts.join(", ")
}

/// Begins the note of an entry by which samples leave for a laboratory.
const NOTE: &str = "tests: ";

/// The tests for which a sample was sent to a laboratory, with the last time.
pub fn sent_to<'a>(hands: &'a [Custody], number: &str, laboratory: &PersonCode) -> BTreeMap<&'a str, Moment> {
    let mut out = BTreeMap::new();
    let there = hands.iter().filter(|hand| hand.to == *laboratory && hand.step == CustodyStep::Handed);
    for hand in there.filter(|hand| !number.is_empty() && same_number(&hand.sample, number)) {
        let tests = hand.note.strip_prefix(NOTE).unwrap_or_default();
        out.extend(tests.split(' ').filter(|test| !test.is_empty()).map(|test| (test, hand.at)));
    }
    out
}

/// Why nothing was noted as sent.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotSent {
    /// The card names no such laboratory.
    #[error("the local card names no laboratory `{0}`")]
    NoLaboratory(String),
    /// The laboratory has no such test.
    #[error("{laboratory} has no test `{test}` on the local card")]
    NoTest {
        /// The laboratory.
        laboratory: String,
        /// The test.
        test: String,
    },
    /// No sample has the number.
    #[error("no sample has the number `{0}`")]
    NoSample(String),
    /// Two have it.
    #[error("more than one sample has the number `{0}`")]
    TwoSamples(String),
    /// Nothing that the laboratory does fits the sample.
    #[error("{laboratory} tests nothing on sample `{number}` ({what})")]
    NotTested {
        /// The laboratory.
        laboratory: String,
        /// The sample.
        number: String,
        /// What it is.
        what: String,
    },
    /// It went there for the same before.
    #[error("sample `{0}` was noted as sent there before")]
    SentBefore(String),
}

/// What is noted of a parcel: from whom, from where, in what state.
#[derive(Clone, Debug)]
pub struct Parcel<'a> {
    /// To which laboratory.
    pub laboratory: &'a str,
    /// The samples' numbers.
    pub numbers: &'a [String],
    /// Tests asked for; none: all that fit.
    pub tests: &'a [String],
    /// Who gave it out of hand.
    pub from: PersonCode,
    /// Where.
    pub place: String,
    /// Number of the parcel's or the bag's seal.
    pub seal: String,
    /// In what state: frozen, cool, dry.
    pub condition: String,
}

/// The entries that say that the samples left for the laboratory, in the order of the numbers given.
///
/// # Errors
/// See [`NotSent`]: for one sample that cannot be sent, nothing is noted of any.
pub fn send(folded: &Fold, laboratories: &[Laboratory], parcel: &Parcel) -> Result<Vec<Act>, NotSent> {
    let laboratory = laboratories
        .iter()
        .find(|one| one.code.as_str() == parcel.laboratory)
        .ok_or_else(|| NotSent::NoLaboratory(parcel.laboratory.to_owned()))?;
    let name = || laboratory.code.to_string();
    if let Some(test) = parcel.tests.iter().find(|test| !laboratory.tests.iter().any(|one| one.code == **test)) {
        return Err(NotSent::NoTest { laboratory: name(), test: test.clone() });
    }
    let all = samples(folded);
    let mut acts: Vec<Act> = Vec::new();
    for typed in parcel.numbers {
        let mut with = all.iter().filter(|one| !one.item.number.is_empty() && same_number(&one.item.number, typed));
        let one = with.next().ok_or_else(|| NotSent::NoSample(typed.clone()))?;
        let number = &one.item.number;
        let twice = |act: &Act| matches!(act, Act::Custody { sample, .. } if same_number(sample, number));
        if with.next().is_some() || acts.iter().any(twice) {
            return Err(NotSent::TwoSamples(typed.clone()));
        }
        let before = sent_to(&folded.custody, number, &laboratory.code);
        let wanted = |test: &&Test| match parcel.tests {
            [] => test.takes(kind(one)),
            named => named.contains(&test.code),
        };
        let fitting: Vec<&str> = laboratory.tests.iter().filter(wanted).map(|test| test.code.as_str()).collect();
        if fitting.is_empty() {
            let what = answer_words::option(LANGUAGE, "sample_what", kind(one));
            return Err(NotSent::NotTested { laboratory: name(), number: number.clone(), what });
        }
        let tests: Vec<&str> = fitting.into_iter().filter(|test| !before.contains_key(test)).collect();
        if tests.is_empty() {
            return Err(NotSent::SentBefore(number.clone()));
        }
        acts.push(Act::Custody {
            sample: number.clone(),
            step: CustodyStep::Handed,
            from: Some(parcel.from.clone()),
            to: laboratory.code.clone(),
            place: parcel.place.clone(),
            seal: parcel.seal.clone(),
            seal_intact: None,
            condition: parcel.condition.clone(),
            note: format!("{NOTE}{}", tests.join(" ")),
        });
    }
    Ok(acts)
}
