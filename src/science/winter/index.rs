//! An index over a log: what is known of it, bounded where days are missing.

use time::{Date, Month, Weekday};

use super::agency::{Cold, Index, Lacking, MonthDay, Rule};
use super::classes::{Class, ClassSet};
use super::log::{DayLog, Gauge, Log, Said, days_of};
use super::measure::{Depth, Temperature};

/// Which winter is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Asked {
    /// The year in which the winter begins: 2017 for 2017-18.
    pub winter: i32,
    /// First day, where the source names none.
    pub from: Option<Date>,
    /// Last day, where the source names none.
    pub to: Option<Date>,
    /// The last day that is over: days after it are still to come, not missing. The last day logged
    /// where nobody says.
    pub through: Option<Date>,
}

impl Asked {
    /// A winter, as the index's own season has it.
    pub const fn winter(winter: i32) -> Self {
        Self { winter, from: None, to: None, through: None }
    }
}

/// Why there is no figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// The source's tables or critical values were not found; nothing stands in for them.
    Lacking(Lacking),
    /// The source names no first day: it has to be given.
    NeedsFrom,
    /// The source names no last day: it has to be given.
    NeedsTo,
    /// The source names the season itself: no other days are taken under its name.
    SeasonIsFixed,
    /// The last day lies before the first.
    Backwards,
    /// Nothing was logged in that time.
    NothingLogged,
    /// Sinking depths of another gauge, or of one that nobody named, never go into this sum.
    WrongGauge(Option<Gauge>),
    /// One place at a time: the index is a station's.
    OnePlace,
}

/// A count of days, or a sum: at least, and at most.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bounds {
    /// At least: missing readings add nothing.
    pub low: f64,
    /// At most; `None` where a missing depth could be any.
    pub high: Option<f64>,
}

/// What the figure is made of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// `cold_days`, `deep_days`, `mondays`, `weeks` or `sink_days`.
    pub id: &'static str,
    /// Points or sum of this part.
    pub bounds: Bounds,
    /// Days (weeks, Mondays) read.
    pub read: u32,
    /// Days (weeks, Mondays) that were over and not read.
    pub missing: u32,
    /// Days with readings that differ; the bounds hold both.
    pub split: u32,
}

/// The class of the figure under one set of names.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Classed {
    /// The names.
    pub set: &'static ClassSet,
    /// Of the low end.
    pub low: &'static Class,
    /// Of the high end; `None` where the figure has none.
    pub high: Option<&'static Class>,
}

impl Classed {
    /// The one class, where both ends agree.
    pub fn settled(&self) -> Option<&'static Class> {
        self.high.filter(|high| high.id == self.low.id)
    }
}

/// An index over a winter.
#[derive(Clone, Debug, PartialEq)]
pub struct Severity {
    /// Which.
    pub index: &'static Index,
    /// First day.
    pub from: Date,
    /// Last day of the season.
    pub to: Date,
    /// Last day that is counted.
    pub through: Date,
    /// Days counted, `from` to `through`.
    pub days: u32,
    /// Days of the season still to come.
    pub to_come: u32,
    /// The figure.
    pub value: Bounds,
    /// The high end if every missing depth had been as deep as the deepest read in this time; only
    /// where the figure has no high end of its own.
    pub if_deepest: Option<f64>,
    /// What it is made of.
    pub parts: Vec<Part>,
    /// Classes, the latest names first.
    pub classes: Vec<Classed>,
    /// Places that went in.
    pub places: u32,
}

impl Severity {
    /// True once no day of the season is to come.
    pub const fn is_complete(&self) -> bool {
        self.to_come == 0
    }
}

/// Work out an index. A course of several stations goes into the indices that average one; all others
/// take one place.
///
/// # Errors
/// Why there is no figure.
pub fn severity(index: &'static Index, course: &[&Log], asked: &Asked) -> Result<Severity, Refusal> {
    if let Rule::Cannot(lacking) = index.rule {
        return Err(Refusal::Lacking(lacking));
    }
    if course.len() > 1 && !matches!(index.rule, Rule::WeeklyCm(_)) {
        return Err(Refusal::OnePlace);
    }
    let (from, to) = season(index, asked, course)?;
    let logged = |log: &&Log| log.days.range(from..=to).next_back().map(|(date, _)| *date);
    let last = course.iter().filter_map(logged).max().ok_or(Refusal::NothingLogged)?;
    let through = asked.through.unwrap_or(last).clamp(last, to);
    let counted = Counted { from, through, course };
    let (parts, if_deepest) = match index.rule {
        Rule::Points(cold, deep) => (vec![counted.cold(cold), counted.deep(|d| d >= deep)], None),
        Rule::DaysOver(deep) => (vec![counted.deep(|d| d > deep)], None),
        Rule::MondayInches => counted.mondays(),
        Rule::WeeklyCm(_) => counted.weeks(),
        Rule::DailySinkCm => {
            let gauge = course.first().and_then(|log| log.gauge);
            if gauge != Some(Gauge::Quebec) {
                return Err(Refusal::WrongGauge(gauge));
            }
            counted.sinking()
        }
        Rule::Cannot(lacking) => return Err(Refusal::Lacking(lacking)),
    };
    let value = parts.iter().fold(Bounds { low: 0.0, high: Some(0.0) }, |sum, part| Bounds {
        low: sum.low + part.bounds.low,
        high: sum.high.zip(part.bounds.high).map(|(a, b)| a + b),
    });
    let classed = |set: &&'static ClassSet| {
        Some(Classed { set, low: set.of(value.low)?, high: value.high.and_then(|high| set.of(high)) })
    };
    Ok(Severity {
        index,
        from,
        to,
        through,
        days: count(days_of(from, through)),
        to_come: count(days_of(through, to)).saturating_sub(1),
        value,
        if_deepest: if value.high.is_none() { if_deepest } else { None },
        parts,
        classes: index.classes.iter().filter_map(classed).collect(),
        places: u32::try_from(course.len()).unwrap_or(u32::MAX),
    })
}

/// The winter that a day belongs to, by the year in which it begins: winters run from July to June.
pub fn winter_of(date: Date) -> i32 {
    if u8::from(date.month()) >= 7 { date.year() } else { date.year() - 1 }
}

/// First and last day: those of the source, else those asked for.
fn season(index: &Index, asked: &Asked, course: &[&Log]) -> Result<(Date, Date), Refusal> {
    if (index.from.is_some() && asked.from.is_some()) || (index.to.is_some() && asked.to.is_some()) {
        return Err(Refusal::SeasonIsFixed);
    }
    let own = |at: Option<MonthDay>| at.and_then(|(month, day)| in_winter(asked.winter, month, day));
    let from = own(index.from).or(asked.from).ok_or(Refusal::NeedsFrom)?;
    // A running total has no last day: it runs to the last day logged.
    let runs = matches!(index.rule, Rule::MondayInches);
    let logged = || {
        let june = in_winter(asked.winter, 6, 30)?;
        course.iter().filter_map(|log| log.days.range(from.min(june)..=june).next_back()).map(|(date, _)| *date).max()
    };
    let to = own(index.to).or(asked.to).or_else(|| runs.then(logged).flatten());
    let to = to.ok_or(if runs { Refusal::NothingLogged } else { Refusal::NeedsTo })?;
    if from > to { Err(Refusal::Backwards) } else { Ok((from, to)) }
}

/// A day of the year in the winter that begins in `winter`.
fn in_winter(winter: i32, month: u8, day: u8) -> Option<Date> {
    let year = if month >= 7 { winter } else { winter + 1 };
    Date::from_calendar_date(year, Month::try_from(month).ok()?, day).ok()
}

fn count(days: impl Iterator<Item = Date>) -> u32 {
    u32::try_from(days.count()).unwrap_or(u32::MAX)
}

/// The days that count, and whose.
struct Counted<'a> {
    from: Date,
    through: Date,
    course: &'a [&'a Log],
}

impl Counted<'_> {
    fn days(&self) -> impl Iterator<Item = (Date, DayLog)> {
        let log = self.course.first().copied();
        days_of(self.from, self.through).map(move |date| (date, log.map(|log| log.day(date)).unwrap_or_default()))
    }

    fn cold(&self, cold: Cold) -> Part {
        let is_cold = |t: Temperature| match cold {
            Cold::AtOrBelowZeroF => t <= Temperature::ZERO_F,
            Cold::BelowZeroF => t < Temperature::ZERO_F,
        };
        self.points("cold_days", |day| day.minimum.map(|t| (is_cold(t.high), is_cold(t.low), t.is_split())))
    }

    fn deep(&self, is_deep: impl Fn(Depth) -> bool) -> Part {
        self.points("deep_days", |day| day.depth.map(|d| (is_deep(d.low), is_deep(d.high), d.is_split())))
    }

    /// One point a day: surely, possibly.
    fn points(&self, id: &'static str, of: impl Fn(&DayLog) -> Option<(bool, bool, bool)>) -> Part {
        let mut part = Part::nothing(id);
        let mut high = 0_u32;
        for (_, day) in self.days() {
            if let Some((surely, possibly, split)) = of(&day) {
                part.read += 1;
                part.split += u32::from(split);
                part.bounds.low += f64::from(u8::from(surely));
                high += u32::from(possibly);
            } else {
                part.missing += 1;
                high += 1;
            }
        }
        part.bounds.high = Some(f64::from(high));
        part
    }

    fn mondays(&self) -> (Vec<Part>, Option<f64>) {
        let mondays = self.days().filter(|(date, _)| date.weekday() == Weekday::Monday);
        let inches = |said: Said<Depth>| (said.low.inches(), said.high.inches(), said.is_split());
        summed("mondays", mondays.map(|(_, day)| day.depth.map(inches)))
    }

    fn sinking(&self) -> (Vec<Part>, Option<f64>) {
        let cm = |said: Said<Depth>| (said.low.cm(), said.high.cm(), said.is_split());
        summed("sink_days", self.days().map(|(_, day)| day.sink.map(cm)))
    }

    /// Weeks of seven days from the first: each station's mean over its readings of the week, then the
    /// mean over the stations that were read. The last week counts once it is over or was read.
    fn weeks(&self) -> (Vec<Part>, Option<f64>) {
        let mut weeks = Vec::new();
        let mut start = Some(self.from);
        while let Some(first) = start.filter(|first| *first <= self.through) {
            let end = first.checked_add(time::Duration::days(6)).unwrap_or(self.through);
            let stations: Vec<_> = self.course.iter().filter_map(|log| week_mean(log, first, end)).collect();
            let mean = (!stations.is_empty()).then(|| {
                let n = stations.len() as f64;
                let mean = |of: fn(&(f64, f64, bool)) -> f64| stations.iter().map(of).sum::<f64>() / n;
                (mean(|s| s.0), mean(|s| s.1), stations.iter().any(|s| s.2))
            });
            if mean.is_some() || end <= self.through {
                weeks.push(mean);
            }
            start = end.next_day();
        }
        summed("weeks", weeks.into_iter())
    }
}

impl Part {
    const fn nothing(id: &'static str) -> Self {
        Self { id, bounds: Bounds { low: 0.0, high: Some(0.0) }, read: 0, missing: 0, split: 0 }
    }
}

/// One station's mean depth over its readings of a week: low, high, whether readings of a day differ.
fn week_mean(log: &Log, first: Date, end: Date) -> Option<(f64, f64, bool)> {
    let read: Vec<Said<Depth>> = log.days.range(first..=end).filter_map(|(_, day)| day.depth).collect();
    let n = read.len() as f64;
    let sum = |of: fn(&Said<Depth>) -> Depth| read.iter().map(|s| of(s).thousandths_cm()).sum::<i64>() as f64;
    (!read.is_empty())
        .then(|| (sum(|s| s.low) / n / 1_000.0, sum(|s| s.high) / n / 1_000.0, read.iter().any(|s| s.is_split())))
}

/// A sum of readings; a missing one leaves the sum without a high end. Also the high end if each missing
/// reading had been the greatest that was read.
fn summed(id: &'static str, all: impl Iterator<Item = Option<(f64, f64, bool)>>) -> (Vec<Part>, Option<f64>) {
    let mut part = Part::nothing(id);
    let (mut high, mut greatest) = (0.0, 0.0_f64);
    for one in all {
        match one {
            Some((least, most, split)) => {
                part.read += 1;
                part.split += u32::from(split);
                part.bounds.low += least;
                high += most;
                greatest = greatest.max(most);
            }
            None => part.missing += 1,
        }
    }
    part.bounds.high = (part.missing == 0).then_some(high);
    let if_deepest = (part.read > 0).then(|| high + f64::from(part.missing) * greatest);
    (vec![part], if_deepest)
}
