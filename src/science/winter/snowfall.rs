//! Snowfalls out of a daily log: between which days each began and ended, and how much fell.
//!
//! A log read once a day does not know the hour. Each fall carries the widest span that the readings
//! allow; a bound on a death drawn from it uses that span's end or start and is never too narrow.

use time::Date;

use super::log::{DayLog, Log, ReadAt};
use super::measure::Depth;

/// New snow under 1 cm is a trace: it cannot be told in a pit against a body (our rule).
pub const LEAST: Depth = Depth::from_thousandths_cm(1_000);

/// How a fall is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Basis {
    /// New snow was measured.
    Measured,
    /// Only the depth rose: at least that much fell, or it drifted in. Bounds nothing hard.
    DepthRise,
}

/// One snowfall, or several on days that follow each other, which a daily log cannot tell apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Snowfall {
    /// First day on which it was read.
    pub first: Date,
    /// Last day on which it was read.
    pub last: Date,
    /// It began on this day at the earliest; `None` where nothing was read before it, so that the snow
    /// may have lain for long.
    pub began_from: Option<Date>,
    /// It ended on this day at the latest.
    pub ended_by: Date,
    /// All that fell: the lowest said, and the highest.
    pub depth: (Depth, Depth),
    /// How it is known; the weaker where days differ.
    pub basis: Basis,
}

/// The snowfalls of a log, in order of time.
pub fn snowfalls(log: &Log) -> Vec<Snowfall> {
    let mut all: Vec<Snowfall> = Vec::new();
    for (date, day) in &log.days {
        let Some((low, high, basis)) = fell(log, *date, day) else { continue };
        let began_from = began_from(log, *date, basis);
        match all.last_mut() {
            Some(last) if began_from.is_some_and(|from| last.last >= from) || last.last.next_day() == Some(*date) => {
                last.last = *date;
                last.ended_by = *date;
                last.depth = (last.depth.0.plus(low), last.depth.1.plus(high));
                last.basis = last.basis.max(basis);
            }
            _ => {
                all.push(Snowfall {
                    first: *date,
                    last: *date,
                    began_from,
                    ended_by: *date,
                    depth: (low, high),
                    basis,
                });
            }
        }
    }
    all
}

/// What fell by this day's reading, where that is 1 cm or more.
fn fell(log: &Log, date: Date, day: &DayLog) -> Option<(Depth, Depth, Basis)> {
    if let Some(new) = day.new_snow {
        return (new.high >= LEAST).then_some((new.low, new.high, Basis::Measured));
    }
    let now = day.depth?;
    let (_, before) = log.last_before(date, |d| d.depth.is_some())?;
    let before = before.depth?;
    let high = now.high.less(before.low)?;
    let low = now.low.less(before.high).unwrap_or_default();
    (high >= LEAST).then_some((low, high, Basis::DepthRise))
}

/// The earliest day on which snow read on this day can have begun to fall: after the reading before,
/// on the day itself only where the log runs from midnight to midnight and the day before was read.
fn began_from(log: &Log, date: Date, basis: Basis) -> Option<Date> {
    let told = |d: &DayLog| d.depth.is_some() || (basis == Basis::Measured && d.new_snow.is_some());
    let (before, _) = log.last_before(date, told)?;
    if log.read_at == Some(ReadAt::Midnight) { before.next_day() } else { Some(before) }
}
