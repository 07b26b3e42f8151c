//! The call list: whom to call after a positive or suspect result of a disease that people are called for, and the
//! answers owed to reporter, landowner, owner of a tag or collar, and agencies.
//!
//! It is worked out anew each time. A call that was made is an entry of the office's own chain that bears the
//! call's name; the name holds test and state, so that a suspect that turns out positive is a call of its own.

use std::collections::BTreeMap;

use serde::Serialize;
use uuid::Uuid;

use super::exposure::{Exposure, Whom, exposures};
use super::lab_results::{Entered, TestState, entered};
use super::own_chain::Said;
use crate::card::{CallFor, Card, Laboratory};
use crate::guide::answer_words;
use crate::record::short_code::short_code;
use crate::record::{
    Act, Answer, Carcass, DeviceId, EXAMINATION_KIND, EntryId, Fold, Moment, PersonCode, REPORT_CALL_BACK, Site, Value,
    links,
};

/// The finding of a call that was made.
pub const CALL_DONE: &str = "call_done";

/// A call.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Call {
    /// Its name, to be marked by.
    pub call: String,
    /// The carcass.
    pub carcass: Uuid,
    /// Its short code.
    pub code: String,
    /// Who is to be called. Private: it is on this list only.
    pub who: String,
    /// Where they are reached, where somebody said; private as well.
    pub number: String,
    /// Why, line by line.
    pub why: Vec<String>,
    /// Who made it and when, where it was made.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub done: Option<Done>,
}

/// That a call was made.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Done {
    /// The entry that says so.
    pub entry: EntryId,
    /// Who.
    pub by: String,
    /// When it was noted.
    pub at: Moment,
}

/// What the list is made from.
#[derive(Clone, Copy, Debug)]
pub struct From<'a> {
    /// Everything that the archive holds.
    pub folded: &'a Fold,
    /// Today's card, where there is one.
    pub card: Option<&'a Card>,
    /// Its laboratories.
    pub laboratories: &'a [Laboratory],
    /// The office's own device.
    pub office: Option<DeviceId>,
    /// Numbers of people by code; of the office's own list, kept nowhere.
    pub numbers: &'a BTreeMap<String, String>,
}

/// A positive or suspect result.
struct Hit {
    result: Entered,
    state: TestState,
    /// Whether who touched it is called; `None`: the card no longer names the test, so they are.
    people: Option<bool>,
}

impl Hit {
    fn of(from: &From, result: Entered) -> Option<Self> {
        let state = result.state().filter(|state| matches!(state, TestState::Positive | TestState::Suspect))?;
        let tests = from.laboratories.iter().flat_map(|lab| &lab.tests);
        let people = tests.into_iter().find(|test| test.code == result.test).and_then(|test| test.call_people);
        Some(Self { result, state, people })
    }

    /// How the calls that it asks for end.
    fn name(&self) -> String {
        format!("{}:{}", self.result.test, self.state.code())
    }

    /// In words. A suspect is told apart in every line that it stands in.
    fn words(&self) -> String {
        let state = match self.state {
            TestState::Suspect => "SUSPECT, not confirmed",
            _ => "POSITIVE",
        };
        let reported = self.result.reported_at.map(answer_words::date_and_time);
        let parts = [Some(self.result.laboratory.clone()), Some(format!("sample {}", self.result.sample)), reported];
        let parts: Vec<String> = parts.into_iter().flatten().filter(|part| !part.is_empty()).collect();
        format!("{}: {state} ({})", self.result.disease, parts.join(", "))
    }
}

/// All calls, carcass by carcass: people first, then what is owed.
pub fn calls(from: &From) -> Vec<Call> {
    let mut out = Vec::new();
    for carcass in from.folded.carcasses.values() {
        let hits: Vec<Hit> = entered(carcass).into_iter().filter_map(|result| Hit::of(from, result)).collect();
        let before = out.len();
        people(from, carcass, &hits, &mut out);
        agencies(from, carcass, &hits, &mut out);
        owed(from, carcass, &mut out);
        for call in out.iter_mut().skip(before) {
            call.done = done(carcass, &call.call);
        }
    }
    out
}

fn call(carcass: &Carcass, name: String, who: String, number: String, why: Vec<String>) -> Call {
    Call { call: name, carcass: carcass.id, code: short_code(carcass.id), who, number, why, done: None }
}

fn people(from: &From, carcass: &Carcass, hits: &[Hit], out: &mut Vec<Call>) {
    let hits: Vec<&Hit> = hits.iter().filter(|hit| hit.people != Some(false)).collect();
    if hits.is_empty() {
        return;
    }
    // Whom a laboratory's code stands for is the laboratory's own matter.
    let is_laboratory = |code: &str| from.laboratories.iter().any(|lab| lab.code.as_str() == code);
    for (whom, exposure) in exposures(from.folded, carcass, from.office) {
        if matches!(&whom, Whom::Person(code) if is_laboratory(code)) {
            continue;
        }
        let (name, who, number) = called(from, &whom);
        for hit in &hits {
            let mut why = vec![hit.words()];
            if hit.people.is_none() {
                why.push(
                    "today's local card does not name this test: taken as one that people are called for".to_owned(),
                );
            }
            why.extend(told(&whom, &exposure));
            out.push(call(carcass, format!("exposed:{name}:{}", hit.name()), who.clone(), number.clone(), why));
        }
    }
}

/// The name that a call bears, who it is, and where they are reached.
fn called(from: &From, whom: &Whom) -> (String, String, String) {
    match whom {
        Whom::Person(code) => {
            let named = PersonCode::new(code).ok().and_then(|code| from.card?.person(&code));
            let who = named.map_or_else(|| code.clone(), |person| format!("{} ({code})", person.name));
            (code.clone(), who, from.numbers.get(code).cloned().unwrap_or_default())
        }
        Whom::Others(outing, names) => {
            (format!("others-{}", short_code(*outing)), format!("others out that day: {names}"), String::new())
        }
        Whom::Reporter(report) => {
            (format!("reporter-{}", short_code(*report)), "who reported it".to_owned(), call_back(from, *report))
        }
    }
}

fn call_back(from: &From, report: Uuid) -> String {
    match from.folded.reports.get(&report).map(|report| report.answer(REPORT_CALL_BACK)) {
        Some(Answer::Seen { value: Value::Text(text) }) => text,
        _ => String::new(),
    }
}

/// What the journal has of an exposure, line by line. What nobody said is said to be so.
fn told(whom: &Whom, exposure: &Exposure) -> Vec<String> {
    let join = |all: &std::collections::BTreeSet<String>| all.iter().cloned().collect::<Vec<_>>().join("; ");
    let mut lines = Vec::new();
    if exposure.touched.is_empty() {
        lines.push("touched: nothing that they wrote themselves; ask".to_owned());
    } else {
        let cut = if exposure.cut { " (cut or opened)" } else { "" };
        lines.push(format!("touched{cut}: {}", join(&exposure.touched)));
    }
    if !exposure.samples.is_empty() {
        lines.push(format!("had samples: {}", join(&exposure.samples)));
    }
    match whom {
        Whom::Person(_) if exposure.gloves.is_empty() => {
            lines.push("gloves: they wrote nothing of gloves; ask".to_owned());
        }
        _ if exposure.gloves.is_empty() => lines.push("gloves: not known; ask".to_owned()),
        _ => lines.push(format!("gloves: {}", join(&exposure.gloves))),
    }
    if exposure.hurt.is_empty() {
        lines.push("cut or splash: none written; a note may have stayed on the phone; ask".to_owned());
    } else {
        lines.push(format!("CUT OR SPLASH: {}", join(&exposure.hurt)));
    }
    lines
}

fn on_card(from: &From, of: CallFor) -> (String, String) {
    let found = from.card.and_then(|card| card.call(of));
    found.map_or_else(
        || (format!("{} (the local card names nobody)", of.code().replace('_', " ")), String::new()),
        |call| (call.name.clone(), call.number.clone()),
    )
}

fn agencies(from: &From, carcass: &Carcass, hits: &[Hit], out: &mut Vec<Call>) {
    for hit in hits {
        let mut add = |kind: &str, of: CallFor, why: &str| {
            let (who, number) = on_card(from, of);
            out.push(call(carcass, format!("{kind}:{}", hit.name()), who, number, vec![hit.words(), why.to_owned()]));
        };
        add("agency", CallFor::Vet, "disease agencies are told of such results; local rules say which and how soon");
        if hit.people != Some(false) {
            add("health", CallFor::Health, "people touched it: what they have to do is public health's word, not ours");
        }
    }
}

/// Answers owed, whatever came of the tests.
fn owed(from: &From, carcass: &Carcass, out: &mut Vec<Call>) {
    let closed = carcass.examinations.values().any(|one| one.sheet.is_seen("examination_closed"));
    for examination in carcass.examinations.values() {
        let Answer::Seen { value: Value::Ref(report) } = examination.sheet.answer(links::REPORT) else { continue };
        let number = call_back(from, report);
        let name = format!("reporter:{}", short_code(report));
        let asked_to_be_called = !number.is_empty() && closed && !out.iter().any(|call| call.call == name);
        if asked_to_be_called {
            let why = vec!["they left word to be called back, and the examination is closed".to_owned()];
            out.push(call(carcass, name, "who reported it".to_owned(), number, why));
        }
    }
    let chose = |finding: &str, codes: &[&str]| {
        carcass.examinations.values().any(|one| codes.iter().any(|code| one.sheet.chose(finding, code)))
    };
    let seen = |finding: &str| carcass.examinations.values().any(|one| one.sheet.is_seen(finding));
    let mut add = |name: &str, of: CallFor, why: String| {
        let (who, number) = on_card(from, of);
        out.push(call(carcass, name.to_owned(), who, number, vec![why]));
    };
    if closed && chose("land_leave", &["private_with_leave", "tribal_with_leave"]) {
        add("landowner", CallFor::Land, "it lay on land whose owner gave leave".to_owned());
    }
    if seen("study_tag_or_collar") || seen("owner_or_livestock_tag") {
        let numbers = carcass.question("tag_number", Site::NONE).standing.into_iter();
        let numbers: Vec<String> = numbers
            .filter_map(|one| match one.answer.value() {
                Some(Value::Text(text)) => Some(text.clone()),
                _ => None,
            })
            .collect();
        let number = if numbers.is_empty() { "not read".to_owned() } else { numbers.join(", ") };
        add("collar", CallFor::TagOwner, format!("it wore a tag or collar; number: {number}"));
    }
    if chose("officer_told", &["no_signal", "no_reply"]) && !chose("officer_told", &["officer_told"]) {
        add("officer", CallFor::Officer, "the crew could not reach the officer about evidence".to_owned());
    }
}

/// Whether a call was marked as made.
fn done(carcass: &Carcass, name: &str) -> Option<Done> {
    let all = carcass.question(CALL_DONE, Site::NONE).standing;
    let of_this = |answer: &Answer| matches!(answer.value(), Some(Value::Text(text)) if text == name);
    let one = all.into_iter().find(|one| of_this(&one.answer))?;
    Some(Done { entry: one.id, by: one.observer.to_string(), at: one.at })
}

/// Why a call was not marked.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotMarked {
    /// The list has no such call for this carcass.
    #[error("the call list has no call `{0}` for this carcass")]
    NoCall(String),
    /// It was marked before.
    #[error("the call `{0}` was marked as made before")]
    Before(String),
    /// It was never marked.
    #[error("the call `{0}` is not marked as made")]
    NotBefore(String),
}

/// The answers that mark a call as made, in the examination of the office's own that holds such marks; `fresh` is
/// the id of one where there is none.
///
/// # Errors
/// See [`NotMarked`].
pub fn mark(
    carcass: &Carcass,
    all: &[Call],
    name: &str,
    office: DeviceId,
    fresh: Uuid,
) -> Result<Vec<Said>, NotMarked> {
    let named = all.iter().find(|call| call.call == name && call.carcass == carcass.id);
    match named.map(|call| call.done.is_some()) {
        None => return Err(NotMarked::NoCall(name.to_owned())),
        Some(true) => return Err(NotMarked::Before(name.to_owned())),
        Some(false) => {}
    }
    let is_own = |one: &&crate::record::Examination| {
        one.sheet.question(CALL_DONE, Site::NONE).standing.iter().any(|mark| mark.id.device == office)
    };
    let before = carcass.examinations.values().find(is_own).map(|one| one.id);
    let examination = before.unwrap_or(fresh);
    let say = |finding, answer| Said { examination, finding, answer, supersedes: Vec::new() };
    let mut said = Vec::new();
    if before.is_none() {
        said.push(say(links::CARCASS, Answer::Seen { value: Value::Ref(carcass.id) }));
        said.push(say(EXAMINATION_KIND, Answer::choice("bench")));
    }
    said.push(say(CALL_DONE, Answer::Seen { value: Value::Text(name.to_owned()) }));
    Ok(said)
}

/// What takes a mark back.
///
/// # Errors
/// It is not marked.
pub fn unmark(carcass: &Carcass, name: &str) -> Result<Act, NotMarked> {
    let mark = done(carcass, name).ok_or_else(|| NotMarked::NotBefore(name.to_owned()))?;
    Ok(Act::Withdraw { supersedes: vec![mark.entry] })
}
