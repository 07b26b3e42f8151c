//! What to look at next: worth for its time, behind no gate, and without naming a cause. Which rows are worth
//! most with nothing answered: the reference text on cause of death, section 7, row 33.

use marrowbook::guide::{Ask, NextLook, Phase, Situation, Status, cause_may_be_shown, next_looks};
use marrowbook::words::{Language, raw};

use crate::scene::{CARCASS, Scene};

/// The scene as if the visit had come to this phase.
fn at(scene: &Scene, phase: Phase) -> (Situation, Vec<NextLook>) {
    scene.with(|view| {
        let mut now = marrowbook::guide::situation(view);
        now.next = now.asks.iter().find(|a| a.status == Status::Open && a.ask.phase() == phase).map(|a| a.ask);
        let looks = next_looks(view, &now);
        (now, looks)
    })
}

fn scene() -> Scene {
    let mut scene = Scene::ready();
    scene.of_carcass();
    scene
}

#[test]
fn looks_are_open_questions_that_the_visit_has_come_to() {
    let (now, looks) = at(&scene(), Phase::HandsOff);
    assert!(!looks.is_empty() && looks.len() <= 3);
    for look in &looks {
        let state = now.asks.iter().find(|a| a.ask == look.ask).unwrap();
        assert_eq!(state.status, Status::Open);
        assert!(look.ask.phase() <= Phase::HandsOff, "{look:?}: a gate lies before it");
        assert!(look.bits >= 0.03);
        assert!(raw(Language::English, &look.look).is_some(), "{}", look.look);
    }
    // A minute's look at the place beats five minutes of reading tracks: 0.345 bits each (row 33).
    let names: Vec<&str> = looks.iter().map(|look| look.ask.id()).collect();
    assert_eq!(names[0], "death_place", "{names:?}");
}

#[test]
fn what_was_answered_is_not_offered_again_and_what_cannot_be_told_closes_it() {
    let mut scene = scene();
    for answer in ["death_place=woods_or_trail", "tracks_main=?"] {
        scene.say(answer);
    }
    let (_, looks) = at(&scene, Phase::HandsOff);
    assert!(looks.iter().all(|look| !matches!(look.ask.id(), "death_place" | "tracks_main")), "{looks:?}");
}

#[test]
fn a_cut_is_offered_only_after_the_picture_of_the_whole() {
    let mut scene = scene();
    // All that is looked at and handled is said: what is left is behind the knife.
    scene.say(
        "death_place=woods_or_trail road_distance=over_500_m tracks_main=medium_canid blood_on_snow=- \
         snow_readable=sharp chase_or_struggle_marks=- body_position=on_left_side cached_over=- drag_marks=- \
         hair_scattered=- rump_stained=- claw_rakes=- wound_zone_main=- wounds_outside=- \
         projectile_or_wound_track=- marrow_bone=- jaw_in_view=? quick_class=?",
    );
    let cuts = |scene: &Scene| {
        let (_, looks) = at(scene, Phase::Opened);
        let cut = |look: &&NextLook| matches!(look.ask, Ask::Step { step, .. } if step.touch == marrowbook::guide::Touch::Cut);
        looks.iter().filter(cut).count()
    };
    assert_eq!(cuts(&scene), 0);
    scene.say("scene_photographed=there");
    assert!(cuts(&scene) > 0);
}

#[test]
fn a_stop_closes_what_touches() {
    let mut scene = scene();
    scene.say("scene_photographed=there bullet_or_arrow_wound=there");
    for phase in [Phase::HandsOff, Phase::Outside, Phase::Opened] {
        let (_, looks) = at(&scene, phase);
        let touches =
            |look: &NextLook| matches!(look.ask, Ask::Step { step, .. } if step.touch > marrowbook::guide::Touch::Look);
        assert!(!looks.iter().any(touches), "{looks:?}");
    }
}

#[test]
fn nothing_is_offered_before_the_carcass_and_after_the_end() {
    assert_eq!(at(&scene(), Phase::BeforeLeaving).1, []);
    let mut closed = scene();
    closed.say("examination_closed=complete");
    assert_eq!(at(&closed, Phase::HandsOff).1, []);
}

/// So that it does not steer the eye: not while anybody still looks, on this visit or another.
#[test]
fn the_cause_is_shown_only_when_every_examination_is_closed() {
    let shown = |scene: &Scene| cause_may_be_shown(&scene.folded().carcasses[&CARCASS]);
    let mut scene = scene();
    assert!(!shown(&scene));
    scene.say("examination_closed=complete");
    assert!(shown(&scene));
    scene.exam = uuid::Uuid::from_u128(77);
    scene.of_carcass().say("species=white_tailed_deer");
    assert!(!shown(&scene), "a second visit is open");
    scene.say("examination_closed=complete");
    assert!(shown(&scene));
}
