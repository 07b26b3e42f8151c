//! One place's log of a winter, day by day.

use std::collections::BTreeMap;

use time::Date;

use super::measure::{Depth, Temperature};

/// The readings of one thing on one day. Two people, or two entries, that say different things are
/// both kept: the lowest and the highest of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Said<T> {
    /// The lowest said.
    pub low: T,
    /// The highest said; the same as the lowest where all agree.
    pub high: T,
}

impl<T: Copy + Ord> Said<T> {
    /// One reading.
    pub const fn one(value: T) -> Self {
        Self { low: value, high: value }
    }

    /// What several say; `None` of none.
    pub fn of(all: impl IntoIterator<Item = T>) -> Option<Self> {
        all.into_iter().fold(None, |so_far: Option<Self>, value| {
            Some(so_far.map_or(Self::one(value), |s| Self { low: s.low.min(value), high: s.high.max(value) }))
        })
    }

    /// True where readings of one day differ.
    pub fn is_split(self) -> bool {
        self.low != self.high
    }
}

/// What the snow's crust bore.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)]
pub enum Crust {
    None,
    BreaksUnderDeer,
    HoldsDeer,
    HoldsPredatorOnly,
}

/// One day. `None` was not read, which is never zero.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct DayLog {
    /// Lowest air temperature.
    pub minimum: Option<Said<Temperature>>,
    /// Highest air temperature.
    pub maximum: Option<Said<Temperature>>,
    /// Mean air temperature as logged, not worked out from the two.
    pub mean: Option<Said<Temperature>>,
    /// Snow on the ground.
    pub depth: Option<Said<Depth>>,
    /// Snow that fell since the last reading.
    pub new_snow: Option<Said<Depth>>,
    /// How far the log's own gauge sank.
    pub sink: Option<Said<Depth>>,
    /// The crust.
    pub crust: Option<Crust>,
}

/// When the day's readings are taken. It says which stretch of time `new snow` and `minimum` belong to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReadAt {
    /// In the morning, for the 24 hours before.
    Morning,
    /// In the evening, for the 24 hours before.
    Evening,
    /// From midnight to midnight, by an instrument.
    Midnight,
}

/// What is pushed into the snow to read the sinking depth. Readings of different gauges never mix.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Gauge {
    /// Quebec's penetrometer of about 2 kg, standing for an average deer's foot.
    Quebec,
    /// Verme's copper tube, 2.86 cm across, filled to 1.36 kg.
    Copper,
    /// Depth of a deer's own tracks.
    DeerTracks,
    /// Another.
    Other,
}

/// One place's log.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Log {
    /// What the place is called.
    pub place: String,
    /// When the readings are taken, where that is known.
    pub read_at: Option<ReadAt>,
    /// The sinking gauge, where one is used and named.
    pub gauge: Option<Gauge>,
    /// Its days, each at most once.
    pub days: BTreeMap<Date, DayLog>,
}

impl Log {
    /// The first and the last day on which anything was read.
    pub fn span(&self) -> Option<(Date, Date)> {
        Some((*self.days.first_key_value()?.0, *self.days.last_key_value()?.0))
    }

    /// A day; all unread where it was not logged.
    pub fn day(&self, date: Date) -> DayLog {
        self.days.get(&date).copied().unwrap_or_default()
    }

    /// The last logged day before this one on which `has` holds.
    pub fn last_before(&self, date: Date, has: impl Fn(&DayLog) -> bool) -> Option<(Date, DayLog)> {
        self.days.range(..date).rev().find(|(_, day)| has(day)).map(|(date, day)| (*date, *day))
    }
}

/// All days from one to another, both included.
pub fn days_of(from: Date, to: Date) -> impl Iterator<Item = Date> {
    std::iter::successors((from <= to).then_some(from), move |day| day.next_day().filter(|next| *next <= to))
}
