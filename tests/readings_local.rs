//! Readings with the reserve's own figures from the local card, with a laboratory's sheet and a known age,
//! and answers that differ in every reading.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic, clippy::float_cmp)]

use marrowbook::card::Card;
use marrowbook::office::findings_table::FindingsTable;
use marrowbook::reading::{self, Given, Outcome, Reading, Readings};
use marrowbook::record::{Carcass, Digest, Moment, fold};
use marrowbook::words::Language;
use serde_json::{Value, json};

/// A deer found on 20 February 2026, by one or more examinations.
fn carcass(examinations: &[(&str, Vec<Value>)]) -> Carcass {
    let exams: Vec<Value> = examinations
        .iter()
        .zip(1..)
        .map(|((kind, rows), n)| {
            let mut all = vec![json!({"finding": "species", "value": "white_tailed_deer"})];
            all.extend(rows.iter().cloned());
            json!({"kind": kind, "at": format!("2026-02-20T12:0{n}:00-06:00"), "observer": format!("R{n}"), "findings": all})
        })
        .collect();
    let table =
        json!({"format": "marrowbook-findings-1", "carcasses": [{"name": "deer", "examinations": exams}]}).to_string();
    let tabled = FindingsTable::read(table.as_bytes()).unwrap().journal().unwrap();
    assert_eq!(tabled.set_aside, []);
    fold(&tabled.journal).carcasses[&tabled.carcasses[0].1].clone()
}

fn card_with(figures: &Value) -> Card {
    let mut card: Value = serde_json::from_str(include_str!("../demo/card.json")).unwrap();
    card["valid_from"] = "2025-10-01T00:00:00-06:00".into();
    card["valid_to"] = "2026-06-30T00:00:00-06:00".into();
    card["figures"] = figures.clone();
    Card::from_json(&card.to_string()).unwrap()
}

fn digest() -> Digest {
    Digest::of(&[b"card"])
}

fn read_with(rows: Vec<Value>, figures: &Value) -> Readings {
    reading::all(&carcass(&[("bench", rows)]), &Given::card(&card_with(figures), digest()))
}

fn value(finding: &str, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "value": value.into()})
}

fn left(finding: &str, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "side": "left", "value": value.into()})
}

fn tooth(finding: &str, tooth: &str, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "side": "left", "tooth": tooth, "value": value.into()})
}

fn says(reading: &Reading, id: &str) -> bool {
    reading.statements.iter().chain(&reading.cautions).any(|s| s.id == id)
}

fn words(reading: &Reading) -> String {
    let all = reading.statements.iter().chain(&reading.cautions);
    // A number and its unit are held together by a space that does not break.
    all.map(|s| s.say(Language::English)).collect::<Vec<_>>().join("\n").replace('\u{a0}', " ")
}

fn source<'a>(reading: &'a Reading, id: &str) -> Option<&'a reading::Basis> {
    reading.sources.iter().find(|s| s.id == id)
}

fn share(reading: &Reading, class: usize) -> f64 {
    reading.estimates[0].shares[class].probability
}

fn mean(reading: &Reading) -> f64 {
    reading.estimates[0].shares.iter().zip(0..).map(|(s, class)| s.probability * f64::from(class)).sum()
}

/// A reader who is always two years too high above four: a call of six is a deer of four.
fn generous_readers() -> Value {
    let mut rows = vec![vec![0_u32; 11]; 10];
    for (class, row) in rows.iter_mut().enumerate() {
        let call = if (4..=7).contains(&class) { class + 2 } else { class };
        row[call] = 900_000;
        row[if call == 10 { 9 } else { call + 1 }] += 100_000;
    }
    json!({"reader_model": {"version": 2, "made_on": "2026-01-05", "readers_count": 3, "known_count": 40,
        "by_rings_count": 12, "rows_millionths": rows}})
}

#[test]
fn an_age_is_read_with_the_reserves_own_readers_and_says_so() {
    let call = || vec![value("wear_class_called", "y6")];
    let plain = read_with(call(), &json!({})).age;
    let own = read_with(call(), &generous_readers()).age;
    assert!(mean(&own) < mean(&plain) - 1.0, "{} {}", mean(&own), mean(&plain));
    assert!(share(&own, 4) > 0.9);
    assert!(words(&own).contains("the reserve's own readers: 40 of known age, 12 by rings (version 2 of 2026-01-05)"));
    let basis = source(&own, "card-reader-model").unwrap();
    assert_eq!(basis.mark, "ours");
    assert!(basis.cite.contains("40 readings of known age") && basis.cite.ends_with("local card 3"), "{}", basis.cite);
    assert!(source(&plain, "card-reader-model").is_none() && !says(&plain, "reading.age.own_readers"));
    // Without a call the readers have no say and are not named.
    let no_call = read_with(vec![left("third_tooth", "three_cusps")], &generous_readers()).age;
    assert!(!says(&no_call, "reading.age.own_readers") && source(&no_call, "card-reader-model").is_none());
}

#[test]
fn the_digest_travels_and_a_card_that_does_not_hold_is_not_used() {
    let deer = carcass(&[("bench", vec![value("wear_class_called", "y6")])]);
    let plain = reading::all(&deer, &Given::default());
    let card = card_with(&generous_readers());
    let held = reading::all(&deer, &Given::card(&card, digest()));
    assert_eq!(held.card, Some(digest()));
    let judged = |at: &str| {
        let mut given = Given::card(&card, digest());
        given.card.as_mut().unwrap().at = Some(Moment::parse(at).unwrap());
        reading::all(&deer, &given)
    };
    for (at, id) in
        [("2026-07-01T00:00:00-06:00", "reading.card.expired"), ("2025-09-01T00:00:00-06:00", "reading.card.not_yet")]
    {
        let read = judged(at);
        assert_eq!(read.age.estimates, plain.age.estimates, "{at}");
        assert!(says(&read.age, id) && source(&read.age, "card-reader-model").is_none(), "{at}");
        assert_eq!(read.card, Some(digest()));
    }
    assert_eq!(judged("2026-03-01T00:00:00-06:00").age.estimates, held.age.estimates);
    let mut bad = card.clone();
    bad.figures.reader_model.as_mut().unwrap().rows_millionths[3][3] += 1;
    let read = reading::all(&deer, &Given::card(&bad, digest()));
    assert_eq!(read.age.estimates, plain.age.estimates);
    assert!(says(&read.age, "reading.card.bad"));
    // A card without figures is neither used nor blamed.
    let empty = reading::all(&deer, &Given::card(&card_with(&json!({})), digest()));
    assert_eq!(empty.age, plain.age);
}

#[test]
fn a_regions_own_births_move_the_months() {
    let fawn = || vec![left("cheek_teeth_count", 5)];
    let births =
        json!({"birth_dates": {"month": 5, "day": 25, "sd_days": 11, "source": "collared does, 2019 to 2024"}});
    let months =
        |read: &Reading| read.estimates.iter().find(|e| e.unit == "reading.unit.months").unwrap().best.unwrap();
    let (plain, own) = (read_with(fawn(), &json!({})).age, read_with(fawn(), &births).age);
    // 25 May is nine days before 3 June.
    let moved = months(&own) - months(&plain);
    assert!((moved - 9.0 / 30.4375).abs() < 0.26, "{moved}");
    assert!(words(&own).contains("Births taken round 05-25 (month-day), spread 11 days: collared does, 2019 to 2024"));
    assert_eq!(source(&own, "card-birth-dates").unwrap().mark, "ours");
}

#[test]
fn the_offices_starting_point_is_named_and_kept_from_cause() {
    let prior = json!({"age_prior": {"prior": "flat", "why": "compared with last winter"}});
    let call = || vec![value("wear_class_called", "y4")];
    let (plain, own) = (read_with(call(), &json!({})).age, read_with(call(), &prior).age);
    assert!(words(&own).contains("every class alike") && !words(&plain).contains("every class alike"));
    assert!(words(&own).contains("office's choice (compared with last winter). Never join this age with a cause"));
    assert_ne!(plain.estimates, own.estimates);
    // The cause of death is the same to the last digit, whatever starting point the office chose.
    let rows = || vec![value("wear_class_called", "y9"), value("examination_closed", "complete")];
    let harvest = json!({"age_prior": {"prior": "harvest", "why": "compared with the season"}});
    let (plain, own) = (read_with(rows(), &json!({})), read_with(rows(), &harvest));
    assert_ne!(plain.age.estimates, own.age.estimates);
    assert!(plain.cause.is_some());
    assert_eq!(plain.cause, own.cause);
}

fn norms() -> Value {
    let row = |measure: &str, age: &str, sex: &str, mean: u32, sd: u32| {
        json!({"measure": measure, "age": age, "sex": sex, "mean_tenths_mm": mean, "sd_tenths_mm": sd,
            "deer_count": 30, "source": "weigh station (invented)"})
    };
    json!({"norms": [
        row("hind_foot_mm", "grown", "female", 4600, 100), row("hind_foot_mm", "grown", "male", 4900, 100),
        row("hind_foot_mm", "fawn", "female", 4000, 120),
    ]})
}

#[test]
fn norms_make_size_speak_of_fawn_and_of_sex() {
    let short = read_with(vec![left("hind_foot_mm", 400), value("sex_evidence", json!(["udder_or_vulva"]))], &norms());
    // z = -6 against grown does: a fawn, by size alone (a shift of two standard deviations is the design).
    assert!(short.age.outcome == Outcome::Read && share(&short.age, 0) > 0.9, "{}", words(&short.age));
    assert_eq!(source(&short.age, "card-norms").unwrap().mark, "ours");
    assert!(
        words(&short.size).contains(
            "Hind foot 400 mm: -6.0 spreads from the mean of grown does of the reserve (460 mm, spread 10 mm, 30 deer)"
        ),
        "{}",
        words(&short.size)
    );
    assert!(words(&short.size).contains("doe fawns") && !says(&short.size, "reading.size.caution.no_norms"));
    let mut grown = vec![left("hind_foot_mm", 495), left("third_tooth", "two_cusps_stained")];
    grown.push(tooth("dentine", "m1", "wider"));
    let buck = read_with(grown.clone(), &norms()).sex;
    assert!((buck.estimates[0].best.unwrap() - 0.75).abs() < 1e-9, "three to one at most");
    assert!(says(&buck, "reading.sex.undetermined") && says(&buck, "reading.sex.by_size"), "{}", words(&buck));
    // Without norms, size says nothing of age or sex.
    let none = read_with(grown, &json!({}));
    assert!(!says(&none.sex, "reading.sex.by_size") && says(&none.size, "reading.size.recorded"));
}

/// Does of 470 and bucks of 480 mm, spread 12 mm in each, are half and half a herd of 475 mm with a spread of 13: the
/// variance of a mixture is that within and that between (12 and 5, so 13). A deer of open sex is held against that.
#[test]
fn a_deer_of_open_sex_is_held_against_both_sexes_together() {
    let row = |sex: Option<&str>, mean: u32, sd: u32| {
        let mut row = json!({"measure": "hind_foot_mm", "age": "grown", "mean_tenths_mm": mean, "sd_tenths_mm": sd,
            "deer_count": 30, "source": "weigh station (invented)"});
        if let Some(sex) = sex {
            row["sex"] = sex.into();
        }
        row
    };
    let fawn_share = |rows: Vec<Value>| {
        let deer =
            vec![left("hind_foot_mm", 449), value("sex_evidence", json!(["pedicles_or_knobs", "udder_or_vulva"]))];
        share(&read_with(deer, &json!({"norms": rows})).age, 0)
    };
    let apart = fawn_share(vec![row(Some("female"), 4700, 120), row(Some("male"), 4800, 120)]);
    let together = fawn_share(vec![row(None, 4750, 130)]);
    let narrow = fawn_share(vec![row(None, 4750, 120)]);
    assert!((apart - together).abs() < 1e-9, "{apart} {together}");
    assert!((narrow - together).abs() > 1e-3, "the spread moves it: {narrow} {together}");
}

fn crowns() -> Value {
    json!({"crown_heights": [{"tooth": "m1", "unworn_tenths_mm": 120, "in_wear_months": 6, "worn_out_months": 192,
        "deer_count": 14, "source": "own jaws (invented)"}],
        "molar_ratio": {"intercept_tenths_months": 100, "slope_tenths_months": 400, "sd_tenths_months": 120,
        "from_hundredths": 80, "to_hundredths": 250, "deer_count": 31, "source": "own jaws (invented)"}})
}

/// The worked example of the documented formula: 12 mm unworn, 6 mm left, 6 to 192 months: 52.5 months.
#[test]
fn crown_height_and_molar_ratio_speak_only_with_the_offices_constants() {
    let mut rows = vec![left("third_tooth", "two_cusps_stained"), tooth("crest", "m1", "blunt")];
    rows.extend(["m1", "m2", "m3"].map(|t| tooth("crown_height_mm", t, 6)));
    rows.extend(["m1", "m2", "m3"].map(|t| tooth("molar_width_mm", t, 9)));
    let own = read_with(rows.clone(), &crowns()).age;
    let said = words(&own);
    assert!(said.contains("first molar (M1): 52 months if grown (31 to 74), by the office's constants"), "{said}");
    assert!(said.contains("Molar ratio: 70 months if grown (50 to 90), by the office's line"), "{said}");
    assert_eq!(source(&own, "card-caliper-constants").unwrap().mark, "ours");
    assert_eq!(source(&own, "quadratic-crown-height").unwrap().mark, "memory");
    let plain = read_with(rows.clone(), &json!({}));
    assert!(!says(&plain.age, "reading.age.own_crown") && says(&plain.size, "reading.size.molar_ratio"));
    assert_ne!(plain.age.estimates, own.estimates);
    // Higher than unworn: refused with the reason, and the estimate is left alone.
    rows[2] = tooth("crown_height_mm", "m1", 15);
    let high = read_with(rows, &json!({"crown_heights": crowns()["crown_heights"]})).age;
    assert!(says(&high, "reading.age.own_crown_not"));
    assert_eq!(high.estimates, plain.age.estimates);
}

/// Two teeth are worth their mean (rule of the house). By the documented formula a crown half gone is a quarter of the
/// way from first wear to worn out: 52.5 months of 6 to 192, 72.5 of 26 to 212, and between them 62.5 of 16 to 202.
#[test]
fn two_crowns_speak_as_one_of_their_mean() {
    let teeth = || {
        let mut rows = vec![left("third_tooth", "two_cusps_stained"), tooth("crest", "m1", "blunt")];
        rows.extend(["m1", "m2"].map(|t| tooth("crown_height_mm", t, 6)));
        rows
    };
    let own = |teeth: &[(&str, u32, u32)]| {
        let row = |(tooth, from, to): &(&str, u32, u32)| {
            json!({"tooth": tooth, "unworn_tenths_mm": 120, "in_wear_months": from, "worn_out_months": to,
                "deer_count": 14, "source": "own jaws (invented)"})
        };
        json!({"crown_heights": teeth.iter().map(row).collect::<Vec<_>>()})
    };
    let two = read_with(teeth(), &own(&[("m1", 6, 192), ("m2", 26, 212)])).age;
    let one = read_with(teeth(), &own(&[("m1", 16, 202)])).age;
    let first = read_with(teeth(), &own(&[("m1", 6, 192)])).age;
    assert!((mean(&two) - mean(&one)).abs() < 1e-9, "{} {}", mean(&two), mean(&one));
    assert!(mean(&two) > mean(&first) + 0.1, "{} {}", mean(&two), mean(&first));
}

#[test]
fn a_laboratorys_count_is_joined_and_the_difference_said() {
    let teeth = || {
        vec![
            left("third_tooth", "two_cusps_stained"),
            tooth("dentine", "m1", "narrower"),
            tooth("dentine", "m2", "narrower"),
        ]
    };
    let sheet = [
        value("cementum_years_count", 8),
        value("cementum_grade", "grade_best"),
        value("cementum_lab", "Root Lab (invented)"),
        value("cementum_tooth", "first_incisor"),
        value("cementum_sample", "S-14"),
        value("cementum_reported_at", "2026-04-02T12:00:00-06:00"),
    ];
    let alone = reading::all(&carcass(&[("field", teeth())]), &Given::default()).age;
    let deer = carcass(&[("field", teeth()), ("bench", sheet.to_vec())]);
    let joined = reading::all(&deer, &Given::default()).age;
    assert!(share(&joined, 8) > share(&alone, 8) && share(&joined, 2) > 0.0, "joined, not put in its place");
    assert!(
        says(&joined, "reading.age.rings_older")
            && words(&joined).contains("Rings read by Root Lab (invented): First incisor")
    );
    // Two sheets that differ: both are worked out.
    let second = vec![value("cementum_years_count", 3)];
    let both =
        reading::all(&carcass(&[("field", teeth()), ("bench", sheet.to_vec()), ("bench", second)]), &Given::default())
            .age;
    assert!(both.variants.len() >= 2 && says(&both, "reading.caution.split"));
}

#[test]
fn a_known_age_is_shown_and_moves_nothing() {
    let call = vec![value("wear_class_called", "y6")];
    let plain = reading::all(&carcass(&[("bench", call.clone())]), &Given::default()).age;
    let known = vec![value("known_age_years_count", 4), value("known_age_how", "tagged_as_fawn")];
    let told = reading::all(&carcass(&[("bench", call), ("bench", known)]), &Given::default()).age;
    assert_eq!(plain.estimates, told.estimates);
    assert!(
        words(&told).contains("Age known to the office: 4 completed birthdays (Tagged as a fawn)"),
        "{}",
        words(&told)
    );
}

#[test]
fn a_death_told_later_than_the_deer_was_found_is_refused() {
    let deer = |at: &str| {
        let rows = vec![
            value("death_known_at", at),
            value("fetus", "there"),
            json!({"finding": "fetus_length_mm", "item": 1, "value": 150}),
            value("wear_class_called", "y4"),
        ];
        reading::all(&carcass(&[("field", rows)]), &Given::default())
    };
    let good = deer("2026-02-18T09:00:00-06:00");
    assert!(good.age.outcome == Outcome::Read && !says(&good.age, "reading.age.caution.window_assumed"));
    assert!(words(&good.age).contains("2026-02-18"));
    // The young are dated from the death that is known; where only the day found is, that is assumed and said.
    let assumed = "reading.age.caution.window_assumed";
    assert!(!says(&good.unborn, assumed), "{}", words(&good.unborn));
    let rows = vec![value("fetus", "there"), json!({"finding": "fetus_length_mm", "item": 1, "value": 150})];
    let found = reading::all(&carcass(&[("field", rows)]), &Given::default()).unborn;
    assert!(says(&found, assumed), "{}", words(&found));
    let bad = deer("2026-02-25T09:00:00-06:00");
    assert_eq!((bad.age.outcome, bad.unborn.outcome), (Outcome::Refused, Outcome::Refused));
    assert!(says(&bad.age, "reading.age.refused.window_reversed"));
    assert!(says(&bad.unborn, "reading.unborn.refused.window_reversed"));
    assert!(words(&bad.age).contains("Check the dates"));
}

#[test]
fn answers_that_differ_are_worked_every_way_in_every_reading() {
    let first = vec![
        value("sex_evidence", json!(["udder_or_vulva"])),
        value("body_state", "whole"),
        value("body_frozen", "not_frozen"),
        value("chest_girth_cm", 90),
        left("third_tooth", "two_cusps_stained"),
        tooth("dentine", "m1", "wider"),
        value("fetuses_count", 1),
        json!({"finding": "fetus_length_mm", "item": 1, "value": 150}),
        json!({"finding": "fetus_sex", "item": 1, "value": "female"}),
    ];
    let second = vec![
        value("sex_evidence", json!(["scrotum_or_penis"])),
        value("body_frozen", "frozen_solid"),
        json!({"finding": "fetus_sex", "item": 1, "value": "male"}),
    ];
    let one = reading::all(&carcass(&[("field", first.clone())]), &Given::default());
    let both = reading::all(&carcass(&[("field", first), ("field", second)]), &Given::default());
    for (before, after) in [(&one.sex, &both.sex), (&one.size, &both.size), (&one.unborn, &both.unborn)] {
        assert!(before.variants.is_empty() && !says(before, "reading.split.ways"), "{}", before.method);
        assert!(after.variants.len() == 2 && says(after, "reading.split.ways"), "{}: {}", after.method, words(after));
        let taken: Vec<_> = after.variants.iter().map(|v| v.taken.clone()).collect();
        assert_ne!(taken[0], taken[1], "{}", after.method);
        assert!(after.rests_on.len() > before.rests_on.len(), "{}", after.method);
    }
    // Frozen one way and not the other: a weight one way, a refusal with its reason the other.
    assert!(says(&both.size, "reading.split.apart"), "{}", words(&both.size));
    let headlines: Vec<&str> = both.size.variants.iter().map(|v| v.headline.id.as_str()).collect();
    assert!(
        headlines.contains(&"reading.size.girth") && headlines.iter().any(|id| id.contains("frozen")),
        "{headlines:?}"
    );
    // Signs of both sexes by two people: no sex is named, and each way is its own.
    assert!(says(&both.sex, "reading.split.apart"));
    assert!(both.sex.estimates[0].best.is_none());
    // Same age of the young either way: the figure stands, the sexes are both shown.
    assert_eq!(both.unborn.estimates, one.unborn.estimates);
}

/// From memory, and out of the combined reading unless the office's card lets them in: then marked, said first, and
/// the word as it was. Figures as in `condition-and-winter.md` 3.4 and 3.7 (CONINDEX 130 of 60 and 90; 65 points).
#[test]
fn the_office_may_let_formulas_from_memory_into_the_condition() {
    const LET_IN: &str = "reading.combined.caution.let_in";
    let depots = ["rump_fat", "brisket_fat", "gut_fat", "kidney_fat", "heart_fat", "pericardial_fat"];
    let mut rows: Vec<Value> = depots.map(|depot| value(depot, "moderate")).to_vec();
    rows.push(value("muscle_mass", "lean"));
    for side in ["left", "right"] {
        for (finding, grams) in [("kidney_g", 60.0), ("kidney_fat_whole_g", 36.0)] {
            rows.push(json!({"finding": finding, "side": side, "value": grams}));
        }
    }
    let femur = [("marrow_wet_g", json!(10.0)), ("marrow_dry_g", json!(9.7)), ("marrow_frozen", json!("never_frozen"))];
    rows.extend(femur.map(|(finding, v)| json!({"finding": finding, "bone": "femur", "value": v})));
    let out = read_with(rows.clone(), &json!({}));
    let within = read_with(rows, &json!({"formulas_from_memory": {"why": "to rank our own deer"}}));
    let (out, within) = (out.combined.unwrap(), within.combined.unwrap());
    assert_eq!(out.statements[0], within.statements[0], "no formula moves the word");
    assert!(says(&out, "reading.combined.caution.recalled") && !says(&out, LET_IN));
    assert!(!says(&within, "reading.combined.caution.recalled"));
    assert_eq!(within.cautions[0].id, LET_IN, "said first");
    assert!(words(&within).contains("FROM MEMORY") && words(&within).contains("(to rank our own deer)"));
    assert!(reading::short(&within).flags.iter().any(|flag| flag.id == LET_IN), "in short as well");
    let lines = words(&within);
    assert!(
        lines.contains("[from memory] CONINDEX") && lines.contains(": 130.") && lines.contains("65 of 100"),
        "{lines}"
    );
    for id in ["kistner-1980", "conindex"] {
        assert_eq!(source(&within, id).map(|s| &*s.mark), Some("memory"), "{id}");
        assert!(source(&out, id).is_none());
    }
}

fn browse(rows: &Value) -> Value {
    json!({"browse": rows})
}

/// Frames of ten points.
fn points(all: &[(&str, usize)]) -> Vec<Value> {
    let all: Vec<&str> = all.iter().flat_map(|(code, n)| std::iter::repeat_n(*code, *n)).collect();
    let frame =
        |(n, frame): (usize, &[&str])| json!({"finding": "rumen_points", "item": n + 1, "value": frame.join(" ")});
    let mut rows: Vec<Value> = all.chunks(10).enumerate().map(frame).collect();
    rows.extend([value("rumen_method", "point_count"), value("rumen_point_count", "counted")]);
    rows
}

/// The card's tier stands in place of New York's, for a plant of the list and for one that a crew named, and its
/// digestibility beside it with region and source. Shares are of the counts themselves.
#[test]
fn the_cards_browse_list_ranks_the_reserves_own_foods() {
    let mut rows = points(&[("balsam_fir", 60), ("own_1", 30), ("sugar_maple", 10)]);
    rows.push(json!({"finding": "rumen_own_plant", "item": 1, "value": "Beaked hazel"}));
    let poor = |readings: &Readings| {
        let diet = readings.diet.as_ref().unwrap();
        let of =
            diet.estimates.iter().find(|e| e.unit.ends_with("unit.poor") || e.unit.ends_with("unit_poor")).unwrap();
        (of.best.unwrap(), of.unit.clone())
    };
    let (before, unit) = poor(&read_with(rows.clone(), &json!({})));
    assert!((before - 60.0).abs() < 1e-9 && unit == "reading.diet.unit.poor", "balsam fir is poor in New York's list");
    let fir = json!({"item": "balsam_fir", "tier": "second", "digestible_percent": 43, "region": "our yard",
        "source": "pen trial 2024"});
    let hazel = json!({"item": "beaked HAZEL ", "tier": "poor", "region": "our yard", "source": "twig counts"});
    let readings = read_with(rows.clone(), &browse(&json!([fir, hazel])));
    let (after, unit) = poor(&readings);
    assert!((after - 30.0).abs() < 1e-9 && unit == "reading.diet.own.unit_poor", "{after} {unit}");
    let diet = readings.diet.unwrap();
    let said = words(&diet);
    for line in [
        "Balsam fir: second choice, by the local card (our yard; pen trial 2024)",
        "Balsam fir, as food for deer: 43 % digested, by the local card (our yard; pen trial 2024)",
        "Beaked hazel: poor food, by the local card (our yard; twig counts)",
        "Preferred or second choice, by the local card and New York's list: 60 %",
        "Readily eaten, by the local card and New York's list: 10 %",
    ] {
        assert!(said.contains(line), "{line}\n{said}");
    }
    // Sugar maple still stands by New York's list.
    assert!(says(&diet, "reading.diet.caution.own_and_list") && source(&diet, "card-browse").unwrap().mark == "ours");
    let maple = json!({"item": "sugar_maple", "tier": "readily", "region": "our yard", "source": "twig counts"});
    let all_own = read_with(rows, &browse(&json!([fir, hazel, maple]))).diet.unwrap();
    assert!(!says(&all_own, "reading.diet.caution.own_and_list") && !says(&all_own, "reading.diet.caution.tiers"));
}

/// A region's own births move the rut with them (`age-and-sex.md` 6: mean 25 May to 10 June).
#[test]
fn the_rut_is_that_of_the_cards_births() {
    const OUTSIDE: &str = "reading.unborn.caution.outside_rut";
    let rows = |mm: i64| {
        vec![
            value("fetus", "there"),
            json!({"finding": "fetus_length_mm", "item": 1, "value": mm}),
            value("death_known_at", "2026-02-20T12:00:00-06:00"),
        ]
    };
    // 338 mm are 145 days: conceived on 28 September, at the latest (13 days more) on 11 October. The rut of births
    // round 25 May begins on 3 October, that of births round 10 June on 19 October.
    let narrow = |day: u8, month: u8| json!({"birth_dates": {"month": month, "day": day, "sd_days": 3, "source": "collared does"}});
    let early = read_with(rows(338), &narrow(25, 5)).unborn;
    let late = read_with(rows(338), &narrow(10, 6)).unborn;
    assert!(!says(&early, OUTSIDE), "{}", words(&early));
    assert!(says(&late, OUTSIDE), "{}", words(&late));
    assert!(source(&late, "card-birth-dates").is_some() && source(&late, "birth-dates").is_none());
}
