//! What each hazard closes, step by step. What is closed by what is the project's own;
//! no outside source.

use marrowbook::guide::{Ask, Grade, Phase, Situation, Status, Touch, hazards, steps};
use marrowbook::record::Why;

use crate::scene::Scene;

fn closed_by(situation: &Situation, finding_step: &str) -> Vec<&'static str> {
    match &situation.find(finding_step).unwrap_or_else(|| panic!("no step {finding_step}")).status {
        Status::Closed(by) => by.clone(),
        _ => Vec::new(),
    }
}

fn is_open(situation: &Situation, step: &str) -> bool {
    situation.find(step).is_some_and(|a| a.status == Status::Open)
}

#[test]
fn jaw_and_femur_are_open_to_a_crew_that_is_ready_frozen_or_not() {
    for frozen in ["not_frozen", "frozen_solid"] {
        let mut scene = Scene::ready();
        scene.say(&format!("body_frozen={frozen}"));
        let now = scene.situation();
        assert!(is_open(&now, "jaw_taken") && is_open(&now, "femur_taken"), "{frozen}");
    }
}

#[test]
fn what_is_missing_or_frozen_is_no_alarm() {
    let mut scene = Scene::ready();
    scene.person("B2").say("body_frozen=frozen_solid");
    let now = scene.situation();
    assert_eq!(now.stops().count(), 0);
    let held: Vec<_> = now.held().map(|f| f.hazard.id).collect();
    assert_eq!(held, ["H23", "G14", "G16", "G17"]);
    assert!(now.asks.iter().all(|a| !matches!(a.ask, Ask::Hazard { .. })), "nothing to read out");
}

#[test]
fn any_stop_closes_taking_bones() {
    for (answers, id) in [
        ("very_thin=there", "H04"),
        ("wet_chin=there", "H04"),
        ("witness_behaviour=circling", "H05"),
        ("snare_or_trap=there", "L04"),
        ("dead_bird_or_scavenger=there", "H16"),
        ("lumps_inside=there", "H09"),
        ("thumb_to_finger=not_easy", "H26"),
        ("roles=alone", "G09"),
        ("on_or_near_ice=there", "E01"),
        ("predator_in_sight=there", "E07"),
    ] {
        let mut scene = Scene::ready();
        scene.say(answers);
        let now = scene.situation();
        for step in ["jaw_taken", "femur_taken"] {
            assert!(closed_by(&now, step).contains(&id), "{step} under {id}: {:?}", closed_by(&now, step));
        }
    }
}

#[test]
fn brain_disease_and_rabies_keep_the_bones_even_when_stated_or_reopened() {
    let mut scene = Scene::ready();
    scene.say("wet_chin=there confirm_h04=done");
    assert_eq!(closed_by(&scene.situation(), "jaw_taken"), ["H04"]);
    let mut scene = Scene::ready();
    scene.say("witness_behaviour=aggressive confirm_h04=done");
    let drafts =
        scene.with(|v| marrowbook::guide::reopen(v, hazards::find("H05").unwrap(), "vet on the spot")).unwrap();
    scene.write(&drafts);
    let now = scene.situation();
    assert!(!now.hands_on_closed());
    assert!(closed_by(&now, "femur_taken").contains(&"H05"));
}

#[test]
fn the_head_stop_leaves_the_teeth_to_be_looked_at() {
    let mut scene = Scene::ready();
    scene.card.as_mut().unwrap().people[0].may_take_head_parts = false;
    scene.say("head_work_wanted=there");
    assert!(scene.fires("H03"));
    assert!(is_open(&scene.situation(), "jaw_in_view"));
}

#[test]
fn no_card_no_touching_and_the_reason_is_the_card() {
    let mut scene = Scene::ready();
    scene.take_back("touching_allowed");
    scene.card = None;
    let now = scene.situation();
    assert!(closed_by(&now, "touching_allowed").contains(&"G11"));
    assert!(now.hands_on_closed());
    // Said by voice, it still opens nothing.
    scene.say("touching_allowed=office_said_yes");
    let now = scene.situation();
    assert!(now.asks.iter().all(|a| match a.ask {
        Ask::Step { step, .. } => step.touch <= Touch::Look || a.status != Status::Open,
        Ask::Hazard { .. } => true,
    }));
    assert!(is_open(&now, "body_position"), "the record goes on");
    let mut stranger = Scene::ready();
    stranger.person("D4");
    assert!(stranger.fires("G13") && stranger.situation().hands_on_closed());
    let mut helper = Scene::ready();
    helper.person("B2");
    let now = helper.situation();
    assert!(!now.hands_on_closed());
    assert!(!is_open(&now, "jaw_taken") && !is_open(&now, "femur_taken"), "B2 may touch, not take");
}

#[test]
fn evidence_taken_back_closes_each_step_by_its_own_name() {
    for (sign, id) in [("snare_or_trap", "L04"), ("human_remains_or_clothing", "L05")] {
        let mut scene = Scene::ready();
        scene.say(&format!("{sign}=there"));
        scene.take_back(sign);
        assert_eq!(closed_by(&scene.situation(), "hind_foot"), [id]);
    }
}

#[test]
fn somebody_else_who_is_named_may_open() {
    let mut scene = Scene::ready();
    scene.take_back("opening_trained");
    scene.person("B2");
    let now = scene.situation();
    assert!(is_open(&now, "opening_trained"), "the question whether somebody trained is here");
    assert_eq!(closed_by(&now, "rump_fat"), ["G14"]);
    scene.say("opening_trained=trained_person_here");
    assert!(is_open(&scene.situation(), "rump_fat"));
    scene.card.as_mut().unwrap().people[0].may_open = false;
    assert!(!is_open(&scene.situation(), "rump_fat") && scene.fires("G14"), "the card names nobody for it");
}

#[test]
fn a_cannot_closes_what_the_confirm_guards() {
    let mut scene = Scene::ready();
    scene.say("study_tag_or_collar=there");
    let asked = |scene: &Scene| scene.situation().find("L01").is_some();
    assert!(asked(&scene));
    scene.say("confirm_l01=cannot");
    assert!(scene.situation().hands_on_closed() && !asked(&scene));
    scene.say("confirm_l01=done");
    assert!(!scene.situation().hands_on_closed(), "the owner agreed: the full examination is open");
    // The tag is seen anew, on the other ear: it is asked anew.
    scene.say("study_tag_or_collar=there");
    assert!(asked(&scene));
}

#[test]
fn a_second_torn_glove_is_a_second_question() {
    let mut scene = Scene::ready();
    scene.say("glove_torn=replaced_no_cut confirm_h25=done");
    assert_eq!(scene.fired().iter().find(|f| f.hazard.id == "H25").unwrap().said, Some(true));
    scene.say("glove_torn=replaced_no_cut");
    assert_eq!(scene.fired().iter().find(|f| f.hazard.id == "H25").unwrap().said, None);
}

#[test]
fn every_confirm_stands_before_some_step() {
    let all: Vec<_> = steps::STEPS.iter().flat_map(|part| part.iter()).collect();
    for hazard in hazards::all().filter(|h| h.grade == Grade::Confirm) {
        let fired = [marrowbook::guide::Fired { hazard, said: None, reopened: false }];
        assert!(all.iter().any(|s| !hazards::unsaid_before(&fired, s).is_empty()), "{} is never asked", hazard.id);
    }
}

#[test]
fn leaving_and_handing_over_are_never_closed() {
    for hazard in hazards::all() {
        let fired = marrowbook::guide::Fired { hazard, said: Some(false), reopened: false };
        for step in steps::STEPS.iter().flat_map(|part| part.iter()) {
            let late = matches!(step.phase, Phase::BeforeLeaving | Phase::CleanUp | Phase::Leave | Phase::HandOver);
            assert!(!(late && hazards::closes_step(&fired, step)), "{} closes {}", hazard.id, step.id);
        }
    }
}

#[test]
fn a_closed_place_still_takes_position_and_photo() {
    let mut scene = Scene::ready();
    scene.take_back("place");
    scene.say("predator_in_sight=there");
    let now = scene.situation();
    assert!(is_open(&now, "place") && is_open(&now, "report_outcome"));
    assert!(!is_open(&now, "snow_depth") && !is_open(&now, "body_position"));
}

#[test]
fn from_the_shore_one_looks_and_does_not_measure() {
    let mut scene = Scene::ready();
    scene.say("on_or_near_ice=there");
    let now = scene.situation();
    assert!(is_open(&now, "body_position"));
    assert!(closed_by(&now, "snow_depth").contains(&"E01"));
}

#[test]
fn what_stays_closed_is_written_with_the_stop_s_own_reason() {
    let why = |scene: &Scene, finding: &str| {
        let drafts = scene.with(|v| Situation::leave_now(v, &Why::Time));
        drafts.into_iter().find(|d| d.finding == finding).map(|d| d.answer)
    };
    let not_looked = |why| Some(marrowbook::record::Answer::NotLooked { why });
    let mut scene = Scene::ready();
    scene.say("air_temperature_c=-42");
    assert_eq!(why(&scene, "hind_foot_mm"), not_looked(Why::Cold));
    let mut scene = Scene::ready();
    scene.say("dead_bird_or_scavenger=there");
    assert_eq!(why(&scene, "hind_foot_mm"), not_looked(Why::StopInForce));
    assert_eq!(why(&scene, "snow_depth_cm"), not_looked(Why::Time));
}

/// Too many confirms are tapped away by habit (Raskin 2007, A List Apart). Our own bound: an ordinary
/// crew with everything at hand states no more than three facts before its first cut.
#[test]
fn an_ordinary_visit_states_few_facts() {
    let mut scene = Scene::ready();
    scene.take_back("gloves_on");
    scene.take_back("eyes_and_mask_on");
    let now = scene.situation();
    let stated: Vec<_> =
        now.asks.iter().filter(|a| matches!(a.ask, Ask::Hazard { .. })).map(|a| a.ask.name()).collect();
    assert_eq!(stated, ["H01", "H02"]);
}

/// A rule of the project's own, no outside source: who may touch may still say no, and what is not with a crew counts
/// as what nobody spoke of.
#[test]
fn a_no_closes_and_what_is_not_with_us_is_asked_for_at_its_gate() {
    let mut scene = Scene::ready();
    assert!(!scene.fires("G13") && !scene.fires("G24") && !scene.fires("G22"));
    scene.say("touching_allowed=-");
    assert!(scene.fires("G13") && scene.situation().hands_on_closed());
    let mut scene = Scene::ready();
    scene.say("gear_blades_and_sharps_tube=- contact_told=-");
    assert!(scene.fires("G24"), "the tube is asked for before anything is cut");
    assert!(scene.fires("G22"), "who knows is asked before going in");
}

/// A rule of the project's own, no outside source.
#[test]
fn what_a_stop_closes_is_not_counted_as_answered() {
    let mut scene = Scene::ready();
    scene.say("moving_or_open_water=there");
    let now = scene.situation();
    let [done, closed, all] = now.progress(Phase::Outside);
    let with = |closes: bool| {
        now.asks
            .iter()
            .filter(|a| a.ask.phase() == Phase::Outside && matches!(a.status, Status::Closed(_)) == closes)
            .filter(|a| a.status != Status::Open)
            .count()
    };
    assert_eq!([done, closed], [with(false), with(true)]);
    assert!(closed > 10 && done < closed && done + closed <= all, "{done} {closed} {all}");
}
