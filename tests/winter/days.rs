//! Making logs for the tests.

use marrowbook::science::winter::log::{DayLog, Log, Said};
use marrowbook::science::winter::measure::{Depth, Temperature};
use time::{Date, Duration, Month};

pub(crate) fn date(year: i32, month: u8, day: u8) -> Date {
    Date::from_calendar_date(year, Month::try_from(month).unwrap(), day).unwrap()
}

pub(crate) fn fahrenheit(degrees: i64) -> Temperature {
    Temperature::from_hundredths_f(degrees * 100)
}

pub(crate) fn inches(inches: i64) -> Depth {
    Depth::from_hundredths_in(inches * 100)
}

pub(crate) fn cm(cm: i64) -> Depth {
    Depth::from_thousandths_cm(cm * 1_000)
}

/// A day with a minimum and a depth.
pub(crate) fn day(minimum: Temperature, depth: Depth) -> DayLog {
    DayLog { minimum: Some(Said::one(minimum)), depth: Some(Said::one(depth)), ..DayLog::default() }
}

/// Days one after the other.
pub(crate) fn log(first: Date, days: impl IntoIterator<Item = DayLog>) -> Log {
    let dated = days.into_iter().enumerate().map(|(n, day)| (first + Duration::days(i64::try_from(n).unwrap()), day));
    Log { place: "North ridge".to_owned(), days: dated.collect(), ..Log::default() }
}

/// A log with days that may be missing.
pub(crate) fn gappy(first: Date, days: impl IntoIterator<Item = Option<DayLog>>) -> Log {
    let mut out = log(first, []);
    for (n, day) in days.into_iter().enumerate() {
        if let Some(day) = day {
            out.days.insert(first + Duration::days(i64::try_from(n).unwrap()), day);
        }
    }
    out
}
