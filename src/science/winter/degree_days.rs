//! Frost and thaw summed over days: degree days, and the days on which it thawed.

use time::Date;

use super::log::{DayLog, Log, Said, days_of};
use super::measure::Temperature;

/// Frost is counted below this for a body's freezing: -1.5 C.
pub const BODY_FREEZES: Temperature = Temperature::from_hundredths_c(-150);

/// A sum of degree days with what is known of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DegreeDays {
    /// From the daily mean, or the middle of minimum and maximum; days without either add nothing.
    pub middle: f64,
    /// At least this: each day by the end of its readings that gives least, missing days by nothing.
    pub low: f64,
    /// At most this, where every day says enough; `None` where a day was not read.
    pub high: Option<f64>,
    /// Days in the span.
    pub days: u32,
    /// Days that add nothing to the middle because no mean and no pair was read.
    pub without_mean: u32,
}

/// Which side is summed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Degrees below the base.
    Below,
    /// Degrees above the base.
    Above,
}

/// Degree days (C times days) of a span, both ends included.
pub fn degree_days(log: &Log, from: Date, to: Date, base: Temperature, side: Side) -> DegreeDays {
    let mut sum = DegreeDays { middle: 0.0, low: 0.0, high: Some(0.0), days: 0, without_mean: 0 };
    let over = |t: Temperature| {
        let d = t.above(base);
        (if side == Side::Above { d } else { -d }).max(0.0)
    };
    for date in days_of(from, to) {
        let day = log.day(date);
        sum.days += 1;
        match mean(&day) {
            Some(mean) => sum.middle += f64::midpoint(over(mean.low), over(mean.high)),
            None => sum.without_mean += 1,
        }
        let (low, high) = ends(&day);
        let (least, most) = if side == Side::Above { (low, high) } else { (high, low) };
        sum.low += least.map_or(0.0, over);
        sum.high = sum.high.zip(most).map(|(sum, most)| sum + over(most));
    }
    sum
}

/// The day's mean: as logged, or the middle of its minimum and maximum.
fn mean(day: &DayLog) -> Option<Said<Temperature>> {
    day.mean.or_else(|| {
        let (min, max) = (day.minimum?, day.maximum?);
        Some(Said { low: min.low.middle(max.low), high: min.high.middle(max.high) })
    })
}

/// The coldest and the warmest that the day's mean can have been.
fn ends(day: &DayLog) -> (Option<Temperature>, Option<Temperature>) {
    let low = day.mean.or(day.minimum).map(|t| t.low);
    let high = day.mean.or(day.maximum).map(|t| t.high);
    (low, high)
}

/// Whether it thawed on a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Thaw {
    /// The maximum was above 0 C, or the minimum was.
    Yes,
    /// The maximum was 0 C or below.
    No,
    /// Not read, or readings differ about it.
    Unknown,
}

/// Whether it thawed on a day, by its maximum (its minimum or mean may prove a thaw, never its absence).
pub fn thawed(day: &DayLog) -> Thaw {
    let above = |said: Option<Said<Temperature>>| said.is_some_and(|t| t.low > Temperature::ZERO_C);
    if above(day.maximum) || above(day.mean) || above(day.minimum) {
        return Thaw::Yes;
    }
    match day.maximum {
        Some(max) if max.high <= Temperature::ZERO_C => Thaw::No,
        _ => Thaw::Unknown,
    }
}
