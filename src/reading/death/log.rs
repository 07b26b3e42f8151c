//! A place's winter log as the bounds take it: instants instead of days.

use super::seasons::midnight;
use crate::science::death::snow::Fall;
use crate::science::death::weather::DayTemp;
use crate::science::death::{DAY_S, Instant};
use crate::science::winter::degree_days::{Thaw, thawed};
use crate::science::winter::log::{DayLog, Log, Said};
use crate::science::winter::measure::{Depth, Temperature};
use crate::science::winter::snowfall::{Basis, snowfalls};

/// One day's thaw and cover.
#[derive(Clone, Copy, Debug)]
struct Surface {
    start: Instant,
    thaw: Thaw,
    /// Snow lay; `None` where it was not read.
    snow: Option<bool>,
}

/// What the bounds take of a log; empty where there is none, or several and nobody says which holds.
#[derive(Clone, Debug, Default)]
pub(super) struct LogData {
    pub(super) days: Vec<DayTemp>,
    pub(super) falls: Vec<Fall>,
    surface: Vec<Surface>,
    /// What the log's place is called.
    pub(super) place: String,
    /// There are logs of several places.
    pub(super) several: bool,
}

impl LogData {
    pub(super) fn of(logs: &[Log], offset_minutes: i32) -> Self {
        let [log] = logs else { return Self { several: logs.len() > 1, ..Self::default() } };
        let at = |date| midnight(date, offset_minutes);
        let days = log.days.iter().filter_map(|(date, day)| day_temp(at(*date), day)).collect();
        let surface = log.days.iter().map(|(date, day)| Surface {
            start: at(*date),
            thaw: thawed(day),
            snow: day.depth.map(|depth| depth.high > Depth::default()),
        });
        let falls = snowfalls(log).into_iter().map(|fall| Fall {
            from: fall.began_from.map(at),
            begun_by: at(fall.first) + DAY_S,
            to: at(fall.ended_by) + DAY_S,
            depth_mm: Some(fall.depth.1.thousandths_cm() / 100),
            measured: fall.basis == Basis::Measured,
        });
        Self { days, falls: falls.collect(), surface: surface.collect(), place: log.place.clone(), several: false }
    }

    /// End of the last day before a look on which it thawed, or on which nobody knows that it did not.
    pub(super) fn thaw_ended(&self, look: Instant) -> Option<Instant> {
        let last = self.surface.iter().rev().find(|day| day.start < look && day.thaw != Thaw::No)?;
        (last.thaw == Thaw::Yes || self.surface.iter().any(|day| day.start < last.start && day.thaw == Thaw::Yes))
            .then(|| (last.start + DAY_S).min(look))
    }

    /// Latest start of the first fall of the snow that lay from then on to the look, without a day that
    /// was bare or not read.
    pub(super) fn lasting_from(&self, look: Instant) -> Option<Instant> {
        let past = self.surface.iter().rev().skip_while(|day| day.start >= look);
        let first = past.take_while(|day| day.snow == Some(true)).last()?.start;
        // Snow that lay from the log's first day on began nobody knows when.
        self.surface.first().filter(|day| day.start < first)?;
        self.falls.iter().map(|fall| fall.begun_by).find(|begun| *begun >= first)
    }
}

fn celsius(said: Said<Temperature>) -> [f64; 2] {
    [said.low.celsius(), said.high.celsius()]
}

/// A day with a mean, as logged or from its minimum and maximum.
fn day_temp(start: Instant, day: &DayLog) -> Option<DayTemp> {
    let high = day.maximum.map(celsius);
    let mean_c = match (day.mean, day.minimum, high) {
        (Some(mean), _, _) => celsius(mean),
        (None, Some(low), Some([max_low, max_high])) => {
            let [min_low, min_high] = celsius(low);
            [f64::midpoint(min_low, max_low), f64::midpoint(min_high, max_high)]
        }
        _ => return None,
    };
    Some(DayTemp { start, mean_c, high_c: high.map(|[_, highest]| highest) })
}
