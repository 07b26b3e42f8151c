//! Readings from measures: weight, unborn young, sex, rings and growing ends, through the whole record.
//!
//! Where a figure has a source outside, it stands beside it; the rest are rules of the methods.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic, clippy::float_cmp)]

use marrowbook::office::findings_table::FindingsTable;
use marrowbook::reading::{self, Given, Outcome, Reading, Readings};
use marrowbook::record::fold;
use marrowbook::words::Language;
use serde_json::{Value, json};

/// A deer found on 20 February 2026; each row is a finding of one examination of that kind.
fn read(kind: &str, rows: Vec<Value>) -> Readings {
    let mut all = vec![json!({"finding": "species", "value": "white_tailed_deer"})];
    all.extend(rows);
    let exam = json!({"kind": kind, "at": "2026-02-20T12:00:00-06:00", "findings": all});
    let table =
        json!({"format": "marrowbook-findings-1", "carcasses": [{"name": "deer", "examinations": [exam]}]}).to_string();
    let tabled = FindingsTable::read(table.as_bytes()).unwrap().journal().unwrap();
    assert_eq!(tabled.set_aside, []);
    reading::all(&fold(&tabled.journal).carcasses[&tabled.carcasses[0].1], &Given::default())
}

fn value(finding: &str, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "value": value.into()})
}

fn left(finding: &str, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "side": "left", "value": value.into()})
}

fn item(finding: &str, n: u16, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "item": n, "value": value.into()})
}

fn tooth(finding: &str, tooth: &str, value: &str) -> Value {
    json!({"finding": finding, "side": "left", "tooth": tooth, "value": value})
}

/// A grown deer's row.
fn grown() -> Vec<Value> {
    let mut rows = vec![left("third_tooth", "two_cusps_stained"), left("cheek_teeth_count", 6)];
    rows.extend(
        ["m1", "m2", "m3"].into_iter().zip(["wider", "wider", "narrower"]).map(|(t, d)| tooth("dentine", t, d)),
    );
    rows
}

fn whole() -> Vec<Value> {
    vec![value("body_state", "whole"), value("body_frozen", "not_frozen"), value("decay", "fresh")]
}

fn with(base: Vec<Value>, more: impl IntoIterator<Item = Value>) -> Vec<Value> {
    base.into_iter().chain(more).collect()
}

fn ids(reading: &Reading) -> Vec<&str> {
    reading.statements.iter().chain(&reading.cautions).map(|s| s.id.as_str()).collect()
}

fn says(reading: &Reading, id: &str) -> bool {
    ids(reading).contains(&id)
}

fn words(reading: &Reading) -> String {
    reading.statements.iter().map(|s| s.say(Language::English)).collect::<Vec<_>>().join("\n")
}

/// South Carolina fawn of 30 inches (76.2 cm): 84.86 lb, which is 38.49 kg; West Virginia 87.5 lb (26 + 4 inches), which is
/// 39.69 kg: 46 + 6 x 4 = 70 lb dressed, 1.25 times that alive.
#[test]
fn a_fawn_by_two_rules() {
    let rows = with(
        whole(),
        [left("cheek_teeth_count", 5), left("third_tooth", "three_cusps"), value("chest_girth_cm", 76.2)],
    );
    let size = read("field", rows).size;
    assert_eq!(size.outcome, Outcome::Read);
    let bests: Vec<f64> = size.estimates.iter().map(|e| (e.best.unwrap() * 100.0).round() / 100.0).collect();
    assert_eq!(bests, [38.49, 39.69]);
    assert!(size.estimates.iter().all(|e| e.coverage == Some(0.9) && e.low < e.best && e.best < e.high));
    assert!(words(&size).contains("South Carolina, 229 fawns"));
    assert!(words(&size).contains("South Carolina, 316 yearlings and older: not used, it is for the other age"));
    assert!(says(&size, "reading.size.caution.autumn"));
    assert!(size.sources.iter().any(|s| s.mark == "design"), "the spread is a choice, and says so");
}

#[test]
fn no_girth_of_a_frozen_bloated_or_opened_body() {
    for (state, why) in [
        (vec![value("body_frozen", "part_frozen"), value("body_state", "whole")], "frozen"),
        (vec![value("swollen_belly", "there"), value("body_state", "whole")], "bloated"),
        (vec![value("body_state", "part_eaten")], "opened"),
    ] {
        let size = read("field", with(state, [value("chest_girth_cm", 90)])).size;
        assert_eq!(size.outcome, Outcome::Refused, "{why}");
        assert!(says(&size, &format!("reading.size.refused.{why}")));
        assert!(size.estimates.is_empty() && size.rests_on.len() >= 2);
    }
}

/// Typed in inches: said, and what it would be is offered, but not taken.
#[test]
fn a_girth_in_the_wrong_unit() {
    let size = read("field", with(whole(), [value("chest_girth_cm", 34)])).size;
    assert_eq!(size.outcome, Outcome::Refused);
    assert!(words(&size).contains("Was it 34 inches, which is 86 cm?"), "{}", words(&size));
    assert!(says(&size, "reading.size.if_other_unit"));
    assert_eq!(size.sharpen[0].finding, "chest_girth_cm");
    let other = read("field", with(whole(), [value("chest_girth_cm", 218)])).size;
    assert!(words(&other).contains("Was it 86 cm, typed as inches?"), "{}", words(&other));
}

/// 1.27 between the published factors; 47.6 kg is the 105 lb of the Oklahoma example (134 lb, 60.8 kg).
#[test]
fn scales_and_dressed_weight() {
    let size = read("bench", vec![value("dressed_weight_kg", 47.6), value("whole_weight_kg", 58.0)]).size;
    assert_eq!(size.estimates[0].best, Some(58.0));
    assert_eq!(size.estimates[0].coverage, None);
    let live = &size.estimates[1];
    assert!((live.best.unwrap() - 60.8).abs() < 0.5 && live.coverage == Some(0.95));
}

#[test]
fn bones_without_norms_are_kept_and_say_so() {
    let size = read("field", vec![left("hind_foot_mm", 480), left("mandible_mm", 190)]).size;
    assert_eq!(size.outcome, Outcome::Refused);
    assert!(says(&size, "reading.size.recorded") && says(&size, "reading.size.caution.no_norms"));
    assert!(!says(&size, "reading.size.caution.hind_foot_long"));
    let long = read("field", vec![left("hind_foot_mm", 640)]).size;
    assert!(says(&long, "reading.size.caution.hind_foot_long"));
    assert_eq!(read("field", Vec::new()).size.outcome, Outcome::NoEvidence);
}

/// A doe found on 20 February with a fetus of 150 mm: 85 days by the recalled equation (from memory). The window of
/// death reaches back 45 days, so the dates are wider than those of a known day.
#[test]
fn unborn_young() {
    let rows = vec![
        value("fetus", "there"),
        value("fetuses_count", 2),
        item("fetus_length_mm", 1, 150),
        item("fetus_length_mm", 2, 156),
        item("fetus_sex", 1, "female"),
    ];
    let r = read("field", rows);
    let unborn = &r.unborn;
    assert_eq!(unborn.outcome, Outcome::Read);
    assert!((unborn.estimates[0].best.unwrap() - 85.78).abs() < 1e-9);
    assert!(says(unborn, "reading.unborn.caution.unconfirmed") && !says(unborn, "reading.unborn.caution.thin_doe"));
    assert!(words(unborn).contains("2 unborn, 86 days old"), "{}", words(unborn));
    assert!(words(unborn).contains("Number 1: Female (at that age right at least 99 times in 100)"));
    assert!(unborn.sources.iter().any(|s| s.id == "fetus-equation" && s.mark == "memory"));
    assert_eq!(r.sex.statements[0].id, "reading.sex.female");
}

#[test]
fn a_thin_doe_widens_and_says_so() {
    let femur = |finding: &str, v: &str| json!({"finding": finding, "bone": "femur", "value": v});
    let marrow = [
        femur("marrow_consistency", "gelatinous_wet"),
        femur("marrow_see_through", "translucent"),
        femur("marrow_frozen", "never_frozen"),
        femur("bone_opened", "intact"),
    ];
    let fat = read("field", vec![item("fetus_length_mm", 1, 150)]).unborn;
    let thin = read("field", with(marrow.to_vec(), [item("fetus_length_mm", 1, 150)])).unborn;
    assert!(says(&thin, "reading.unborn.caution.thin_doe"));
    let width = |r: &Reading| r.estimates[0].high.unwrap() - r.estimates[0].low.unwrap();
    assert!((width(&thin) / width(&fat) - 1.5).abs() < 1e-9);
    assert!(thin.rests_on.len() > fat.rests_on.len(), "the marrow is named among what it rests on");
}

/// Strickland and others 2011: below 63 days the inexperienced are right less than 90 times in 100.
#[test]
fn small_young_are_not_sexed_and_long_ones_are_refused() {
    let small = read("field", vec![item("fetus_length_mm", 1, 70), item("fetus_sex", 1, "male")]).unborn;
    assert!(says(&small, "reading.unborn.sex_refused") && says(&small, "reading.unborn.caution.sex_line"));
    assert!(!words(&small).contains("Male"));
    let long = read("field", vec![item("fetus_length_mm", 1, 150), item("fetus_length_mm", 2, 620)]).unborn;
    assert_eq!(long.outcome, Outcome::Refused);
    assert!(words(&long).contains("Number 2: 620 mm is longer than any at birth"), "{}", words(&long));
    let seen = read("field", vec![value("fetus", "there")]).unborn;
    assert_eq!((seen.outcome, seen.sharpen[0].finding.as_str()), (Outcome::NoEvidence, "fetus_length_mm"));
}

#[test]
fn undetermined_is_an_answer_and_sex_hangs_on_age() {
    let brow = value("sex_evidence", json!(["no_pedicles"]));
    let fawn = read("field", vec![brow.clone(), left("cheek_teeth_count", 5), left("third_tooth", "three_cusps")]).sex;
    assert!(says(&fawn, "reading.sex.undetermined"), "{:?}", ids(&fawn));
    let old = read("field", with(grown(), [brow])).sex;
    assert!(says(&old, "reading.sex.likely") && words(&old).contains("Female"), "{}", words(&old));
    assert!(words(&old).contains("a smooth brow"));
    let pelvis = read("field", with(grown(), [value("pelvis_knobs", "knobs_there")])).sex;
    assert!(words(&pelvis).contains("Male") && says(&pelvis, "reading.sex.caution.pelvis"));
    let both = read("field", vec![value("sex_evidence", json!(["antlers", "suckled_nipples"]))]).sex;
    assert!(says(&both, "reading.sex.undetermined_both"));
    let against = read("field", vec![value("sex_evidence", json!(["antlers"])), value("sex_called", "female")]).sex;
    assert!(says(&against, "reading.sex.caution.called_otherwise"));
    // An antler that was measured is an antler.
    let beam = read("field", with(grown(), [left("antler_beam_mm", 410)])).sex;
    assert!(words(&beam).contains("Male"), "{}", words(&beam));
}

/// Rings entered later replace nothing; how far they lie from the teeth is said.
#[test]
fn rings_entered_later() {
    let teeth = read("field", grown()).age;
    let lab = [value("cementum_years_count", 8), value("cementum_grade", "grade_best")];
    let joined = read("bench", with(grown(), lab)).age;
    assert!(joined.estimates[0].best > teeth.estimates[0].best);
    assert!(says(&joined, "reading.age.rings_older") && says(&joined, "reading.age.caution.cementum_differs"));
    assert!(words(&joined).contains("Rings say 8 years; all else alone says"), "{}", words(&joined));
    assert!(!says(&joined, "reading.age.caution.keep_jaw_and_incisors"));
    assert_eq!(joined.title, "reading.age.title_more");
    let slip = read("bench", with(grown(), [value("cementum_years_count", 33)])).age;
    assert!(says(&slip, "reading.age.caution.too_many_rings"));
    assert_eq!(slip.estimates[0].shares, teeth.estimates[0].shares);
}

/// Purdue 1983: a hind cannon bone with no line is of a deer of 29 months or more.
#[test]
fn a_leg_without_a_head() {
    let cannon = |v: &str| json!({"finding": "growth_plate", "bone": "metatarsus", "value": v});
    let age = |v: &str| read("field", vec![cannon(v)]).age;
    let share = |r: &Reading, classes: std::ops::Range<usize>| -> f64 {
        r.estimates[0].shares[classes].iter().map(|s| s.probability).sum()
    };
    assert!(share(&age("closed"), 2..10) > 0.99);
    assert!(share(&age("open"), 0..2) > 0.99);
    assert_eq!(age("closed").title, "reading.age.title_more");
}

#[test]
fn calipers_on_the_bench() {
    let width = |mm: f64| json!({"finding": "dentine_width_mm", "side": "right", "value": mm});
    let age = |mm: f64| read("bench", with(grown(), [width(mm)])).age;
    assert!(words(&age(1.5)).contains("Width of dentine: 4.5 years if grown"), "{}", words(&age(1.5)));
    assert!(words(&age(0.2)).contains("2.5 years or less"));
    let far = age(4.5);
    assert!(words(&far).contains("was not used: it lies above the range of the rule"));
    assert!(says(&far, "reading.age.caution.measure_not_used"));
    // Shea and others 2002: 75 mm in a buck is 16.8 months.
    let yearling = [left("third_tooth", "three_cusps"), left("cheek_teeth_count", 6), left("tooth_row_mm", 75.0)];
    let row = read("bench", with(vec![value("sex_called", "male")], yearling)).age;
    assert!(words(&row).contains("Length of the tooth row: 16.8 months"), "{}", words(&row));
}

#[test]
fn other_animals_are_refused() {
    let rows = vec![value("species", "other_deer"), value("chest_girth_cm", 90), item("fetus_length_mm", 1, 150)];
    let exam = json!({"kind": "field", "at": "2026-02-20T12:00:00-06:00", "findings": rows});
    let table =
        json!({"format": "marrowbook-findings-1", "carcasses": [{"name": "deer", "examinations": [exam]}]}).to_string();
    let tabled = FindingsTable::read(table.as_bytes()).unwrap().journal().unwrap();
    let all = reading::all(&fold(&tabled.journal).carcasses[&tabled.carcasses[0].1], &Given::default());
    for reading in [&all.size, &all.unborn] {
        assert_eq!(reading.outcome, Outcome::Refused);
        assert!(says(reading, "reading.scope.not_white_tailed"));
    }
}

/// A doe's young of so many mm, of a doe that died on that day at that place.
fn young_at(mm: i64, died: &str, more: Vec<Value>) -> Readings {
    let rows = vec![value("fetus", "there"), item("fetus_length_mm", 1, mm), value("death_known_at", died)];
    read("field", with(rows, more))
}

/// Reference `age-and-sex.md` 6 and 7: the worked fetus of 150 mm on 20 February was conceived on 27 November, in
/// the rut; one of 460 mm then (184 days) in August, outside every season printed there.
#[test]
fn a_conception_outside_the_rut_is_told() {
    const OUTSIDE: &str = "reading.unborn.caution.outside_rut";
    let died = "2026-02-20T12:00:00-06:00";
    let within = young_at(150, died, Vec::new());
    assert!(!says(&within.unborn, OUTSIDE), "{}", words(&within.unborn));
    assert!(within.unborn.sources.iter().any(|s| s.id == "birth-dates" && s.mark == "design"));
    let august = young_at(460, died, Vec::new());
    assert!(says(&august.unborn, OUTSIDE));
    let told = august.unborn.cautions.iter().find(|c| c.id == OUTSIDE).unwrap().say(Language::English);
    assert!(told.contains("the rut, which runs 2025-10-12 to 2026-02-11 here"), "{told}");
    assert_eq!(august.unborn.outcome, Outcome::Read, "a caution, no refusal");
    // South of 38 N these births do not hold, and nothing is said of the rut.
    let place = |lat: f64| vec![json!({"finding": "place", "value": {"lat_deg": lat, "lon_deg": -90.0}})];
    assert!(says(&young_at(460, died, place(47.0)).unborn, OUTSIDE));
    assert!(!says(&young_at(460, died, place(33.0)).unborn, OUTSIDE));
}
