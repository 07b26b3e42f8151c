//! Answers that are owed without any result: to who reported a carcass, landowner, owner of a tag or collar, officer.

use std::collections::BTreeMap;

use uuid::Uuid;

use super::calls::{Call, From, call, call_back, on_card};
use super::calls_made::done;
use super::exposure::linked;
use crate::card::CallFor;
use crate::record::short_code::short_code;
use crate::record::{Carcass, Site, Value, links};

/// Reporters who left word to be called back, by the carcass whose list has the call: of one report's carcasses the
/// first that is closed. They are owed one call, and its mark holds wherever it was made.
pub(super) struct CallBacks<'a>(BTreeMap<Uuid, Vec<(Uuid, Vec<&'a Carcass>)>>);

impl<'a> CallBacks<'a> {
    pub(super) fn of(from: &From<'a>) -> Self {
        let mut of_report: BTreeMap<Uuid, Vec<&Carcass>> = BTreeMap::new();
        for carcass in from.folded.carcasses.values() {
            for examination in carcass.examinations.values() {
                for report in linked(&examination.sheet, links::REPORT) {
                    let all = of_report.entry(report).or_default();
                    if all.last().is_none_or(|last| last.id != carcass.id) {
                        all.push(carcass);
                    }
                }
            }
        }
        let mut out: BTreeMap<Uuid, Vec<(Uuid, Vec<&Carcass>)>> = BTreeMap::new();
        for (report, all) in of_report {
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
            let name = format!("reporter:{}", short_code(*report));
            let why = vec!["they left word to be called back, and the examination is closed".to_owned()];
            let mut one = call(carcass, name, "who reported it".to_owned(), call_back(from, *report), why);
            one.done = done(all, &one.call, &one.covers);
            out.push(one);
        }
    }
}

fn is_closed(carcass: &Carcass) -> bool {
    carcass.examinations.values().any(|one| one.sheet.is_seen("examination_closed"))
}

/// Answers owed for a carcass, whatever came of the tests.
pub(super) fn owed(from: &From, carcass: &Carcass, out: &mut Vec<Call>) {
    let closed = is_closed(carcass);
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
