//! A laboratory's sheet of results as CSV: every line is matched by its sample's number, and enters as answers of
//! the office's own, or is named with what does not fit.
//!
//! Nothing of a sheet is entered while one of its lines does not fit, unless a person leaves that line out by its
//! number.

use std::collections::{BTreeMap, BTreeSet};

use uuid::Uuid;

use super::lab_results::{Entered, TestState, entered};
use super::lab_row::{Asked, Row, answers, rows};
use super::send_out::{Sample, samples, sent_to};
use crate::card::{Laboratory, Test};
use crate::record::short_code::short_code;
use crate::record::{
    Act, Answer, DeviceId, EXAMINATION_KIND, EntryId, FindingCode, Flaw, Fold, Key, Moment, PersonCode, Sheet, Site,
    Subject, Value, links, plain_number, sample_number, validate_office,
};

pub use super::lab_row::{BadValue, COLUMNS, NoSheet};

/// What came of a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// It is to be entered.
    New(Vec<Act>),
    /// It takes the place of what stands: a pending or suspect result before, or a correction that was asked for.
    Instead(Vec<Act>, String),
    /// It is to be entered beside what a phone has, which the office cannot correct but weigh.
    Beside(Vec<Act>, String),
    /// Entered before, the same.
    Same,
    /// It does not fit.
    Mismatch(Mismatch),
    /// A person left it out.
    LeftOut,
}

/// What does not fit.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[allow(missing_docs)]
pub enum Mismatch {
    #[error("no sample has the number `{0}`")]
    UnknownSample(String),
    #[error("`{0}` was typed wrong: its last letter checks the number, and does not fit")]
    Mistyped(String),
    #[error("more than one sample has the number `{0}`: ask the crews which one was sent")]
    TwoSamples(String),
    #[error("sample `{sample}` is of carcass {of}, not of `{said}`")]
    OtherCarcass { sample: String, of: String, said: String },
    #[error("the local card names no test `{0}`")]
    UnknownTest(String),
    #[error("test `{test}` is not done on sample `{sample}` ({what})")]
    NotTested { test: String, sample: String, what: String },
    #[error("it repeats line {0}: one sample, one test")]
    Twice(u64),
    #[error("{0}")]
    Value(#[from] BadValue),
    #[error("{0}")]
    Flaw(#[from] Flaw),
    #[error("it was reported on {0}, which is before the sample was taken")]
    BeforeTaken(String),
    #[error("it was reported on {0}, which is still to come")]
    ToCome(String),
    #[error("`{before}` was entered before by {by}, and this says `{now}`")]
    OtherBefore { before: String, now: String, by: String },
    #[error(
        "a phone has `{before}` of this sample, entered by {by}, and this says `{now}`: with --correct, or the box below \
         these lines, it is entered beside it; then say which counts, by office decide answer or under To decide"
    )]
    OtherOnPhone { before: String, now: String, by: String },
}

/// A line of the sheet with what came of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// Its number in the file, the header's being 1.
    pub line: u64,
    /// The sample as the sheet has it.
    pub sample: String,
    /// The test.
    pub test: String,
    /// The carcass's short code, where the sample was found.
    pub carcass: String,
    /// What it says, with unit and scale; as it stands in the sheet where it was not understood.
    pub says: String,
    /// It was never noted as sent to the laboratory that has this test.
    pub never_sent: bool,
    /// What came of it.
    pub outcome: Outcome,
}

impl Outcome {
    /// What it would enter.
    pub fn acts(&self) -> &[Act] {
        match self {
            Self::New(acts) | Self::Instead(acts, _) | Self::Beside(acts, _) => acts,
            Self::Same | Self::Mismatch(_) | Self::LeftOut => &[],
        }
    }
}

impl Line {
    /// The line with what came of it, in words.
    pub fn words(&self) -> String {
        let came = match &self.outcome {
            Outcome::New(_) => String::new(),
            Outcome::Instead(_, before) => format!(" (in place of {before})"),
            Outcome::Beside(_, before) => {
                format!(
                    " (a phone's `{before}` stands beside it: say which counts, by office decide answer or under To decide)"
                )
            }
            Outcome::Same => " (entered before, the same)".to_owned(),
            Outcome::LeftOut => " (left out)".to_owned(),
            Outcome::Mismatch(what) => return format!("line {}: {what}", self.line),
        };
        let never =
            if self.never_sent && self.outcome != Outcome::LeftOut { "; it was never noted as sent" } else { "" };
        let carcass = if self.carcass.is_empty() { String::new() } else { format!(" of {}", self.carcass) };
        format!("line {}: {}{carcass}, {}: {}{came}{never}", self.line, self.sample, self.test, self.says)
    }
}

/// How a sheet is to be taken.
#[derive(Debug)]
pub struct Taking<'a> {
    /// Everything that the archive holds.
    pub folded: &'a Fold,
    /// The local card's laboratories.
    pub laboratories: &'a [Laboratory],
    /// The office's own device.
    pub own: DeviceId,
    /// Who enters it.
    pub by: PersonCode,
    /// Now.
    pub now: Moment,
    /// A line that says otherwise than what the office entered before stands in its place.
    pub correct: bool,
    /// Lines that a person leaves out.
    pub without: &'a BTreeSet<u64>,
}

/// Reads a sheet. `fresh` makes the id of a new examination.
///
/// # Errors
/// [`NoSheet`] where it is no CSV with the columns that are needed.
pub fn read(bytes: &[u8], taking: &Taking, mut fresh: impl FnMut() -> Uuid) -> Result<Vec<Line>, NoSheet> {
    let all = samples(taking.folded);
    let mut by_number: BTreeMap<String, Vec<&Sample>> = BTreeMap::new();
    for sample in all.iter().filter(|sample| !sample.item.number.is_empty()) {
        by_number.entry(plain_number(&sample.item.number)).or_default().push(sample);
    }
    let mut seen: BTreeMap<(String, String), u64> = BTreeMap::new();
    let mut out = Vec::new();
    let rows = rows(bytes)?;
    // A slip of the hand would leave the line that was meant in.
    if let Some(none) = taking.without.iter().find(|line| !rows.iter().any(|row| row.line == **line)) {
        return Err(NoSheet::NoLine(*none));
    }
    for row in rows {
        let mut line = Line {
            line: row.line,
            sample: row.sample.clone(),
            test: row.test.clone(),
            carcass: String::new(),
            says: row.says(),
            never_sent: false,
            outcome: Outcome::LeftOut,
        };
        if !taking.without.contains(&row.line) {
            let first = seen.entry((plain_number(&row.sample), row.test.clone())).or_insert(row.line);
            line.outcome = if *first == row.line {
                one(&row, taking, &by_number, &mut line, &mut fresh).unwrap_or_else(Outcome::Mismatch)
            } else {
                Outcome::Mismatch(Mismatch::Twice(*first))
            };
        }
        out.push(line);
    }
    Ok(out)
}

fn one(
    row: &Row,
    taking: &Taking,
    by_number: &BTreeMap<String, Vec<&Sample>>,
    line: &mut Line,
    fresh: &mut impl FnMut() -> Uuid,
) -> Result<Outcome, Mismatch> {
    let sample = match by_number.get(&plain_number(&row.sample)).map(Vec::as_slice) {
        Some([one]) => *one,
        Some(_) => return Err(Mismatch::TwoSamples(row.sample.clone())),
        None if sample_number::is_typed_right(&row.sample) == Some(false) => {
            return Err(Mismatch::Mistyped(row.sample.clone()));
        }
        None => return Err(Mismatch::UnknownSample(row.sample.clone())),
    };
    line.carcass = short_code(sample.carcass.id);
    if !row.carcass.is_empty() && !sample.carcass.is_called(&row.carcass) {
        let (sample, said) = (row.sample.clone(), row.carcass.clone());
        return Err(Mismatch::OtherCarcass { sample, of: line.carcass.clone(), said });
    }
    let named = |lab: &'_ &Laboratory| lab.tests.iter().any(|test| test.code == row.test);
    let laboratory = taking.laboratories.iter().find(named);
    let test = laboratory.and_then(|lab| lab.tests.iter().find(|test| test.code == row.test));
    let (Some(laboratory), Some(test)) = (laboratory, test) else {
        return Err(Mismatch::UnknownTest(row.test.clone()));
    };
    let sent = sent_to(&sample.item, laboratory);
    line.never_sent = !sent.contains_key(test.code.as_str());
    // Sent there for this test all the same, the office knew better than the card.
    if !test.takes(&sample.item.what) && line.never_sent {
        let what = sample.item.what.replace('_', " ");
        return Err(Mismatch::NotTested { test: row.test.clone(), sample: row.sample.clone(), what });
    }
    if let Some(reported) = row.reported()? {
        let taken = sample.item.lines.iter().find(|line| line.step.code() == "taken").and_then(|line| line.at);
        // Whole days: a laboratory's sheet bears a date, and clocks of phones are wrong by hours.
        if taken.is_some_and(|taken| reported.date() < taken.date()) {
            return Err(Mismatch::BeforeTaken(row.reported.clone()));
        }
        if reported.date() > taking.now.date() {
            return Err(Mismatch::ToCome(row.reported.clone()));
        }
    }
    let asked = Asked { test, laboratory, sample: &sample.item };
    let said = answers(row, &asked)?;
    let (result, site) = (said.result.clone(), said.site);
    line.says = in_short(&result, test);
    let mut before: Vec<Entered> = entered(sample.carcass)
        .into_iter()
        .filter(|one| one.is_of(&test.code, &sample.item.number, test.kind) && one.site == site)
        .collect();
    // What a phone has not looked at is no answer that could differ.
    before.retain(|one| one.id.device == taking.own || !one.is_pending());
    let others: Vec<&Entered> = before.iter().filter(|one| one.answer != result).collect();
    // What stands of the office's own is what a sheet takes the place of; a phone's answer is weighed, never replaced.
    let own = others.iter().find(|one| one.id.device == taking.own);
    let phones = others.iter().find(|one| one.id.device != taking.own);
    let has_said = before.iter().any(|one| one.answer == result && one.id.device == taking.own);
    if others.is_empty() && !before.is_empty() || own.is_none() && has_said {
        return Ok(Outcome::Same);
    }
    if let Some(phones) = phones.filter(|_| !taking.correct) {
        let (before, now, by) = (in_short(&phones.answer, test), in_short(&result, test), phones.by.clone());
        return Err(Mismatch::OtherOnPhone { before, now, by });
    }
    let replaced = own.map(|own| replaced(own, test, &result, taking)).transpose()?;
    let examination = replaced.map(|one| one.examination);
    let sheet = examination.and_then(|id| sample.carcass.examinations.get(&id)).map(|one| &one.sheet);
    let id = examination.unwrap_or_else(&mut *fresh);
    let mut acts = Vec::new();
    if examination.is_none() {
        let carcass = Answer::Seen { value: Value::Ref(sample.carcass.id) };
        acts.push(act(id, links::CARCASS, Site::NONE, carcass, Vec::new(), taking)?);
        acts.push(act(id, EXAMINATION_KIND, Site::NONE, Answer::choice("bench"), Vec::new(), taking)?);
    }
    for (finding, site, answer) in said.all {
        let (same, supersedes) = standing(sheet, finding, site, &answer, taking.own);
        if !same {
            acts.push(act(id, finding, site, answer, supersedes, taking)?);
        }
    }
    Ok(match (replaced, phones) {
        (Some(before), _) => Outcome::Instead(acts, in_short(&before.answer, test)),
        (None, Some(phones)) => Outcome::Beside(acts, in_short(&phones.answer, test)),
        (None, None) => Outcome::New(acts),
    })
}

/// The office's own result that a new one takes the place of, in its examination.
fn replaced<'e>(before: &'e Entered, test: &Test, now: &Answer, taking: &Taking) -> Result<&'e Entered, Mismatch> {
    let state = |answer: &Answer| TestState::of(answer).filter(|_| before.finding == "test_result");
    let goes_on = before.is_pending()
        // What is to be confirmed is confirmed or ruled out; what says less does not take its place.
        || state(&before.answer) == Some(TestState::Suspect)
            && matches!(state(now), Some(TestState::Positive | TestState::NotDetected));
    if goes_on || taking.correct {
        return Ok(before);
    }
    let (before, now, by) = (in_short(&before.answer, test), in_short(now, test), before.by.clone());
    Err(Mismatch::OtherBefore { before, now, by })
}

/// Whether the same stands on a question already, and the office's own entries there.
fn standing(sheet: Option<&Sheet>, finding: &str, site: Site, answer: &Answer, own: DeviceId) -> (bool, Vec<EntryId>) {
    let Some(sheet) = sheet else { return (false, Vec::new()) };
    let all = sheet.question(finding, site).standing;
    let same = all.iter().any(|one| one.answer == *answer);
    (same, all.iter().map(|one| one.id).filter(|id| id.device == own).collect())
}

fn act(
    examination: Uuid,
    finding: &str,
    site: Site,
    answer: Answer,
    supersedes: Vec<EntryId>,
    taking: &Taking,
) -> Result<Act, Flaw> {
    let (subject, observer) = (Subject::Examination(examination), taking.by.clone());
    let key = Key { subject, finding: FindingCode::from(finding), site, observer };
    validate_office(&key, &answer)?;
    Ok(Act::Answer { key, answer, supersedes })
}

/// A result in a few words, with its unit and scale.
fn in_short(answer: &Answer, test: &Test) -> String {
    use crate::card::TestKind::{CementumAge, MarrowDryWeight, MarrowFat};
    let tenths = |tenths: &i64| format!("{}.{} %", tenths / 10, tenths % 10);
    let words = |code: &str| code.replace('_', " ");
    match (answer, test.kind) {
        (Answer::Seen { value: Value::Number(years) }, CementumAge) => format!("{years} years"),
        (Answer::Seen { value: Value::Number(n) }, MarrowDryWeight) => format!("{} dry weight", tenths(n)),
        (Answer::Seen { value: Value::Number(n) }, MarrowFat) => format!("{} fat extracted", tenths(n)),
        (Answer::Seen { value: Value::Choice(code) }, _) => words(code),
        (Answer::Seen { .. }, _) => "a value".to_owned(),
        (Answer::NotSeen, _) => words(TestState::NotDetected.code()),
        (Answer::CantTell { .. } | Answer::PartGone { .. }, _) => TestState::Unsuitable.code().to_owned(),
        (Answer::NotLooked { .. }, _) => TestState::Pending.code().to_owned(),
    }
}
