//! Ice, slopes, trees, roads, and animals that may still be about.

use super::names;
use super::read::{any_there, chose_any, there};
use crate::card::CallFor;
use crate::guide::{Closes, Grade, Hazard, View, reopen};
use crate::record::Answer;
use crate::science::source::Mark::{Design, Memory, Seen};

/// At or above this angle, here or above, snow can slide (one number, from the Gallatin National
/// Forest Avalanche Center).
const SLIDE_SLOPE_DEG: i64 = 30;

pub(super) const HAZARDS: &[Hazard] = &[
    Hazard::row(names!("E03", "e03"), Grade::StopFixed, Closes::GoingIn, &[Seen, Design], |v| {
        there(v, "moving_or_open_water")
    })
    .signs(&["moving_or_open_water"])
    .call(CallFor::Lead),
    Hazard::row(names!("E01", "e01"), Grade::Stop, Closes::GoingIn, &[Seen, Design], |v| there(v, "on_or_near_ice"))
        .signs(&["on_or_near_ice"])
        .call(CallFor::Lead),
    // Speaks once the lead has reopened the ice: what was measured is stated by the one who walks.
    Hazard::row(names!("E02", "e02"), Grade::Confirm, Closes::GoingIn, &[Seen, Design], |v| {
        super::find("E01").is_some_and(|ice| (ice.fires)(v) && reopen::is_said_open(v, ice))
    })
    .signs(&["clear_ice_cm", "white_ice_cm"]),
    Hazard::row(names!("E04", "e04"), Grade::Stop, Closes::Place, &[Seen, Design], |v| {
        any_there(v, &["slope_30_here_or_above", "slide_or_cracking_snow"]) || is_steep(v)
    })
    .signs(&["slope_30_here_or_above", "slide_or_cracking_snow", "slope_here_deg", "slope_above_deg"])
    .call(CallFor::Lead),
    Hazard::row(names!("E06L", "e06l"), Grade::StopFixed, Closes::GoingIn, &[Seen, Design], |v| there(v, "road_lane"))
        .signs(&["road_lane"])
        .call(CallFor::Road),
    Hazard::row(names!("E06", "e06"), Grade::Confirm, Closes::Place, &[Seen, Design], |v| {
        there(v, "road_edge") && !there(v, "road_lane")
    })
    .signs(&["road_edge"])
    .call(CallFor::Road),
    // Cached, or the owner in sight. Snow alone over a body is snowfall, and raked snow without
    // litter, soil or hair in it cannot be told from drift by a crew.
    Hazard::row(names!("E07", "e07"), Grade::Stop, Closes::Place, &[Seen, Design], |v| {
        there(v, "predator_in_sight") || is_cached(v)
    })
    .signs(&["predator_in_sight", "cached_over", "cover_with"])
    .call(CallFor::Lead),
    Hazard::row(names!("E09", "e09"), Grade::Stop, Closes::Place, &[Memory, Design], |v| {
        any_there(v, &["growl_or_movement", "fresh_mammal_tracks_now", "mammal_bed_by_body"])
    })
    .signs(&["growl_or_movement", "fresh_mammal_tracks_now", "mammal_bed_by_body"])
    .call(CallFor::Lead),
    Hazard::row(names!("E09A", "e09a"), Grade::Advise, Closes::Nothing, &[Design], |v| there(v, "birds_feeding_now"))
        .signs(&["birds_feeding_now"]),
    Hazard::row(names!("E05", "e05"), Grade::Confirm, Closes::Place, &[Seen, Design], |v| {
        there(v, "hung_or_broken_trees")
    })
    .signs(&["hung_or_broken_trees"]),
    Hazard::row(names!("E08", "e08"), Grade::Advise, Closes::Nothing, &[Seen, Design], |v| {
        there(v, "known_carcass_revisited")
    })
    .signs(&["known_carcass_revisited"]),
    Hazard::row(names!("E10", "e10"), Grade::Confirm, Closes::HandsOn, &[Seen, Design], |v| {
        there(v, "child_or_lone_worker")
    })
    .signs(&["child_or_lone_worker"]),
];

/// 30 degrees or more where one stands or on the slope above.
fn is_steep(view: &View) -> bool {
    ["slope_here_deg", "slope_above_deg"]
        .iter()
        .any(|f| super::read::newest_numbers(view, f).iter().any(|deg| *deg >= SLIDE_SLOPE_DEG))
}

/// Covered, and the cover is not told to be snow alone.
fn is_cached(view: &View) -> bool {
    there(view, "cached_over")
        && (!matches!(view.answer("cover_with"), Answer::Seen { .. })
            || chose_any(view, "cover_with", &["leaves_or_soil", "sticks", "plucked_hair"]))
}
