//! Days of the year that stand in where nothing else bounds a death.

use time::{Date, Duration, Month, OffsetDateTime};

use crate::science::death::Instant;

fn date_of(at: Instant) -> Date {
    OffsetDateTime::from_unix_timestamp(at).unwrap_or(OffsetDateTime::UNIX_EPOCH).date()
}

fn start_of(date: Date) -> Instant {
    date.midnight().assume_utc().unix_timestamp()
}

fn first(year: i32, month: Month) -> Date {
    Date::from_calendar_date(year, month, 1).unwrap_or(Date::MIN)
}

/// The assumed start of the season for a body found then: 1 December of that winter; for one found in
/// November, 1 November.
pub(super) fn season_start(found: Date) -> Date {
    match found.month() {
        Month::December => first(found.year(), Month::December),
        Month::November => first(found.year(), Month::November),
        _ => first(found.year() - 1, Month::December),
    }
}

/// The beginning of the last fall of leaves before an instant: 1 October. Ours, and on the early side.
pub(super) fn leaf_fall_before(at: Instant) -> Instant {
    let date = date_of(at);
    let year = if date.month() as u8 >= Month::October as u8 { date.year() } else { date.year() - 1 };
    start_of(first(year, Month::October))
}

/// The beginning of the last whole growing season before an instant: 1 May. Ours.
pub(super) fn whole_summer_before(at: Instant) -> Instant {
    let date = date_of(at);
    let year = if date.month() as u8 >= Month::October as u8 { date.year() } else { date.year() - 1 };
    start_of(first(year, Month::May))
}

/// Midnight of a local date at an offset.
pub(super) fn midnight(date: Date, offset_minutes: i32) -> Instant {
    start_of(date) - i64::from(offset_minutes) * 60
}

/// The local date of an instant.
pub(super) fn local_date(at: Instant, offset_minutes: i32) -> Date {
    date_of(at.saturating_add(i64::from(offset_minutes) * 60))
}

/// So many days before.
pub(super) fn days_before(date: Date, days: i64) -> Date {
    date.checked_sub(Duration::days(days)).unwrap_or(Date::MIN)
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    #[test]
    fn seasons_begin_where_the_method_says() {
        for (found, start) in [
            (date!(2027 - 02 - 20), date!(2026 - 12 - 01)),
            (date!(2026 - 12 - 20), date!(2026 - 12 - 01)),
            (date!(2026 - 11 - 20), date!(2026 - 11 - 01)),
            (date!(2027 - 05 - 20), date!(2026 - 12 - 01)),
        ] {
            assert_eq!(season_start(found), start, "{found}");
        }
        let may = start_of(date!(2027 - 05 - 20));
        assert_eq!(leaf_fall_before(may), start_of(date!(2026 - 10 - 01)));
        assert_eq!(whole_summer_before(may), start_of(date!(2026 - 05 - 01)));
        assert_eq!(local_date(start_of(date!(2027 - 01 - 01)), -300), date!(2026 - 12 - 31));
        assert_eq!(midnight(date!(2027 - 01 - 01), -300), start_of(date!(2027 - 01 - 01)) + 18_000);
    }
}
