//! The hands-off record, first part: the story that the snow tells. Own tracks were left out before.

use crate::guide::{Input, Phase, Step, View, is_short};
use crate::order::Short as _;
use crate::record::{Answer, Site, Value, Why};

use super::facts::carcass_here;

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::HandsOff, input).when(carcass_here)
}

fn snow_lies_over(v: &View) -> bool {
    ["dusting", "part_covered", "covered"].iter().any(|how| v.chose("snow_over_body", how))
}

/// What has snow on it may lie deep in it.
fn may_be_buried(v: &View) -> bool {
    carcass_here(v) && ["part_covered", "covered"].iter().any(|how| v.chose("snow_over_body", how))
}

fn not_bones(v: &View) -> bool {
    carcass_here(v) && !v.body_is("bones_and_hair")
}

/// Beside old bones depth tells nothing of the deer, unless they lie on the ground that the snow then covered.
fn depth_speaks(v: &View) -> bool {
    not_bones(v) || (carcass_here(v) && v.chose("snow_under_body", "bare_ground"))
}

/// Snow that has melted, blown or been trodden, or fell since, hides what happened: `none` cannot be
/// said of it.
fn readable(v: &View) -> bool {
    v.chose("snow_readable", "sharp")
}

/// Snow mixed with litter, soil or hair was scraped there: how much fell on the body cannot be told.
fn cached(v: &View, _: Site) -> Option<Answer> {
    let mixed = ["leaves_or_soil", "sticks", "plucked_hair"].iter().any(|with| v.chose("cover_with", with));
    (v.there("cached_over") && mixed).then_some(Answer::CantTell { why: Why::Cached })
}

/// One kind of animal, or several of one class: the class follows. A dog may be of any size.
fn tracks_known(v: &View, _: Site) -> Option<Answer> {
    let answer = v.answer("tracks_by");
    let Some(Value::Choices(animals)) = answer.value() else { return None };
    let class = |animal: &str| match animal {
        "wolf" => Some("large_canid"),
        "coyote" => Some("medium_canid"),
        "bobcat_or_lynx" | "cougar" => Some("felid"),
        "bear" => Some("bear"),
        "fox" | "marten_or_fisher" => Some("fox_fisher_bird_only"),
        _ => None,
    };
    let mut classes: Vec<&str> = animals.iter().filter(|a| *a != "deer").map(|a| class(a)).collect::<Option<_>>()?;
    classes.order();
    classes.dedup();
    // Who eats after a bigger one leaves its prints too.
    if classes.len() > 1 {
        classes.retain(|c| *c != "fox_fisher_bird_only");
    }
    match classes.as_slice() {
        [only] => Some(Answer::choice(only)),
        _ => None,
    }
}

/// Any print that may be of one that bites or feeds on deer: among deer alone there is nothing to choose from.
fn tracks_there(v: &View) -> bool {
    carcass_here(v) && super::tracks::eater(v, "tracks_by")
}

/// Tracks of an animal that hunts deer.
fn predator_tracks(v: &View) -> bool {
    ["wolf", "coyote", "dog", "bobcat_or_lynx", "cougar"].iter().any(|who| v.chose("tracks_by", who))
}

/// From where it was seen to be dead it was seen to be bones and hair.
fn said_from_afar(v: &View, _: Site) -> Option<Answer> {
    v.chose("alive", "bones_and_hair").then(|| Answer::choice("bones_and_hair"))
}

/// Where only scraps are left and nothing speaks of people, the crew chooses how much of it is recorded.
fn scraps(v: &View) -> bool {
    v.body_is("bones_and_hair") && carcass_here(v) && !super::facts::people_sign(v) && !is_short(v)
}

pub(super) const STEPS: &[Step] = &[
    // How much is left comes first: it settles most of what follows where nothing is.
    row("body_state", Input::Choice("body_state")).ruled_out(said_from_afar),
    row("record_length", Input::Choice("record_length")).visit().when(scraps),
    row("snow_over_body", Input::Choice("snow_over_body")).ground().ruled_out(cached),
    row("snow_over_body_depth", Input::Number("snow_over_body_cm"))
        .visit()
        .when(|v| carcass_here(v) && snow_lies_over(v)),
    row("body_buried", Input::Choice("body_buried")).visit().when(may_be_buried),
    row("snow_readable", Input::Choice("snow_readable")).ground(),
    row("snow_under_body", Input::Choice("snow_under_body")).ground(),
    row("snow_depth", Input::Number("snow_depth_cm")).visit().when(depth_speaks),
    // Of a deer whose run nobody can follow any more, how deep it sank says nothing.
    row("sinking_depth", Input::Number("sinking_depth_cm")).ground().when(not_bones),
    row("snow_crust", Input::Choice("snow_crust")).visit().when(not_bones),
    row("snow_signs", Input::Panel(&["blood_on_snow", "drag_marks", "hair_scattered", "chase_or_struggle_marks"]))
        .ground()
        .absent_when(readable),
    row("blood_where", Input::Choices("blood_where")).ground().when(|v| carcass_here(v) && v.there("blood_on_snow")),
    row("drag_length", Input::Number("drag_length_m")).ground().when(|v| carcass_here(v) && v.there("drag_marks")),
    row("hair_state", Input::Choices("hair_state")).ground().when(|v| carcass_here(v) && v.there("hair_scattered")),
    row("tracks_by", Input::Choices("tracks_by")).ground().may_be_absent(),
    row("tracks_main", Input::Choice("tracks_main")).ground().when(tracks_there).ruled_out(tracks_known),
    row("sinking_predator", Input::Number("sinking_predator_cm")).ground().when(|v| not_bones(v) && predator_tracks(v)),
    row("sinking_person", Input::Number("sinking_person_cm")).visit().when(not_bones),
    row("droppings_by", Input::Choices("droppings_by")).ground().may_be_absent(),
    row("bird_signs", Input::Choices("bird_signs")).ground().may_be_absent(),
    row("round_the_body", Input::Panel(&["bones_scattered", "browse_or_beds_by_body"])).ground(),
];
