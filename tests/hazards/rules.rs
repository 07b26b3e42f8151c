//! Ten whole situations that the form has to get right: the safety reference's own list of rule tests.
//! What each rests on is named beside it.

use marrowbook::guide::{Ask, Grade, Situation, Status, Touch};
use marrowbook::record::{Answer, Site, Value, Why, find, fold};

use crate::scene::{Scene, moment};

const MOUTH: [&str; 4] = ["third_tooth", "jaw", "front_teeth", "mandible"];

/// Ids of steps that a situation leaves open.
fn open(situation: &Situation) -> Vec<&'static str> {
    let ids = situation.asks.iter().filter(|a| a.status == Status::Open).filter_map(|a| match a.ask {
        Ask::Step { step, .. } => Some(step.id),
        Ask::Hazard { .. } => None,
    });
    ids.collect()
}

fn touches_left(situation: &Situation) -> Vec<&'static str> {
    let all = situation.asks.iter().filter(|a| a.status == Status::Open).filter_map(|a| match a.ask {
        Ask::Step { step, .. } if step.touch > Touch::Look => Some(step.id),
        _ => None,
    });
    all.collect()
}

/// Hunt et al., lead fragments; Utah DWR 2018.
#[test]
fn rule_1_blood_with_a_bullet_hole_is_no_anthrax() {
    let mut scene = Scene::ready();
    scene.say("blood_at_openings=there bullet_or_arrow_wound=there");
    assert_eq!(scene.ids(Grade::Advise), ["L04", "H19"]);
}

/// Oklahoma State University CVHS; North Dakota Game and Fish.
#[test]
fn rule_2_blood_and_swelling_closes_for_good() {
    let mut scene = Scene::ready();
    scene.say("blood_at_openings=there swollen_belly=there");
    let now = scene.situation();
    let h06 = now.fired.iter().find(|f| f.hazard.id == "H06").unwrap();
    assert_eq!(h06.hazard.grade, Grade::StopFixed);
    assert!(now.hands_on_closed());
    assert!(touches_left(&now).is_empty(), "{:?}", touches_left(&now));
    let left = open(&now);
    for look in ["body_position", "snow_depth", "contact_told_back", "handed_over"] {
        assert!(left.contains(&look), "{look} should stay open: {left:?}");
    }
}

/// In the cold nothing stiffens or clots as it should: from memory.
#[test]
fn rule_3_the_same_frozen_and_not_swollen_only_asks() {
    let mut scene = Scene::ready();
    scene.say("blood_at_openings=there swollen_belly=- body_frozen=part_frozen");
    assert_eq!(scene.ids(Grade::Advise), ["H07"]);
}

/// Canadian Wildlife Health Cooperative: several kinds dead at one place.
#[test]
fn rule_4_a_dead_raven_stops_beside_a_road_kill_too() {
    let mut scene = Scene::ready();
    scene.say("road_edge=there bones_broken=leg+ribs dead_bird_or_scavenger=there");
    assert!(scene.fires("H16"));
    assert!(touches_left(&scene.situation()).is_empty());
}

/// Indiana Board of Animal Health, Deer Hunters and Rabies.
#[test]
fn rule_5_a_tame_circling_deer_shows_no_tooth_question() {
    let mut scene = Scene::ready();
    scene.say("witness_behaviour=circling+unafraid");
    assert!(scene.fires("H05"));
    let left = open(&scene.situation());
    assert!(MOUTH.iter().all(|id| !left.contains(id)), "{left:?}");
    assert!(!left.contains(&"jaw_taken") && !left.contains(&"femur_taken"));
}

/// Fist test: no source.
#[test]
fn rule_6_not_known_to_be_frozen_asks_for_a_fist() {
    let mut scene = Scene::ready();
    scene.say("body_frozen=?");
    assert_eq!(scene.ids(Grade::Advise), ["G26"]);
    let mut dents = Scene::ready();
    dents.say("body_frozen=? confirm_g26=done");
    assert!(!dents.fires("H23"));
    let mut hard = Scene::ready();
    hard.say("body_frozen=? confirm_g26=cannot");
    assert!(hard.fires("H23"));
    let mut pressed = Scene::ready();
    pressed.say("body_frozen=? belly_dents_under_fist=hard");
    assert!(pressed.fires("H23") && !pressed.fires("G26"));
}

/// A law of the design: a stop deletes, hides or locks nothing.
#[test]
fn rule_7_a_stop_leaves_every_earlier_answer_standing() {
    let mut scene = Scene::ready();
    scene.say("snow_depth_cm=64 body_position=on_chest wounds_outside=-");
    let exam = |scene: &Scene| scene.folded().examination(scene.exam).unwrap().sheet.clone();
    let standing = |scene: &Scene| {
        let sheet = exam(scene);
        sheet.answers().map(|(code, site, all)| (code.clone(), site, all.to_vec())).collect::<Vec<_>>()
    };
    let before = standing(&scene);
    scene.say("blood_at_openings=there swollen_belly=there");
    // The process dies: only the entries are left, and are read again one by one.
    let mut again = marrowbook::record::Journal::new();
    for entry in scene.journal.entries() {
        again.add(entry.clone()).unwrap();
    }
    assert_eq!(fold(&again), scene.folded());
    let after = standing(&scene);
    assert!(before.iter().all(|answer| after.contains(answer)));
    let drafts = scene.with(|v| Situation::leave_now(v, &Why::Unsafe));
    assert!(!drafts.is_empty());
    for draft in drafts {
        let says_left = matches!(draft.finding, "left_early" | "examination_closed");
        assert!(says_left || !draft.answer.is_informative(), "{draft:?} was seen by nobody");
        assert!(!before.iter().any(|(code, site, _)| code.as_str() == draft.finding && *site == draft.site));
    }
}

/// Lone work and light: no source, rules of this project.
#[test]
fn rule_8_alone_opens_nothing_and_little_light_asks() {
    let mut scene = Scene::ready();
    scene.say("roles=alone crew_count=1");
    assert!(scene.situation().asks.iter().all(|a| match a.ask {
        Ask::Step { step, .. } => step.touch != Touch::Cut || a.status != Status::Open,
        Ask::Hazard { .. } => true,
    }));
    let mut two = Scene::ready();
    two.say("due_back=2027-02-14T23:00:00-05:00");
    two.now = moment("2027-02-14T17:10:00-05:00"); // dusk about 17:51 there, the walk out takes an hour
    let now = two.situation();
    let light = now.fired.iter().find(|f| f.hazard.id == "G08").unwrap();
    assert_eq!((light.hazard.grade, light.said), (Grade::Confirm, None));
    let asked =
        now.asks.iter().position(|a| matches!(a.ask, Ask::Hazard { hazard, .. } if hazard.id == "G08")).unwrap();
    let first = now
        .asks
        .iter()
        .position(|a| matches!((a.ask, &a.status), (Ask::Step { step, .. }, Status::Open) if step.touch > Touch::Look));
    assert!(first.is_none_or(|first| asked < first), "asked before the first hand is laid on");
    two.say("confirm_g08=cannot");
    assert!(touches_left(&two.situation()).is_empty());
}

/// Write down negatives only where somebody looked (Sriraman 2021, record-keeping).
#[test]
fn rule_9_no_wound_can_only_be_said_after_looking() {
    let mut scene = Scene::ready();
    scene.say("body_looked_over=upper_side_only");
    let offered = |scene: &Scene| {
        let now = scene.situation();
        let ask = now.find("wounds_outside").expect("asked").ask;
        scene.with(|v| ask.fill(v, &Answer::NotSeen).len())
    };
    assert_eq!(offered(&scene), 0);
    scene.say("body_looked_over=both_sides");
    assert_eq!(offered(&scene), 1);
}

/// HL7 NullFlavor keeps `why there is no value` apart from a value; so do the five states.
#[test]
fn rule_10_zero_absent_and_not_looked_are_three_things() {
    let zero = Answer::number(0);
    let unlooked = Answer::NotLooked { why: Why::Time };
    let cannot = Answer::CantTell { why: Why::Frozen };
    let states: Vec<_> = [&zero, &Answer::NotSeen, &unlooked, &cannot].map(Answer::state).into();
    assert_eq!(states, ["seen", "not_seen", "not_looked", "cant_tell"]);
    let mut scene = Scene::ready();
    scene.answer("drag_length_m", Site::NONE, zero);
    assert_eq!(scene.with(|v| v.number("drag_length_m")), Some(0));
    assert_eq!(find("drag_length_m").map(|def| def.code), Some("drag_length_m"));
    assert!(matches!(scene.with(|v| v.answer("drag_length_m")), Answer::Seen { value: Value::Number(0) }));
    assert!(matches!(scene.with(|v| v.answer("snow_depth_cm")), Answer::NotLooked { .. }), "blank is not looked");
}
