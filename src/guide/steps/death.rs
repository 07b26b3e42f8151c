//! Steps that bound the time of death. Each is asked only where it can say something: layers of a body
//! that snow lies on, warmth and stiffness of one that is not frozen, weathering of bones on bare ground.

use crate::guide::{Input, Phase, Step, Touch, View};
use crate::record::Site;

use super::facts::{bones_bare, carcass_here, deer_here, something_here};
use super::rules;

fn dated_falls(v: &View) -> Vec<Site> {
    let count = v.number("snowfalls_dated_count").and_then(|n| u16::try_from(n).ok()).unwrap_or(0);
    (1..=count.min(3)).map(Site::item).collect()
}

const fn of_fall(id: &'static str) -> Step {
    Step::look(id, Phase::BeforeLeaving, Input::Instant(id)).group("snowfall").sites(dated_falls)
}

/// Once an outing, at home, where the weather record is.
pub(super) const OUTING: &[Step] = &[
    Step::look("snowfalls_dated", Phase::BeforeLeaving, Input::Number("snowfalls_dated_count")),
    of_fall("snowfall_began_at"),
    of_fall("snowfall_ended_at"),
];

const fn known(id: &'static str, input: Input, when: fn(&View) -> bool) -> Step {
    Step::look(id, Phase::Approach, input).when(when)
}

/// What is known before anybody looks at it closely.
pub(super) const TIMES: &[Step] = &[
    known("times_known", Input::Choices("times_known"), something_here).may_be_absent(),
    known("place_clear_at", Input::Instant("place_clear_at"), |v| v.chose("times_known", "place_without_body")),
    known("seen_alive_at", Input::Instant("seen_alive_at"), |v| v.chose("times_known", "seen_alive")),
    known("seen_to_die_at", Input::Instant("death_known_at"), |v| v.chose("times_known", "seen_to_die")),
    known("collar_switched_at", Input::Instant("collar_switched_at"), |v| v.chose("times_known", "collar_signal")),
    known("collar_delay", Input::Number("collar_delay_min"), |v| v.chose("times_known", "collar_signal")),
];

/// A body that still lies as one piece: layers at it date its death and not its scattering.
fn lies_there(v: &View) -> bool {
    carcass_here(v) && (v.body_is("whole") || v.body_is("part_eaten"))
}

fn snow_over(v: &View) -> bool {
    lies_there(v) && ["dusting", "part_covered", "covered"].iter().any(|much| v.chose("snow_over_body", much))
}

fn snow_under(v: &View) -> bool {
    let snow = ["old_snow", "new_snow", "melted_to_ice"];
    lies_there(v) && snow.iter().any(|what| v.chose("snow_under_body", what))
}

fn event_tracks(v: &View) -> bool {
    carcass_here(v) && v.there("chase_or_struggle_marks")
}

/// Not frozen, and so much of it left that warmth and stiffness can be told.
fn may_be_fresh(v: &View) -> bool {
    lies_there(v) && v.chose("body_frozen", "not_frozen")
}

fn mammals_ate(v: &View) -> bool {
    let known = ["wolf", "coyote", "bobcat_or_lynx"];
    carcass_here(v) && v.body_is("mostly_eaten") && known.iter().any(|who| v.chose("tracks_by", who))
}

fn bones_in_spring(v: &View) -> bool {
    bones_bare(v) && v.body_is("bones_and_hair") && v.chose("snow_under_body", "bare_ground")
}

const fn row(id: &'static str, input: Input, when: fn(&View) -> bool) -> Step {
    Step::look(id, Phase::HandsOff, input).when(when)
}

const fn layer(id: &'static str, input: Input, when: fn(&View) -> bool) -> Step {
    row(id, input, when).ground()
}

/// The layers, after the story of the snow.
pub(super) const SNOW: &[Step] = &[
    layer("fall_over", Input::Choice("fall_over"), snow_over),
    layer("fall_over_lie", Input::Choice("fall_over_lie"), |v| snow_over(v) && v.there("fall_over")),
    layer("fall_under", Input::Choice("fall_under"), snow_under),
    layer("melt_signs", Input::Panel(&["crust_over_body", "on_pedestal"]), lies_there),
    layer("event_tracks_cut", Input::Choice("event_tracks_cut"), event_tracks),
    layer("event_tracks_filled", Input::Choice("event_tracks_filled"), event_tracks).may_be_absent(),
    layer("blood_layer", Input::Choice("blood_layer"), |v| snow_over(v) && v.there("blood_on_snow")),
    layer("blood_state", Input::Choice("blood_state"), |v| lies_there(v) && v.there("blood_on_snow")),
    layer("eaters", Input::Number("eaters_count"), mammals_ate),
];

/// The body, looked at only.
pub(super) const BODY: &[Step] = &[
    row("eyes", Input::Choice("eyes"), |v| deer_here(v) && may_be_fresh(v)),
    row("flies", Input::Panel(&["fly_eggs_or_maggots"]), |v| carcass_here(v) && v.chose("decay", "bloated_or_soft")),
    row("bone_weathering", Input::Choice("bone_weathering"), bones_in_spring),
    row(
        "spring_signs",
        Input::Panel(&["bones_greasy", "hair_mat_left", "plants_pressed", "plants_grown_through", "moss_on_bones"]),
        bones_in_spring,
    ),
];

const fn felt(id: &'static str, input: Input, when: fn(&View) -> bool) -> Step {
    Step::look(id, Phase::Outside, input).touch(Touch::Handle).when(when).ruled_out(rules::soft_touching)
}

fn deer_fresh(v: &View) -> bool {
    deer_here(v) && may_be_fresh(v)
}

fn probed(v: &View) -> bool {
    deer_fresh(v) && (v.number("thigh_c").is_some() || v.number("nose_c").is_some())
}

/// The body, felt.
pub(super) const OUTSIDE: &[Step] = &[
    felt("stiffness", Input::Choice("stiffness"), deer_fresh),
    felt("warmth", Input::Panel(&["body_warm", "muscle_twitch"]), deer_fresh),
    felt("thigh_temperature", Input::Number("thigh_c"), deer_fresh),
    felt("nose_temperature", Input::Number("nose_c"), |v| deer_fresh(v) && v.there("body_warm")),
    felt("air_now", Input::Number("air_now_c"), probed).visit(),
    felt("probed_at", Input::Instant("probed_at"), probed).visit(),
    felt(
        "parts_frozen",
        Input::Panel(&["leg_frozen_hard", "neck_frozen_hard", "thigh_frozen_hard", "trunk_frozen_hard"]),
        |v| {
            let some = v.chose("body_frozen", "part_frozen") || v.chose("body_frozen", "frozen_solid");
            deer_here(v) && lies_there(v) && some
        },
    ),
];
