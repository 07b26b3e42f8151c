//! Deaths by week: each carcass is spread evenly over the days on which it can have died.
//!
//! A window over four weeks says too little of any week; it stands apart and is counted beside. Weeks begin on
//! Monday (ISO 8601). Days are counted as whole numbers, so that the order of the carcasses moves no digit.

use std::collections::BTreeMap;

use time::{Date, Duration};

use crate::science::age::DeathWindow;

/// Longest window that is spread, in days.
pub const LONGEST_DAYS: i64 = 28;

/// One week.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Week {
    /// Its Monday.
    pub monday: Date,
    /// Deaths expected in it.
    pub deaths: f64,
    /// Carcasses that cannot have died in another week.
    pub at_least: u32,
    /// Carcasses that can have died in it, of those that are spread.
    pub at_most: u32,
}

/// All weeks from the first to the last in which anything was spread, none left out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Weeks {
    /// In order.
    pub weeks: Vec<Week>,
    /// Carcasses that are spread over the weeks.
    pub spread: u32,
    /// Carcasses with longer windows, that stand apart.
    pub apart: u32,
    /// Windows the wrong way round: in no week, and in no other count.
    pub backwards: u32,
}

/// The Monday of a day's week.
pub fn monday_of(day: Date) -> Date {
    let back = Duration::days(i64::from(day.weekday().number_days_from_monday()));
    day.checked_sub(back).unwrap_or(day)
}

#[derive(Default)]
struct Counted {
    /// Days that fall into the week, by length of the window.
    days: BTreeMap<i64, i64>,
    at_least: u32,
    at_most: u32,
}

/// Spreads the windows.
pub fn by_week(windows: impl IntoIterator<Item = DeathWindow>) -> Weeks {
    let mut out = Weeks::default();
    let mut counted: BTreeMap<Date, Counted> = BTreeMap::new();
    for window in windows {
        let length = (window.to - window.from).whole_days() + 1;
        if length < 1 {
            out.backwards += 1;
            continue;
        }
        if length > LONGEST_DAYS {
            out.apart += 1;
            continue;
        }
        out.spread += 1;
        let mut monday = monday_of(window.from);
        while monday <= window.to {
            let next = monday.checked_add(Duration::WEEK).unwrap_or(Date::MAX);
            let first = window.from.max(monday);
            let last = window.to.min(next.previous_day().unwrap_or(next));
            let here = counted.entry(monday).or_default();
            let days = (last - first).whole_days() + 1;
            *here.days.entry(length).or_default() += days;
            here.at_least += u32::from(days == length);
            here.at_most += 1;
            monday = next;
        }
    }
    let ends = counted.keys().next().copied().zip(counted.keys().next_back().copied());
    if let Some((mut monday, last)) = ends {
        while monday <= last {
            let here = counted.remove(&monday).unwrap_or_default();
            let deaths = here.days.iter().map(|(length, days)| *days as f64 / *length as f64).sum();
            out.weeks.push(Week { monday, deaths, at_least: here.at_least, at_most: here.at_most });
            monday = monday.checked_add(Duration::WEEK).unwrap_or(Date::MAX);
        }
    }
    out
}
