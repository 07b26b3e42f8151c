//! Whether a conception lies in the rut of the region: its births, less the days of gestation.

use time::{Date, Duration, Month};

use super::{DaySpan, GESTATION_DAYS, whole};
use crate::science::age::Births;

/// First and last day of the nearest rut, where no day on which the young may have been conceived lies in one.
/// `births` are those of the region.
pub fn outside_rut(conception: DaySpan, births: Births) -> Option<(Date, Date)> {
    let (first, last) = births.span_days();
    let rut = |year: i32| {
        let origin = Date::from_calendar_date(year, Month::June, 3).ok()?;
        let day = |days: f64| origin.checked_add(Duration::days(whole(days) - GESTATION_DAYS));
        Some((day(first)?, day(last)?))
    };
    let near = conception.low.year()..=conception.high.year() + 1;
    let ruts: Vec<(Date, Date)> = near.filter_map(rut).collect();
    if ruts.iter().any(|(from, to)| *from <= conception.high && conception.low <= *to) {
        return None;
    }
    let apart = |(from, to): &(Date, Date)| (*from - conception.high).max(conception.low - *to);
    ruts.into_iter().min_by_key(apart)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::science::age::DeathWindow;
    use crate::science::unborn::{length_at_mm, read_unborn};
    use time::macros::date;

    fn on(day: Date) -> DaySpan {
        DaySpan { best: day, low: day, high: day }
    }

    /// Ends of the published breeding seasons: Haugen 1975 (Iowa), the Iowa agency's 70 % of adults, the
    /// Pennsylvania Game Commission's 90 % of adults and of doe fawns.
    #[test]
    fn published_ruts_lie_within() {
        for day in [
            date!(2025 - 11 - 02),
            date!(2025 - 11 - 23),
            date!(2025 - 10 - 27),
            date!(2025 - 12 - 10),
            date!(2025 - 11 - 05),
            date!(2026 - 01 - 16),
        ] {
            assert_eq!(outside_rut(on(day), Births::default()), None, "{day}");
        }
    }

    /// Mech and Frenzel 1971: one Minnesota doe carried a fetus of 181 to 200 days (500 mm are 197) on 26 September, which was
    /// told as out of the way.
    #[test]
    fn a_fetus_in_september_is_told() {
        for days in [181.0, 196.0] {
            let death = date!(1970 - 09 - 26);
            let read = read_unborn(&[length_at_mm(days)], DeathWindow { from: death, to: death }, None).unwrap();
            assert!(outside_rut(read.conception, Births::default()).is_some(), "{days}");
        }
    }

    /// The design's own waves: 3 June less 33 days and less 200 is 13 October, but the second wave's 29 June
    /// less 60 is a day before; 30 August less 200 days is 11 February.
    #[test]
    fn the_ends_move_with_the_region() {
        let (from, to) = outside_rut(on(date!(2026 - 08 - 15)), Births::default()).unwrap();
        assert_eq!((from, to), (date!(2026 - 10 - 12), date!(2027 - 02 - 11)));
        assert_eq!(outside_rut(on(to), Births::default()), None);
        assert!(outside_rut(on(date!(2027 - 02 - 12)), Births::default()).is_some());
        let early = Births { mean_day: -9.0, ..Births::default() };
        let (from, to) = outside_rut(on(date!(2026 - 08 - 15)), early).unwrap();
        assert_eq!((from, to), (date!(2026 - 10 - 03), date!(2027 - 02 - 02)));
        // One day of many within it is enough.
        let wide = DaySpan { best: date!(2026 - 08 - 15), low: date!(2026 - 07 - 01), high: date!(2026 - 10 - 12) };
        assert_eq!(outside_rut(wide, Births::default()), None);
    }
}
