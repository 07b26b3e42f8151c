//! Answers that are owed without any result: to who reported a carcass, landowner, owner of a tag or collar, officer.

use std::collections::{BTreeMap, BTreeSet};

use uuid::Uuid;

use super::calls::{Call, From, call, call_back, on_card};
use super::calls_made::done;
use super::exposure::linked;
use super::homes::homes;
use crate::card::CallFor;
use crate::record::short_code::short_code;
use crate::record::{Carcass, Examination, Fold, Site, Value, links};

/// Carcasses by the reports that they are linked to, in order of their ids.
#[derive(Debug, Default)]
pub(super) struct Reports<'a>(BTreeMap<Uuid, Vec<&'a Carcass>>);

impl<'a> Reports<'a> {
    /// Takes the next carcass in.
    pub(super) fn take(&mut self, carcass: &'a Carcass) {
        for examination in carcass.examinations.values() {
            for report in linked(&examination.sheet, links::REPORT) {
                let all = self.0.entry(report).or_default();
                if all.last().is_none_or(|last| last.id != carcass.id) {
                    all.push(carcass);
                }
            }
        }
    }
}

/// Reporters who left word to be called back, by the carcass whose list has the call: of one report's carcasses the
/// first that is closed. They are owed one call, and its mark holds wherever it was made.
#[derive(Debug)]
pub(super) struct CallBacks<'a>(BTreeMap<Uuid, Vec<(Uuid, Vec<&'a Carcass>)>>);

impl<'a> CallBacks<'a> {
    pub(super) fn of(from: &From<'a>, reports: Reports<'a>) -> Self {
        let mut out: BTreeMap<Uuid, Vec<(Uuid, Vec<&Carcass>)>> = BTreeMap::new();
        for (report, all) in reports.0 {
            let home = all.iter().find(|carcass| is_closed(carcass)).map(|carcass| carcass.id);
            if let Some(home) = home.filter(|_| !call_back(from, report).is_empty()) {
                out.entry(home).or_default().push((report, all));
            }
        }
        Self(out)
    }

    /// Those that stand on the list of this carcass.
    pub(super) fn owed(&self, from: &From, carcass: &Carcass, out: &mut Vec<Call>) {
        for (report, all) in self.0.get(&carcass.id).into_iter().flatten() {
            let name = format!("{REPORTER}{}", short_code(*report));
            let why = vec!["they left word to be called back, and the examination is closed".to_owned()];
            let mut one = call(carcass, name, "who reported it".to_owned(), call_back(from, *report), why);
            let of_it = carcass.examinations.values().filter(|one| linked(&one.sheet, links::REPORT).contains(report));
            one.homes = homes(carcass, of_it.map(|one| &one.id));
            one.done = done(all, &one.call, &one.covers);
            out.push(one);
        }
    }
}

/// How the name of a call to who reported a carcass begins.
const REPORTER: &str = "reporter:";

/// The carcasses on which the mark of this call may stand besides its own: those of the same report.
pub(super) fn shared(folded: &Fold, call: &Call) -> BTreeSet<Uuid> {
    let Some(code) = call.call.strip_prefix(REPORTER) else { return BTreeSet::new() };
    let is_linked = |carcass: &&Carcass| {
        let sheets = carcass.examinations.values().map(|one| &one.sheet);
        sheets.flat_map(|sheet| linked(sheet, links::REPORT)).any(|report| short_code(report) == code)
    };
    folded.carcasses.values().filter(is_linked).map(|carcass| carcass.id).collect()
}

fn is_closed(carcass: &Carcass) -> bool {
    carcass.examinations.values().any(|one| one.sheet.is_seen("examination_closed"))
}

/// Answers owed for a carcass, whatever came of the tests.
pub(super) fn owed(from: &From, carcass: &Carcass, out: &mut Vec<Call>) {
    let closed = is_closed(carcass);
    let all = || carcass.examinations.values();
    let chose = |finding: &'static str, codes: &'static [&str]| {
        all().filter(move |one| codes.iter().any(|code| one.sheet.chose(finding, code))).collect::<Vec<_>>()
    };
    let mut add = |name: &str, of: CallFor, about: &[&Examination], why: String| {
        let (who, number) = on_card(from, of);
        let homes = homes(carcass, about.iter().map(|one| &one.id));
        out.push(Call { homes, ..call(carcass, name.to_owned(), who, number, vec![why]) });
    };
    let leave = chose("land_leave", &["private_with_leave", "tribal_with_leave"]);
    if closed && !leave.is_empty() {
        add("landowner", CallFor::Land, &leave, "it lay on land whose owner gave leave".to_owned());
    }
    let worn = |one: &&Examination| {
        ["study_tag_or_collar", "owner_or_livestock_tag"].into_iter().any(|finding| one.sheet.is_seen(finding))
    };
    let tagged: Vec<&Examination> = all().filter(worn).collect();
    if !tagged.is_empty() {
        let numbers = carcass.question("tag_number", Site::NONE).standing.into_iter();
        let numbers: Vec<String> = numbers
            .filter_map(|one| match one.answer.value() {
                Some(Value::Text(text)) => Some(text.clone()),
                _ => None,
            })
            .collect();
        let number = if numbers.is_empty() { "not read".to_owned() } else { numbers.join(", ") };
        add("collar", CallFor::TagOwner, &tagged, format!("it wore a tag or collar; number: {number}"));
    }
    let not_reached = chose("officer_told", &["no_signal", "no_reply"]);
    if !not_reached.is_empty() && chose("officer_told", &["officer_told"]).is_empty() {
        let why = "the crew could not reach the officer about evidence".to_owned();
        add("officer", CallFor::Officer, &not_reached, why);
    }
}
