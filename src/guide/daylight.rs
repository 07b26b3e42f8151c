//! Time left: until dusk, until due back, and when to turn for home.
//!
//! `turn = min(dusk, due back) - walk out * k - reserve`; `k` and the reserve are the local card's.
//! Where the card is silent the bare walk-out time is used, which the crew gave itself: nothing is
//! added that nobody decided. A flat horizon is assumed, so light goes earlier among hills.

use time::{Date, Month};

use super::View;
use super::hazards::read::{newest, newest_numbers, standing};
use crate::record::{Answer, DUE_BACK, Moment, Place, Value};
use crate::science::sun::{SunTimes, sun_times};

/// When the light is good enough to walk, seconds since 1970.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Light {
    /// Start of civil twilight.
    pub dawn_unix: i64,
    /// End of civil twilight.
    pub dusk_unix: i64,
}

/// Civil twilight on the local date at the place written down; `None` without a place, or where
/// the sun does not cross that height today.
pub fn light_today(view: &View) -> Option<Light> {
    let place = newest_place(view)?;
    let (year, month, day) = view.now.date();
    let date = Date::from_calendar_date(year, Month::try_from(month).ok()?, day).ok()?;
    let degrees = |e7: i64| e7 as f64 / 1e7;
    let sun = sun_times(date, degrees(place.lat_e7), degrees(place.lon_e7)).ok()?;
    let SunTimes { sunrise_utc_min: Some(rise), sunset_utc_min: Some(set), civil_dusk_utc_min: Some(dusk) } = sun
    else {
        return None;
    };
    let midnight_unix = (i64::from(date.to_julian_day()) - i64::from(JULIAN_DAY_1970)) * 86_400;
    // Morning twilight lasts as long as that of the evening, to well within a minute.
    let dawn = rise - (dusk - set);
    Some(Light { dawn_unix: midnight_unix + seconds(dawn), dusk_unix: midnight_unix + seconds(dusk) })
}

const JULIAN_DAY_1970: i32 = 2_440_588;

#[allow(clippy::cast_possible_truncation)] // minutes of one day
fn seconds(minutes: f64) -> i64 {
    (minutes * 60.0).round() as i64
}

fn newest_place<'a>(view: &View<'a>) -> Option<&'a Place> {
    newest(view, "place").into_iter().find_map(|s| match &s.answer {
        Answer::Seen { value: Value::Place(place) } => Some(place),
        _ => None,
    })
}

/// When the crew is due back; the earliest where two were given.
pub fn due_back(view: &View) -> Option<Moment> {
    standing(view, DUE_BACK)
        .filter_map(|s| match &s.answer {
            Answer::Seen { value: Value::Instant(at) } => Some(*at),
            _ => None,
        })
        .min_by_key(|at| at.unix_seconds())
}

/// Seconds to keep in hand for walking out, with the card's factor and reserve.
pub fn walk_out_s(view: &View) -> i64 {
    let limits = view.card_in_force().map(|c| &c.limits);
    let walk_min = newest_numbers(view, "walk_out_min").into_iter().max().unwrap_or(0);
    let percent = limits.and_then(|l| l.walk_out_percent).map_or(100, i64::from);
    let reserve_min = limits.and_then(|l| l.reserve_min).map_or(0, i64::from);
    walk_min * 60 * percent / 100 + reserve_min * 60
}

/// The latest moment to turn for home, seconds since 1970; `None` where neither due back nor dusk
/// is known.
pub fn turn_unix(view: &View) -> Option<i64> {
    let due = due_back(view).map(Moment::unix_seconds);
    let dusk = light_today(view).map(|l| l.dusk_unix);
    [due, dusk].into_iter().flatten().min().map(|end| end - walk_out_s(view))
}

/// Past the time given to the person at home.
pub(crate) fn is_overdue(view: &View) -> bool {
    due_back(view).is_some_and(|due| view.now.unix_seconds() >= due.unix_seconds())
}

/// No more time than the walk out needs before due back.
pub(crate) fn must_turn_for_due_back(view: &View) -> bool {
    due_back(view).is_some_and(|due| view.now.unix_seconds() >= due.unix_seconds() - walk_out_s(view))
}

/// Dark, or no more light than the walk out needs.
pub(crate) fn light_is_short(view: &View) -> bool {
    let now = view.now.unix_seconds();
    light_today(view).is_some_and(|l| now < l.dawn_unix || now >= l.dusk_unix - walk_out_s(view))
}
