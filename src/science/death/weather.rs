//! Daily temperatures as these methods take them: sums of degrees backwards from a look.

use super::{DAY_S, HOUR_S, Instant, Silent};

/// Daily mean below which a body goes on freezing, C: what counts towards freezing-degree days.
pub const FREEZES_BELOW_C: f64 = -1.5;

/// One day of a log. Where readings of it differ, the lowest and the highest of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DayTemp {
    /// Its first instant, local midnight.
    pub start: Instant,
    /// Daily mean, C: lowest and highest said, the same where all agree.
    pub mean_c: [f64; 2],
    /// Highest, C; absent where it was not read.
    pub high_c: Option<f64>,
}

impl DayTemp {
    /// The middle of what is said of the daily mean, C.
    pub const fn middle_c(&self) -> f64 {
        let [low, high] = self.mean_c;
        f64::midpoint(low, high)
    }

    /// Most degrees of the daily mean below [`FREEZES_BELOW_C`].
    pub fn most_frost(&self) -> f64 {
        (FREEZES_BELOW_C - self.mean_c[0]).max(0.0)
    }

    /// Least degrees of the daily mean below [`FREEZES_BELOW_C`].
    pub fn least_frost(&self) -> f64 {
        (FREEZES_BELOW_C - self.mean_c[1]).max(0.0)
    }

    /// Most degrees of the daily mean above 0 C.
    pub fn most_thaw(&self) -> f64 {
        self.mean_c[1].max(0.0)
    }

    /// Least degrees of the daily mean above 0 C.
    pub fn least_thaw(&self) -> f64 {
        self.mean_c[0].max(0.0)
    }

    /// The instant after its last.
    pub const fn end(&self) -> Instant {
        self.start + DAY_S
    }

    /// Whether it can have been warmer than this: unknown is taken as yes.
    pub fn may_reach(&self, warmest_c: f64) -> bool {
        self.high_c.is_none_or(|high| high > warmest_c) || self.mean_c[1] > warmest_c
    }
}

/// Days that follow each other without a gap, the oldest first.
#[derive(Clone, Copy, Debug, Default)]
pub struct Weather<'a> {
    days: &'a [DayTemp],
}

impl<'a> Weather<'a> {
    /// The unbroken days that end with the one before or round `look`; none where the log ends earlier.
    /// `days` in order of time, one a day.
    pub fn up_to(days: &'a [DayTemp], look: Instant) -> Self {
        let until = days.partition_point(|day| day.start < look);
        let past = days.get(..until).unwrap_or_default();
        let reaches = past.last().is_some_and(|day| day.end() >= look);
        if !reaches {
            return Self::default();
        }
        // An hour of slack: a change to summer time shortens one day.
        let follows = |pair: &[DayTemp]| matches!(pair, [a, b] if (a.end() - b.start).abs() <= HOUR_S);
        let unbroken = past.windows(2).rposition(|pair| !follows(pair)).map_or(0, |gap| gap + 1);
        Self { days: past.get(unbroken..).unwrap_or_default() }
    }

    /// The days, the oldest first.
    pub const fn days(&self) -> &'a [DayTemp] {
        self.days
    }

    /// Whether there is no log.
    pub const fn is_empty(&self) -> bool {
        self.days.is_empty()
    }

    /// The latest instant from which the degrees of `each` day up to `look` come to `sum` degree days.
    /// Part of a day counts as that part.
    ///
    /// # Errors
    /// [`Silent::NoLog`], or [`Silent::LogTooShort`] where the whole log does not come to it.
    pub fn back_to(&self, look: Instant, sum: f64, each: fn(&DayTemp) -> f64) -> Result<Instant, Silent> {
        if self.is_empty() {
            return Err(Silent::NoLog);
        }
        let mut left = sum;
        for day in self.days.iter().rev() {
            let until = look.min(day.end());
            let degrees = each(day);
            let worth = degrees * (until - day.start) as f64 / DAY_S as f64;
            if worth >= left && degrees > 0.0 {
                #[allow(clippy::cast_possible_truncation)] // at most a day
                let back = (left / degrees * DAY_S as f64) as i64;
                return Ok(until - back);
            }
            left -= worth;
        }
        Err(Silent::LogTooShort)
    }

    /// Degree days of `each` between two instants that the log covers.
    pub fn sum(&self, from: Instant, to: Instant, each: fn(&DayTemp) -> f64) -> f64 {
        let part = |day: &DayTemp| (to.min(day.end()) - from.max(day.start)).max(0) as f64 / DAY_S as f64;
        self.days.iter().map(|day| each(day) * part(day)).sum()
    }

    /// Whether the log covers everything from an instant on.
    pub fn covers(&self, from: Instant) -> bool {
        self.days.first().is_some_and(|day| day.start <= from)
    }

    /// End of the last day that can have been warmer than this, with `look` for a day that was not over.
    pub fn last_reaching(&self, look: Instant, warmest_c: f64) -> Option<Instant> {
        self.days.iter().rev().find(|day| day.may_reach(warmest_c)).map(|day| day.end().min(look))
    }

    /// Whether any day from an instant on can have been warmer than this.
    pub fn may_rise_above(&self, from: Instant, warmest_c: f64) -> bool {
        self.days.iter().any(|day| day.end() > from && day.may_reach(warmest_c))
    }

    /// Whether any day from an instant on was so cold that flesh freezes.
    pub fn any_frost(&self, from: Instant) -> bool {
        self.days.iter().any(|day| day.end() > from && day.most_frost() > 0.0)
    }
}
