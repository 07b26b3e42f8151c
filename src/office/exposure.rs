//! Who touched a carcass, as the journal has it: which steps, with which gloves, what was torn, cut or splashed.
//!
//! Only what somebody wrote is told. Who answered a question that takes touching is taken for one who touched; one
//! who held while another wrote is named nowhere, so the day's whole crew is told beside it.

use std::collections::{BTreeMap, BTreeSet};

use uuid::Uuid;

use crate::guide::steps::STEPS;
use crate::guide::{Input, LEFT, Phase, RULED_OUT, Step, Touch, answer_words};
use crate::record::{
    Answer, Carcass, CustodyLineStep, DeviceId, Examination, Fold, Hands, Sheet, Site, Standing, Value, links,
};
use crate::words::Language;

/// What one person did.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Exposure {
    /// What was touched, in words.
    pub touched: BTreeSet<String>,
    /// Something was cut, sawn or opened.
    pub cut: bool,
    /// What was said of gloves, eyes and mask.
    pub gloves: BTreeSet<String>,
    /// Gloves torn, skin cut, splashes: in the words of who wrote them.
    pub hurt: BTreeSet<String>,
    /// Numbers of samples that went through their hands.
    pub samples: BTreeSet<String>,
    /// What nobody knows of them, and has to be asked.
    pub not_known: BTreeSet<&'static str>,
}

/// Whom it concerns.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Whom {
    /// A person, by code.
    Person(String),
    /// Others who were out that day, as those of the crew who wrote of it named them; empty where nobody did.
    Others(Uuid, String),
    /// Who reported the carcass.
    Reporter(Uuid),
    /// A dog of who reported it. It is no person: nobody asks it for gloves, and what it needs is its owner's matter.
    Dog(Uuid),
}

const LANGUAGE: Language = Language::English;

/// Paperwork of the bench: answers that nobody has to touch anything for.
const PAPER: [&str; 7] = ["cementum_", "known_age_", "death_known_", "dna_", "kill_record_", "marrow_lab_", "examin"];

fn step_of(id: &str) -> Option<&'static Step> {
    STEPS.iter().flat_map(|part| part.iter()).find(|step| step.id == id)
}

/// The step that asks a finding, for answers that name none (a sheet of paper typed in) or one that is not known here.
/// A photo is taken at many steps, most of them from where one stands.
fn asking(finding: &str) -> Option<&'static Step> {
    STEPS.iter().flat_map(|part| part.iter()).find(|step| match step.input {
        Input::Choice(one)
        | Input::Choices(one)
        | Input::Number(one)
        | Input::Text(one)
        | Input::ReadDo(one)
        | Input::Instant(one) => one == finding,
        Input::Panel(all) => all.contains(&finding),
        Input::Jaw => ["tooth_state", "dentine", "crest", "infundibulum"].contains(&finding),
        Input::Points { points, done } => points == finding || done == finding,
        Input::Volumes { amounts, done } => amounts.contains(&finding) || done == finding,
        Input::Place(_) | Input::Photo(_) | Input::Photos { .. } | Input::Sweep { .. } => false,
    })
}

/// How a carcass was touched for an answer; `None` where it was only looked at, or nobody asked.
fn touch(finding: &str, one: &Standing, examination: &Examination) -> Option<Touch> {
    if matches!(one.answer, Answer::NotLooked { .. } | Answer::PartGone { .. }) {
        return None;
    }
    let step = one.step.as_deref().filter(|step| !step.is_empty());
    if step.is_some_and(|step| step == RULED_OUT || step == LEFT) {
        return None;
    }
    let step = step.and_then(step_of).or_else(|| asking(finding));
    let on_bench = examination.kind.as_deref() == Some("bench") || step.is_some_and(|step| step.phase == Phase::Bench);
    match step.map(|step| step.touch) {
        Some(touch @ (Touch::Handle | Touch::Cut)) => Some(touch),
        _ if on_bench && step.is_some() && !PAPER.iter().any(|begin| finding.starts_with(begin)) => Some(Touch::Handle),
        _ => None,
    }
}

fn text(sheet: &Sheet, finding: &str) -> Vec<(String, String)> {
    let standing = sheet.question(finding, Site::NONE).standing.into_iter();
    standing
        .filter_map(|one| match one.answer.value() {
            Some(Value::Text(text)) => Some((one.observer.to_string(), text.clone())),
            _ => None,
        })
        .collect()
}

/// Everybody who touched the carcass or a part of it, or of whom nobody knows whether they did. What `office` itself
/// wrote is paperwork; `hands` is that of `folded`.
pub fn exposures(
    folded: &Fold,
    hands: &Hands,
    carcass: &Carcass,
    office: Option<DeviceId>,
) -> BTreeMap<Whom, Exposure> {
    let mut out: BTreeMap<Whom, Exposure> = BTreeMap::new();
    let (mut outings, mut reports) = (BTreeMap::<Uuid, BTreeSet<String>>::new(), BTreeSet::new());
    let mut allowed = BTreeSet::new();
    for examination in carcass.examinations.values() {
        for (finding, site, all) in examination.sheet.answers() {
            for one in all.iter().filter(|one| office != Some(one.id.device)) {
                let Some(touch) = touch(finding.as_str(), one, examination) else { continue };
                if finding.as_str() == "touching_allowed" {
                    // To be allowed is not to touch.
                    allowed.insert(one.observer.to_string());
                    continue;
                }
                let person = out.entry(Whom::Person(one.observer.to_string())).or_default();
                let place = answer_words::site(LANGUAGE, site);
                let place = if place.is_empty() { place } else { format!(" ({place})") };
                person.touched.insert(format!("{}{place}", answer_words::finding(LANGUAGE, finding.as_str())));
                person.cut |= touch == Touch::Cut;
            }
        }
        said_of_gloves(&examination.sheet, &mut out);
        for id in linked(&examination.sheet, links::OUTING) {
            let wrote = outings.entry(id).or_default();
            wrote.extend(wrote_on(&examination.sheet, office));
        }
        reports.extend(linked(&examination.sheet, links::REPORT));
    }
    for who in allowed {
        let person = out.entry(Whom::Person(who)).or_default();
        if person.touched.is_empty() {
            person.not_known.insert("was allowed to touch it, and wrote of nothing that they touched; ask");
        }
    }
    for item in hands.list(folded, carcass) {
        for line in item.lines.iter().filter(|line| line.step != CustodyLineStep::Reported) {
            for hand in line.from.iter().chain([&line.to]).filter(|_| line.step != CustodyLineStep::Found) {
                out.entry(Whom::Person(hand.clone())).or_default().samples.insert(item.number.clone());
            }
        }
    }
    for (id, wrote) in outings {
        let Some(outing) = folded.outings.get(&id) else { continue };
        for (who, note) in text(outing, "exposure_note") {
            out.entry(Whom::Person(who)).or_default().hurt.insert(format!("exposure note: {note}"));
        }
        // One call, whoever wrote of them: a mark made for one list of names would hide the other.
        let names: BTreeSet<String> = text(outing, "people_out").into_iter().map(|(_, names)| names).collect();
        if !names.is_empty() {
            let names: Vec<String> = names.into_iter().collect();
            out.entry(Whom::Others(id, names.join("; "))).or_default();
        } else if let Some(not_known) = not_named(outing, wrote, office) {
            out.entry(Whom::Others(id, String::new())).or_default().not_known.insert(not_known);
        }
    }
    for (id, report) in reports.iter().filter_map(|id| Some((id, folded.reports.get(id)?))) {
        let reporter = said_of(report, "report_touched", "touched", "not known whether they touched it; ask");
        let dog = said_of(report, "report_dog", "dog_touched", "not known whether a dog of theirs touched it; ask");
        match (reporter, dog) {
            // Who is asked anyway is asked of the dog in the same call.
            (Some(mut reporter), Some(dog)) if dog.touched.is_empty() => {
                reporter.not_known.extend(dog.not_known);
                out.insert(Whom::Reporter(*id), reporter);
            }
            (reporter, dog) => {
                out.extend(reporter.map(|one| (Whom::Reporter(*id), one)));
                out.extend(dog.map(|one| (Whom::Dog(*id), one)));
            }
        }
    }
    out
}

/// Who wrote on a sheet, by code.
fn wrote_on(sheet: &Sheet, office: Option<DeviceId>) -> impl Iterator<Item = String> {
    let all = sheet.answers().flat_map(|(_, _, all)| all).filter(move |one| office != Some(one.id.device));
    all.map(|one| one.observer.to_string())
}

/// Why there may be somebody who was out that day and whom nobody named; `None` where all who were out wrote, or one
/// was out alone. Who held while another wrote stands nowhere.
fn not_named(outing: &Sheet, mut wrote: BTreeSet<String>, office: Option<DeviceId>) -> Option<&'static str> {
    wrote.extend(wrote_on(outing, office));
    let counted = outing.question("crew_count", Site::NONE).standing.into_iter();
    let most = counted.filter_map(|one| match one.answer.value() {
        Some(Value::Number(n)) => usize::try_from(*n).ok(),
        _ => None,
    });
    match most.max() {
        Some(most) if most > wrote.len() => {
            Some("more were out than wrote anything, and nobody wrote who; ask the crew")
        }
        Some(_) => None,
        None if outing.chose("roles", "alone") => None,
        None => Some("nobody wrote who was out that day; ask the crew"),
    }
}

/// What is known of who reported it, or of their dog; `None` where it is said that they did not touch it, and for a
/// camera. Not asked, or no answer, is not `not touched`.
fn said_of(report: &Sheet, finding: &str, option: &str, not_known: &'static str) -> Option<Exposure> {
    let all = report.question(finding, Site::NONE).standing;
    let said = || all.iter().map(|one| &one.answer);
    let mut exposure = Exposure::default();
    // Of two who spoke with them one may have heard it.
    if said().any(|answer| matches!(answer.value(), Some(Value::Choice(code)) if code == option)) {
        exposure.touched.insert("the carcass".to_owned());
        return Some(exposure);
    }
    if said().any(|answer| matches!(answer, Answer::Seen { .. } | Answer::NotSeen)) {
        return None;
    }
    exposure.not_known.insert(not_known);
    Some(exposure).filter(|_| !report.chose("report_seen_by", "camera"))
}

/// Everything that a sheet is linked to. Two who wrote on it may each have named their own.
pub(super) fn linked(sheet: &Sheet, link: &str) -> BTreeSet<Uuid> {
    let all = sheet.question(link, Site::NONE).standing.into_iter();
    all.filter_map(|one| match one.answer.value() {
        Some(Value::Ref(id)) => Some(*id),
        _ => None,
    })
    .collect()
}

/// What was said of gloves, eyes and cuts, put to who said it. The form has the first two stated by the confirm
/// before hands-on work.
fn said_of_gloves(sheet: &Sheet, out: &mut BTreeMap<Whom, Exposure>) {
    let rows = [
        ("confirm_h01", "done", "gloves on"),
        ("confirm_h01", "cannot", "could not glove up"),
        ("gloves_on", "there", "gloves on"),
        ("eyes_and_mask_on", "there", "eyes and mask covered"),
    ];
    for (finding, option, words) in rows {
        for one in sheet.question(finding, Site::NONE).standing {
            if matches!(one.answer.value(), Some(Value::Choice(code)) if code == option) {
                let whom = Whom::Person(one.observer.to_string());
                out.entry(whom).or_default().gloves.insert(words.to_owned());
            }
        }
    }
    for one in sheet.question("glove_torn", Site::NONE).standing {
        if let Some(Value::Choice(code)) = one.answer.value() {
            let words = answer_words::option(LANGUAGE, "glove_torn", code);
            let whom = Whom::Person(one.observer.to_string());
            out.entry(whom).or_default().hurt.insert(format!("glove torn: {words}"));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::find;

    /// A sheet of paper typed in names no step: what is counted in a rumen was in somebody's hands all the same.
    #[test]
    fn every_finding_of_the_rumen_has_its_step_of_the_bench() {
        for finding in ["rumen_points", "rumen_point_count", "rumen_plant_ml", "rumen_plant_percent", "rumen_sorting"] {
            assert!(asking(finding).is_some_and(|step| step.phase == Phase::Bench), "{finding}");
        }
        assert!(find("photo").is_some() && asking("photo").is_none(), "most photos are taken from where one stands");
    }
}
