//! The look from outside the trampled snow: alive or dead, who else is about, signs of people and of
//! danger. Everything that could turn the crew round is asked here, before the first step in.

use crate::guide::{Input, Phase, Step, View};
use crate::record::{Answer, Site, Why};

use super::facts::{carcass_here, people_sign, something_here};

/// Signs of people on the body.
pub(super) const PEOPLE_WOUNDS: &[&str] = &[
    "bullet_or_arrow_wound",
    "snare_or_trap",
    "head_or_antlers_missing_only",
    "meat_cut_off_neatly",
    "drug_or_bait_sign",
    "clean_knife_cuts",
];

/// Signs of people round it.
pub(super) const PEOPLE_PLACE: &[&str] = &[
    "dumped_here",
    "vehicle_tracks_to_body",
    "spotlight_or_shooting_litter",
    "human_remains_or_clothing",
    "boot_or_drag_trail",
    "gut_pile_cut_out",
];

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::StandOff, input).when(carcass_here)
}

/// Where nobody reported it and nobody is known to have seen it alive, there is nobody to ask.
fn nobody_saw_it_alive(v: &View, _: Site) -> Option<Answer> {
    let seen = ["seen_alive", "seen_to_die"].iter().any(|how| v.chose("times_known", how));
    let alone = v.report.is_none() && v.before.is_some() && !seen;
    alone.then_some(Answer::NotLooked { why: Why::NotGiven })
}

/// Openings, belly and chin of what is bones and hair.
fn scraps(v: &View, _: Site) -> Option<Answer> {
    v.chose("alive", "bones_and_hair").then_some(Answer::PartGone { why: Why::Scavenged })
}

/// What is looked over in one at the next carcass.
const ROUND: &[&str] =
    &["animals_about", "others_dead_or_sick", "own_tracks", "people_on_body", "people_round_body", "tags"];

pub(super) const STEPS: &[Step] = &[
    row("alive", Input::Choice("alive")).ground().when(something_here),
    row("species", Input::Choice("species")).when(something_here),
    row("look_round_again", Input::Sweep { finding: "round_looked_over", steps: ROUND })
        .visit()
        .when(|v| carcass_here(v) && v.went_through(ROUND)),
    row(
        "animals_about",
        Input::Panel(&[
            "predator_in_sight",
            "growl_or_movement",
            "cached_over",
            "fresh_mammal_tracks_now",
            "mammal_bed_by_body",
            "birds_feeding_now",
        ]),
    )
    .ground(),
    row("cover_with", Input::Choices("cover_with")).ground().when(|v| carcass_here(v) && v.there("cached_over")),
    row(
        "others_dead_or_sick",
        Input::Panel(&[
            "dead_bird_or_scavenger",
            "dead_small_mammal",
            "other_dead_grazers",
            "sick_live_animal",
            "mangy_carnivore",
            "eagle_or_hawk_part",
        ]),
    )
    .ground(),
    // Whose tracks are whose is said before a stranger's are looked for.
    row("own_tracks", Input::ReadDo("own_tracks_left_out")).visit(),
    row("people_on_body", Input::Panel(PEOPLE_WOUNDS)),
    row("people_round_body", Input::Panel(PEOPLE_PLACE)).ground(),
    row("tags", Input::Panel(&["do_not_eat_tag", "owner_or_livestock_tag", "study_tag_or_collar"])),
    row("tag_number", Input::Text("tag_number"))
        .when(|v| ["do_not_eat_tag", "owner_or_livestock_tag", "study_tag_or_collar"].iter().any(|tag| v.there(tag))),
    row("days_since_handling", Input::Number("days_since_handling_count"))
        .visit()
        .when(|v| carcass_here(v) && v.there("study_tag_or_collar")),
    row("witness_behaviour", Input::Choices("witness_behaviour"))
        .visit()
        .may_be_absent()
        .ruled_out(nobody_saw_it_alive),
    row("danger_signs", Input::Panel(&["blood_at_openings", "swollen_belly", "very_thin", "wet_chin"]))
        .ruled_out(scraps),
    row("photo_scene", Input::Photo("photo")).ground().sites(|_| vec![Site::item(1)]),
    row("evidence_note", Input::Text("evidence_note")).visit().when(people_sign),
];
