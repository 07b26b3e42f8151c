//! The call list: whom to call after a positive or suspect result of a disease that people are called for, and the
//! answers owed to reporter, landowner, owner of a tag or collar, and agencies.
//!
//! It is worked out anew each time. A call that was made is an entry of the office's own chain that bears the
//! call's name; the name holds test and state, so that a suspect that turns out positive is a call of its own.

use std::collections::btree_map::Values;
use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;
use uuid::Uuid;

use super::calls_corrected::corrected;
use super::calls_made::{Done, cover, done, done_for_some, marked};
use super::calls_owed::{CallBacks, Reports, owed};
use super::exposure::{Exposure, Whom, exposures};
use super::homes::homes;
use super::lab_results::{Entered, TestState, entered};
use crate::card::{CallFor, Card, Laboratory};
use crate::guide::answer_words;
use crate::record::short_code::short_code;
use crate::record::{Answer, Carcass, DeviceId, Fold, Hands, PersonCode, REPORT_CALL_BACK, Value};

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
    /// Of a call for several people: whom it covers, as its mark says it. Empty for a call to one.
    #[serde(skip)]
    pub covers: String,
    /// Of a carcass that was joined of several: the ids that it is about, so that its mark goes with them should they be
    /// taken apart again. Empty where nothing says.
    #[serde(skip)]
    pub homes: BTreeSet<Uuid>,
    /// Who made it and when, where it was made.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub done: Option<Done>,
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
pub(super) struct Hit {
    result: Entered,
    pub(super) state: TestState,
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
    pub(super) fn name(&self) -> String {
        format!("{}:{}", tested(&self.result), self.state.code())
    }

    /// In words. A suspect is told apart in every line that it stands in.
    fn words(&self) -> String {
        let state = loud(self.state);
        let reported = self.result.reported_at.map(answer_words::date_and_time);
        let parts = [Some(self.result.laboratory.clone()), Some(format!("sample {}", self.result.sample)), reported];
        let parts = parts.into_iter().flatten().filter(|part| !part.is_empty()).chain(self.result.caution());
        format!("{}: {state} ({})", self.result.disease, parts.collect::<Vec<_>>().join(", "))
    }
}

/// A state in words: what calls people is in large letters.
pub(super) const fn loud(state: TestState) -> &'static str {
    match state {
        TestState::Positive => "POSITIVE",
        TestState::Suspect => "SUSPECT, not confirmed",
        TestState::NotDetected => "not detected",
        TestState::Unsuitable => "sample unsuitable, nothing is known",
        TestState::Pending => "pending at the laboratory",
    }
}

/// What was tested for, as part of a call's name: the test's code; the disease, where a result was typed without one;
/// else the bench examination that holds the result. Two diseases are two calls.
pub(super) fn tested(result: &Entered) -> String {
    let of_disease = || {
        let plain = result.disease.to_lowercase();
        let words = plain.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
        words.collect::<Vec<_>>().join("-")
    };
    let all = [result.test.clone(), of_disease(), short_code(result.examination)];
    all.into_iter().find(|name| !name.is_empty()).unwrap_or_default()
}

/// Results that ask for one and the same call: of two samples of one animal nobody is called twice.
fn alike<'h>(hits: impl IntoIterator<Item = &'h Hit>) -> BTreeMap<String, Vec<&'h Hit>> {
    let mut out: BTreeMap<String, Vec<&Hit>> = BTreeMap::new();
    for hit in hits {
        out.entry(hit.name()).or_default().push(hit);
    }
    out
}

/// All calls: first of carcasses with a positive or suspect result, or one that was corrected since; then what is owed.
/// Each carcass's calls stand together.
pub fn calls(from: &From) -> Vec<Call> {
    let hands = Hands::of(from.folded);
    let mut calling = Calling::begin(*from, &hands);
    while calling.step() {}
    calling.done()
}

/// The list in the making, a carcass a step: a page answers taps in between.
#[derive(Debug)]
pub struct Calling<'a> {
    from: From<'a>,
    hands: &'a Hands,
    /// Carcasses whose reports are not known yet.
    unasked: Values<'a, Uuid, Carcass>,
    reports: Reports<'a>,
    back: Option<CallBacks<'a>>,
    todo: Values<'a, Uuid, Carcass>,
    urgent: Vec<Call>,
    owed: Vec<Call>,
    is_done: bool,
}

impl<'a> Calling<'a> {
    /// Before the first carcass; `hands` is that of the fold.
    pub fn begin(from: From<'a>, hands: &'a Hands) -> Self {
        let all = || from.folded.carcasses.values();
        let (reports, urgent, owed) = (Reports::default(), Vec::new(), Vec::new());
        Self { from, hands, unasked: all(), reports, back: None, todo: all(), urgent, owed, is_done: false }
    }

    /// Does the next part; false where nothing is left.
    pub fn step(&mut self) -> bool {
        if let Some(carcass) = self.unasked.next() {
            self.reports.take(carcass);
        } else if let Some(back) = &self.back {
            match self.todo.next() {
                Some(carcass) => {
                    let (calls, is_urgent) = of_carcass(&self.from, self.hands, back, carcass);
                    let list = if is_urgent { &mut self.urgent } else { &mut self.owed };
                    list.extend(calls);
                }
                None if self.is_done => return false,
                None => {
                    adrift(&self.from, &mut self.urgent);
                    self.is_done = true;
                }
            }
        } else {
            self.back = Some(CallBacks::of(&self.from, std::mem::take(&mut self.reports)));
        }
        true
    }

    /// The list, once nothing is left.
    pub fn done(mut self) -> Vec<Call> {
        self.urgent.append(&mut self.owed);
        self.urgent
    }
}

/// The calls of a carcass, and whether a result asks for one.
fn of_carcass(from: &From, hands: &Hands, back: &CallBacks, carcass: &Carcass) -> (Vec<Call>, bool) {
    let results = entered(carcass);
    let hits: Vec<Hit> = results.iter().filter_map(|result| Hit::of(from, result.clone())).collect();
    let is_asked_for = results.iter().any(|one| one.state().is_some()) || !marked(carcass).is_empty();
    let exposed = if is_asked_for { exposures(from.folded, hands, carcass, from.office) } else { BTreeMap::new() };
    let mut here = Vec::new();
    people(from, carcass, &hits, &exposed, &mut here);
    agencies(from, carcass, &hits, &exposed, &mut here);
    owed(from, carcass, &mut here);
    for call in &mut here {
        call.done = done(&[carcass], &call.call, &call.covers);
        let before = done_for_some(&[carcass], &call.call).filter(|_| call.done.is_none());
        call.why.extend(before.map(|before| {
            let at = answer_words::date_and_time(before.at);
            format!("CALLED BEFORE, by {} on {at}; others are named since then: find out who was not told", before.by)
        }));
    }
    back.owed(from, carcass, &mut here);
    let gone = corrected(from, carcass, (&results, &hits), exposed.keys(), &here);
    let is_urgent = !hits.is_empty() || !gone.is_empty();
    here.extend(gone);
    (here, is_urgent)
}

/// A result of which nobody knows whose it is: it names no carcass. It stays on the list until it does.
fn adrift(from: &From, out: &mut Vec<Call>) {
    for (id, examination) in &from.folded.adrift {
        let mut alone = Carcass::default();
        alone.id = *id;
        alone.examinations.insert(*id, examination.clone());
        let hits: Vec<Hit> = entered(&alone).into_iter().filter_map(|result| Hit::of(from, result)).collect();
        for (ends, hits) in alike(&hits) {
            let mut why: Vec<String> = hits.iter().map(|hit| hit.words()).collect();
            why.push("it names no carcass: find out which, for nobody who touched it is on this list yet".to_owned());
            out.push(call(&alone, format!("whose:{ends}"), "who entered it".to_owned(), String::new(), why));
        }
    }
}

pub(super) fn call(carcass: &Carcass, name: String, who: String, number: String, why: Vec<String>) -> Call {
    Call {
        call: name,
        carcass: carcass.id,
        code: short_code(carcass.id),
        who,
        number,
        why,
        covers: String::new(),
        homes: BTreeSet::new(),
        done: None,
    }
}

/// Whom a laboratory's code stands for is the laboratory's own matter. Who wrote under that code what takes touching is
/// one of a crew's.
fn is_laboratory(from: &From, whom: &Whom, exposure: &Exposure) -> bool {
    let has_code = |code: &str| from.laboratories.iter().any(|lab| lab.code.as_str() == code);
    let only_samples = exposure.touched.is_empty() && exposure.gloves.is_empty() && exposure.hurt.is_empty();
    matches!(whom, Whom::Person(code) if has_code(code)) && only_samples
}

fn people(from: &From, carcass: &Carcass, hits: &[Hit], exposed: &BTreeMap<Whom, Exposure>, out: &mut Vec<Call>) {
    let alike = alike(hits.iter().filter(|hit| hit.people != Some(false)));
    for (whom, exposure) in exposed.iter().filter(|(whom, exposure)| !is_laboratory(from, whom, exposure)) {
        let (name, who, number) = called(from, whom);
        let kind = if matches!(whom, Whom::Dog(_)) { "dog" } else { "exposed" };
        let covers = if let Whom::Others(_, names) = whom { cover([names.as_str()]) } else { String::new() };
        for (ends, hits) in &alike {
            let mut why: Vec<String> = hits.iter().map(|hit| hit.words()).collect();
            if hits.iter().any(|hit| hit.people.is_none()) {
                why.push(
                    "today's local card does not name this test: taken as one that people are called for".to_owned(),
                );
            }
            why.extend(told(whom, exposure));
            let one = call(carcass, format!("{kind}:{name}:{ends}"), who.clone(), number.clone(), why);
            let homes = homes(carcass, hits.iter().map(|hit| &hit.result.examination));
            out.push(Call { covers: covers.clone(), homes, ..one });
        }
    }
}

/// The name that a call bears, who it is, and where they are reached.
pub(super) fn called(from: &From, whom: &Whom) -> (String, String, String) {
    match whom {
        Whom::Person(code) => {
            let named = PersonCode::new(code).ok().and_then(|code| from.card?.person(&code));
            let who = named.map_or_else(|| code.clone(), |person| format!("{} ({code})", person.name));
            (code.clone(), who, from.numbers.get(code).cloned().unwrap_or_default())
        }
        Whom::Others(outing, names) => {
            let names = if names.is_empty() { "nobody wrote who" } else { names };
            (format!("others-{}", short_code(*outing)), format!("others out that day: {names}"), String::new())
        }
        Whom::Dog(report) => {
            (short_code(*report), "who reported it, for their dog".to_owned(), call_back(from, *report))
        }
        Whom::Reporter(report) => {
            (format!("reporter-{}", short_code(*report)), "who reported it".to_owned(), call_back(from, *report))
        }
    }
}

pub(super) fn call_back(from: &From, report: Uuid) -> String {
    match from.folded.reports.get(&report).map(|report| report.answer(REPORT_CALL_BACK)) {
        Some(Answer::Seen { value: Value::Text(text) }) => text,
        _ => String::new(),
    }
}

/// What the journal has of an exposure, line by line. What nobody said is said to be so.
fn told(whom: &Whom, exposure: &Exposure) -> Vec<String> {
    let join = |all: &BTreeSet<String>| all.iter().cloned().collect::<Vec<_>>().join("; ");
    let mut lines = Vec::new();
    lines.extend(exposure.not_known.iter().map(|&line| line.to_owned()));
    if matches!(whom, Whom::Dog(_)) {
        if !exposure.touched.is_empty() {
            lines.push("their dog touched the carcass".to_owned());
        }
        let owners = "what a dog needs is its owner's matter and a veterinarian's word; ask who handled it since";
        lines.push(owners.to_owned());
        return lines;
    }
    if exposure.touched.is_empty() && exposure.not_known.is_empty() {
        lines.push("touched: nothing that they wrote themselves; ask".to_owned());
    } else if !exposure.touched.is_empty() {
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

pub(super) fn on_card(from: &From, of: CallFor) -> (String, String) {
    let found = from.card.and_then(|card| card.call(of));
    found.map_or_else(
        || (format!("{} (the local card names nobody)", of.code().replace('_', " ")), String::new()),
        |call| (call.name.clone(), call.number.clone()),
    )
}

fn agencies(from: &From, carcass: &Carcass, hits: &[Hit], exposed: &BTreeMap<Whom, Exposure>, out: &mut Vec<Call>) {
    let by_hand = |one: &Exposure| !(one.touched.is_empty() && one.samples.is_empty() && one.hurt.is_empty());
    let (dogs, people): (Vec<_>, Vec<_>) = exposed
        .iter()
        .filter(|(whom, one)| !is_laboratory(from, whom, one))
        .partition(|(whom, _)| matches!(whom, Whom::Dog(_)));
    let is_touched = people.iter().any(|(_, one)| by_hand(one));
    let touched = if is_touched { "people touched it" } else { "nobody wrote that they touched it; ask" };
    let dog = dogs.iter().any(|(_, one)| by_hand(one)).then_some("a dog touched it");
    let of_whom = |(whom, _): &(&Whom, &Exposure)| {
        let (code, who, _) = called(from, whom);
        if let Whom::Others(_, names) = whom { (format!("{code} {names}"), who) } else { (code, who) }
    };
    // Whom public health heard of: by codes, which a card with other names leaves as they are.
    let (codes, names): (Vec<String>, Vec<String>) = people.iter().map(of_whom).unzip();
    for (ends, hits) in alike(hits) {
        let mut add = |kind: &str, of: CallFor, why: Vec<String>, covers: String| {
            let (who, number) = on_card(from, of);
            let all = hits.iter().map(|hit| hit.words()).chain(why).collect();
            let homes = homes(carcass, hits.iter().map(|hit| &hit.result.examination));
            out.push(Call { covers, homes, ..call(carcass, format!("{kind}:{ends}"), who, number, all) });
        };
        let told = ["disease agencies are told of such results; local rules say which and how soon"];
        let told = told.into_iter().chain(dog).map(str::to_owned).collect();
        add("agency", CallFor::Vet, told, String::new());
        if hits.iter().any(|hit| hit.people != Some(false)) {
            let mut why = vec![format!("{touched}: what they have to do is public health's word, not ours")];
            if !names.is_empty() {
                why.push(format!("on this list for it: {}", names.join("; ")));
            }
            add("health", CallFor::Health, why, cover(codes.iter().map(String::as_str)));
        }
    }
}
