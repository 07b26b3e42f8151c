//! Real deer of a published report, typed as findings, through the whole science.
//!
//! Source of the deer: `tests/reference/nc52-1971-individual-deer.csv` (NC-52, 1971; see
//! `tests/reference/published-deer.txt` for how each was typed). What each must and must not give is
//! in the report: its own ages, and the cases that its authors left open.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use std::collections::{BTreeMap, BTreeSet};

use marrowbook::office::findings_table::FindingsTable;
use marrowbook::reading::{self, Given, Outcome, Reading, Readings};
use marrowbook::record::fold;
use marrowbook::words::Language;
use serde_json::{Value, json};

const TYPED: &str = include_str!("reference/published-deer.txt");
const PUBLISHED: &str = include_str!("reference/nc52-1971-individual-deer.csv");

fn row(line: &str) -> Value {
    let mut parts = line.splitn(3, ' ');
    let (finding, place, said) = (parts.next().unwrap(), parts.next().unwrap(), parts.next().unwrap());
    let mut row = json!({ "finding": finding });
    match place.split('.').collect::<Vec<_>>().as_slice() {
        ["-"] => {}
        [side @ ("left" | "right")] => row["side"] = json!(side),
        [side @ ("left" | "right"), tooth] => {
            row["side"] = json!(side);
            row["tooth"] = json!(tooth);
        }
        [bone] => row["bone"] = json!(bone),
        other => panic!("{other:?}"),
    }
    let (sign, rest) = said.split_at(1);
    match sign {
        "=" => row["value"] = rest.parse::<i64>().map_or_else(|_| json!(rest), |n| json!(n)),
        "+" => row["value"] = json!(rest.split(',').collect::<Vec<_>>()),
        "!" => row["state"] = json!("not_seen"),
        "?" => (row["state"], row["why"]) = (json!("cant_tell"), json!(rest)),
        "~" => (row["state"], row["why"]) = (json!("part_gone"), json!(rest)),
        _ => panic!("{said}"),
    }
    row
}

/// The typed deer as the table that `office read` takes.
fn table() -> Value {
    let mut deer: Vec<Value> = Vec::new();
    for line in TYPED.lines().filter(|l| !l.starts_with('#') && !l.is_empty()) {
        if let Some(head) = line.strip_prefix('@') {
            let words: Vec<&str> = head.split(' ').collect();
            let [id, day, sex, class] = words[..] else { panic!("{head}") };
            let mut findings = vec![
                json!({ "finding": "species", "value": "white_tailed_deer" }),
                json!({ "finding": "quick_class", "value": class }),
                json!({ "finding": "arrived_at", "value": format!("{day}T12:00:00-06:00") }),
            ];
            match sex {
                "F" => findings.push(json!({ "finding": "sex_called", "value": "female" })),
                "M" => findings.push(json!({ "finding": "sex_called", "value": "male" })),
                _ => {}
            }
            deer.push(json!({ "name": id, "examinations": [{ "at": format!("{day}T12:00:00-06:00"), "findings": findings }] }));
        } else {
            let findings = deer.last_mut().unwrap()["examinations"][0]["findings"].as_array_mut().unwrap();
            findings.push(row(line));
        }
    }
    json!({ "format": "marrowbook-findings-1", "carcasses": deer })
}

fn readings() -> BTreeMap<String, Readings> {
    let bytes = serde_json::to_vec(&table()).unwrap();
    let tabled = FindingsTable::read(&bytes).unwrap().journal().unwrap();
    assert_eq!(tabled.set_aside, [], "every published deer can be typed");
    let folded = fold(&tabled.journal);
    tabled
        .carcasses
        .iter()
        .map(|(name, id)| (name.clone(), reading::all(&folded.carcasses[id], &Given::default())))
        .collect()
}

fn share(deer: &Readings, of: &str) -> f64 {
    deer.age
        .estimates
        .iter()
        .flat_map(|e| &e.shares)
        .find(|s| s.of.ends_with(of))
        .unwrap_or_else(|| panic!("no share {of} in {:?}", deer.age.estimates))
        .probability
}

fn ids(deer: &Readings) -> Vec<String> {
    deer.each().iter().flat_map(|r| r.statements.iter().chain(&r.cautions)).map(|s| s.id.clone()).collect()
}

fn words(deer: &Readings) -> String {
    words_of(deer.each())
}

fn words_of<'a>(readings: impl IntoIterator<Item = &'a Reading>) -> String {
    let all = readings.into_iter().flat_map(|r| r.statements.iter().chain(&r.cautions));
    all.map(|s| s.say(Language::English)).collect::<Vec<_>>().join("\n")
}

#[test]
fn every_deer_of_the_report_is_typed_once() {
    let published: BTreeSet<&str> = PUBLISHED.lines().skip(1).map(|l| l.split(',').next().unwrap()).collect();
    let read = readings();
    assert_eq!(read.keys().map(String::as_str).collect::<BTreeSet<_>>(), published);
    assert_eq!(published.len(), 38);
}

#[test]
fn a_jaw_with_five_cheek_teeth_is_not_always_a_fawns() {
    // M-45, M-52, M-225: adults of 4 and more with one P2 missing (NC-52, chapter 2, table 5).
    let read = readings();
    for id in ["M-45", "M-52", "M-225", "M-369"] {
        assert!(share(&read[id], "class.y0") < 0.02, "{id}: {:?}", read[id].age.estimates);
    }
}

#[test]
fn a_short_third_molar_does_not_make_a_yearling() {
    // M-191: third column of M3 absent in a buck of 4 and more (NC-52, chapter 2, table 5).
    let read = readings();
    assert!(share(&read["M-191"], "class.y1") < 0.1, "{:?}", read["M-191"].age.estimates);
}

#[test]
fn an_extra_first_premolar_is_taken_and_milk_teeth_say_yearling() {
    // M-31: doe of 17 months by eruption, milk P1 on both sides (NC-52, chapter 2, table 5).
    let read = readings();
    assert!(share(&read["M-31"], "class.y1") > 0.8, "{:?}", read["M-31"].age.estimates);
}

#[test]
fn a_march_fawn_with_milk_incisors_stays_a_fawn() {
    // N-2: fawn, March 1969, milk first incisors not shed (NC-52, chapter 2).
    let read = readings();
    assert!(share(&read["N-2"], "class.y0") > 0.8, "{:?}", read["N-2"].age.estimates);
}

#[test]
fn empty_marrow_says_exhausted_and_never_why_it_died() {
    // N-2 to N-5 had depleted marrow; for N-4 and N-5 the authors left the cause open.
    let read = readings();
    for id in ["N-2", "N-3", "N-4", "N-5"] {
        let deer = &read[id];
        assert_eq!(deer.condition.outcome, Outcome::Read, "{id}");
        let whole = serde_json::to_string(&deer.condition).unwrap();
        assert!(whole.contains("exhausted"), "{id}: {whole}");
        // The cause of death is a reading of its own and the only one that may name one.
        let named = ["cause.", "death."];
        let others = deer.each().into_iter().filter(|r| !named.iter().any(|n| r.method.starts_with(n)));
        let said = words_of(others).to_lowercase();
        for word in ["killed", "kill ", "predat", "wolf", "wolves", "starved to death", "died of"] {
            assert!(!said.contains(word), "{id} says `{word}`: {said}");
        }
        assert!(ids(deer).iter().any(|i| i == "reading.condition.caution.not_cause"), "{id}: {:?}", ids(deer));
    }
}

#[test]
fn what_nobody_looked_at_gives_no_reading() {
    // N-12 had heavy fat everywhere, but the report says nothing of its marrow; N-6 to N-11 nothing of teeth or marrow.
    let read = readings();
    for id in ["N-6", "N-7", "N-8", "N-9", "N-10", "N-11", "N-12", "M-28", "M-29"] {
        assert_eq!(read[id].condition.outcome, Outcome::NoEvidence, "{id}");
        assert!(!words(&read[id]).to_lowercase().contains("good condition"), "{id}");
    }
}

#[test]
fn a_called_class_keeps_the_reports_age_among_the_likely() {
    // N-1 was 2.5, M-96 was 2+ (NC-52): each was typed with that class called by wear.
    let read = readings();
    for id in ["N-1", "M-96"] {
        assert_eq!(read[id].age.outcome, Outcome::Read, "{id}");
        assert!(share(&read[id], "class.y2") > 0.3, "{id}: {:?}", read[id].age.estimates);
    }
}

#[test]
fn jaw_disease_widens_and_does_not_date() {
    // M-70 to M-402: jaws with lumps or necrosis; no tooth state is printed, so no age can be read.
    let read = readings();
    for id in ["M-70", "M-192", "M-206", "M-218", "M-228", "M-236", "M-402"] {
        let said = ids(&read[id]);
        // Only fawn or older was told, from afar: the reading says so and is too wide to lean on.
        assert!(said.iter().any(|i| i == "reading.age.caution.quick_class_only"), "{id}: {said:?}");
        assert!(said.iter().any(|i| i == "reading.age.caution.jaw_diseased"), "{id}: {said:?}");
        assert!(said.iter().any(|i| i == "reading.age.wide"), "{id}: {said:?}");
    }
}
