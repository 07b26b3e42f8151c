//! Records that name the killer (DNA, photo, collar, witness) and the catching of a tagged deer. Rules 2 and 3 at
//! the head of the reference text on cause of death, its line on swabs (section 6) and row 43 of its checks.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic, clippy::float_cmp)]

use marrowbook::office::findings_table::FindingsTable;
use marrowbook::reading::{self, Given, Outcome, Reading, Val, cause_ids};
use marrowbook::record::fold;
use marrowbook::words::Language;
use serde_json::{Value, json};

fn seen(finding: &str, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "value": value.into()})
}

fn of_wound(finding: &str, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "item": 1, "value": value.into()})
}

/// The field examination, then each sheet as an examination of its own.
fn cause(field: Vec<Value>, sheets: &[Vec<Value>]) -> Reading {
    let mut first = vec![seen("species", "white_tailed_deer")];
    first.extend(field);
    let mut exams = vec![json!({"kind": "field", "at": "2026-02-20T12:00:00-06:00", "findings": first})];
    exams.extend(
        sheets.iter().map(|rows| json!({"kind": "bench", "at": "2026-04-20T12:00:00-06:00", "findings": rows})),
    );
    let table = json!({"format": "marrowbook-findings-1", "carcasses": [{"name": "deer", "examinations": exams}]});
    let tabled = FindingsTable::read(table.to_string().as_bytes()).unwrap().journal().unwrap();
    assert_eq!(tabled.set_aside, []);
    reading::all(fold(&tabled.journal).carcasses.values().next().unwrap(), &Given::default()).cause.unwrap()
}

/// Case E1 of the reference, 0.987 for the coyote before the cap.
fn attack() -> Vec<Value> {
    vec![
        seen("wounds_outside", "there"),
        of_wound("wound_form", "paired_holes"),
        of_wound("wound_bleeding", "clot_at_hole"),
        of_wound("clot_wiped", "clot_stays"),
        of_wound("upper_canines_mm", 31),
        seen("wound_zone_main", "throat"),
        seen("tracks_main", "medium_canid"),
        seen("snow_readable", "sharp"),
        json!({"finding": "marrow_consistency", "bone": "femur", "value": "solid_waxy"}),
    ]
}

/// Case E9: tracks of a medium canid, nothing else.
fn tracks() -> Vec<Value> {
    vec![seen("tracks_main", "medium_canid")]
}

fn dna(of: &str, from: &str) -> Vec<Value> {
    vec![seen("dna_of", of), seen("dna_from", from), seen("dna_lab", "Root Lab (invented)")]
}

fn record(of: &str, how: &str) -> Vec<Value> {
    vec![seen("kill_record_of", of), seen("kill_record_how", how), seen("kill_record_by", "camera 3")]
}

fn word(reading: &Reading) -> &str {
    reading.statements[0].id.strip_prefix("cause.label.").unwrap()
}

fn has(reading: &Reading, id: &str) -> bool {
    reading.statements.iter().chain(&reading.cautions).any(|s| s.id == id)
}

/// Cause, figure and ends of the first as ranked, probabilities.
fn first(reading: &Reading) -> (String, [f64; 3]) {
    let said = reading.statements.iter().find(|s| s.id == cause_ids::RANKED).unwrap();
    let of = |name: &str| match &said.values[name] {
        Val::InHundred(p) => *p,
        other => panic!("{other:?}"),
    };
    let Val::Message(cause) = &said.values["cause"] else { panic!("{said:?}") };
    (cause.trim_start_matches("cause.name.").to_owned(), [of("figure"), of("low"), of("high")])
}

#[test]
fn dna_from_a_clot_wound_lifts_the_cap_of_its_species() {
    let without = cause(attack(), &[]);
    assert_eq!(first(&without), ("coyote".to_owned(), [0.9; 3]));
    assert!(has(&without, cause_ids::UNCERTAIN_LINE));
    for sheet in [dna("coyote", "clot_wound"), record("coyote", "photo_or_camera"), record("coyote", "collar_record")] {
        let with = cause(attack(), &[sheet]);
        let (animal, [figure, _, high]) = first(&with);
        assert_eq!((animal.as_str(), word(&with)), ("coyote", "killed"));
        // Row E1 of the worked cases.
        assert!((figure - 0.987).abs() < 0.001 && high > 0.9, "{figure} {high}");
        assert!(!has(&with, cause_ids::UNCERTAIN_LINE) && has(&with, cause_ids::caution::RECORD_UNWEIGHED));
        assert_eq!(with.estimates[0].best, Some(figure));
        let shares: f64 = with.estimates[0].shares.iter().map(|s| s.probability).sum();
        assert!((shares - 1.0).abs() < 1e-9);
        assert!(with.rests_on.len() > without.rests_on.len() && with.entries_digest != without.entries_digest);
    }
}

/// "Scavenger saliva is also DNA: only swabs from wounds with a focal clot speak to the killer."
#[test]
fn dna_of_who_may_have_eaten_lifts_nothing() {
    for from in ["clean_wound", "wound_not_known", "elsewhere"] {
        let reading = cause(attack(), &[dna("coyote", from)]);
        assert_eq!(first(&reading), ("coyote".to_owned(), [0.9; 3]), "{from}");
        assert!(has(&reading, cause_ids::DNA_FED) && !has(&reading, cause_ids::DNA));
        assert_eq!(word(&reading), "killed");
    }
    // A wolf may have eaten what a coyote killed: the word stays.
    assert_eq!(word(&cause(attack(), &[dna("wolf", "elsewhere")])), "killed");
    // The sheet says a clot, the record of the deer has none.
    let mut no_clot = attack();
    no_clot.retain(|row| row["finding"] != "clot_wiped");
    no_clot.push(of_wound("clot_wiped", "wipes_off"));
    let reading = cause(no_clot, &[dna("coyote", "clot_wound")]);
    assert!(has(&reading, cause_ids::caution::DNA_NO_CLOT) && has(&reading, cause_ids::DNA_FED));
    assert!(first(&reading).1[0] <= 0.9);
}

#[test]
fn no_predator_typed_rules_none_out() {
    let none = vec![json!({"finding": "dna_of", "state": "not_seen"}), seen("dna_from", "clot_wound")];
    let reading = cause(attack(), &[none]);
    assert!(has(&reading, cause_ids::DNA_NONE));
    assert_eq!((first(&reading).1, word(&reading)), ([0.9; 3], "killed"));
}

#[test]
fn another_animal_on_record_leaves_the_species_open() {
    for sheet in [dna("wolf", "clot_wound"), record("wolf", "photo_or_camera"), record("wolf", "witness")] {
        let reading = cause(attack(), &[sheet]);
        assert_eq!(word(&reading), "not_determined");
        assert!(has(&reading, cause_ids::caution::RECORD_DIFFERS));
        assert_eq!(first(&reading), ("coyote".to_owned(), [0.9; 3]), "the coyote's figure stays cut");
    }
    let both = cause(attack(), &[dna("coyote", "clot_wound"), record("wolf", "photo_or_camera")]);
    assert_eq!((word(&both), first(&both).1), ("not_determined", [0.9; 3]));
    assert!(has(&both, cause_ids::caution::RECORDS_DIFFER) && !has(&both, cause_ids::caution::RECORD_DIFFERS));
}

/// Rule 2: only a clot, zone, chase, blood or a witnessed attack may raise `fed on` to `killed`.
#[test]
fn a_witnessed_attack_raises_fed_on_to_killed() {
    assert_eq!(word(&cause(tracks(), &[])), "possibly_killed");
    for how in ["photo_or_camera", "witness"] {
        assert_eq!(word(&cause(tracks(), &[record("coyote", how)])), "probably_killed", "{how}");
    }
    // A collar says where the coyote was, not what it did.
    assert_eq!(word(&cause(tracks(), &[record("coyote", "collar_record")])), "possibly_killed");
    // Word alone frees no figure (rule 3).
    let told = cause(attack(), &[record("coyote", "witness")]);
    assert_eq!((first(&told).1, has(&told, cause_ids::RECORD_WITNESS)), ([0.9; 3], true));
    // A record alone is evidence, and no figure stands on it.
    let alone = cause(Vec::new(), &[record("wolf", "photo_or_camera")]);
    assert_eq!((alone.outcome, word(&alone)), (Outcome::Read, "not_determined"));
    assert!(has(&alone, cause_ids::RECORD));
}

/// Row 43: a doe collared 10 days before its death is flagged, one of 20 days is not; 16 of 652 (DelGiudice et
/// al. 2005: within 14 days).
#[test]
fn a_fresh_catch_is_flagged() {
    use cause_ids::caution::{CAUGHT, HANDLED};
    let caught = |days: Option<i64>| {
        let mut rows = tracks();
        rows.push(seen("study_tag_or_collar", "there"));
        rows.extend(days.map(|days| seen("days_since_handling_count", days)));
        cause(rows, &[])
    };
    for (days, flagged, asked) in [
        (Some(10), true, false),
        (Some(20), false, false),
        (Some(13), true, false),
        (Some(14), false, false),
        (None, false, true),
    ] {
        let reading = caught(days);
        assert_eq!((has(&reading, CAUGHT), has(&reading, HANDLED)), (flagged, asked), "{days:?}");
    }
    let said = caught(Some(1)).cautions.iter().map(|s| s.say(Language::English)).collect::<Vec<_>>().join("\n");
    assert!(said.contains("Caught 1 day before it died"), "{said}");
}

/// A rule of the house: persons read whole numbers, and nothing is ever printed as sure or as ruled out.
#[test]
fn figures_are_printed_whole_and_never_none_or_all() {
    let reading = cause(tracks(), &[]);
    let line = reading.statements.iter().find(|s| s.id == cause_ids::RANKED).unwrap();
    // Case E9: 66.3 (44.0 to 80.7).
    assert_eq!(line.say(Language::English), "1. coyote: 66 in 100 (44 to 81)");
    let text = serde_json::to_value(line).unwrap();
    let digits = text["values"]["figure"]["in_hundred"].as_f64().unwrap();
    assert!((digits - 0.663).abs() < 0.000_6 && digits != 0.66, "{digits}");
    let mut said = line.clone();
    for (p, words) in
        [(0.004_9, "under 1"), (0.005, "1"), (0.994_9, "99"), (0.995, "over 99"), (1.0, "over 99"), (0.0, "under 1")]
    {
        said.values.insert("figure".to_owned(), Val::InHundred(p));
        assert!(said.say(Language::English).starts_with(&format!("1. coyote: {words} in 100")), "{p}");
    }
    let cut = cause(attack(), &[]);
    let cut = cut.statements.iter().find(|s| s.id == cause_ids::UNCERTAIN_LINE).unwrap();
    assert_eq!(cut.say(Language::English), "Predator, species uncertain: 9 in 100");
}
