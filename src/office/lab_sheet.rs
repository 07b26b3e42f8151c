//! A laboratory's sheet of results as CSV: every line is matched by its sample's number, and enters as answers of
//! the office's own, or is named with what does not fit.
//!
//! Nothing of a sheet is entered while one of its lines does not fit, unless a person leaves that line out by its
//! number.

use std::collections::{BTreeMap, BTreeSet};

use uuid::Uuid;

use super::homes::home;
use super::lab_results::{Entered, SampleNames, TestState, entered};
use super::lab_row::{Asked, Row, answers, rows};
use super::own_chain::new_id;
use super::send_out::{Found, NoOne, Numbers, Sample, samples, sent_to};
use crate::card::{Laboratory, Test};
use crate::record::short_code::short_code;
use crate::record::{
    Act, Answer, DeviceId, EXAMINATION_KIND, EntryId, FindingCode, Flaw, Fold, Keeping, Key, Moment, PersonCode, Sheet,
    Site, Subject, Value, find, find_office, links, plain_number, sample_number, validate_office,
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
    Beside(Vec<Act>, String, Beside),
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
    #[error(
        "more than one sample has or had the number `{number}` ({all}): ask the crews and the laboratory which one was \
         sent, and name its carcass in the column carcass, or write a number that is its own alone"
    )]
    TwoSamples { number: String, all: String },
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
    #[error("a phone has `{before}` of this sample, entered by {by}, and this says `{now}`")]
    OtherOnPhone { before: String, now: String, by: String, beside: Beside },
}

/// What comes of a result that is entered beside a phone's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Beside {
    /// They differ: a person says which counts.
    Split,
    /// This one says nothing of the animal (pending, unsuitable): the phone's goes on counting.
    NothingNew,
    /// The phone's said nothing of the animal: this one counts at once.
    Counts,
    /// Every reading of this kind is kept: both count.
    BothCount,
}

/// Where the words are read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum At {
    /// A terminal.
    CommandLine,
    /// The office's page.
    Page,
}

impl Beside {
    fn of(phones: &Entered, now: &Answer) -> Self {
        let def = find_office(phones.finding).or_else(|| find(phones.finding));
        match (phones.answer.is_informative(), now.is_informative()) {
            _ if def.is_some_and(|def| def.keeping == Keeping::Repeated) => Self::BothCount,
            (_, false) => Self::NothingNew,
            (false, true) => Self::Counts,
            (true, true) => Self::Split,
        }
    }

    /// What follows, and what the office can do.
    fn words(self, at: At) -> String {
        let decide = match at {
            At::CommandLine => "office decide answer",
            At::Page => "To decide",
        };
        match self {
            Self::Split => format!("both stand until you say which counts, by {decide}"),
            Self::NothingNew => {
                "the phone's goes on counting, for this says nothing of the animal and there is nothing \
                                 to decide; if the phone's is wrong, have its crew take it back and hand over again"
                    .to_owned()
            }
            Self::Counts => "it counts at once, for the phone's says nothing of the animal".to_owned(),
            Self::BothCount => "both count, for every reading of this kind is kept and no decision drops one; if the \
                                phone's is wrong, have its crew take it back and hand over again"
                .to_owned(),
        }
    }
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
    /// What a person has to know besides: another sample went by this number, a decision stands on the question.
    pub notes: Vec<String>,
    /// What came of it.
    pub outcome: Outcome,
}

impl Outcome {
    /// What it would enter.
    pub fn acts(&self) -> &[Act] {
        match self {
            Self::New(acts) | Self::Instead(acts, _) | Self::Beside(acts, _, _) => acts,
            Self::Same | Self::Mismatch(_) | Self::LeftOut => &[],
        }
    }
}

impl Line {
    /// The line with what came of it, in words; `at` is where they are read.
    pub fn words(&self, at: At) -> String {
        let came = match &self.outcome {
            Outcome::New(_) => String::new(),
            Outcome::Instead(_, before) => format!(" (in place of {before})"),
            Outcome::Beside(_, before, beside) => {
                format!(" (beside a phone's `{before}`, which is not corrected: {})", beside.words(at))
            }
            Outcome::Same => " (entered before, the same)".to_owned(),
            Outcome::LeftOut => " (left out)".to_owned(),
            Outcome::Mismatch(what) => return format!("line {}: {what}{}", self.line, what.next(at)),
        };
        let never =
            if self.never_sent && self.outcome != Outcome::LeftOut { "; it was never noted as sent" } else { "" };
        let carcass = if self.carcass.is_empty() { String::new() } else { format!(" of {}", self.carcass) };
        let notes: String = self.notes.iter().flat_map(|note| ["; ", note]).collect();
        format!("line {}: {}{carcass}, {}: {}{came}{never}{notes}", self.line, self.sample, self.test, self.says)
    }
}

impl Mismatch {
    /// What to do about it, where a person can say that the line holds all the same.
    fn next(&self, at: At) -> String {
        let (box_or_option, leave) = match at {
            At::CommandLine => ("--correct", "--without LINE"),
            At::Page => ("the box below these lines", "the box at the line"),
        };
        match self {
            Self::OtherBefore { .. } => {
                format!("; if this corrects what was entered, {box_or_option} puts it in its place")
            }
            Self::OtherOnPhone { beside, .. } => format!(
                ". No sheet corrects what a phone has: {box_or_option} enters this beside it, and then {}. Else leave \
                 the line out with {leave}",
                beside.words(at)
            ),
            _ => String::new(),
        }
    }
}

/// A sheet as it was looked through.
#[derive(Clone, Debug, Default)]
pub struct Checked {
    /// Its lines.
    pub lines: Vec<Line>,
    /// What would be entered; nothing while a line does not fit.
    pub acts: Vec<Act>,
    /// Lines that do not fit.
    pub wrong: usize,
}

/// Looks a sheet through; `random` gives the bytes of a new examination's id.
///
/// # Errors
/// Outside: no random bytes were to be had. Inside: [`NoSheet`].
pub fn check<E>(
    bytes: &[u8],
    taking: &Taking,
    mut random: impl FnMut() -> Result<[u8; 10], E>,
) -> Result<Result<Checked, NoSheet>, E> {
    let mut none = None;
    let fresh = || match random() {
        Ok(bytes) => new_id(taking.now, bytes),
        Err(error) => {
            none = Some(error);
            Uuid::nil()
        }
    };
    let lines = read(bytes, taking, fresh);
    if let Some(error) = none {
        return Err(error);
    }
    Ok(lines.map(|lines| {
        let wrong = lines.iter().filter(|line| matches!(line.outcome, Outcome::Mismatch(_))).count();
        let acts =
            if wrong > 0 { Vec::new() } else { lines.iter().flat_map(|line| line.outcome.acts()).cloned().collect() };
        Checked { lines, acts, wrong }
    }))
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

/// A sample by its examination and its place there; what means none, by its number.
type Meant = Result<(Uuid, u16), String>;

/// Reads a sheet. `fresh` makes the id of a new examination.
///
/// # Errors
/// [`NoSheet`] where it is no CSV with the columns that are needed.
pub fn read(bytes: &[u8], taking: &Taking, mut fresh: impl FnMut() -> Uuid) -> Result<Vec<Line>, NoSheet> {
    let all = samples(taking.folded);
    let numbers = Numbers::of(&all);
    let names = of_carcasses(&all);
    let mut seen: BTreeMap<(Meant, String), u64> = BTreeMap::new();
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
            notes: Vec::new(),
            outcome: Outcome::LeftOut,
        };
        if !taking.without.contains(&row.line) {
            let found = numbers.find(&row.sample, Some(row.carcass.as_str()).filter(|named| !named.is_empty()));
            // A sample by whichever of its numbers; what is none, by its number.
            let name = found.as_ref().map(|found| (found.sample.item.examination, found.sample.item.item));
            let name = name.map_err(|_| plain_number(&row.sample));
            let first = seen.entry((name, row.test.clone())).or_insert(row.line);
            line.outcome = if *first == row.line {
                one(&row, taking, (found, &names), &mut line, &mut fresh).unwrap_or_else(Outcome::Mismatch)
            } else {
                Outcome::Mismatch(Mismatch::Twice(*first))
            };
        }
        out.push(line);
    }
    Ok(out)
}

/// What the numbers of each carcass's samples mean, with the place of each sample among them.
type Names = BTreeMap<Uuid, (SampleNames, BTreeMap<(Uuid, u16), usize>)>;

fn of_carcasses(all: &[Sample]) -> Names {
    let of = |samples: &[Sample]| {
        let names = SampleNames::of(samples.iter().map(|one| &one.item));
        let places = samples.iter().enumerate().map(|(at, one)| ((one.item.examination, one.item.item), at)).collect();
        samples.first().map(|one| (one.carcass.id, (names, places)))
    };
    all.chunk_by(|one, next| one.carcass.id == next.carcass.id).filter_map(of).collect()
}

fn one(
    row: &Row,
    taking: &Taking,
    (found, names): (Result<Found<'_, '_>, NoOne>, &Names),
    line: &mut Line,
    fresh: &mut impl FnMut() -> Uuid,
) -> Result<Outcome, Mismatch> {
    let sample = match found {
        Ok(Found { sample, went }) => {
            if !went.is_empty() {
                let all: Vec<&str> = went.iter().map(|one| one.item.number.as_str()).collect();
                line.notes.push(format!("sample {} went by this number before it was corrected", all.join(", ")));
            }
            sample
        }
        Err(NoOne::Several(all)) => return Err(Mismatch::TwoSamples { number: row.sample.clone(), all }),
        Err(NoOne::OtherCarcass(of)) => {
            line.carcass.clone_from(&of);
            return Err(Mismatch::OtherCarcass { sample: row.sample.clone(), of, said: row.carcass.clone() });
        }
        Err(NoOne::Unknown) if sample_number::is_typed_right(&row.sample) == Some(false) => {
            return Err(Mismatch::Mistyped(row.sample.clone()));
        }
        Err(NoOne::Unknown) => return Err(Mismatch::UnknownSample(row.sample.clone())),
    };
    line.carcass = short_code(sample.carcass.id);
    if sample.item.rank_of(&row.sample) != Some(0) {
        line.notes.push(format!("the label of this sample reads {}", sample.item.number));
    }
    let has_test = |lab: &'_ &Laboratory| lab.tests.iter().any(|test| test.code == row.test);
    let laboratory = taking.laboratories.iter().find(has_test);
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
    let means = |number: &str| {
        let known = names.get(&sample.carcass.id);
        let this = known.and_then(|(_, places)| places.get(&(sample.item.examination, sample.item.item)));
        known.is_some_and(|(names, _)| names.places(number).any(|at| this == Some(&at)))
    };
    let mut before: Vec<Entered> = entered(sample.carcass)
        .into_iter()
        .filter(|one| one.is_of(&test.code, test.kind) && means(&one.sample) && one.site == site)
        .collect();
    // What was decided is no entry that a sheet could take the place of: it stands beside whatever comes in.
    let decided: Vec<Entered> = before.iter().filter(|one| one.decided && one.answer != result).cloned().collect();
    before.retain(|one| !one.decided);
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
        return Err(Mismatch::OtherOnPhone { before, now, by, beside: Beside::of(phones, &result) });
    }
    let still = decided.iter().map(|one| (one.id, &one.answer, one.by.clone()));
    let on_own = own.map(|own| sample.carcass.decisions(own.finding, own.site)).unwrap_or_default();
    let on_own =
        on_own.iter().filter(|(made, on)| made.answer != result && own.is_some_and(|own| on.contains(&own.id)));
    let on_own = on_own.map(|(made, _)| (made.id, &made.answer, made.observer.to_string()));
    for (id, answer, by) in still.chain(on_own) {
        line.notes.push(format!(
            "`{}` was decided by {by} (entry {id}) and goes on counting beside this: no sheet takes a decision back; at \
             the command line office decide undo {} {id} does",
            in_short(answer, test),
            line.carcass
        ));
    }
    let replaced = own.map(|own| replaced(own, test, &result, taking)).transpose()?;
    let examination = replaced.map(|one| one.examination);
    let sheet = examination.and_then(|id| sample.carcass.examinations.get(&id)).map(|one| &one.sheet);
    let id = examination.unwrap_or_else(&mut *fresh);
    let mut acts = Vec::new();
    if examination.is_none() {
        // Under the id under which the sample was taken: two that are taken apart again each keep their results.
        let carcass = Answer::Seen { value: Value::Ref(home(sample.carcass, sample.item.examination)) };
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
        (None, Some(phones)) => Outcome::Beside(acts, in_short(&phones.answer, test), Beside::of(phones, &result)),
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
