//! The days on which the deer can have died, for methods that count months.

use time::{Date, Month};

use super::death::earliest_in;
use super::lens::Lens;
use crate::record::{Answer, Carcass, Moment, Site, Value};
use crate::science::age::DeathWindow;
use crate::science::source::{Mark, Source};

/// What an assumed first day rests on.
pub(super) static SOURCE: Source = Source::new(
    "death-window",
    "first day of death taken as 1 December, or 110 days before it was found while flesh is left",
    Mark::Ours,
);

/// The window and where its ends come from.
#[derive(Clone, Copy, Debug)]
pub(super) struct Window {
    pub(super) days: DeathWindow,
    /// The end is the phone's clock, since nobody answered when the crew arrived.
    pub(super) by_clock: bool,
    /// The first day was told by a collar or a witness, or is bounded by something seen, and is not
    /// assumed. Told later than the deer was found, the window is the wrong way round, and every method
    /// that asks for it refuses.
    pub(super) known: bool,
}

/// The window, or `None` where nothing in the record has a date: the day that was told, else what the
/// reading of the time of death came to.
pub(super) fn window(carcass: &Carcass, lens: &Lens) -> Option<Window> {
    let dated = lens.dated();
    if let Some(Answer::Seen { value: Value::Instant(at) }) = lens.result("death_known_at", Site::NONE)
        && let Some(died) = day(*at)
    {
        let found = day(earliest_arrival(lens).or_else(|| earliest_entry(carcass))?)?;
        let to = if died > found { found } else { died };
        return Some(Window { days: DeathWindow { from: died, to }, by_clock: false, known: true });
    }
    dated
}

/// The days on which a deer can have died, for a calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DaysOfDeath {
    /// First day, as a local date.
    pub from: Date,
    /// Last day, as a local date.
    pub to: Date,
    /// Nothing that was seen or told bounds the first day: it is assumed (see the source of the readings).
    pub first_is_assumed: bool,
}

/// First and last day on which a deer can have died, as the reading of the time of death has them with
/// the same things given. `None` where nothing in it has a date, or its bounds contradict each other.
pub fn days_of_death(carcass: &Carcass, given: &super::Given) -> Option<DaysOfDeath> {
    let death = super::death::read(carcass, given);
    let answers = super::lens::Answers::of(carcass, &["arrived_at", "death_known_at"]);
    let answers = answers.with_days(death.days, &death.used);
    let found = window(carcass, &Lens::new(&answers, super::lens::Picks::new()))?;
    Some(DaysOfDeath { from: found.days.from, to: found.days.to, first_is_assumed: !found.known })
}

/// The day on which it was found, as the answers say, or the phone's clock where none does.
pub fn found_on(carcass: &Carcass) -> Option<Date> {
    let answers = super::lens::Answers::of(carcass, &["arrived_at"]);
    let lens = Lens::new(&answers, super::lens::Picks::new());
    day(earliest_arrival(&lens).or_else(|| earliest_entry(carcass))?)
}

fn earliest_arrival(lens: &Lens) -> Option<Moment> {
    lens.all("arrived_at", Site::NONE)
        .iter()
        .filter_map(|answer| match answer {
            Answer::Seen { value: Value::Instant(at) } => Some(*at),
            _ => None,
        })
        .min_by_key(|at| at.unix_seconds())
}

fn earliest_entry(carcass: &Carcass) -> Option<Moment> {
    let exams = carcass.examinations.values();
    exams.filter_map(|exam| earliest_in(&exam.sheet)).min_by_key(|at| at.unix_seconds())
}

fn day(at: Moment) -> Option<Date> {
    let (year, month, day) = at.date();
    Date::from_calendar_date(year, Month::try_from(month).ok()?, day).ok()
}
