//! Signs of how it died, as far as they are looked at and not touched: the people first, then what ate
//! and what lies about. Eating says who ate; only what bled while the deer lived says more.

use crate::guide::{Input, Phase, Step, View, search_for_people};
use crate::record::{Answer, Site, Value, Why};

use super::facts::{bones_bare, carcass_here, deer_here, some_eaten};
use super::rules;

const fn row(id: &'static str, input: Input) -> Step {
    Step::look(id, Phase::HandsOff, input).when(carcass_here)
}

fn some_left_or_bones(v: &View) -> bool {
    some_eaten(v) || (carcass_here(v) && v.body_is("bones_and_hair"))
}

/// A grown buck: pus at the antler bases is all but unknown in does (91 of 4,983 bucks and none of 2,562
/// does in Georgia, Cohen et al. 2015).
fn is_grown_buck(v: &View) -> bool {
    deer_here(v) && v.chose("sex_called", "male") && !v.chose("quick_class", "fawn")
}

/// What a likely shooting asks for is a search by eye, never a stop. Once answered it stays.
pub(super) const SEARCH: &[Step] = &[row("search_people", Input::Panel(PEOPLE_CLOSE))
    .when(|v| carcass_here(v) && (v.is_answered("case_wad_or_arrow", Site::NONE) || search_for_people(v)))];

/// Signs of people that only a second look finds.
pub(crate) const PEOPLE_CLOSE: &[&str] = &["case_wad_or_arrow", "hole_hair_cut", "cut_through_joint"];

pub(super) const STEPS: &[Step] = &[
    row("death_place", Input::Choice("death_place")).visit().ruled_out(place_known),
    row("road_distance", Input::Choice("road_distance")).visit().ruled_out(road_known),
    row("feeding_began", Input::Choice("feeding_began"))
        .when(some_left_or_bones)
        .ruled_out(feeding_known)
        .may_be_absent(),
    row("bones_fed_on", Input::Choice("bones_fed_on")).when(some_left_or_bones),
    row("rump_stained", Input::Panel(&["rump_stained"])).ruled_out(rump_gone),
    row("pedicles", Input::Panel(&["pedicle_pus_or_pits"])).when(is_grown_buck).ruled_out(head_gone),
];

/// Beside a road: said on the way in already. Whether it lies on the ice or beside it, the crew says.
fn place_known(v: &View, _: Site) -> Option<Answer> {
    if v.there("road_lane") || v.there("road_edge") { Some(Answer::choice("roadside_or_yard")) } else { None }
}

fn road_known(v: &View, _: Site) -> Option<Answer> {
    if v.there("road_lane") || v.there("road_edge") { Some(Answer::choice("within_50_m")) } else { None }
}

/// One part eaten is where it began; of bones nobody can say.
fn feeding_known(v: &View, site: Site) -> Option<Answer> {
    let bones = rules::soft_parts(v, site);
    if bones.is_some() {
        return bones;
    }
    let answer = v.answer("parts_eaten");
    let Some(Value::Choices(parts)) = answer.value() else { return None };
    let [only] = parts.as_slice() else { return None };
    match only.as_str() {
        "rump" => Some(Answer::choice("rump_or_hams")),
        "belly" => Some(Answer::choice("behind_ribs")),
        "shoulder" | "neck" | "chest" => Some(Answer::choice("shoulder_or_neck")),
        "eyes_or_anus" => Some(Answer::choice("eyes_mouth_anus")),
        _ => None,
    }
}

fn rump_gone(v: &View, site: Site) -> Option<Answer> {
    let eaten = v.chose("parts_eaten", "rump") || v.chose("parts_eaten", "all");
    rules::soft_parts(v, site).or_else(|| eaten.then_some(Answer::PartGone { why: Why::Scavenged }))
}

fn head_gone(v: &View, _: Site) -> Option<Answer> {
    let by_people = v.there("head_or_antlers_missing_only");
    let eaten = v.chose("parts_eaten", "head") || v.chose("parts_eaten", "all");
    if by_people {
        Some(Answer::PartGone { why: Why::Removed })
    } else {
        (eaten && !bones_bare(v)).then_some(Answer::PartGone { why: Why::Scavenged })
    }
}
