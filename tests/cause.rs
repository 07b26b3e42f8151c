//! The cause reading from findings: which finding answers which observation, the words, what is kept apart,
//! what is offered next. Figures: worked cases of the reference text on cause of death, section 7.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic, clippy::float_cmp)]

use marrowbook::card::{Card, EvidenceTable};
use marrowbook::office::findings_table::{FindingsTable, Tabled};
use marrowbook::reading::{self, Given, Outcome, Reading, Statement, Val, built_in, cause_ids, digest_of_table};
use marrowbook::record::{Carcass, Digest, Fold, find, fold};
use serde_json::{Value, json};

fn tabled(rows: Vec<Value>) -> Tabled {
    let mut all = vec![json!({"finding": "species", "value": "white_tailed_deer"})];
    all.extend(rows);
    let table = json!({"format": "marrowbook-findings-1", "carcasses": [{"name": "deer", "examinations": [
        {"kind": "field", "at": "2026-02-20T12:00:00-06:00", "findings": all}]}]});
    FindingsTable::read(table.to_string().as_bytes()).unwrap().journal().unwrap()
}

fn folded(rows: Vec<Value>) -> Fold {
    let tabled = tabled(rows);
    assert_eq!(tabled.set_aside, []);
    fold(&tabled.journal)
}

fn one(fold: &Fold) -> &Carcass {
    fold.carcasses.values().next().unwrap()
}

fn cause_with(rows: Vec<Value>, given: &Given) -> Reading {
    reading::all(one(&folded(rows)), given).cause.unwrap()
}

fn cause(rows: Vec<Value>) -> Reading {
    cause_with(rows, &Given::default())
}

fn seen(finding: &str, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "value": value.into()})
}

fn not_seen(finding: &str) -> Value {
    json!({"finding": finding, "state": "not_seen"})
}

fn of_wound(finding: &str, value: impl Into<Value>) -> Value {
    json!({"finding": finding, "item": 1, "value": value.into()})
}

fn number(value: &Val) -> f64 {
    match value {
        Val::InHundred(p) => p * 100.0,
        Val::Number { value, .. } => *value,
        Val::Count(n) => *n as f64,
        other => panic!("{other:?}"),
    }
}

/// Cause, figure, low and high in 100, as ranked.
fn ranked(reading: &Reading) -> Vec<(String, f64, f64, f64)> {
    let of = |s: &Statement| {
        let Val::Message(cause) = &s.values["cause"] else { panic!("{s:?}") };
        let cause = cause.strip_prefix("cause.name.").unwrap().to_owned();
        (cause, number(&s.values["figure"]), number(&s.values["low"]), number(&s.values["high"]))
    };
    reading.statements.iter().filter(|s| s.id == cause_ids::RANKED).map(of).collect()
}

fn word(reading: &Reading) -> &str {
    reading.statements[0].id.strip_prefix("cause.label.").unwrap()
}

fn has(reading: &Reading, id: &str) -> bool {
    reading.statements.iter().chain(&reading.cautions).any(|s| s.id == id)
}

/// Case E9 of the reference: tracks of a medium canid, nothing else.
#[test]
fn tracks_alone_say_possibly_at_most() {
    let reading = cause(vec![seen("tracks_main", "medium_canid")]);
    let first = &ranked(&reading)[0];
    assert_eq!(first.0, "coyote");
    for (got, expected) in [(first.1, 66.3), (first.2, 44.0), (first.3, 80.7)] {
        assert!((got - expected).abs() < 0.11, "{got} instead of {expected}");
    }
    assert_eq!(word(&reading), "possibly_killed");
    assert!(has(&reading, cause_ids::caution::FEEDING) && has(&reading, cause_ids::caution::EXPERT));
    assert!(has(&reading, cause_ids::caution::DETECTION) && has(&reading, cause_ids::caution::NO_AREA));
}

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

/// Case E1 of the reference: 0.987 before the cap; 0.90 and 0.087 in print.
#[test]
fn a_clot_at_measured_holes_is_definite_and_its_figure_capped() {
    let reading = cause(attack());
    assert_eq!(word(&reading), "killed");
    let first = &ranked(&reading)[0];
    assert_eq!((first.0.as_str(), first.1, first.2, first.3), ("coyote", 90.0, 90.0, 90.0));
    let cut = reading.statements.iter().find(|s| s.id == cause_ids::UNCERTAIN_LINE).unwrap();
    assert!((number(&cut.values["figure"]) - 8.7).abs() < 0.11);
    let shares: f64 = reading.estimates[0].shares.iter().map(|s| s.probability).sum();
    assert!((shares - 1.0).abs() < 1e-9, "{shares}");
    assert!(reading.sharpen.is_empty(), "nothing more is advised");
}

/// What a thawed body shows is a stain unless it is a clot at a hole (Roe et al. 2012; row 28 of the checks).
#[test]
fn a_wiped_off_stain_is_no_clot_and_its_spacing_does_not_count() {
    let mut rows = attack();
    rows.retain(|row| row["finding"] != "clot_wiped");
    rows.push(of_wound("clot_wiped", "wipes_off"));
    let reading = cause(rows);
    assert_ne!(word(&reading), "killed");
    let told: Vec<String> = messages(&reading);
    assert!(told.contains(&"cause.seen.bite_haemorrhage.diffuse_stain".to_owned()), "{told:?}");
    assert!(!told.iter().any(|id| id.starts_with("cause.seen.canine_spacing")), "{told:?}");
}

/// Observation O19 of the reference: states by the mean of all pairs of holes, in whole millimetres.
#[test]
fn the_spacing_of_holes_goes_to_its_row_of_the_table() {
    let state = |spacings: &[i64]| {
        let mut rows = attack();
        rows.retain(|row| row["finding"] != "upper_canines_mm");
        // A second pair of holes is a second wound that bled.
        for (mm, item) in spacings.iter().zip(1..) {
            rows.push(json!({"finding": "upper_canines_mm", "item": item, "value": mm}));
            if item > 1 {
                for (finding, value) in
                    [("wound_form", "paired_holes"), ("wound_bleeding", "clot_at_hole"), ("clot_wiped", "clot_stays")]
                {
                    rows.push(json!({"finding": finding, "item": item, "value": value}));
                }
            }
        }
        let used = cause(rows);
        let told = messages(&used);
        let mut found = told.iter().filter_map(|id| id.strip_prefix("cause.seen.canine_spacing."));
        found.next().unwrap_or_else(|| panic!("{spacings:?}: {told:?}")).to_owned()
    };
    for (mm, expected) in [
        (19, "under_20_mm"),
        (20, "mm_20_27"),
        (27, "mm_20_27"),
        (28, "mm_28_36"),
        (36, "mm_28_36"),
        (37, "mm_37_45"),
        (45, "mm_37_45"),
        (46, "over_45_mm"),
    ] {
        assert_eq!(state(&[mm]), expected, "{mm} mm");
    }
    // The mean of 26 and 29 is 27.5: to the nearest millimetre, half up, 28.
    assert_eq!(state(&[26, 29]), "mm_28_36");
    assert_eq!(state(&[26, 28]), "mm_20_27");
}

/// In short, a cause has its word and every ranked line, measures have all their lines after the first, and where the
/// word is that no cause is named, no list of causes names one all the same. Rules of the house.
#[test]
fn in_short_the_causes_stand_in_order_and_beside_a_blade_none() {
    let short_ids = |r: &Reading| reading::short(r).lines.iter().map(|line| line.id.clone()).collect::<Vec<_>>();
    let attacked = cause(attack());
    let short = reading::short(&attacked);
    assert_eq!(short.best, attacked.statements[0]);
    let ranked: Vec<_> = attacked.statements.iter().filter(|s| s.id == cause_ids::RANKED).cloned().collect();
    assert!(ranked.len() > 1);
    assert_eq!(short.lines, ranked);
    let mut cut = attack();
    cut.push(seen("clean_knife_cuts", "there"));
    let cut = cause(cut);
    assert_eq!(word(&cut), "people");
    assert_eq!(short_ids(&cut), Vec::<String>::new());
    let rows = vec![seen("scat_width_mm", 20), of_wound("talon_front_mm", 50), of_wound("talon_hind_mm", 120)];
    let measures = reading::all(one(&folded(rows)), &Given::default()).left_signs.unwrap();
    let lines = reading::short(&measures).lines;
    assert!(lines.len() > 1);
    assert_eq!(lines, measures.statements[1..]);
    // What a sex rests on is its one line.
    let doe = reading::all(one(&folded(vec![seen("sex_evidence", json!(["udder_or_vulva"]))])), &Given::default()).sex;
    assert_eq!(short_ids(&doe), ["reading.sex.by"]);
}

/// Everything that is told for or against the first three.
fn messages(reading: &Reading) -> Vec<String> {
    let lists = reading.statements.iter().filter(|s| s.id == cause_ids::FOR || s.id == cause_ids::AGAINST);
    let of = |s: &Statement| match &s.values["seen"] {
        Val::List(all) => all.clone(),
        other => panic!("{other:?}"),
    };
    lists.flat_map(of).map(|v| if let Val::Message(id) = v { id } else { panic!() }).collect()
}

/// Row 29 of the checks: holes without a clot, blood at the nose only.
#[test]
fn blood_at_the_nose_is_seep_only() {
    let told = messages(&cause(vec![
        seen("blood_on_snow", "there"),
        seen("blood_where", json!(["at_nose_or_anus"])),
        seen("snow_readable", "sharp"),
    ]));
    assert!(told.contains(&"cause.seen.blood_on_snow.seep_only".to_owned()), "{told:?}");
}

#[test]
fn what_later_snow_hides_is_no_witness() {
    let bare = cause(vec![seen("body_position", "on_chest")]);
    let hidden = cause(vec![
        seen("body_position", "on_chest"),
        seen("snow_over_body", "covered"),
        not_seen("blood_on_snow"),
        not_seen("drag_marks"),
        not_seen("cached_over"),
        not_seen("chase_or_struggle_marks"),
        seen("tracks_main", "medium_canid"),
    ]);
    assert_eq!(ranked(&bare), ranked(&hidden));
    assert!(has(&hidden, cause_ids::caution::SNOW_LATER));
}

/// Row 46 of the checks: what was not looked at, could not be told or is gone changes nothing.
#[test]
fn an_unanswered_question_changes_nothing() {
    let plain = cause(vec![seen("tracks_main", "medium_canid")]);
    let more = cause(vec![
        seen("tracks_main", "medium_canid"),
        json!({"finding": "lungs", "state": "not_looked", "why": "frozen"}),
        json!({"finding": "organ_rupture", "state": "cant_tell", "why": "frozen"}),
        json!({"finding": "rumen", "state": "part_gone", "why": "scavenged"}),
    ]);
    assert_eq!(ranked(&plain), ranked(&more));
    assert_eq!(plain.entries_digest.to_string().len(), more.entries_digest.to_string().len());
}

#[test]
fn who_ate_is_kept_apart_from_who_killed() {
    // Starved, then fed on: case E2 of the reference, read from findings.
    let reading = cause(vec![
        not_seen("bruise_under_skin"),
        seen("body_position", "on_chest"),
        json!({"finding": "marrow_consistency", "bone": "femur", "value": "gelatinous_wet"}),
        seen("inside_fat", "none_or_gel"),
        seen("tracks_main", "medium_canid"),
        seen("tracks_by", json!(["coyote", "fox"])),
        seen("feeding_began", "rump_or_hams"),
    ]);
    assert_eq!(word(&reading), "probably_died");
    assert_eq!(ranked(&reading)[0].0, "starvation");
    let fed = reading.statements.iter().find(|s| s.id == cause_ids::FED_ON).unwrap();
    assert_eq!(fed.values["by"], Val::List(vec![Val::message("cause.fed.coyote"), Val::message("cause.fed.fox")]));
}

#[test]
fn a_projectile_gets_a_stop_and_no_cause() {
    let reading = cause(vec![seen("projectile_or_wound_track", "there"), seen("death_place", "roadside_or_yard")]);
    assert_eq!(word(&reading), "people");
    assert!(has(&reading, cause_ids::caution::PEOPLE));
}

#[test]
fn nothing_seen_is_no_evidence_but_says_what_to_look_at() {
    let reading = cause(vec![]);
    assert_eq!(reading.outcome, Outcome::NoEvidence);
    assert!(reading.estimates.is_empty());
    assert!(!reading.sharpen.is_empty());
}

#[test]
fn differing_answers_are_left_out_and_each_is_worked_out() {
    let table = json!({"format": "marrowbook-findings-1", "carcasses": [{"name": "deer", "examinations": [
        {"kind": "field", "at": "2026-02-20T12:00:00-06:00", "findings": [
            seen("species", "white_tailed_deer"), seen("tracks_main", "medium_canid"), seen("death_place", "woods_or_trail")]},
        {"kind": "field", "at": "2026-02-20T14:00:00-06:00", "findings": [seen("tracks_main", "felid")]}]}]});
    let tabled = FindingsTable::read(table.to_string().as_bytes()).unwrap().journal().unwrap();
    let fold = fold(&tabled.journal);
    let reading = reading::all(one(&fold), &Given::default()).cause.unwrap();
    assert!(has(&reading, cause_ids::caution::SPLIT));
    assert_eq!(reading.variants.len(), 2);
    assert_eq!(ranked(&reading), ranked(&cause(vec![seen("death_place", "woods_or_trail")])));
}

#[test]
fn a_phone_may_leave_the_cause_out() {
    let fold = folded(attack());
    let left_out = reading::all(one(&fold), &Given { without_cause: true, ..Given::default() });
    assert!(left_out.cause.is_none() && left_out.left_signs.is_none());
    assert!(!serde_json::to_string(&left_out).unwrap().contains("coyote"));
}

fn card(cause: &Value) -> Card {
    let text = json!({"form": 1, "serial": 1, "office": "Invented", "valid_from": "2025-10-01T00:00:00-05:00",
        "valid_to": "2027-06-30T00:00:00-04:00", "people": [{"code": "K7", "name": "Invented"}], "cause": cause,
        "flags": {"predators": ["wolf"]},
        "calls": [{"call_for": "lead", "name": "L", "number": "1"}, {"call_for": "officer", "name": "O", "number": "2"},
            {"call_for": "emergency", "name": "E", "number": "3"}]});
    Card::from_json(&text.to_string()).unwrap()
}

#[test]
fn the_card_chooses_the_area_and_it_is_shown() {
    let rows = || vec![seen("tracks_main", "large_canid")];
    let on = |cause: &Value| {
        let card = card(cause);
        cause_with(rows(), &Given::card(&card, Digest::of(&[b"card"])))
    };
    let lakes = on(&json!({"area": "great_lakes"}));
    assert_eq!(ranked(&lakes)[0].0, "wolf");
    let start = lakes.statements.iter().find(|s| s.id == cause_ids::STARTED_FROM).unwrap();
    assert_eq!(start.values["area"], Val::message("cause.area.great_lakes"));
    assert!(!has(&lakes, cause_ids::caution::NO_AREA));
    let east = on(&json!({"area": "northeast"}));
    assert!(ranked(&east).iter().all(|(cause, ..)| cause != "wolf"), "a share of nothing stays nothing");
    assert!(has(&east, cause_ids::caution::WOLF_NOT_IN_AREA));
    assert!(Card::from_json(&json!({"area": "nowhere"}).to_string()).is_err());
}

#[test]
fn a_table_of_the_office_is_used_and_named() {
    let mut own = built_in();
    own.name = "Table of an invented office".to_owned();
    // Tracks of a large canid as usual with coyotes as with wolves.
    let tracks = own.rows.iter_mut().find(|row| row.row == "tracks").unwrap();
    for (state, cell) in tracks.states.iter_mut().zip(["84E", "2E", "3E", "1E", "3E", "5E", "2E"]) {
        state.cells[0] = cell.to_owned();
    }
    let digest = digest_of_table(&own);
    let card = card(&json!({"area": "great_lakes", "table": serde_json::to_value(&own).unwrap()}));
    let reading = cause_with(vec![seen("tracks_main", "large_canid")], &Given::card(&card, Digest::of(&[b"own"])));
    let named = reading.statements.iter().find(|s| s.id == cause_ids::TABLE).unwrap();
    assert_eq!(named.values["digest"], Val::Text(digest.to_string()));
    assert_eq!(named.values["name"], Val::Text(own.name.clone()));
    let first_two: Vec<String> = ranked(&reading).into_iter().take(2).map(|r| r.0).collect();
    assert!(first_two.contains(&"coyote".to_owned()), "{first_two:?}");
    assert_ne!(digest, digest_of_table(&built_in()));
    let again: EvidenceTable = serde_json::from_value(serde_json::to_value(&own).unwrap()).unwrap();
    assert_eq!(digest_of_table(&again), digest);
}

#[test]
fn every_finding_of_a_row_exists() {
    for finding in reading::FINDINGS_OF.iter().flat_map(|all| all.iter()) {
        assert!(find(finding).is_some(), "{finding}");
    }
}

/// Rows 6, 10, 11, 12 and 14 of the checks, from findings.
#[test]
fn measures_say_who_left_the_signs() {
    let left = |rows| reading::all(one(&folded(rows)), &Given::default()).left_signs.unwrap();
    let ids = |r: &Reading| r.statements.iter().map(|s| s.id.clone()).collect::<Vec<_>>();
    let measures = cause_ids::measures::TITLE.trim_end_matches(".title").to_owned();
    let bite = |mm: i64| left(vec![of_wound("upper_canines_mm", mm)]);
    assert_eq!(ids(&bite(28)), [format!("{measures}.open")]);
    assert_eq!(ids(&bite(11)), [format!("{measures}.no_predator")]);
    // 32 mm: coyote 20.9 to 1 over bobcat (row 7), but a dog's spacing is anything: two stay.
    let near = Val::List(vec![Val::message("cause.animal.coyote"), Val::message("cause.animal.dog")]);
    assert_eq!(bite(32).statements[0].values["animals"], near);
    assert!(has(&bite(32), cause_ids::measures::FEW_PAIRS));
    assert!(ids(&left(vec![seen("scat_width_mm", 20)])).contains(&format!("{measures}.scat_open")));
    let talons = left(vec![of_wound("talon_front_mm", 50), of_wound("talon_hind_mm", 120)]);
    assert_eq!(ids(&talons), [format!("{measures}.eagle")]);
    // Crisp tracks count; melted ones do not.
    let track = |edges: &str| left(vec![seen("track_edges", edges), seen("front_track_width_mm", 98)]);
    assert_eq!(track("crisp").outcome, Outcome::Read);
    assert_eq!(track("melted_or_blurred").outcome, Outcome::NoEvidence);
    assert_eq!(left(vec![]).outcome, Outcome::NoEvidence);
}

/// Each measure of a track by itself, at the middle of an animal's printed range (the reference's table of measures).
#[test]
fn each_measure_of_a_track_speaks() {
    let left = |finding: &str, value: i64| {
        let rows = vec![seen("track_edges", "crisp"), seen(finding, value)];
        reading::all(one(&folded(rows)), &Given::default()).left_signs.unwrap()
    };
    let animals = |r: &Reading| -> Vec<String> {
        let said = r.statements.iter().find(|s| s.values.contains_key("what")).unwrap();
        let name = |v: &Val| if let Val::Message(id) = v { id.replace("cause.animal.", "") } else { panic!("{v:?}") };
        match said.values.get("animals") {
            Some(Val::List(all)) => all.iter().map(name).collect(),
            _ => vec![name(&said.values["animal"])],
        }
    };
    for (finding, value, unit, fits, does_not) in [
        ("front_track_width_mm", 53, cause_ids::measures::WIDTH, "coyote", "wolf"),
        ("front_track_length_mm", 110, cause_ids::measures::LENGTH, "wolf", "coyote"),
        ("walking_stride_cm", 27, cause_ids::measures::STRIDE, "bobcat", "coyote"),
        ("track_toes_count", 5, cause_ids::measures::TOES, "fisher", "wolf"),
        ("track_toes_count", 4, cause_ids::measures::TOES, "wolf", "bear"),
    ] {
        let r = left(finding, value);
        assert_eq!(r.estimates[0].unit, unit);
        let told = animals(&r);
        assert!(told.contains(&fits.to_owned()) && !told.contains(&does_not.to_owned()), "{finding} {value}: {told:?}");
    }
}

/// Who raked snow alone over it, an animal or the wind, nobody can say; with litter or hair in it an animal did.
#[test]
fn snow_alone_is_no_cover() {
    let covered = |with: Option<&[&str]>| {
        let with = with.map(|with| seen("cover_with", json!(with)));
        let rows = vec![seen("tracks_main", "felid"), seen("cached_over", "there")];
        cause(rows.into_iter().chain(with).collect())
    };
    let bare = ranked(&cause(vec![seen("tracks_main", "felid")]));
    assert_eq!(ranked(&covered(Some(&["snow_raked"]))), bare);
    for with in [None, Some(&["snow_raked", "plucked_hair"] as &[&str]), Some(&["leaves_or_soil"]), Some(&["sticks"])] {
        let reading = covered(with);
        assert!(messages(&reading).contains(&"cause.seen.covered.yes".to_owned()), "{with:?}");
        assert_ne!(ranked(&reading), bare);
    }
    let not = cause(vec![seen("tracks_main", "felid"), not_seen("cached_over")]);
    assert_ne!(ranked(&not), bare, "looked, and no cover");
}

/// A whole body says of bones and rumen what somebody who asked for each would have said; but not where the
/// part is gone, and a body that was fed on says nothing of either.
#[test]
fn a_whole_body_has_its_bones_and_its_rumen() {
    let tracks = || seen("tracks_main", "medium_canid");
    let whole = || seen("body_state", "whole");
    let asked = vec![tracks(), whole(), seen("bones_fed_on", "intact"), seen("rumen", "present")];
    let figures = ranked(&cause(vec![tracks(), whole()]));
    assert_eq!(figures, ranked(&cause(asked)));
    let rumen_only =
        vec![tracks(), whole(), json!({"finding": "bones_fed_on", "state": "part_gone", "why": "scavenged"})];
    assert_ne!(figures, ranked(&cause(rumen_only)));
    let eaten = vec![tracks(), seen("body_state", "mostly_eaten")];
    assert_eq!(ranked(&cause(eaten)), ranked(&cause(vec![tracks()])));
    // Case E6 of the reference has the long bones crushed: what was said of the bones stands before the whole.
    let crushed = messages(&cause(vec![tracks(), whole(), seen("bones_fed_on", "long_bones_crushed")]));
    assert!(!crushed.iter().any(|id| id == "cause.seen.bone_damage.intact"), "{crushed:?}");
}

/// Row 14 asks for bleeding: an organ that tore without blood tore later, and bloody fluid alone comes of
/// freezing and thawing (Roe et al. 2012: 5 of 5 thawed, 0 of 5 chilled). Case E3 of the reference has the row.
#[test]
fn a_rupture_is_one_that_bled() {
    let place = || seen("road_distance", "within_50_m");
    let bare = ranked(&cause(vec![place()]));
    let of = |rows: Vec<Value>| ranked(&cause(std::iter::once(place()).chain(rows).collect()));
    let there = |finding: &str| seen(finding, "there");
    let yes = of(vec![there("bled_fracture")]);
    assert_ne!(yes, bare);
    assert_eq!(of(vec![there("organ_rupture")]), yes);
    assert_eq!(of(vec![there("organ_rupture"), there("blood_in_cavity")]), yes);
    assert_eq!(of(vec![there("organ_rupture"), not_seen("blood_in_cavity")]), bare);
    let no = of(vec![not_seen("bled_fracture"), not_seen("organ_rupture"), not_seen("blood_in_cavity")]);
    assert!(no != bare && no != yes);
    let fluid = [not_seen("bled_fracture"), not_seen("organ_rupture"), there("blood_in_cavity")];
    assert_eq!(of(fluid.into()), bare);
    assert_eq!(of(vec![there("blood_in_cavity")]), bare);
}

/// Row 28 of the checks: thawed, red and diffuse under the hide of the low side, no holes (Roe et al. 2012).
#[test]
fn a_thawed_red_side_is_never_a_clot() {
    let told = messages(&cause(vec![
        seen("body_thaw", "thawed_again"),
        not_seen("wounds_outside"),
        seen("bruise_under_skin", "diffuse_or_thawed"),
        seen("tracks_main", "medium_canid"),
    ]));
    assert!(told.contains(&"cause.seen.bite_haemorrhage.diffuse_stain".to_owned()), "{told:?}");
    assert!(!told.contains(&"cause.seen.bite_haemorrhage.focal_clot".to_owned()), "{told:?}");
}

/// Row 30 of the checks: fillets gone, spine and ribs whole, skin cut at the skull: a stop, no predator, though
/// wolves fed on it and were blamed (Taras 2018, Juneau). The stop itself is a scene in `tests/hazards`.
#[test]
fn a_blade_gets_a_stop_and_no_predator() {
    let wolves = || vec![seen("tracks_main", "large_canid"), seen("chase_or_struggle_marks", "there")];
    let lakes = card(&json!({"area": "great_lakes"}));
    let given = Given::card(&lakes, Digest::of(&[b"lakes"]));
    let of = |more: Vec<Value>| cause_with(wolves().into_iter().chain(more).collect(), &given);
    assert!(word(&of(vec![])).ends_with("killed"), "a predator without the blade");
    for blade in [
        vec![seen("clean_knife_cuts", "there")],
        vec![seen("meat_cut_off_neatly", "there")],
        vec![seen("wounds_outside", "there"), of_wound("wound_form", "cut_straight")],
    ] {
        let reading = of(blade);
        assert_eq!(word(&reading), "people");
        assert!(has(&reading, cause_ids::caution::PEOPLE) && reading.sharpen.is_empty());
    }
    assert!(word(&of(vec![not_seen("clean_knife_cuts")])).ends_with("killed"));
}

/// Row 31 of the checks: fat deer dead near piled corn and hay in February, twelve together in New Hampshire:
/// feed, and no stop for people. That several dead deer alone stop nobody is a scene in `tests/hazards`.
#[test]
fn fat_deer_full_of_corn_beside_a_feeder_died_of_feed() {
    let card = card(&json!({"area": "northeast", "feed_site": true}));
    let given = Given::card(&card, Digest::of(&[b"feed"]));
    let rows = vec![
        seen("body_state", "whole"),
        seen("rumen_mostly", "grain_or_fruit"),
        seen("inside_fat", "plenty"),
        seen("rump_stained", "there"),
        not_seen("bruise_under_skin"),
        not_seen("bled_fracture"),
        not_seen("organ_rupture"),
        not_seen("projectile_or_wound_track"),
        seen("other_dead_grazers", "there"),
    ];
    let reading = cause_with(rows, &given);
    assert_eq!(ranked(&reading)[0].0, "feed");
    assert!(word(&reading).ends_with("died"), "{}", word(&reading));
    assert!(!has(&reading, cause_ids::caution::PEOPLE));
}
