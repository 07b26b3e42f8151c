//! Chain of custody: what was taken, its number and seal, and everybody who had it, from who found the
//! carcass to who received the sample.
//!
//! Nothing is asked twice: finding, taking and sealing are read from the answers, hand-overs from the
//! entries of kind `custody`. Gaps are told, never filled.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;
use uuid::Uuid;

use super::sample_number::{UNLABELLED, sample_number};
use super::{
    Carcass, Custody, CustodyStep, EntryId, Examination, Fold, Moment, PersonCode, Place, Sheet, Site, Standing, Value,
    links,
};
use crate::order::Short as _;

/// One thing that left with somebody.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CustodyItem {
    /// The number on its label; the one that the form proposes where nobody wrote one ([`CustodyGap::NoNumber`]).
    pub number: String,
    /// Other numbers by which it goes or went: the form's own, one that a second person read, one that was corrected.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub other_numbers: Vec<String>,
    /// What it is, by the code of `sample_what`; empty where nobody said.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub what: String,
    /// The examination at which it was taken.
    pub examination: Uuid,
    /// Its place among the samples of that examination.
    pub item: u16,
    /// Seal number as written when it was closed; empty where none was.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub seal: String,
    /// Who had it, in turn.
    pub lines: Vec<CustodyLine>,
    /// What is missing or does not fit.
    pub gaps: Vec<CustodyGap>,
}

impl CustodyItem {
    /// Every number by which it goes or went, that on its label first.
    pub fn numbers(&self) -> impl Iterator<Item = &str> {
        std::iter::once(&self.number).chain(&self.other_numbers).map(String::as_str)
    }

    /// Whether it goes or went by this number.
    pub fn is_called(&self, number: &str) -> bool {
        self.rank_of(number).is_some()
    }

    /// How near a number is to it: 0 is on its label, 1 the form's own, 2 one that it went by or that somebody read;
    /// `None` where it never did. Of several things that a number fits, it is the nearest one's.
    pub fn rank_of(&self, number: &str) -> Option<u8> {
        let number = plain_number(number);
        if number.is_empty() || !self.numbers().any(|one| plain_number(one) == number) {
            return None;
        }
        let is = |one: &str| plain_number(one) == number;
        Some(if is(&self.number) { 0 } else { 2 - u8::from(is(&sample_number(self.examination, self.item))) })
    }
}

/// What happened, on a line of the list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum CustodyLineStep {
    /// Somebody reported the carcass.
    Reported,
    /// A crew found it.
    Found,
    /// Taken from it.
    Taken,
    /// Closed and sealed.
    Sealed,
    /// Given from one person to another.
    Handed,
    /// Received at the office or laboratory.
    Received,
    /// Destroyed or used up.
    UsedUp,
}

impl CustodyLineStep {
    /// The code used in message ids (`custody.step.<code>`).
    pub const fn code(self) -> &'static str {
        match self {
            Self::Reported => "reported",
            Self::Found => "found",
            Self::Taken => "taken",
            Self::Sealed => "sealed",
            Self::Handed => "handed",
            Self::Received => "received",
            Self::UsedUp => "used_up",
        }
    }
}

/// One line: who had it from when.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CustodyLine {
    /// What happened.
    pub step: CustodyLineStep,
    /// Who gave it, where somebody did.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// Who has it since, by code; who reported, by kind.
    pub to: String,
    /// When, by the device's clock.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<Moment>,
    /// Where; empty where nobody said.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub place: String,
    /// Number read off the seal.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub seal: String,
    /// Whether the seal was whole, where somebody looked.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub seal_intact: Option<bool>,
    /// State of the thing.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub condition: String,
    /// Container, reason, remarks.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// The entry that says it, of a change of hands; what is read from answers has several.
    #[serde(skip)]
    pub entry: Option<EntryId>,
}

/// What is missing from a chain, or does not fit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum CustodyGap {
    /// Nobody wrote a number on it.
    NoNumber,
    /// Another thing bears the same number.
    NumberTwice,
    /// Nobody said that it was sealed.
    NotSealed,
    /// Sealed without a number on the seal.
    NoSealNumber,
    /// Given by somebody who did not have it.
    NotTheHolder,
    /// The seal's number is not the one before.
    OtherSeal,
    /// The seal was broken when it changed hands.
    SealBroken,
    /// Place or condition was not said when it changed hands.
    NotDescribed,
    /// Nobody has said that it was received.
    NotReceived,
}

impl CustodyGap {
    /// All.
    pub const ALL: [Self; 9] = [
        Self::NoNumber,
        Self::NumberTwice,
        Self::NotSealed,
        Self::NoSealNumber,
        Self::NotTheHolder,
        Self::OtherSeal,
        Self::SealBroken,
        Self::NotDescribed,
        Self::NotReceived,
    ];

    /// The code used in message ids (`custody.gap.<code>`).
    pub const fn code(self) -> &'static str {
        match self {
            Self::NoNumber => "no_number",
            Self::NumberTwice => "number_twice",
            Self::NotSealed => "not_sealed",
            Self::NoSealNumber => "no_seal_number",
            Self::NotTheHolder => "not_the_holder",
            Self::OtherSeal => "other_seal",
            Self::SealBroken => "seal_broken",
            Self::NotDescribed => "not_described",
            Self::NotReceived => "not_received",
        }
    }
}

/// Numbers are compared as people read them: blanks and small letters do not count.
pub fn same_number(a: &str, b: &str) -> bool {
    plain_number(a) == plain_number(b)
}

/// A number without what does not count.
pub fn plain_number(text: &str) -> String {
    text.chars().filter(|c| c.is_alphanumeric()).map(super::letters::large).collect()
}

/// Everything that was taken from a carcass, in the order of its examinations. Looks through the whole fold for each
/// thing, which is little code for a phone: over all carcasses of a season one [`Hands`] does it once.
pub fn custody_list(fold: &Fold, carcass: &Carcass) -> Vec<CustodyItem> {
    list(fold, carcass, &|item| {
        let borne_elsewhere = |number: &str| {
            fold.carcasses.values().any(|one| {
                one.examinations.values().any(|exam| {
                    let others = samples_taken(&exam.sheet).into_iter();
                    let mut others = others.filter(|at| (exam.id, *at) != (item.examination, item.item));
                    others.any(|at| same_number(&numbers(one, exam, at).0, number))
                })
            })
        };
        let is_of = |hand: &&Custody| {
            item.rank_of(&hand.sample).is_some_and(|rank| rank == 0 || !borne_elsewhere(&hand.sample))
        };
        fold.custody.iter().filter(is_of).map(of_hand).collect()
    })
}

/// Where the changes of hands of each number stand in a fold, and which numbers are on a label now.
#[derive(Clone, Debug, Default)]
pub struct Hands {
    at: BTreeMap<String, Vec<usize>>,
    /// The number on each thing's label, with its examination and its place there.
    borne: BTreeMap<String, BTreeSet<(Uuid, u16)>>,
}

impl Hands {
    /// Of all changes of hands of a fold.
    pub fn of(fold: &Fold) -> Self {
        let mut out = Self::begin(fold);
        fold.carcasses.values().for_each(|carcass| out.bear(carcass));
        out
    }

    /// The same before any carcass was asked for its samples: [`Self::bear`] each of them.
    pub fn begin(fold: &Fold) -> Self {
        let mut out = Self::default();
        for (at, hand) in fold.custody.iter().enumerate() {
            out.at.entry(plain_number(&hand.sample)).or_default().push(at);
        }
        out
    }

    /// Notes which numbers the samples of a carcass bear.
    pub fn bear(&mut self, carcass: &Carcass) {
        // Without a change of hands there is none to be put to the wrong thing.
        for exam in carcass.examinations.values().filter(|_| !self.at.is_empty()) {
            for item in samples_taken(&exam.sheet) {
                let number = plain_number(&numbers(carcass, exam, item).0);
                self.borne.entry(number).or_default().insert((exam.id, item));
            }
        }
    }

    /// Everything that was taken from a carcass of `fold`, which is the one that this was made of.
    pub fn list(&self, fold: &Fold, carcass: &Carcass) -> Vec<CustodyItem> {
        list(fold, carcass, &|item| self.lines(fold, item))
    }

    /// Whether what changed hands under a number is this thing: the number is on its label, or one that it goes or went
    /// by and that no other thing bears now. A slip of the pen that was mended gives nobody another's chain of custody.
    pub fn is_of(&self, item: &CustodyItem, number: &str) -> bool {
        let this = (item.examination, item.item);
        let is_free = || self.borne.get(&plain_number(number)).is_none_or(|all| all.contains(&this));
        item.rank_of(number).is_some_and(|rank| rank == 0 || is_free())
    }

    /// The changes of hands of a thing under any of its numbers.
    fn lines(&self, fold: &Fold, item: &CustodyItem) -> Vec<CustodyLine> {
        let all = item.numbers().filter(|number| self.is_of(item, number));
        let places: BTreeSet<usize> =
            all.filter_map(|one| self.at.get(&plain_number(one))).flatten().copied().collect();
        places.into_iter().filter_map(|at| fold.custody.get(at)).map(of_hand).collect()
    }
}

/// The changes of hands of a thing.
type HandsOf<'a> = &'a dyn Fn(&CustodyItem) -> Vec<CustodyLine>;

fn list(fold: &Fold, carcass: &Carcass, hands: HandsOf<'_>) -> Vec<CustodyItem> {
    let mut all: Vec<CustodyItem> = Vec::new();
    for exam in carcass.examinations.values() {
        let before = found(fold, &exam.sheet);
        for item in samples_taken(&exam.sheet) {
            all.push(chain((carcass, exam, item), &before, hands));
        }
    }
    let (mut once, mut twice) = (BTreeSet::new(), BTreeSet::new());
    for item in &all {
        let number = plain_number(&item.number);
        if once.contains(&number) {
            twice.insert(number);
        } else {
            once.insert(number);
        }
    }
    for item in &mut all {
        if twice.contains(&plain_number(&item.number)) {
            item.gaps.push(CustodyGap::NumberTwice);
            item.gaps.order();
        }
    }
    all
}

fn chain(
    (carcass, exam, item): (&Carcass, &Examination, u16),
    before: &[CustodyLine],
    hands: HandsOf<'_>,
) -> CustodyItem {
    let (sheet, site) = (&exam.sheet, Site::item(item));
    let written = written_number(sheet, item);
    let (number, other_numbers) = numbers(carcass, exam, item);
    let said = text(sheet, "sample_what", site);
    let what = if said.is_empty() { sample_of_item(item).unwrap_or_default().to_owned() } else { said };
    let seal = text(sheet, "seal_number", site);
    let mut lines = before.to_vec();
    let took = match item {
        1 => seen(sheet, "jaw_taken", Site::NONE),
        2 => seen(sheet, "femur_taken", Site::NONE),
        10 | 11 => seen(sheet, "organs_taken", Site::NONE),
        _ => None,
    };
    if let Some(said) = took.or(written).or_else(|| seen(sheet, "sample_what", site)) {
        let mut taken = line(CustodyLineStep::Taken, &said.observer, said.at);
        taken.place = place_of(sheet);
        lines.push(taken);
    }
    let sealed = seen(sheet, "sample_sealed", site);
    if let Some(said) = sealed {
        let mut closed = line(CustodyLineStep::Sealed, &said.observer, said.at);
        closed.seal.clone_from(&seal);
        lines.push(closed);
    }
    let examination = exam.id;
    let mut item = CustodyItem { number, other_numbers, what, examination, item, seal, lines, gaps: Vec::new() };
    // It may have changed hands under the number that the form gave, before a label was written, or under one that
    // was read wrong.
    item.lines.extend(hands(&item));
    item.gaps = gaps(is_labelled(sheet, item.item), &item.seal, sealed.is_some(), &item.lines);
    item
}

/// The number of a thing, and the others by which it goes or went: a second person's, one that was corrected or taken
/// back, the form's own. Where the office chose among several, what it chose is the number.
fn numbers(carcass: &Carcass, exam: &Examination, item: u16) -> (String, Vec<String>) {
    const NUMBER: &str = "sample_number";
    let (sheet, site) = (&exam.sheet, Site::item(item));
    let ours = sample_number(exam.id, item);
    let chosen = || sheet.question(NUMBER, site).standing.into_iter().filter(|one| carcass.counts(NUMBER, site, one));
    let of = |one: &Standing| match one.answer.value() {
        Some(Value::Text(number)) if !number.is_empty() => Some(number.clone()),
        _ => None,
    };
    let label = chosen().filter(|one| one.step.as_deref() != Some(UNLABELLED)).find_map(of);
    let number = label.or_else(|| chosen().find_map(of)).unwrap_or_else(|| ours.clone());
    let ever = sheet.ever_at(NUMBER, site).filter_map(|answer| match answer.value() {
        Some(Value::Text(number)) => Some(number.clone()),
        _ => None,
    });
    let mut known = BTreeSet::from([String::new(), plain_number(&number)]);
    let others = ever.chain([ours]).filter(|one| known.insert(plain_number(one))).collect();
    (number, others)
}

/// Numbers of the things that were taken: counted, or described.
pub fn samples_taken(sheet: &Sheet) -> Vec<u16> {
    const OF_SAMPLES: &[&str] = &["sample_number", "sample_what", "sample_sealed", "seal_number"];
    let said = sheet
        .answers()
        .filter(|(code, _, all)| OF_SAMPLES.contains(&code.as_str()) && all.iter().any(|s| s.answer.value().is_some()));
    let mut all: Vec<u16> = said.filter_map(|(_, site, _)| site.item).collect();
    all.extend(samples_counted(sheet));
    all.order();
    all.dedup();
    all
}

/// Numbers of the things that somebody said were taken: 1 the jaw, 2 the long bone, 3 to 9 the others, 10 the kidneys,
/// 11 the heart. Where two people counted differently it is the larger count: nothing that one of them took may be
/// missing from a list.
pub fn samples_counted(sheet: &Sheet) -> Vec<u16> {
    let values = |finding| sheet.question(finding, Site::NONE).standing.into_iter().filter_map(|s| s.answer.value());
    let mut all = Vec::new();
    for (finding, item) in [("jaw_taken", 1), ("femur_taken", 2)] {
        all.extend(values(finding).next().map(|_| item));
    }
    let count =
        values("other_samples_count").filter_map(|v| if let Value::Number(n) = v { Some(*n) } else { None }).max();
    all.extend((3..=9).take(count.and_then(|n| usize::try_from(n).ok()).unwrap_or_default()));
    for (organ, item) in [("kidneys", 10), ("heart", 11)] {
        let has = |v: &Value| matches!(v, Value::Choices(all) if all.iter().any(|one| one == organ));
        all.extend(values("organs_taken").any(has).then_some(item));
    }
    all
}

/// The number of a thing as it was read off its label; where nobody has read one, the number that the form gave.
fn written_number(sheet: &Sheet, item: u16) -> Option<&Standing> {
    let site = Site::item(item);
    let known = || sheet.question("sample_number", site).standing.into_iter().filter(|s| s.answer.value().is_some());
    known().find(|s| s.step.as_deref() != Some(UNLABELLED)).or_else(|| known().next())
}

/// True where somebody has read the number of a thing off its label.
pub fn is_labelled(sheet: &Sheet, item: u16) -> bool {
    written_number(sheet, item).is_some_and(|s| s.step.as_deref() != Some(UNLABELLED))
}

/// The first who looked at a question and found something.
fn seen<'a>(sheet: &'a Sheet, finding: &str, site: Site) -> Option<&'a Standing> {
    sheet.question(finding, site).standing.into_iter().find(|s| s.answer.value().is_some())
}

fn text(sheet: &Sheet, finding: &str, site: Site) -> String {
    match seen(sheet, finding, site).and_then(|s| s.answer.value()) {
        Some(Value::Text(text) | Value::Choice(text)) => text.clone(),
        _ => String::new(),
    }
}

fn line(step: CustodyLineStep, who: &PersonCode, at: Moment) -> CustodyLine {
    CustodyLine {
        step,
        from: None,
        to: who.to_string(),
        at: Some(at),
        place: String::new(),
        seal: String::new(),
        seal_intact: None,
        condition: String::new(),
        note: String::new(),
        entry: None,
    }
}

/// Who reported the carcass and who found it, with the place.
fn found(fold: &Fold, sheet: &Sheet) -> Vec<CustodyLine> {
    let mut lines = Vec::new();
    let report = match sheet.answer(links::REPORT).value() {
        Some(Value::Ref(id)) => fold.reports.get(id),
        _ => None,
    };
    if let Some(report) = report
        && let Some(said) = seen(report, "report_seen_by", Site::NONE)
    {
        let mut first = line(CustodyLineStep::Reported, &said.observer, said.at);
        first.to = text(report, "report_seen_by", Site::NONE);
        first.at = match report.answer("report_seen_at").value() {
            Some(Value::Instant(at)) => Some(*at),
            _ => None,
        };
        first.place = text(report, "report_place_words", Site::NONE);
        lines.push(first);
    }
    let arrived = seen(sheet, "arrived_at", Site::NONE);
    if let Some(said) = arrived.or_else(|| seen(sheet, "report_outcome", Site::NONE)) {
        let mut crew = line(CustodyLineStep::Found, &said.observer, said.at);
        if let Some(Value::Instant(at)) = said.answer.value() {
            crew.at = Some(*at);
        }
        crew.place = place_of(sheet);
        lines.push(crew);
    }
    lines
}

/// The place of an examination as one line.
fn place_of(sheet: &Sheet) -> String {
    match seen(sheet, "place", Site::NONE).and_then(|s| s.answer.value()) {
        Some(Value::Place(place)) => on_one_line(place),
        _ => text(sheet, "place_words", Site::NONE),
    }
}

/// Degrees with their seven decimals, datum and accuracy.
fn on_one_line(place: &Place) -> String {
    let degrees = |e7: i64| {
        let sign = if e7 < 0 { "-" } else { "" };
        format!("{sign}{}.{:07}", e7.unsigned_abs() / 10_000_000, e7.unsigned_abs() % 10_000_000)
    };
    let near = place.accuracy_m_95.map(|m| format!(", within {m} m")).unwrap_or_default();
    format!("{}, {} WGS 84{near}", degrees(place.lat_e7), degrees(place.lon_e7))
}

/// What a sample is by its place among those of its examination: the jaw is 1, the long bone 2, the kidneys
/// 10, the heart 11; `None` for the others, of which somebody has to say it.
pub const fn sample_of_item(item: u16) -> Option<&'static str> {
    match item {
        1 => Some("jaw"),
        2 => Some("femur"),
        10 => Some("kidneys"),
        11 => Some("heart"),
        _ => None,
    }
}

fn of_hand(hand: &Custody) -> CustodyLine {
    let step = match hand.step {
        CustodyStep::Taken => CustodyLineStep::Taken,
        CustodyStep::Sealed => CustodyLineStep::Sealed,
        CustodyStep::Handed => CustodyLineStep::Handed,
        CustodyStep::Received => CustodyLineStep::Received,
        CustodyStep::UsedUp => CustodyLineStep::UsedUp,
    };
    CustodyLine {
        from: hand.from.as_ref().map(ToString::to_string),
        place: hand.place.clone(),
        seal: hand.seal.clone(),
        seal_intact: hand.seal_intact,
        condition: hand.condition.clone(),
        note: hand.note.clone(),
        entry: Some(hand.id),
        ..line(step, &hand.to, hand.at)
    }
}

fn gaps(is_written: bool, seal: &str, sealed: bool, lines: &[CustodyLine]) -> Vec<CustodyGap> {
    let mut gaps = Vec::new();
    let mut add = |gap: CustodyGap, is: bool| {
        if is && !gaps.contains(&gap) {
            gaps.push(gap);
        }
    };
    add(CustodyGap::NoNumber, !is_written);
    add(CustodyGap::NotSealed, !sealed);
    add(CustodyGap::NoSealNumber, sealed && seal.is_empty());
    let mut seal = seal.to_owned();
    for pair in lines.windows(2) {
        let [before, now] = pair else { continue };
        if !matches!(now.step, CustodyLineStep::Handed | CustodyLineStep::Received) {
            continue;
        }
        add(CustodyGap::NotTheHolder, now.from.as_ref().is_some_and(|from| *from != before.to));
        add(CustodyGap::OtherSeal, !seal.is_empty() && !now.seal.is_empty() && !same_number(&seal, &now.seal));
        add(CustodyGap::SealBroken, now.seal_intact == Some(false));
        add(CustodyGap::NotDescribed, now.place.is_empty() || now.condition.is_empty());
        if !now.seal.is_empty() {
            seal.clone_from(&now.seal);
        }
    }
    add(
        CustodyGap::NotReceived,
        !lines.iter().any(|l| matches!(l.step, CustodyLineStep::Received | CustodyLineStep::UsedUp)),
    );
    gaps.order();
    gaps
}

#[cfg(test)]
#[path = "custody_tests.rs"]
mod tests;
