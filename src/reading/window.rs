//! The days on which the deer can have died, as far as the record bounds them.

use time::{Date, Duration, Month};

use super::lens::Lens;
use crate::record::{Answer, Carcass, Moment, Site, Value};
use crate::science::age::DeathWindow;
use crate::science::source::{Mark, Source};

/// Days before it was found within which a deer on snow is taken to have died. Ours.
const DAYS_BEFORE: i64 = 45;

/// What the window rests on.
pub(super) static SOURCE: Source = Source::new(
    "death-window",
    "days of death taken as the 45 before it was found, not before 1 December in winter",
    Mark::Ours,
);

/// The window and where its end comes from.
pub(super) struct Window {
    pub(super) days: DeathWindow,
    /// The end is the phone's clock, since nobody answered when the crew arrived.
    pub(super) by_clock: bool,
    /// The day of death was told by a collar or a witness and is not assumed. Told later than the deer was
    /// found, the window is the wrong way round, and every method that asks for it refuses.
    pub(super) known: bool,
}

/// The window, or `None` where nothing in the record has a date.
///
/// The last day is the earliest on which a crew stood at it dead. The first is assumed.
pub(super) fn window(carcass: &Carcass, lens: &Lens) -> Option<Window> {
    let arrived = earliest_arrival(lens);
    let by_clock = arrived.is_none();
    let found = day(arrived.or_else(|| earliest_entry(carcass))?)?;
    if let Some(Answer::Seen { value: Value::Instant(at) }) = lens.result("death_known_at", Site::NONE)
        && let Some(died) = day(*at)
    {
        let to = if died > found { found } else { died };
        return Some(Window { days: DeathWindow { from: died, to }, by_clock: false, known: true });
    }
    let from = first_day(found).unwrap_or(found);
    Some(Window { days: DeathWindow { from, to: found }, by_clock, known: false })
}

/// First and last day on which a deer can have died, as far as its record bounds them; `None` where
/// nothing in it has a date. The first is assumed (see the source of the readings that use it).
pub fn days_of_death(carcass: &Carcass) -> Option<(Date, Date)> {
    let answers = super::lens::Answers::of(carcass, &["arrived_at"]);
    let found = window(carcass, &Lens::new(&answers, super::lens::Picks::new()))?;
    Some((found.days.from, found.days.to))
}

/// The day on which it was found, as the answers say, or the phone's clock where none does.
pub fn found_on(carcass: &Carcass) -> Option<Date> {
    let answers = super::lens::Answers::of(carcass, &["arrived_at"]);
    let lens = Lens::new(&answers, super::lens::Picks::new());
    day(earliest_arrival(&lens).or_else(|| earliest_entry(carcass))?)
}

fn first_day(found: Date) -> Option<Date> {
    let before = found.checked_sub(Duration::days(DAYS_BEFORE))?;
    let winter_year = match found.month() {
        Month::January | Month::February | Month::March | Month::April => found.year() - 1,
        Month::December => found.year(),
        _ => return Some(before),
    };
    Some(before.max(Date::from_calendar_date(winter_year, Month::December, 1).ok()?))
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
    let standing = carcass.examinations.values().flat_map(|e| e.sheet.answers()).flat_map(|(_, _, all)| all);
    standing.map(|s| s.at).filter(|at| *at != Moment::EPOCH).min_by_key(|at| at.unix_seconds())
}

fn day(at: Moment) -> Option<Date> {
    let (year, month, day) = at.date();
    Date::from_calendar_date(year, Month::try_from(month).ok()?, day).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    #[test]
    fn first_days() {
        for (found, first) in [
            (date!(2026 - 02 - 20), date!(2026 - 01 - 06)),
            (date!(2025 - 12 - 20), date!(2025 - 12 - 01)),
            (date!(2026 - 01 - 05), date!(2025 - 12 - 01)),
            (date!(2025 - 11 - 20), date!(2025 - 10 - 06)),
            (date!(2026 - 05 - 20), date!(2026 - 04 - 05)),
        ] {
            assert_eq!(first_day(found), Some(first), "{found}");
        }
    }
}
