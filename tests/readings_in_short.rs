//! Readings in short, in either system of units, and left against right, through the whole record.
//!
//! Where a figure has a source outside, it stands beside it; the rest are rules of this project.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use marrowbook::office::findings_table::FindingsTable;
use marrowbook::reading::{self, Outcome, Reading, Readings, message_ids, short};
use marrowbook::record::{Shown, fold};
use marrowbook::words::Language;
use serde_json::{Value, json};

/// A deer found on 20 February 2026.
fn read(rows: Vec<Value>) -> Readings {
    let mut all = vec![json!({"finding": "species", "value": "white_tailed_deer"})];
    all.extend(rows);
    let exam = json!({"kind": "bench", "at": "2026-02-20T12:00:00-06:00", "findings": all});
    let table =
        json!({"format": "marrowbook-findings-1", "carcasses": [{"name": "deer", "examinations": [exam]}]}).to_string();
    let tabled = FindingsTable::read(table.as_bytes()).unwrap().journal().unwrap();
    assert_eq!(tabled.set_aside, []);
    reading::all(&fold(&tabled.journal).carcasses[&tabled.carcasses[0].1], &reading::Given::default())
}

fn value(finding: &str, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "value": value.into()})
}

/// One half of a jaw as the printed keys have it at a class: dentine of the three molars.
fn half(side: &str, dentine: [&str; 3]) -> Vec<Value> {
    let mut rows = vec![
        json!({"finding": "third_tooth", "side": side, "value": "two_cusps_stained"}),
        json!({"finding": "cheek_teeth_count", "side": side, "value": 6}),
    ];
    rows.extend(["m1", "m2", "m3"].into_iter().zip(dentine).flat_map(|(tooth, dentine)| {
        [
            json!({"finding": "tooth_state", "side": side, "tooth": tooth, "value": "in_wear"}),
            json!({"finding": "dentine", "side": side, "tooth": tooth, "value": dentine}),
        ]
    }));
    rows
}

/// Agencies' keys, dentine against enamel: 2 years, none wider; 5 years, all three wider.
const TWO: [&str; 3] = ["narrower", "narrower", "none"];
const FIVE: [&str; 3] = ["twice_or_more", "twice_or_more", "wider"];

fn whole() -> Vec<Value> {
    vec![value("body_state", "whole"), value("body_frozen", "not_frozen"), value("decay", "fresh")]
}

fn in_us(reading: &Reading) -> String {
    let short = short(reading);
    let all = [&short.best].into_iter().chain(&short.lines).chain(&reading.statements);
    let lines: Vec<String> = all.map(|s| s.say_in(Language::English, Shown::Us).replace('\u{a0}', " ")).collect();
    lines.join("\n")
}

#[test]
fn left_and_right_are_kept_apart_and_a_difference_of_a_class_is_said_and_flagged() {
    let apart = read([half("left", TWO), half("right", FIVE)].concat());
    let said = apart.age.statements.iter().find(|s| s.id == message_ids::AGE_SIDES).expect("the sides are named");
    let flags = short(&apart.age).flags;
    assert!(flags.iter().any(|f| f.values == said.values), "{flags:?}");
    let words = said.say(Language::English);
    assert!(words.starts_with("Left side alone: 2 years; right side alone: 5 years"), "{words}");
    // Mirrored, the words change places.
    let mirrored = read([half("left", FIVE), half("right", TWO)].concat());
    let words: Vec<String> = short(&mirrored.age).flags.iter().map(|s| s.say(Language::English)).collect();
    assert!(words.iter().any(|w| w.starts_with("Left: 5 years. Right: 2 years.")), "{words:?}");
    // Alike on both sides, or one side alone, there is nothing to flag.
    for same in [[half("left", FIVE), half("right", FIVE)].concat(), half("left", FIVE)] {
        assert!(short(&read(same).age).flags.iter().all(|s| s.id != reading::short::SIDES));
    }
}

/// South Carolina fawn rule (SEAFWA 1976, abstract): girth 30 in, live 84.86 lb. 76.2 cm is 30 in.
#[test]
fn a_girth_in_inches_gives_the_pounds_that_were_printed() {
    let mut rows = vec![
        json!({"finding": "cheek_teeth_count", "side": "left", "value": 5}),
        json!({"finding": "third_tooth", "side": "left", "value": "three_cusps"}),
        value("chest_girth_cm", 76.2),
    ];
    rows.extend(whole());
    let size = read(rows).size;
    let words = in_us(&size);
    assert!(words.contains("Girth 30.0 in:"), "{words}");
    assert!(words.contains("South Carolina, 229 fawns: 85 lb alive"), "{words}");
    assert!(!words.contains(" kg") && !words.contains(" cm"), "{words}");
}

/// Oklahoma example (Noble 2012): dressed 105 lb, 134 lb alive, 126 to 141. 47.7 kg is 105.2 lb.
#[test]
fn a_dressed_weight_in_pounds_likewise() {
    let size = read(vec![value("dressed_weight_kg", 47.7)]).size;
    let short = short(&size);
    let say = |shown| {
        let line = &short.lines[0];
        [&short.best, line].map(|s| s.say_in(Language::English, shown).replace('\u{a0}', " "))
    };
    assert_eq!(say(Shown::Us), ["About 134 lb alive", "126 lb to 141 lb: 95 in 100"]);
    // The same in kilograms, 0.45359237 kg to the pound.
    assert_eq!(say(Shown::Metric), ["About 61 kg alive", "57 kg to 64 kg: 95 in 100"]);
    let shown = size.estimates[0].shown_in(Shown::Us);
    assert_eq!(shown.unit, message_ids::UNIT_LB);
    assert!((shown.best.unwrap() - size.estimates[0].best.unwrap() / 0.453_592_37).abs() < 1e-9);
}

#[test]
fn nothing_known_is_three_cards_and_one_look() {
    let all = read(Vec::new());
    for one in all.main() {
        let short = short(one);
        assert_eq!(one.outcome, Outcome::NoEvidence);
        assert!(short.lines.is_empty() && short.flags.is_empty(), "{short:?}");
    }
    // Every open look of the three is offered once; what the model promises most stands first.
    let looks = all.sharpen();
    let gains: Vec<f64> = looks.iter().filter_map(|l| l.gain_bits).collect();
    assert!(!gains.is_empty() && looks[0].gain_bits == gains.iter().copied().reduce(f64::max), "{looks:?}");
    // What the model holds for next to nothing is not offered here.
    assert!(looks.iter().all(|l| l.gain_bits.is_none_or(|bits| bits >= 0.1)), "{looks:?}");
    let by_rule = all.main().iter().flat_map(|r| &r.sharpen).filter(|l| l.gain_bits.is_none()).count();
    assert_eq!(
        looks.iter().filter(|l| l.gain_bits.is_none()).count(),
        by_rule,
        "and nothing that a rule proposes is lost"
    );
}

#[test]
fn no_reading_is_left_out_of_the_screen() {
    let all = read(half("left", TWO));
    let shown: Vec<&str> = all.main().into_iter().chain(all.others()).map(|r| r.method.as_str()).collect();
    let mut each: Vec<&str> = all.each().into_iter().map(|r| r.method.as_str()).collect();
    assert_eq!(shown.len(), each.len());
    each.retain(|m| !shown.contains(m));
    assert!(each.is_empty(), "{each:?}");
}

#[test]
fn what_nobody_confirmed_is_marked() {
    let age = read(half("left", TWO)).age;
    let open = age.sources.iter().filter(|s| ["memory", "design", "ours"].contains(&&*s.mark)).count();
    assert!(open > 0);
    let mark = short(&age).mark.expect("marked").say(Language::English);
    assert_eq!(mark, format!("{open} of {} sources unconfirmed", age.sources.len()));
}
