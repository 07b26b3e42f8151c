//! A high figure for a shooting starts a look, never a stop (reference text on cause of death, rule 1 and
//! this project's rule). Which scenes make it likely follows from the table of evidence; nothing here repeats it.

use std::collections::BTreeSet;

use marrowbook::guide::{Grade, Status, hazards, search_for_people};
use marrowbook::words::{Language, raw};

use crate::scene::Scene;
use crate::scenes::SCENES;

pub(crate) fn scene(answers: &str) -> Scene {
    let mut scene = Scene::ready();
    // As before anybody asks whether to touch.
    scene.take_back("touching_allowed");
    scene.of_carcass().say("death_place=woods_or_trail road_distance=over_500_m").say(answers);
    scene
}

/// People or wheels most and nearest, blood as from a wound, no chase, far from a road, not fed on.
pub(crate) const LIKELY: &str = "snow_readable=sharp tracks_main=human_or_vehicle chase_or_struggle_marks=- blood_on_snow=there \
                      blood_where=sprayed hair_scattered=- cached_over=- drag_marks=- body_position=on_left_side \
                      rumen=present road_distance=within_500_m death_place=woods_or_trail";

#[test]
fn a_likely_scene_starts_a_look_and_no_stop() {
    let mut scene = scene(LIKELY);
    assert!(scene.with(search_for_people));
    assert_eq!(scene.ids(Grade::Stop), Vec::<&str>::new(), "a figure stops nobody");
    assert!(scene.fires("L09"));
    let now = scene.situation();
    assert!(!now.evidence_record && !now.hands_on_closed());
    assert_eq!(now.find("search_people").map(|a| a.status.clone()), Some(Status::Open));
    // Looked, nothing found: the advice is over, the answer stays, still nothing is closed.
    scene.say("case_wad_or_arrow=- hole_hair_cut=- cut_through_joint=-");
    assert!(!scene.fires("L09") && scene.ids(Grade::Stop).is_empty());
    assert_eq!(scene.situation().find("search_people").map(|a| a.status.clone()), Some(Status::Answered));
}

#[test]
fn what_the_look_finds_stops() {
    for found in ["case_wad_or_arrow", "hole_hair_cut", "cut_through_joint"] {
        let mut scene = scene(LIKELY);
        scene.say(&format!("{found}=there"));
        assert!(scene.fires("L04") && !scene.fires("L09"), "{found}");
        assert!(scene.situation().evidence_record, "{found}");
    }
}

#[test]
fn the_look_comes_between_the_last_look_and_the_first_touch() {
    // Where shooting is likely from the start, as near fields in the season, every deer would ask for it.
    let mut early = Scene::ready();
    early.take_back("touching_allowed");
    early.of_carcass().say(&LIKELY.replace("death_place=woods_or_trail", ""));
    assert!(!early.with(search_for_people), "the place was not looked at yet");
    let mut late = scene(LIKELY);
    assert!(late.with(search_for_people));
    late.say("touching_allowed=card_names_me");
    assert!(!late.with(search_for_people));
}

#[test]
fn ordinary_scenes_start_no_look_and_no_scene_a_stop_by_its_figure() {
    let mut looks = BTreeSet::new();
    // The stories of ordinary deaths, with the snow read.
    let stories = [
        (
            "coyote kill",
            "tracks_main=medium_canid chase_or_struggle_marks=there blood_on_snow=there blood_where=trail_to_body",
        ),
        ("starved in its bed", "tracks_main=- chase_or_struggle_marks=- blood_on_snow=- death_place=bed_under_cover"),
        (
            "hit on the road",
            "road_lane=- road_edge=there tracks_main=- chase_or_struggle_marks=- road_distance=within_50_m",
        ),
        ("fox and ravens on a dead deer", "tracks_main=fox_fisher_bird_only chase_or_struggle_marks=- blood_on_snow=-"),
        (
            "cat kill, covered with snow",
            "tracks_main=felid drag_marks=there drag_length_m=30 cached_over=there cover_with=snow_raked",
        ),
        ("through the ice", "death_place=on_or_in_ice tracks_main=- blood_on_snow=-"),
    ];
    for (name, answers) in stories {
        let scene = scene(&format!("snow_readable=sharp {answers}"));
        assert!(!scene.fires("L09"), "{name}");
        assert!(scene.ids(Grade::Stop).is_empty(), "{name}: {:?}", scene.ids(Grade::Stop));
    }
    // And the table of scenes once more, now of a carcass of which a figure can be made.
    for (name, answers, expected, _) in SCENES {
        let scene = scene(answers);
        let stops: BTreeSet<&str> = scene.ids(Grade::Stop).into_iter().collect();
        let known = |id: &&str| hazards::find(id).is_some_and(|h| h.grade >= Grade::Stop);
        assert_eq!(stops, expected.split_whitespace().filter(known).collect(), "{name}");
        if scene.fires("L09") {
            looks.insert(*name);
        }
    }
    println!("{} scenes, looks started: {looks:?}", SCENES.len());
    assert!(looks.is_empty(), "{looks:?}");
}

#[test]
fn the_look_names_no_cause_and_no_figure() {
    for id in ["hazard.l09.head", "hazard.l09.do", "step.search_people.ask", "step.search_people.why"] {
        let text = raw(Language::English, id).unwrap().to_lowercase();
        assert!(!text.contains("shot") && !text.contains("shoot") && !text.contains("hunter"), "{id}: {text}");
        assert!(!text.chars().any(|c| c.is_ascii_digit() || c == '%'), "{id}: {text}");
    }
}
