//! Tags, owners, signs of a crime, people's remains, land that nobody let the crew onto.
//!
//! No rule of law lives here: the rows say what to leave alone and whom the card names to ask.

use super::cover::TAKEN;
use super::names;
use super::read::{any_there, chose_any, chose_anywhere, there};
use crate::card::CallFor;
use crate::guide::{Closes, Grade, Hazard, View, search_for_people};
use crate::record::Site;
use crate::science::source::Mark::{Design, Memory, Seen};

/// Physical signs of a crime that count wherever they are found. What the scene makes likely is no
/// sign: it starts a search by eye, never a stop.
const CRIME_SIGNS: &[&str] = &[
    "bullet_or_arrow_wound",
    "snare_or_trap",
    "head_or_antlers_missing_only",
    "meat_cut_off_neatly",
    "dumped_here",
    "spotlight_or_shooting_litter",
    "vehicle_tracks_to_body",
    "boot_or_drag_trail",
    "clean_knife_cuts",
    "case_wad_or_arrow",
    "hole_hair_cut",
    "cut_through_joint",
    "projectile_or_wound_track",
];

/// The form of a wound that only a blade leaves.
const KNIFE_CUT: &str = "cut_straight";

pub(super) const HAZARDS: &[Hazard] = &[
    Hazard::row(names!("L05", "l05"), Grade::StopFixed, Closes::Place, &[Seen], |v| {
        there(v, "human_remains_or_clothing")
    })
    .signs(&["human_remains_or_clothing"])
    .call(CallFor::Emergency)
    .evidence(),
    Hazard::row(names!("L07", "l07"), Grade::StopFixed, Closes::Place, &[Memory], |v| {
        chose_any(v, "alive", &["alive"]) || chose_any(v, "report_outcome", &["alive_or_injured"])
    })
    .signs(&["alive", "report_outcome"])
    .call(CallFor::Officer),
    Hazard::row(names!("G18", "g18"), Grade::Stop, Closes::GoingIn, &[Seen, Memory], |v| {
        chose_any(v, "land_leave", &["private_no_leave", "tribal_no_leave"])
    })
    .signs(&["land_leave"])
    .call(CallFor::Land),
    Hazard::row(names!("L04", "l04"), Grade::StopFixed, Closes::HandsOn, &[Seen, Design], |v| {
        CRIME_SIGNS.iter().any(|sign| sign_counts(v, sign) && there(v, sign))
            || chose_anywhere(v, "wound_form", &[KNIFE_CUT])
    })
    .signs(CRIME_SIGNS)
    .call(CallFor::Officer)
    .evidence(),
    // In season a hunter leaves one in good right: the lead knows date and place.
    Hazard::row(names!("L08", "l08"), Grade::Stop, Closes::HandsOn, &[Design], |v| there(v, "gut_pile_cut_out"))
        .signs(&["gut_pile_cut_out"])
        .call(CallFor::Officer),
    // What is seen makes people likely, and nothing of theirs was found: a look, and nothing closes.
    Hazard::row(names!("L09", "l09"), Grade::Advise, Closes::Nothing, &[Design], |v| {
        !v.is_answered("case_wad_or_arrow", Site::NONE)
            && !CRIME_SIGNS.iter().any(|sign| there(v, sign))
            && search_for_people(v)
    }),
    Hazard::row(names!("L02", "l02"), Grade::StopFixed, Closes::HandsOn, &[Memory], |v| there(v, "do_not_eat_tag"))
        .signs(&["do_not_eat_tag"])
        .call(CallFor::Vet),
    Hazard::row(names!("L03", "l03"), Grade::Stop, Closes::HandsOn, &[Design], |v| there(v, "owner_or_livestock_tag"))
        .signs(&["owner_or_livestock_tag"])
        .call(CallFor::Lead),
    Hazard::row(names!("L01", "l01"), Grade::Confirm, Closes::HandsOn, &[Seen, Memory], |v| {
        there(v, "study_tag_or_collar")
    })
    .signs(&["study_tag_or_collar"])
    .call(CallFor::TagOwner),
    Hazard::row(names!("L06", "l06"), Grade::Confirm, Closes::Asking(TAKEN), &[Seen, Memory], |v| {
        any_there(v, &["eagle_or_hawk_part"])
    })
    .signs(&["eagle_or_hawk_part"]),
];

/// True where a wound was ever said to be a knife cut, even if taken back since.
pub(super) fn ever_cut(view: &View) -> bool {
    let of = |sheet: &crate::record::Sheet| sheet.was_ever_chosen("wound_form", KNIFE_CUT);
    of(view.exam) || view.carcass.is_some_and(|c| c.examinations.values().any(|e| of(&e.sheet)))
}

/// Wheels beside a road say nothing; wheels to a body away from one do.
pub(super) fn sign_counts(view: &View, sign: &str) -> bool {
    sign != "vehicle_tracks_to_body" || !any_there(view, &["road_edge", "road_lane"])
}
