//! The send-out list: which samples lie where, to which laboratory of the local card they go, and what came back.
//!
//! Nothing is kept of it. What was sent is an entry of custody of the office's own chain, from the office to the
//! laboratory's code, with the tests asked for in its note; what came back is a result that names the sample.

use std::collections::BTreeMap;

use serde::Serialize;
use uuid::Uuid;

use super::lab_results::{Entered, SampleNames, entered};
use super::not_noted::{NotNoted, named};
use crate::card::{Laboratory, Test};
use crate::guide::answer_words;
use crate::record::short_code::short_code;
use crate::record::{
    Act, Answer, Carcass, CustodyGap, CustodyItem, CustodyLine, CustodyLineStep, CustodyStep, EntryId, Fold, Hands,
    Moment, PersonCode, Site, plain_number,
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
    /// The laboratory could not test the sample: nothing is known, and another has to be sent.
    Unsuitable,
    /// A result is entered.
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
    /// The entry of the last change of hands, where there was one.
    #[serde(skip)]
    pub last: Option<EntryId>,
}

impl Line {
    /// How far it is, in words.
    pub fn state_words(&self) -> String {
        match (self.state, self.sent_at) {
            (State::NotSent, _) => "not sent".to_owned(),
            (State::Sent, Some(at)) => format!("sent {}", answer_words::date_and_time(at)),
            (State::Sent, None) => "sent".to_owned(),
            (State::Pending, _) => "pending at the laboratory".to_owned(),
            (State::Unsuitable, _) => "unsuitable: nothing is known; send another sample".to_owned(),
            (State::Answered, _) => "answered".to_owned(),
        }
    }
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
    let hands = Hands::of(folded);
    let of = |carcass| hands.list(folded, carcass).into_iter().map(move |item| Sample { carcass, item });
    folded.carcasses.values().flat_map(of).collect()
}

/// Samples by every number that they go or went by.
#[derive(Debug)]
pub struct Numbers<'s, 'a>(BTreeMap<String, Vec<(u8, &'s Sample<'a>)>>);

/// The sample that a number means.
#[derive(Clone, Debug)]
pub struct Found<'s, 'a> {
    /// It.
    pub sample: &'s Sample<'a>,
    /// Others of the same carcass that went by that number and do not any more.
    pub went: Vec<&'s Sample<'a>>,
}

/// Why a number means no one sample.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NoOne {
    /// It is nobody's.
    Unknown,
    /// It is that of a sample of this carcass, by its code, and not of the one that was named.
    OtherCarcass(String),
    /// It is, or was, that of several: each in words.
    Several(String),
}

impl<'s, 'a> Numbers<'s, 'a> {
    /// Of these samples.
    pub fn of(samples: &'s [Sample<'a>]) -> Self {
        let mut out: BTreeMap<String, Vec<(u8, &Sample)>> = BTreeMap::new();
        for sample in samples {
            for number in sample.item.numbers() {
                let Some(rank) = sample.item.rank_of(number) else { continue };
                out.entry(plain_number(number)).or_default().push((rank, sample));
            }
        }
        for all in out.values_mut() {
            all.sort_by_key(|(rank, _)| *rank);
        }
        Self(out)
    }

    /// The sample that a number means; `carcass` is what is said of whose it is. On one carcass a label goes before a
    /// number that was corrected; over two carcasses nobody guesses: another animal's people would be called.
    ///
    /// # Errors
    /// See [`NoOne`].
    pub fn find(&self, number: &str, carcass: Option<&str>) -> Result<Found<'s, 'a>, NoOne> {
        let all = self.0.get(&plain_number(number)).map(Vec::as_slice).unwrap_or_default();
        let first = all.first().ok_or(NoOne::Unknown)?;
        let of = |one: &&(u8, &Sample)| carcass.is_none_or(|named| one.1.carcass.is_called(named));
        let here: Vec<&(u8, &Sample)> = all.iter().filter(of).collect();
        let Some(((nearest, sample), others)) = here.split_first() else {
            return Err(NoOne::OtherCarcass(short_code(first.1.carcass.id)));
        };
        let alike = |one: &&&(u8, &Sample)| one.0 == *nearest || one.1.carcass.id != sample.carcass.id;
        if others.iter().any(|one| alike(&one)) {
            let each: Vec<String> = here.iter().take(4).map(|(_, one)| in_words(one)).collect();
            return Err(NoOne::Several(each.join("; ")));
        }
        Ok(Found { sample, went: others.iter().map(|(_, one)| *one).collect() })
    }
}

/// A sample as it is told apart from another of the same number.
fn in_words(sample: &Sample) -> String {
    let what = answer_words::option(LANGUAGE, "sample_what", kind(sample));
    let what = if what.is_empty() { "a sample".to_owned() } else { what };
    format!("{what} of {}, {}", short_code(sample.carcass.id), sample.item.numbers().collect::<Vec<_>>().join(" or "))
}

/// What a sample is, where somebody said it; a jaw, a long bone by its place.
fn kind<'a>(sample: &'a Sample<'_>) -> &'a str {
    &sample.item.what
}

/// The list: for every sample every test of the card that is done on its kind, and each that it was sent for.
pub fn list(samples: &[Sample], laboratories: &[Laboratory]) -> Vec<Line> {
    // The samples of one carcass stand together.
    let of_each = samples.chunk_by(|one, next| one.carcass.id == next.carcass.id);
    of_each.flat_map(|of_one| of_carcass(of_one, laboratories)).collect()
}

/// The lines of all samples of one carcass.
pub(super) fn of_carcass(of_one: &[Sample], laboratories: &[Laboratory]) -> Vec<Line> {
    let mut out = Vec::new();
    let results = of_one.first().map(|one| entered(one.carcass)).unwrap_or_default();
    let names = SampleNames::of(of_one.iter().map(|one| &one.item));
    let mut of_each: BTreeMap<usize, Vec<&Entered>> = BTreeMap::new();
    for (at, result) in results.iter().flat_map(|one| names.places(&one.sample).map(move |at| (at, one))) {
        of_each.entry(at).or_default().push(result);
    }
    let each = of_one.iter().enumerate();
    for ((place, sample), laboratory) in each.flat_map(|one| laboratories.iter().map(move |lab| (one, lab))) {
        let sent = sent_to(&sample.item, laboratory);
        let results = of_each.get(&place).map(Vec::as_slice).unwrap_or_default();
        for test in &laboratory.tests {
            let at = sent.get(test.code.as_str()).copied();
            let of_this = |one: &&Entered| one.is_of(&test.code, test.kind);
            // What answers goes before what says that nothing is known yet.
            let result = results.iter().copied().filter(of_this).max_by_key(|one| state(Some(one), at));
            if test.takes(kind(sample)) || at.is_some() || result.is_some() {
                out.push(line(sample, laboratory, test, at, result));
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
    let kept = kept(sample.carcass, item);
    Line {
        carcass: sample.carcass.id,
        code: short_code(sample.carcass.id),
        number: item.number.clone(),
        what: item.what.clone(),
        laboratory: laboratory.code.to_string(),
        test: test.code.clone(),
        state: state(result, sent_at),
        holder: item.lines.last().map(|line| line.to.clone()).unwrap_or_default(),
        sent_at,
        packing: test.packing.clone(),
        label: label(sample, laboratory, test),
        custody: item.lines.iter().map(hand).collect(),
        gaps: item.gaps.clone(),
        last: item.lines.last().and_then(|line| line.entry),
        kept,
    }
}

fn state(result: Option<&Entered>, sent_at: Option<Moment>) -> State {
    match result.map(|result| &result.answer) {
        Some(Answer::NotLooked { .. }) => State::Pending,
        Some(Answer::CantTell { .. } | Answer::PartGone { .. }) => State::Unsuitable,
        Some(Answer::Seen { .. } | Answer::NotSeen) => State::Answered,
        None if sent_at.is_some() => State::Sent,
        None => State::NotSent,
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

fn hand(line: &CustodyLine) -> String {
    let step = say(LANGUAGE, &format!("custody.step.{}", line.step.code()), &[]);
    let from = line.from.as_ref().map(|from| format!("{from} > ")).unwrap_or_default();
    let mut parts = vec![format!("{step}: {from}{}", answer_words::holder(LANGUAGE, line))];
    parts.extend(line.at.map(answer_words::date_and_time));
    parts.extend([&line.place, &line.seal, &line.condition].into_iter().filter(|text| !text.is_empty()).cloned());
    parts.join(", ")
}

/// Begins the note of an entry by which samples leave for a laboratory.
const NOTE: &str = "tests: ";

/// The tests for which a sample was sent to a laboratory, with the last time. A crew that brings it there itself names no
/// test: then it is there for all that the laboratory does on such a sample.
pub fn sent_to<'a>(item: &'a CustodyItem, laboratory: &'a Laboratory) -> BTreeMap<&'a str, Moment> {
    let mut out = BTreeMap::new();
    let is_there = |line: &&CustodyLine| line.step == CustodyLineStep::Handed && line.to == laboratory.code.as_str();
    for line in item.lines.iter().filter(is_there) {
        let Some(at) = line.at else { continue };
        let tests: Vec<&str> = match line.note.strip_prefix(NOTE) {
            Some(named) => named.split(' ').filter(|test| !test.is_empty()).collect(),
            None => {
                laboratory.tests.iter().filter(|test| test.takes(&item.what)).map(|test| test.code.as_str()).collect()
            }
        };
        out.extend(tests.into_iter().map(|test| (test, at)));
    }
    out
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
/// See [`NotNoted`]: for one sample that cannot be sent, nothing is noted of any.
pub fn send(folded: &Fold, laboratories: &[Laboratory], parcel: &Parcel) -> Result<Vec<Act>, NotNoted> {
    let laboratory = laboratories
        .iter()
        .find(|one| one.code.as_str() == parcel.laboratory)
        .ok_or_else(|| NotNoted::NoLaboratory(parcel.laboratory.to_owned()))?;
    let name = || laboratory.code.to_string();
    if let Some(test) = parcel.tests.iter().find(|test| !laboratory.tests.iter().any(|one| one.code == **test)) {
        return Err(NotNoted::NoTest { laboratory: name(), test: test.clone() });
    }
    let all = samples(folded);
    let mut acts: Vec<Act> = Vec::new();
    for one in named(&Numbers::of(&all), parcel.numbers)? {
        let number = &one.item.number;
        let before = sent_to(&one.item, laboratory);
        let wanted = |test: &&Test| match parcel.tests {
            [] => test.takes(kind(one)),
            named => named.contains(&test.code),
        };
        let fitting: Vec<&str> = laboratory.tests.iter().filter(wanted).map(|test| test.code.as_str()).collect();
        if fitting.is_empty() {
            let what = answer_words::option(LANGUAGE, "sample_what", kind(one));
            return Err(NotNoted::NotTested { laboratory: name(), number: number.clone(), what });
        }
        let tests: Vec<&str> = fitting.into_iter().filter(|test| !before.contains_key(test)).collect();
        if tests.is_empty() {
            return Err(NotNoted::SentBefore(number.clone()));
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
