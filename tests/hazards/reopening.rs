//! Who may open a stop again, what stays closed for good, and whom to call. Rules of this project; no outside source.

use marrowbook::card::CallFor;
use marrowbook::guide::{ExamKind, Grade, NoReopen, calls, hazards, may_reopen, reopen};
use marrowbook::record::find;
use uuid::Uuid;

use crate::scene::{Scene, moment};

fn reopened(scene: &Scene, id: &str) -> bool {
    scene.fired().iter().any(|f| f.hazard.id == id && f.reopened)
}

fn try_open(scene: &mut Scene, id: &str, reason: &str) -> Result<(), NoReopen> {
    let hazard = hazards::find(id).unwrap();
    let drafts = scene.with(|v| reopen(v, hazard, reason))?;
    scene.write(&drafts);
    Ok(())
}

#[test]
fn a_stop_opens_to_a_person_of_the_card_with_a_reason() {
    let mut scene = Scene::ready();
    scene.say("dead_bird_or_scavenger=there");
    assert_eq!(try_open(&mut scene, "H16", "  "), Err(NoReopen::NoReason));
    scene.person("B2");
    assert_eq!(try_open(&mut scene, "H16", "old gull from autumn"), Err(NoReopen::NotNamed));
    scene.person("K7");
    assert_eq!(try_open(&mut scene, "H05", "none"), Err(NoReopen::NotInForce));
    assert_eq!(try_open(&mut scene, "H07", "none"), Err(NoReopen::NotAStop));
    assert_eq!(try_open(&mut scene, "H16", "old gull from autumn"), Ok(()));
    assert!(reopened(&scene, "H16") && !scene.situation().hands_on_closed());
    scene.now = moment("2028-01-01T12:00:00-05:00");
    assert_eq!(try_open(&mut scene, "H16", "again"), Err(NoReopen::NoCard));
    assert!(!reopened(&scene, "H16"), "the card that named the person has run out");
}

#[test]
fn an_answer_that_merely_claims_it_opens_nothing() {
    let mut scene = Scene::ready();
    scene.say("dead_bird_or_scavenger=there").person("B2").say("reopened=h16 reopened_by=h16:_looks_old");
    assert!(!reopened(&scene, "H16"));
    scene.person("K7").say("reopened=h16");
    assert!(!reopened(&scene, "H16"), "no reason by the one who may");
    scene.say("reopened_by=h16:_a_pellet,_no_bird");
    assert!(reopened(&scene, "H16"));
}

#[test]
fn a_new_sign_closes_again_what_was_reopened() {
    let mut scene = Scene::ready();
    scene.say("exposure_note=scratch");
    try_open(&mut scene, "H24", "washed and covered").unwrap();
    assert!(reopened(&scene, "H24"));
    scene.say("exposure_note=second_cut");
    assert!(!reopened(&scene, "H24"));
    // Opening another stop does not carry the first along.
    scene.say("dead_bird_or_scavenger=there");
    try_open(&mut scene, "H16", "old gull").unwrap();
    assert!(reopened(&scene, "H16") && !reopened(&scene, "H24"));
    try_open(&mut scene, "H24", "washed again").unwrap();
    assert!(reopened(&scene, "H16") && reopened(&scene, "H24"));
}

#[test]
fn fixed_stops_open_to_nobody_in_the_field() {
    let fixed = [
        ("H06", "blood_at_openings=there swollen_belly=there"),
        ("H17", "sick_live_animal=there"),
        ("H18", "drug_or_bait_sign=there"),
        ("L02", "do_not_eat_tag=there"),
        ("L04", "snare_or_trap=there"),
        ("L05", "human_remains_or_clothing=there"),
        ("L07", "alive=alive"),
        ("E03", "moving_or_open_water=there"),
        ("E06L", "road_lane=there"),
        ("G05", "air_temperature_c=-56"),
    ];
    let of_the_table: Vec<_> = hazards::all().filter(|h| h.grade == Grade::StopFixed).map(|h| h.id).collect();
    assert_eq!(of_the_table.len(), fixed.len(), "{of_the_table:?}");
    let options = find("reopened").unwrap().options();
    for (id, answers) in fixed {
        let mut scene = Scene::ready();
        scene.say(answers);
        let hazard = hazards::find(id).unwrap();
        assert_eq!(scene.with(|v| may_reopen(v, hazard)), Err(NoReopen::Fixed), "{id}");
        assert!(scene.fired().iter().any(|f| f.hazard.id == id && f.closes_now()), "{id}");
        assert!(!options.contains(&hazard.code), "{id} cannot even be written as reopened");
    }
    for hazard in hazards::all().filter(|h| h.grade == Grade::Stop) {
        assert!(options.contains(&hazard.code), "{} can be written as reopened", hazard.id);
    }
}

#[test]
fn evidence_taken_back_keeps_hands_off_for_good() {
    for sign in ["snare_or_trap", "bullet_or_arrow_wound", "human_remains_or_clothing"] {
        let mut scene = Scene::ready();
        scene.of_carcass().say(&format!("{sign}=there"));
        scene.take_back(sign);
        let now = scene.situation();
        assert!(now.fired.is_empty(), "{sign}: the tap is withdrawn: {:?}", now.fired);
        assert!(now.evidence_record && now.hands_on_closed(), "{sign}");
        // A second crew at the same carcass finds it closed as well.
        scene.exam = Uuid::from_u128(9);
        scene.of_carcass();
        assert!(scene.situation().evidence_record, "{sign}");
    }
    let mut scene = Scene::ready();
    scene.say("dead_bird_or_scavenger=there");
    scene.take_back("dead_bird_or_scavenger");
    assert!(!scene.situation().hands_on_closed(), "a mistaken tap on any other stop may be withdrawn");
}

#[test]
fn a_likely_shooting_alone_stops_nothing() {
    // What makes a shooting likely without a mark of it: a search by eye, by this project's rule.
    let mut scene = Scene::ready();
    scene.say("road_edge=there vehicle_tracks_to_body=there blood_on_snow=there body_position=on_left_side");
    let now = scene.situation();
    assert!(!now.evidence_record && !now.hands_on_closed());
}

#[test]
fn calls_come_from_what_fires_and_from_the_card() {
    let list = |scene: &Scene| {
        let now = scene.situation();
        scene.with(|v| calls(v, &now).into_iter().map(|(what, call)| (what, call.is_some())).collect::<Vec<_>>())
    };
    let mut scene = Scene::ready();
    assert!(list(&scene).is_empty());
    scene.say("drug_or_bait_sign=there dead_bird_or_scavenger=there exposure_note=splash");
    assert_eq!(list(&scene), [(CallFor::Officer, true), (CallFor::Vet, true), (CallFor::Health, false)]);
    scene.say("human_remains_or_clothing=there");
    scene.take_back("human_remains_or_clothing");
    assert_eq!(list(&scene)[0], (CallFor::Emergency, true), "taken back, told all the same, and first");
    scene.card = None;
    assert!(list(&scene).iter().all(|(_, known)| !known));
}

#[test]
fn the_bench_is_not_the_field() {
    let mut scene = Scene::ready();
    scene.exam = Uuid::from_u128(9);
    scene.kind = ExamKind::Bench;
    scene.card = None;
    scene.say("air_temperature_c=-56 cold_signs=mumble");
    scene.now = moment("2027-02-16T20:00:00-05:00");
    assert!(scene.ids(Grade::Stop).is_empty(), "{:?}", scene.ids(Grade::Stop));
}
