//! The tables: every step can be come to, and everything that must be asked is asked.

use std::collections::{BTreeMap, BTreeSet};

use marrowbook::guide::steps::STEPS;
use marrowbook::guide::{
    BenchWork, Draft, ExamKind, Input, Phase, Step, Touch, Volumes, bench_work, hazards, point_count,
};
use marrowbook::reading::FINDINGS_OF;
use marrowbook::record::{Answer, FINDINGS, Scope, Shape as S, Site, Value, Why, find};
use marrowbook::science::cause::Table;

use crate::answering::Script;
use crate::visit::{CARCASS, Visit};
use crate::walks::{bench, buried, fresh, frozen, scavenged};

fn steps() -> impl Iterator<Item = &'static Step> {
    STEPS.iter().flat_map(|part| part.iter())
}

fn findings_of(step: &Step) -> Vec<&'static str> {
    match step.input {
        Input::Choice(f)
        | Input::Choices(f)
        | Input::Number(f)
        | Input::Text(f)
        | Input::Instant(f)
        | Input::Place(f)
        | Input::ReadDo(f)
        | Input::Sweep { finding: f, .. }
        | Input::Photo(f) => vec![f],
        Input::Panel(signs) => signs.to_vec(),
        Input::Photos { finding, .. } => vec![finding],
        Input::Jaw => vec!["tooth_state", "dentine", "crest"],
        Input::Points { points, done } => vec![points, done],
        Input::Volumes { amounts: [ml, percent], done } => vec![ml, percent, done],
    }
}

#[test]
fn steps_have_names_of_their_own_and_ask_findings_of_their_form() {
    let mut seen = BTreeSet::new();
    for step in steps() {
        assert!(seen.insert(step.id), "{} stands twice", step.id);
        for finding in findings_of(step) {
            let shape = find(finding).unwrap_or_else(|| panic!("{}: no finding {finding}", step.id)).shape;
            let fits = matches!(
                (step.input, shape),
                (Input::Panel(_) | Input::ReadDo(_), S::Presence)
                    | (
                        Input::Choice(_)
                            | Input::Sweep { .. }
                            | Input::Jaw
                            | Input::Points { .. }
                            | Input::Volumes { .. },
                        S::Choice(_)
                    )
                    | (Input::Choices(_), S::Choices(_))
                    | (Input::Number(_), S::Number { .. })
                    | (Input::Points { .. }, S::Plants(_))
                    | (Input::Volumes { .. }, S::Number { .. })
                    | (Input::Text(_), S::Text(_))
                    | (Input::Instant(_), S::Instant)
                    | (Input::Place(_), S::Place)
                    | (Input::Photo(_) | Input::Photos { .. }, S::Photo)
            );
            assert!(fits, "{} asks {finding} in another form", step.id);
        }
        if let Input::Panel(signs) = step.input {
            assert!((1..=6).contains(&signs.len()), "{}: {} signs on one panel", step.id, signs.len());
        }
        if let Input::Sweep { steps: covered, .. } = step.input {
            for id in covered {
                let covered = marrowbook::guide::steps::step(id).unwrap_or_else(|| panic!("{}: no step {id}", step.id));
                let may = matches!(covered.input, Input::Panel(_) | Input::ReadDo(_));
                assert!(may && covered.phase == step.phase, "{}: {id} cannot be swept", step.id);
            }
        }
    }
}

#[test]
fn nothing_is_touched_in_a_phase_that_only_looks() {
    for step in steps() {
        assert!(step.touch == Touch::Look || step.phase.is_hands_on(), "{}", step.id);
        assert!(step.touch < Touch::Cut || matches!(step.phase, Phase::Opened | Phase::Samples), "{}", step.id);
    }
}

#[test]
fn phases_and_their_steps_are_counted() {
    let mut count: BTreeMap<Phase, usize> = BTreeMap::new();
    for step in steps() {
        *count.entry(step.phase).or_default() += 1;
    }
    for (phase, n) in &count {
        println!("{:16} {n}", phase.code());
    }
    assert_eq!(count.len(), 12);
    assert!(count.values().all(|n| *n >= 2));
}

#[test]
fn every_step_is_come_to_by_some_visit() {
    let mut asked: BTreeSet<String> = BTreeSet::new();
    let mut walk = |text: Script, kind: ExamKind, prepare: fn(&mut Visit)| {
        let mut visit = Visit::field(1);
        if kind == ExamKind::Bench {
            visit.next_exam(2, kind);
        }
        prepare(&mut visit);
        let mut hand = text;
        asked.extend(visit.walk(&mut hand).into_iter().map(|name| name.split('.').next().unwrap().to_owned()));
    };
    let nothing: fn(&mut Visit) = |_| {};
    for script in [fresh(), scavenged(), frozen(), buried()] {
        walk(script, ExamKind::Field, nothing);
    }
    walk(bench(), ExamKind::Bench, nothing);
    walk(bench(), ExamKind::Bench, |v| v.card = Some(crate::calipers::card_with(&crate::calipers::ratio())));
    // The next carcass of a day, of which its crew knows what to look for.
    let second: fn(&mut Visit) = |v| {
        v.walk(&mut fresh());
        v.next_exam(2, ExamKind::Field);
    };
    walk(scavenged(), ExamKind::Field, second);
    let report: fn(&mut Visit) = |v| {
        v.kind = ExamKind::Report;
        v.report = Some(uuid::Uuid::from_u128(40));
    };
    walk(Script::new("report_triage=refer"), ExamKind::Report, report);
    walk(Script::new("on_or_near_ice=there clear_ice_cm=5"), ExamKind::Field, nothing);
    walk(Script::new("slope_30_here_or_above=?dark slope_here_deg=10 slope_above_deg=20"), ExamKind::Field, nothing);
    walk(Script::new("place=?not_given wind_km_h=12"), ExamKind::Field, nothing);
    walk(
        Script::new("cached_over=there cover_with=snow_raked study_tag_or_collar=there dumped_here=there"),
        ExamKind::Field,
        nothing,
    );
    walk(Script::new("body_frozen=part_frozen belly_dents_under_fist=dents rumen=present"), ExamKind::Field, nothing);
    walk(Script::new("examination_closed=left_early"), ExamKind::Field, nothing);
    let search = "outing_kind=search search_lines_count=3 found_from_line_count=2 search_walked=not_all";
    walk(Script::new(search), ExamKind::Field, nothing);
    let evidence = "snare_or_trap=there officer_told=officer_told officer_asks=more_photos";
    walk(Script::new(evidence), ExamKind::Field, nothing);
    // Several eaters, a dog among them; wounds in two places, thawed since; mixed food.
    walk(
        Script::new(
            "body_state=part_eaten body_frozen=not_frozen parts_eaten=belly+rump tracks_by=dog+fox body_thaw=thawed_again \
             wounds_outside=there wounds_count=2 wound_form=paired_holes sex_evidence=no_pedicles sex_called=male \
             belly_dents_under_fist=dents rumen=present rumen_plants=conifer+hay rumen_fill=half quick_class=older",
        )
        .at("wound_region", marrowbook::record::Site::item(2), "rump_or_hind_legs"),
        ExamKind::Field,
        nothing,
    );
    walk(
        Script::new(
            "body_state=whole body_frozen=not_frozen fetus=there sex_evidence=antlers belly_dents_under_fist=dents",
        ),
        ExamKind::Field,
        nothing,
    );
    walk(
        Script::new("body_state=whole body_frozen=not_frozen fetus=there sex_evidence=- rumen=present"),
        ExamKind::Field,
        nothing,
    );
    walk(
        Script::new(
            "body_state=whole body_frozen=not_frozen wounds_outside=there wounds_count=1 wound_form=talon_holes",
        ),
        ExamKind::Field,
        nothing,
    );
    walk(Script::new("rumen_method=volume_ml"), ExamKind::Bench, own_plant);
    walk(Script::new("rumen_method=-"), ExamKind::Bench, nothing);
    walk(Script::new("tracks_by=coyote"), ExamKind::Field, nothing);
    let people = "body_state=whole body_frozen=not_frozen body_position=on_left_side tracks_by=not_named \
                  tracks_main=human_or_vehicle blood_on_snow=there blood_where=sprayed road_distance=within_500_m \
                  death_place=woods_or_trail";
    walk(Script::new(people), ExamKind::Field, nothing);
    for text in [
        "times_known=place_without_body+seen_alive+seen_to_die+collar_signal body_state=mostly_eaten tracks_by=wolf",
        "body_state=whole body_frozen=not_frozen snow_over_body=covered blood_on_snow=there \
         chase_or_struggle_marks=there decay=bloated_or_soft body_warm=there",
        "body_state=bones_and_hair snow_under_body=bare_ground",
    ] {
        walk(Script::new(text), ExamKind::Field, nothing);
    }
    walk(Script::new("jaw_in_view=left tooth_state=milk marrow_bone=femur"), ExamKind::Bench, nothing);
    let untold = "kidney_fat=?dark heart_fat=?dark pericardial_fat=?dark fat_parts_here=kidneys+heart";
    walk(Script::new(&format!("body_state=whole body_frozen=not_frozen {untold}")), ExamKind::Field, nothing);
    let never: Vec<&str> = steps().map(|s| s.id).filter(|id| !asked.contains(*id)).collect();
    assert!(never.is_empty(), "never asked: {never:?}");
}

/// What the first protocol must ask, by finding: the project's list for a main job done end to end.
const REQUIRED: &[&str] = &[
    "species",
    "quick_class",
    "report_outcome",
    "place",
    "arrived_at",
    "body_state",
    "body_frozen",
    "body_buried",
    "body_position",
    "snow_under_body",
    "snow_over_body",
    "blood_on_snow",
    "drag_marks",
    "cached_over",
    "hair_scattered",
    "tracks_by",
    "droppings_by",
    "bird_signs",
    "wounds_outside",
    "wound_region",
    "wound_form",
    "wound_bleeding",
    "bruising_outside",
    "sex_evidence",
    "tooth_state",
    "dentine",
    "crest",
    "third_tooth",
    "mandible_mm",
    "diastema_mm",
    "hind_foot_mm",
    "marrow_bone",
    "marrow_consistency",
    "marrow_colour",
    "marrow_frozen",
    "bone_opened",
    "rumen",
    "rumen_fill",
    "rumen_plants",
    "fat_parts_here",
    "rump_fat",
    "gut_fat",
    "kidney_fat",
    "heart_fat",
    "organs_taken",
    "jaw_taken",
    "femur_taken",
];

/// The same, on the bench.
const REQUIRED_BENCH: &[&str] = &[
    "marrow_consistency",
    "marrow_colour",
    "marrow_frozen",
    "marrow_wet_g",
    "marrow_dry_g",
    "tooth_state",
    "dentine",
    "mandible_mm",
    "diastema_mm",
    "rumen_plants",
    "kidney_g",
    "kidney_fat_whole_g",
    "kidney_fat_cut_g",
    "kidney_trim",
    "jaw_cavity",
    "heart_fat",
    "gut_fat",
    "marrow_lab_percent",
    "whole_weight_kg",
    "reference_low_kg",
];

#[test]
fn everything_required_is_asked() {
    let of = |bench: bool| -> BTreeSet<&str> {
        steps().filter(|s| (s.phase == Phase::Bench) == bench).flat_map(findings_of).collect()
    };
    let (field, bench) = (of(false), of(true));
    let missing: Vec<_> = REQUIRED.iter().filter(|f| !field.contains(*f)).collect();
    assert!(missing.is_empty(), "{missing:?}");
    let missing: Vec<_> = REQUIRED_BENCH.iter().filter(|f| !bench.contains(*f)).collect();
    assert!(missing.is_empty(), "{missing:?}");
}

/// Written by the phone, by a button of every screen, by reopening a stop, or brought by a table of
/// findings: no step asks for them.
const UNASKED: &[&str] = &[
    "examination_kind",
    "examined_carcass",
    "examined_on_outing",
    "answers_report",
    "joins_event",
    "from_paper",
    "event_carcass_count",
    "reopened",
    "reopened_by",
    "exposure_note",
    "gloves_on",
    "eyes_and_mask_on",
    // The trace of a photo that somebody deleted, and what the sketch's own screen asks mark by mark.
    "photo_deleted",
    "sketch_north",
    "sketch_head_deg",
    "sketch_what",
    "sketch_from_count",
    "sketch_bearing_deg",
    "sketch_paces_count",
    "sketch_pace_cm",
    "sketch_distance_m",
    // Brought by a table of findings where somebody probed so deep.
    "belly_c",
    // The office's: a laboratory's DNA, and who is on record as the killer. Asked of a crew they would steer it.
    "dna_of",
    "dna_from",
    "dna_lab",
    "dna_sample",
    "dna_reported_at",
    "kill_record_of",
    "kill_record_how",
    "kill_record_by",
    // Typed where a second phone begins.
    "same_carcass_as_code",
];

#[test]
fn every_finding_is_asked_by_a_step_or_known_not_to_be() {
    let asked: BTreeSet<&str> = steps().flat_map(findings_of).collect();
    let confirms: BTreeSet<&str> = hazards::all().map(|h| h.confirm).collect();
    for def in FINDINGS.iter().flat_map(|g| g.iter()) {
        let ways = [
            asked.contains(def.code),
            confirms.contains(def.code),
            UNASKED.contains(&def.code),
            def.scope == Scope::WinterLog,
        ];
        assert_eq!(ways.iter().filter(|w| **w).count(), 1, "{}", def.code);
    }
}

/// What is weighed for the cause is asked, and what the evidence table calls hands-off before anything is touched.
#[test]
fn every_observation_has_its_step_hands_off_ones_first() {
    let table = Table::built_in();
    assert_eq!(FINDINGS_OF.len(), 25);
    let field: Vec<&Step> = steps().filter(|step| step.phase != Phase::Bench).collect();
    let touched = field.iter().position(|step| step.touch > Touch::Look).unwrap();
    for (number, findings) in (1_u8..).zip(FINDINGS_OF) {
        let asks = |step: &&Step| findings_of(step).contains(&findings[0]);
        let first = field.iter().position(asks).unwrap_or_else(|| panic!("row {number}: nobody asks {}", findings[0]));
        if table.row(number, false).unwrap().class == 0 {
            assert!(first < touched, "row {number}: {} comes after something is touched", field[first].id);
        }
    }
}

#[test]
fn what_was_taken_waits_on_the_bench_until_it_is_done() {
    let mut visit = Visit::field(1);
    visit.walk(&mut frozen());
    let waits = |visit: &Visit| bench_work(&visit.fold().carcasses[&CARCASS]);
    assert_eq!(waits(&visit), [BenchWork::CleanJaw, BenchWork::JawCavity, BenchWork::MarrowLook, BenchWork::MarrowWet]);
    visit.next_exam(2, ExamKind::Bench);
    visit.walk(&mut Script::new(
        "marrow_bone=femur marrow_dry_g=!time jaw_in_view=neither marrow_frozen=never_frozen jaw_cavity=-",
    ));
    assert_eq!(waits(&visit), [BenchWork::CleanJaw, BenchWork::MarrowDry]);
    visit.next_exam(3, ExamKind::Bench);
    visit.walk(&mut bench());
    assert_eq!(waits(&visit), []);
}

/// An amount of a plant of one's own, as the page for volumes writes it.
fn own_plant(visit: &mut Visit) {
    let draft = Draft {
        finding: "rumen_plant_ml",
        site: Site::item(901),
        answer: Answer::number(40),
        step: "bench_rumen_volumes",
    };
    visit.write(&[draft]);
}

#[test]
fn a_bag_of_rumen_waits_for_its_count_and_a_rumen_that_is_gone_passes_at_once() {
    let mut visit = Visit::field(1);
    let script = "body_state=whole body_frozen=not_frozen rumen=present other_samples_count=1 sample_what=rumen \
                  jaw_taken=- femur_taken=-";
    visit.walk(&mut Script::new(script));
    let waits = |visit: &Visit| bench_work(&visit.fold().carcasses[&CARCASS]);
    assert_eq!(waits(&visit), [BenchWork::RumenCount]);
    visit.next_exam(2, ExamKind::Bench);
    visit.walk(&mut Script::new("rumen_method=point_count rumen_point_count=!time jaw_in_view=neither"));
    assert_eq!(waits(&visit), [BenchWork::RumenCount], "put off is not done");
    visit.next_exam(3, ExamKind::Bench);
    let asked = visit.walk(&mut Script::new("rumen_method=point_count jaw_in_view=neither"));
    assert!(asked.iter().any(|name| name == "bench_rumen_points"));
    assert_eq!(waits(&visit), []);

    let mut visit = Visit::field(1);
    visit.walk(&mut Script::new(
        "body_state=mostly_eaten rumen=- jaw_taken=- femur_taken=- opening_trained=!not_trained",
    ));
    visit.next_exam(2, ExamKind::Bench);
    let asked = visit.walk(&mut Script::new("jaw_in_view=neither marrow_bone=-"));
    assert!(!asked.iter().any(|name| name.starts_with("bench_rumen")), "{asked:?}");
    assert_eq!(visit.answer("rumen_method", Site::NONE), Answer::PartGone { why: Why::Scavenged });
    assert_eq!(waits(&visit), []);
}

#[test]
fn a_count_stands_on_its_frames_and_undo_opens_the_last() {
    let mut visit = Visit::field(1);
    visit.next_exam(2, ExamKind::Bench);
    let frame = |n: u16, text: &str| Draft {
        finding: "rumen_points",
        site: Site::item(n),
        answer: Answer::Seen { value: Value::Text(text.to_owned()) },
        step: "bench_rumen_points",
    };
    assert_eq!(visit.look(|v| point_count(v).next_frame), 1);
    visit.write(&[frame(1, "spruce pine spruce"), frame(2, "alder plant_of_a_newer_form")]);
    visit.look(|v| {
        let count = point_count(v);
        assert_eq!((count.total(3), count.next_frame), (8, 3));
        assert_eq!(count.order, ["spruce", "pine", "alder", "plant_of_a_newer_form"]);
        assert_eq!(count.last.as_ref().map(|(n, codes)| (*n, codes.len())), Some((2, 2)));
        assert_eq!(count.of("spruce", &["spruce"]), 3);
        assert!(count.is_few(0));
    });
}

/// Percentages over 100 and nothing at all cannot end a sorting.
#[test]
fn a_sorting_ends_only_where_it_can_be() {
    let of = |in_percent: bool, all: &[i64]| {
        let amounts = (1_u16..).zip(all.iter().copied()).collect();
        Volumes { in_percent, amounts }.not_yet()
    };
    assert_eq!(of(true, &[60, 55]), Some("volumes.over_100"));
    assert_eq!(of(true, &[60, 41]), None, "rounding");
    assert_eq!(of(false, &[600, 550]), None);
    assert_eq!(of(false, &[0]), Some("volumes.nothing_yet"));
    assert_eq!(of(true, &[]), Some("volumes.nothing_yet"));
}
