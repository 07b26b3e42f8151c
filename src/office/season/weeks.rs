//! Deaths by week beside what the logs read.

use time::{Date, Duration};

use super::kept::Kept;
use super::rounded;
use super::table::{WeekLine, WeekSnow, WeekTable};
use crate::science::season::weeks::{LONGEST_DAYS, by_week};
use crate::science::winter::log::{Log, days_of};

/// The table.
pub fn table(rows: &[&Kept], logs: &[Log]) -> WeekTable {
    let windows: Vec<_> = rows.iter().filter_map(|row| row.window()).collect();
    let found = by_week(windows.iter().copied());
    let short = |row: &&&Kept| row.window().is_some_and(|w| (w.to - w.from).whole_days() < LONGEST_DAYS);
    let assumed = rows.iter().filter(short).filter(|row| row.days.is_some_and(|days| days.first_is_assumed)).count();
    WeekTable {
        weeks: found
            .weeks
            .iter()
            .map(|week| WeekLine {
                monday: week.monday.to_string(),
                deaths: rounded(week.deaths, 3),
                at_least: week.at_least,
                at_most: week.at_most,
                snow: logs.iter().map(|log| snow(log, week.monday)).collect(),
            })
            .collect(),
        logs: logs.iter().map(|log| log.place.clone()).collect(),
        spread: found.spread,
        apart: found.apart,
        no_window: rows.len() - windows.len() + found.backwards as usize,
        first_day_assumed: assumed,
    }
}

/// What one log read in the seven days from that one. A day not read is not a day without snow.
fn snow(log: &Log, monday: Date) -> WeekSnow {
    let sunday = monday.checked_add(Duration::days(6)).unwrap_or(monday);
    let days: Vec<_> = days_of(monday, sunday).map(|day| log.day(day)).collect();
    let depths: Vec<f64> =
        days.iter().filter_map(|day| day.depth).map(|d| f64::midpoint(d.low.cm(), d.high.cm())).collect();
    let lowest = days.iter().filter_map(|day| day.minimum).map(|t| t.low.celsius()).reduce(f64::min);
    WeekSnow {
        depth_cm: (!depths.is_empty()).then(|| rounded(depths.iter().sum::<f64>() / depths.len() as f64, 1)),
        days_read: u32::try_from(depths.len()).unwrap_or(7),
        lowest_c: lowest.map(|t| rounded(t, 1)),
    }
}
