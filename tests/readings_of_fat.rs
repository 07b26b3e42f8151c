//! Readings of fat, of all evidence together, and of reserve, through the whole record.
//!
//! Where a figure has a source outside, it stands beside it; the rest are rules of the methods.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic, clippy::float_cmp)]

use marrowbook::office::findings_table::FindingsTable;
use marrowbook::reading::{self, Given, Outcome, Reading, Readings};
use marrowbook::record::fold;
use marrowbook::words::Language;
use serde_json::{Value, json};

/// A deer found on that day; each examination is (kind, rows).
fn read_on(day: &str, examinations: &[(&str, Vec<Value>)]) -> Readings {
    let mut all: Vec<Value> = examinations
        .iter()
        .map(|(kind, rows)| json!({"kind": kind, "at": format!("{day}T12:00:00-06:00"), "findings": rows}))
        .collect();
    all[0]["findings"].as_array_mut().unwrap().push(value("species", "white_tailed_deer"));
    let table =
        json!({"format": "marrowbook-findings-1", "carcasses": [{"name": "deer", "examinations": all}]}).to_string();
    let tabled = FindingsTable::read(table.as_bytes()).unwrap().journal().unwrap();
    assert_eq!(tabled.set_aside, []);
    reading::all(&fold(&tabled.journal).carcasses[&tabled.carcasses[0].1], &Given::default())
}

fn read(examinations: &[(&str, Vec<Value>)]) -> Readings {
    read_on("2026-02-20", examinations)
}

fn field(rows: Vec<Value>) -> Readings {
    read(&[("field", rows)])
}

fn value(finding: &str, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "value": value.into()})
}

fn by(who: &str, mut row: Value) -> Value {
    row["observer"] = json!(who);
    row
}

fn side(side: &str, finding: &str, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "side": side, "value": value.into()})
}

fn bone(bone: &str, finding: &str, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "bone": bone, "value": value.into()})
}

fn femur_look(look: &str) -> Vec<Value> {
    vec![
        bone("femur", "marrow_consistency", look),
        bone("femur", "marrow_frozen", "never_frozen"),
        bone("femur", "bone_opened", "intact"),
    ]
}

fn with(base: Vec<Value>, more: impl IntoIterator<Item = Value>) -> Vec<Value> {
    base.into_iter().chain(more).collect()
}

/// Six depots, all alike.
fn depots(amount: &str) -> Vec<Value> {
    let on_rump = match amount {
        "heavy" => "thick",
        "slight" => "thin",
        other => other,
    };
    let inside = ["brisket_fat", "gut_fat", "kidney_fat", "heart_fat", "pericardial_fat"];
    with(vec![value("rump_fat", on_rump)], inside.map(|finding| value(finding, amount)))
}

fn fat(all: &Readings) -> &Reading {
    all.fat.as_ref().unwrap()
}

fn combined(all: &Readings) -> &Reading {
    all.combined.as_ref().unwrap()
}

fn reserve(all: &Readings) -> &Reading {
    all.reserve.as_ref().unwrap()
}

fn ids(reading: &Reading) -> Vec<&str> {
    reading.statements.iter().chain(&reading.cautions).map(|s| s.id.as_str()).collect()
}

fn says(reading: &Reading, id: &str) -> bool {
    ids(reading).contains(&id)
}

fn words(reading: &Reading) -> String {
    reading.statements.iter().chain(&reading.cautions).map(|s| s.say(Language::English)).collect::<Vec<_>>().join("\n")
}

/// The word at the end.
fn word(all: &Readings) -> String {
    combined(all).statements[0].say(Language::English)
}

/// Definition seen in the Arkansas report: 36 g of fat over 62 g of kidney is 58.1 %. Mass of both kidneys only.
#[test]
fn kidney_by_both_trimmings() {
    let rows = vec![
        side("left", "kidney_g", 62.0),
        side("left", "kidney_fat_whole_g", 36.0),
        side("left", "kidney_fat_cut_g", 12.4),
    ];
    let one = field(rows.clone());
    let said = words(fat(&one));
    assert!(said.contains("all that tears off: 58.1 %") && said.contains("between straight cuts: 20.0 %"), "{said}");
    assert!(says(fat(&one), "reading.fat.caution.one_kidney") && says(fat(&one), "reading.fat.caution.trims"));
    assert!(!fat(&one).estimates.iter().any(|e| e.unit == "reading.unit.kidney_mass"), "one kidney has no mass");
    let both = field(with(rows, [side("right", "kidney_g", 58.0), side("right", "kidney_fat_whole_g", 34.0)]));
    assert_eq!(fat(&both).estimates[1].best, Some(70.0));
    assert!((fat(&both).estimates[0].best.unwrap() - 100.0 * 70.0 / 120.0).abs() < 1e-9);
    assert!(fat(&both).sources.iter().any(|s| s.mark == "ours") && fat(&both).sources.iter().any(|s| s.mark == "seen"));
}

#[test]
fn kidney_weights_that_cannot_be_are_refused_with_what_to_do() {
    for (rows, why, remedy) in [
        (vec![side("left", "kidney_fat_whole_g", 20.0)], "no_kidney_weight", "Weigh it"),
        (vec![side("left", "kidney_g", 60.0)], "no_fat_weight", "Weigh the fat"),
        (
            vec![
                side("left", "kidney_g", 60.0),
                side("left", "kidney_fat_whole_g", 20.0),
                side("left", "kidney_fat_cut_g", 25.0),
            ],
            "cut_above_whole",
            "swapped",
        ),
    ] {
        let all = field(rows.clone());
        let said = words(fat(&all));
        assert!(said.contains("no index") && said.contains(remedy), "{why}: {said}");
        assert_eq!(fat(&all).rests_on.len(), rows.len(), "every weight is kept");
        assert!(!fat(&all).estimates.iter().any(|e| e.unit == "reading.unit.kidney_index"), "{why}");
        assert_eq!(combined(&all).outcome, Outcome::NoEvidence, "{why} counts for nothing");
    }
}

/// Neiland's D and F, kept apart: a lab's percentage is read on its own scale or not at all.
#[test]
fn a_laboratorys_marrow() {
    let lab = |scale: Option<&str>| {
        let mut rows = vec![bone("femur", "marrow_lab_percent", 20.0), bone("femur", "marrow_frozen", "never_frozen")];
        rows.extend(scale.map(|s| bone("femur", "marrow_lab_scale", s)));
        field(rows)
    };
    let dry = lab(Some("dry_weight"));
    assert_eq!(dry.condition.estimates[0].best, Some(13.0));
    assert_eq!(dry.condition.estimates[1].best, Some(20.0));
    let drawn = lab(Some("fat_extracted"));
    assert_eq!(drawn.condition.estimates[0].best, Some(20.0));
    assert_eq!(drawn.condition.estimates.len(), 1, "no dry weight is made up");
    for unsaid in [lab(None), lab(Some("not_said"))] {
        assert_eq!(unsaid.condition.outcome, Outcome::Refused);
        let said = words(&unsaid.condition);
        assert!(said.contains("Ask the lab") && said.contains("fat 13.0 %") && said.contains("20.0 % if it is fat"));
        assert_eq!(word(&unsaid), "No fat and no marrow was looked at.");
    }
}

/// Mech and DelGiudice 1985: one way only. The four words, each by what a crew can record.
#[test]
fn the_four_words() {
    assert_eq!(word(&field(femur_look("gelatinous_wet"))), "exhausted");
    assert_eq!(word(&field(with(femur_look("gelatinous_opaque"), depots("none")))), "depleted");
    assert_eq!(word(&field(femur_look("gelatinous_opaque"))), "partly used");
    assert_eq!(word(&field(vec![value("rump_fat", "thin")])), "partly used");
    let full = field(femur_look("solid_waxy"));
    assert_eq!(word(&full), "cannot say");
    assert!(says(combined(&full), "reading.combined.ground.only_full_marrow"));
    let plenty = field(with(femur_look("solid_waxy"), depots("heavy")));
    assert_eq!(word(&plenty), "cannot say");
    assert!(!words(combined(&plenty)).to_lowercase().contains("good"), "no word for more");
    for all in [&full, &plenty] {
        assert!(says(combined(all), "reading.condition.caution.not_cause"));
    }
}

/// The reasons name each store, in the order in which they empty (Michigan DNR; Austin 1984), marrow last.
#[test]
fn every_store_says_what_it_allows() {
    let all = field(with(femur_look("gelatinous_opaque"), depots("slight")));
    let said = words(combined(&all));
    let place = |text: &str| said.find(text).unwrap_or_else(|| panic!("`{text}` not in {said}"));
    let order =
        ["Rump (empties first)", "Gut (empties second)", "Kidneys (empties third)", "Marrow, femur (empties last)"];
    assert!(order.windows(2).all(|pair| place(pair[0]) < place(pair[1])), "{said}");
    assert_eq!(said.matches("Allows:").count(), 7);
    assert_eq!(said.matches("Not:").count(), 7);
}

#[test]
fn a_contradiction_leaves_no_word_and_says_where_to_look() {
    let all = field(with(femur_look("gelatinous_wet"), [value("gut_fat", "heavy")]));
    assert_eq!(word(&all), "cannot say");
    assert!(says(combined(&all), "reading.combined.conflict.fat_beside_empty_marrow"));
    assert_eq!(combined(&all).sharpen[0].look.id, "reading.look.marrow_again");
    // The same fat, but wet like jelly, is no fat.
    let watery =
        field(with(femur_look("gelatinous_wet"), [value("gut_fat", "heavy"), value("fat_watery", json!(["gut"]))]));
    assert_eq!(word(&watery), "exhausted");
}

/// Two people, two answers: each way is worked out, both are shown, and a word stands only where all agree.
#[test]
fn answers_that_differ() {
    let rows = |a: &str, b: &str| {
        with(femur_look("gelatinous_wet"), [by("A1", value("gut_fat", a)), by("B2", value("gut_fat", b))])
    };
    let apart = field(rows("heavy", "none"));
    assert_eq!(word(&apart), "cannot say");
    assert_eq!(combined(&apart).variants.len(), 2);
    let same_word = field(rows("slight", "none"));
    assert_eq!(word(&same_word), "exhausted");
    assert_eq!(combined(&same_word).variants.len(), 2);
    assert!(says(fat(&apart), "reading.caution.split"));
}

/// Nichols and Pelton 1974: the sides of a jaw differ, so both are averaged; neither makes a contradiction.
#[test]
fn both_sides_of_the_jaw() {
    let jaw = |side: &str, wet: f64, dry: f64| {
        [("marrow_wet_g", wet), ("marrow_dry_g", dry)]
            .map(|(f, g)| json!({"finding": f, "bone": "mandible", "side": side, "value": g}))
    };
    let rows: Vec<Value> = [jaw("left", 2.0, 1.0), jaw("right", 2.0, 1.4)].concat();
    let all = read(&[("field", vec![]), ("bench", rows)]);
    assert!(words(fat(&all)).contains("mean of both sides: fat 53.0 %"), "{}", words(fat(&all)));
    assert!(words(fat(&all)).contains("differ by 20.0 points"));
    assert_eq!(word(&all), "partly used");
    assert!(says(combined(&all), "reading.combined.ground.jaw_alone"));
}

/// From memory: worked out with the mark in their words, and counted nowhere.
#[test]
fn formulas_from_memory_stay_behind_their_mark() {
    let kidneys =
        ["left", "right"].into_iter().flat_map(|s| [side(s, "kidney_g", 60.0), side(s, "kidney_fat_whole_g", 36.0)]);
    let rows = with(depots("moderate"), kidneys);
    let rows = with(rows, [value("muscle_mass", "lean"), value("rump_fat_mm", 20)]);
    let rows = with(
        rows,
        [
            bone("femur", "marrow_wet_g", 10.0),
            bone("femur", "marrow_dry_g", 9.7),
            bone("femur", "marrow_frozen", "never_frozen"),
        ],
    );
    let all = field(rows);
    let lines: Vec<String> = fat(&all).statements.iter().map(|s| s.say(Language::English)).collect();
    let recalled: Vec<&String> = lines.iter().filter(|l| l.contains("from memory")).collect();
    assert_eq!(recalled.len(), 3, "{lines:?}");
    // 60 % of kidney weight and 90 % femur fat: 130. Six depots at 10 and lean meat at 5: 65. 20 mm: 17.54.
    assert!(recalled.iter().any(|l| l.contains("CONINDEX") && l.contains("130")), "{recalled:?}");
    assert!(recalled.iter().any(|l| l.contains("65 of 100")), "{recalled:?}");
    assert!(recalled.iter().any(|l| l.contains("mule deer") && l.contains("18 %")), "{recalled:?}");
    assert_eq!(fat(&all).sources.iter().filter(|s| s.mark == "memory").count(), 3);
    for reading in [combined(&all), &all.condition] {
        for source in ["kistner-1980", "conindex", "rump-rule"] {
            assert!(!reading.sources.iter().any(|s| s.id == source), "{source} takes part in {}", reading.method);
        }
    }
    assert!(says(combined(&all), "reading.combined.caution.recalled"));
    let part = field(vec![value("heart_fat", "slight"), value("kidney_fat", "slight")]);
    assert!(words(fat(&part)).contains("2 of 7 lines: 10 of 30 points, not scaled up"), "{}", words(fat(&part)));
}

/// 40 kg against 50 to 60: 20 to 33 % lost (27 of the middles), with the scale's half step.
#[test]
fn weight_lost_against_a_reference() {
    let rows = vec![
        value("body_state", "whole"),
        value("whole_weight_kg", 40.0),
        value("reference_weight_of", "herd_mean"),
        value("reference_low_kg", 50.0),
        value("reference_high_kg", 60.0),
    ];
    let all = field(rows.clone());
    let loss = &reserve(&all).estimates[0];
    let near = |got: Option<f64>, expected: f64| assert!((got.unwrap() - expected).abs() < 0.005, "{got:?}");
    near(loss.low, 19.9);
    near(loss.best, 27.27);
    near(loss.high, 33.42);
    assert!(says(reserve(&all), "reading.reserve.caution.herd"));
    assert!(says(reserve(&all), "reading.reserve.caution.teaching"));
    // Bands at 15, 25 and 30 % (`condition-and-winter.md` 4.1): these ends lie in two of them.
    let said = words(reserve(&all));
    assert!(said.contains("more than well-fed deer lose, or up to at or past the usual limit"), "{said}");
    let mut close = rows.clone();
    close[3] = value("reference_low_kg", 50.0);
    close[4] = value("reference_high_kg", 51.0);
    let said = words(reserve(&field(close)));
    assert!(said.contains("more than well-fed deer lose") && !said.contains("or up to"), "{said}");
    // Both ages, since nobody told the age; days carry their ends and fawns no middle.
    let days: Vec<_> = reserve(&all).estimates.iter().filter(|e| e.unit == "reading.unit.days").collect();
    assert_eq!(days.len(), 2);
    assert!(days.iter().all(|e| e.low.unwrap() < e.high.unwrap()) && days[0].best.is_some() && days[1].best.is_none());
    let said = words(reserve(&all));
    assert!(said.contains("20.5 to 29.3 %") && said.contains("79 to 90") && said.contains("128 to 247"), "{said}");
}

#[test]
fn no_weight_no_figure() {
    let reference = [value("reference_low_kg", 50.0), value("reference_high_kg", 60.0)];
    let cases = [
        (vec![], Outcome::NoEvidence, "Not weighed"),
        (reference.to_vec(), Outcome::Refused, "was not weighed. Weigh it"),
        (
            with(vec![value("body_state", "part_eaten"), value("whole_weight_kg", 40.0)], reference.clone()),
            Outcome::Refused,
            "Not all of the body",
        ),
        (with(vec![value("whole_weight_kg", 40.0)], reference.clone()), Outcome::Refused, "Nobody said whether"),
        (
            vec![
                value("body_state", "whole"),
                value("whole_weight_kg", 40.0),
                value("reference_low_kg", 60.0),
                value("reference_high_kg", 50.0),
            ],
            Outcome::Read,
            "the least of the span is above its most",
        ),
        (
            vec![value("body_state", "whole"), value("whole_weight_kg", 40.0)],
            Outcome::Read,
            "No weight to set it against",
        ),
    ];
    for (rows, outcome, text) in cases {
        let all = field(rows);
        let said = words(reserve(&all));
        assert_eq!(reserve(&all).outcome, outcome, "{said}");
        assert!(said.contains(text), "{text}: {said}");
        assert!(!reserve(&all).estimates.iter().any(|e| e.unit == "reading.unit.loss"), "{said}");
    }
}

/// Silver and others 1969, reprinted: spring and summer rates run to 1.9 times those of winter, so the winter
/// figure is closed after April.
#[test]
fn no_days_of_reserve_after_april() {
    let rows = || vec![value("body_state", "whole"), value("whole_weight_kg", 40.0)];
    let all = read_on("2026-08-25", &[("field", rows())]);
    let said = words(reserve(&all));
    assert!(
        said.contains("after April") && !reserve(&all).estimates.iter().any(|e| e.unit == "reading.unit.days"),
        "{said}"
    );
    let spring = read_on("2026-05-05", &[("field", rows())]);
    assert!(says(reserve(&spring), "reading.reserve.caution.spring"));
}

/// Methods are for white-tailed deer: on another animal they refuse, whatever was seen.
#[test]
fn other_deer_are_refused() {
    let rows = with(femur_look("gelatinous_wet"), depots("none"));
    let rows = with(rows, [value("body_state", "whole"), value("whole_weight_kg", 40.0)]);
    let table = json!({"format": "marrowbook-findings-1", "carcasses": [{"name": "deer", "examinations": [
        {"kind": "field", "at": "2026-02-20T12:00:00-06:00", "findings": with(rows, [value("species", "other_deer")])}
    ]}]});
    let tabled = FindingsTable::read(table.to_string().as_bytes()).unwrap().journal().unwrap();
    let all = reading::all(&fold(&tabled.journal).carcasses[&tabled.carcasses[0].1], &Given::default());
    for reading in [fat(&all), combined(&all), reserve(&all)] {
        assert_eq!(reading.outcome, Outcome::Refused);
        assert_eq!(ids(reading), ["reading.scope.not_white_tailed"]);
    }
}

/// What nobody looked at says nothing: no answer of the other four is read as `none`.
#[test]
fn the_other_answers_are_not_none() {
    for (state, why) in [("not_looked", "time"), ("cant_tell", "frozen"), ("part_gone", "scavenged")] {
        let rows = ["rump_fat", "kidney_fat", "heart_fat"]
            .map(|finding| json!({"finding": finding, "state": state, "why": why}))
            .to_vec();
        let all = field(rows);
        assert_eq!(combined(&all).outcome, Outcome::NoEvidence, "{state}");
        assert_eq!(fat(&all).outcome, Outcome::NoEvidence, "{state}");
    }
}
