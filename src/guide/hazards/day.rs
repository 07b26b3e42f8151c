//! The day: wind chill, hands, light, the way back, the plan left at home.

use super::names;
use super::read::{chose_any, newest_chose, there};
use crate::card::CallFor;
use crate::guide::{Closes, ExamKind, Grade, Hazard, View, daylight, weather};
use crate::science::source::Mark::{Design, Memory, Seen};
use crate::science::wind_chill::FrostBand;

const WEATHER: &[&str] = &["air_temperature_c", "wind_km_h"];
/// What the person at home has to know before the crew goes.
const PLAN: [&str; 4] = ["contact_told", "backup_told", "late_action_agreed", "due_back"];

pub(super) const HAZARDS: &[Hazard] = &[
    Hazard::row(names!("G05", "g05"), Grade::StopFixed, Closes::Place, &[Seen, Design], |v| {
        is_band(v, FrostBand::UnderTwoMinutes)
    })
    .signs(WEATHER)
    .call(CallFor::Contact),
    Hazard::row(names!("G04", "g04"), Grade::Stop, Closes::Place, &[Seen, Design], |v| {
        is_band(v, FrostBand::TwoToFiveMinutes)
    })
    .signs(WEATHER)
    .call(CallFor::Contact),
    Hazard::row(names!("G03", "g03"), Grade::Stop, Closes::HandsOn, &[Seen, Design], |v| {
        is_band(v, FrostBand::FiveToTenMinutes) || is_under_card_limit(v)
    })
    .signs(WEATHER)
    .call(CallFor::Lead),
    Hazard::row(names!("G02", "g02"), Grade::Confirm, Closes::HandsOn, &[Seen, Design], |v| {
        is_band(v, FrostBand::TenToThirtyMinutes) && !is_under_card_limit(v)
    })
    .signs(WEATHER),
    Hazard::row(names!("G01", "g01"), Grade::Advise, Closes::Nothing, &[Seen, Design], |v| {
        is_band(v, FrostBand::Chill) && !is_under_card_limit(v)
    })
    .signs(WEATHER),
    // Any one of the four words is enough, and it stays until somebody who may says otherwise: the
    // one who is chilled judges it worst.
    Hazard::row(names!("G25", "g25"), Grade::Stop, Closes::Place, &[Seen, Design], |v| {
        in_field(v) && chose_any(v, "cold_signs", &["mumble", "fumble", "stumble", "grumble"])
    })
    .signs(&["cold_signs"])
    .call(CallFor::Contact),
    // A fresh, easy thumb test after warming up ends it: the test is the fact.
    Hazard::row(names!("H26", "h26"), Grade::Stop, Closes::HandsOn, &[Seen, Design, Memory], |v| {
        in_field(v) && newest_chose(v, "thumb_to_finger", &["not_easy"])
    })
    .signs(&["thumb_to_finger"])
    .call(CallFor::Lead),
    Hazard::row(names!("G06", "g06"), Grade::Stop, Closes::Place, &[Seen, Design], |v| {
        is_out(v) && daylight::is_overdue(v)
    })
    .signs(&["due_back"])
    .call(CallFor::Contact),
    Hazard::row(names!("G07", "g07"), Grade::Stop, Closes::HandsOn, &[Design], |v| {
        is_out(v) && !daylight::is_overdue(v) && daylight::must_turn_for_due_back(v)
    })
    .signs(&["due_back", "walk_out_min"])
    .call(CallFor::Contact),
    Hazard::row(names!("G08", "g08"), Grade::Confirm, Closes::HandsOn, &[Memory, Design], |v| {
        is_out(v) && daylight::light_is_short(v)
    })
    .signs(&["walk_out_min"]),
    Hazard::row(names!("G22", "g22"), Grade::Confirm, Closes::Place, &[Seen, Design], |v| {
        is_out(v) && PLAN.iter().any(|line| !there(v, line))
    }),
];

fn in_field(view: &View) -> bool {
    view.kind == ExamKind::Field
}

/// In the field and not yet reported back: what is typed at home afterwards is under no clock.
fn is_out(view: &View) -> bool {
    in_field(view) && !there(view, "contact_told_back")
}

fn is_band(view: &View, band: FrostBand) -> bool {
    in_field(view) && weather::wind_chill_now(view).is_some_and(|now| now.band == band)
}

/// The card's own limit, where it is stricter than the built-in stop.
fn is_under_card_limit(view: &View) -> bool {
    let limit = view.card_in_force().and_then(|c| c.limits.wind_chill_stop_c);
    in_field(view)
        && weather::wind_chill_now(view).is_some_and(|now| {
            now.band < FrostBand::FiveToTenMinutes && limit.is_some_and(|limit_c| now.shown_c <= limit_c)
        })
}
