//! Unborn young: how old, when conceived, when it would have been born.
//!
//! Hamilton, Tobin and Moore 1985 (Proc. SEAFWA 39) measured 64 fetuses of known age from 39 captive does in
//! South Carolina, every measure straight with age. The equation used here is recalled and NOT confirmed; it
//! agrees with what else is known of the scale, which is support and not proof.

pub mod rut;
pub mod sexing;
pub mod sources;

use serde::{Deserialize, Serialize};
use time::{Date, Duration};

use super::age::DeathWindow;
use super::calipers::NINETY;

/// Days a mm of forehead-rump length, and days at zero. From memory.
const SLOPE: f64 = 0.32;
const INTERCEPT: f64 = 36.82;
/// Lengths that are taken, mm. Design.
pub const LENGTHS_MM: (f64, f64) = (5.0, 500.0);
/// Days from conception to birth, and their spread. Design, from a published range of 193 to 205.
pub const GESTATION_DAYS: i64 = 200;
const SD_GESTATION: f64 = 3.0;
/// Spread of a conception date, days: up to 100 days of age, and above. Design.
const SD_CONCEPTION: [f64; 2] = [5.0, 8.0];
const WIDER_ABOVE_DAYS: f64 = 100.0;
/// A thin doe carries small young: the spread is widened by this. Design.
const THIN_FACTOR: f64 = 1.5;
/// Litter mates whose ages differ by more than this are measured again, days. Ours.
const MATES_DIFFER_DAYS: f64 = 10.0;

/// Age in days at a forehead-rump length in mm, whatever the length.
pub fn age_days(forehead_rump_mm: f64) -> f64 {
    SLOPE * forehead_rump_mm + INTERCEPT
}

/// Forehead-rump length in mm at an age in days.
pub fn length_at_mm(age_days: f64) -> f64 {
    (age_days - INTERCEPT) / SLOPE
}

/// Why there is no age.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, thiserror::Error)]
#[serde(rename_all = "snake_case")]
pub enum UnbornRefusal {
    /// None was measured.
    #[error("no unborn young was measured")]
    NoLength,
    /// Not a number above zero.
    #[error("the length is no length")]
    NotALength,
    /// Shorter than the scale begins; it may be a knob of the womb's lining.
    #[error("shorter than 5 mm: the scale does not reach so far")]
    TooShort,
    /// Longer than any at birth.
    #[error("longer than 500 mm: no fetus is")]
    TooLong,
    /// Last day of death before the first.
    #[error("the last possible day of death lies before the first")]
    WindowReversed,
    /// A date outside the calendar.
    #[error("the dates lie outside the calendar")]
    NoDate,
}

/// A day with the days between which it should lie nine times in ten.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DaySpan {
    /// Best value.
    pub best: Date,
    /// Earliest.
    pub low: Date,
    /// Latest.
    pub high: Date,
}

/// What the young say.
#[derive(Clone, Debug, PartialEq)]
pub struct UnbornReading {
    /// Age of each in days, in the order given.
    pub ages_days: Vec<f64>,
    /// Their mean: litter mates are conceived in one heat.
    pub age_days: f64,
    /// One standard deviation of that, days.
    pub sd_days: f64,
    /// Conceived.
    pub conception: DaySpan,
    /// Would have been born.
    pub birth: DaySpan,
    /// The doe was thin: the young may be older than they look and conceived earlier.
    pub may_be_earlier: bool,
    /// Litter mates differ by more than ten days.
    pub mates_differ: bool,
}

/// Age of one, or why there is none.
pub fn read_length(forehead_rump_mm: f64) -> Result<f64, UnbornRefusal> {
    if !forehead_rump_mm.is_finite() || forehead_rump_mm <= 0.0 {
        return Err(UnbornRefusal::NotALength);
    }
    if forehead_rump_mm < LENGTHS_MM.0 {
        return Err(UnbornRefusal::TooShort);
    }
    if forehead_rump_mm > LENGTHS_MM.1 {
        return Err(UnbornRefusal::TooLong);
    }
    Ok(age_days(forehead_rump_mm))
}

/// Reads the young of one doe. `thin_doe` is whether her marrow shows that the last reserve was low or
/// gone; `None` where it is not known.
pub fn read_unborn(
    lengths_mm: &[f64],
    death: DeathWindow,
    thin_doe: Option<bool>,
) -> Result<UnbornReading, UnbornRefusal> {
    if death.to < death.from {
        return Err(UnbornRefusal::WindowReversed);
    }
    let each_days = lengths_mm.iter().map(|mm| read_length(*mm)).collect::<Result<Vec<f64>, _>>()?;
    if each_days.is_empty() {
        return Err(UnbornRefusal::NoLength);
    }
    let age_days = each_days.iter().sum::<f64>() / each_days.len() as f64;
    let thin = thin_doe == Some(true);
    let [near, far] = SD_CONCEPTION;
    let sd_days = if age_days > WIDER_ABOVE_DAYS { far } else { near };
    let sd_days = if thin { THIN_FACTOR * sd_days } else { sd_days };
    let conception = span(death, -whole(age_days), sd_days)?;
    let sd_birth = libm::sqrt(sd_days * sd_days + SD_GESTATION * SD_GESTATION);
    let mut birth = span(death, GESTATION_DAYS - whole(age_days), sd_birth)?;
    // It was not born when she died.
    birth.low = birth.low.max(death.to);
    let (least, most) = each_days.iter().fold((f64::INFINITY, 0.0_f64), |(l, h), a| (l.min(*a), h.max(*a)));
    Ok(UnbornReading {
        age_days,
        sd_days,
        conception,
        birth,
        may_be_earlier: thin,
        mates_differ: most - least > MATES_DIFFER_DAYS,
        ages_days: each_days,
    })
}

/// The window of death moved by so many days and widened at both ends.
fn span(death: DeathWindow, days: i64, sd_days: f64) -> Result<DaySpan, UnbornRefusal> {
    let moved = |date: Date, by: i64| date.checked_add(Duration::days(by)).ok_or(UnbornRefusal::NoDate);
    let reach = whole(NINETY * sd_days);
    let length = i64::from(death.to.to_julian_day()) - i64::from(death.from.to_julian_day());
    Ok(DaySpan {
        best: moved(death.from, days + length / 2)?,
        low: moved(death.from, days - reach)?,
        high: moved(death.to, days + reach)?,
    })
}

/// Whole days.
#[allow(clippy::cast_possible_truncation)] // days of one pregnancy
fn whole(days: f64) -> i64 {
    libm::round(days) as i64
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::macros::date;

    fn one_day(day: Date) -> DeathWindow {
        DeathWindow { from: day, to: day }
    }

    /// Worked from the recalled equation (from memory, not confirmed).
    #[test]
    fn ages() {
        for (mm, days) in [(50.0, 52.82), (100.0, 68.82), (200.0, 100.82), (400.0, 164.82)] {
            assert!((read_length(mm).unwrap() - days).abs() < 1e-9, "{mm}");
            assert!((length_at_mm(days) - mm).abs() < 1e-9);
        }
    }

    /// A doe dead on 20 February with a fetus of 150 mm, in a common year and in a leap year.
    #[test]
    fn worked_example() {
        for (death, conceived, born) in [
            (date!(2023 - 02 - 20), date!(2022 - 11 - 27), date!(2023 - 06 - 15)),
            (date!(2024 - 02 - 20), date!(2023 - 11 - 27), date!(2024 - 06 - 14)),
        ] {
            let reading = read_unborn(&[150.0], one_day(death), None).unwrap();
            assert_eq!(whole(reading.age_days), 85);
            assert_eq!((reading.conception.best, reading.birth.best), (conceived, born));
            assert_eq!((reading.conception.high - reading.conception.low).whole_days(), 16);
        }
    }

    /// A reprinted how-to: 15 December is day 349, a birth on day 496 is 11 May; 200 days of gestation.
    #[test]
    fn the_printed_calendar() {
        let death = date!(2021 - 12 - 15);
        assert_eq!(death.ordinal(), 349);
        let birth = Date::from_ordinal_date(2022, 496 - 365).unwrap();
        assert_eq!(birth, date!(2022 - 05 - 11));
        let left = (birth - death).whole_days();
        assert_eq!(left, 147);
        let length = length_at_mm((GESTATION_DAYS - left) as f64);
        assert!((length - 50.6).abs() < 0.05, "{length}");
        assert_eq!(read_unborn(&[length], one_day(death), None).unwrap().birth.best, birth);
    }

    /// Pennsylvania Game Commission: conceptions of 27 October to 10 December, 200 days.
    #[test]
    fn pennsylvania() {
        for (conceived, born) in
            [(date!(2022 - 10 - 27), date!(2023 - 05 - 15)), (date!(2022 - 12 - 10), date!(2023 - 06 - 28))]
        {
            assert_eq!(conceived + Duration::days(GESTATION_DAYS), born);
        }
    }

    #[test]
    fn bad_lengths() {
        let of = |mm: f64| read_unborn(&[mm], one_day(date!(2026 - 02 - 20)), None).unwrap_err();
        assert_eq!(of(500.1), UnbornRefusal::TooLong);
        assert_eq!(of(4.0), UnbornRefusal::TooShort);
        assert_eq!(of(f64::NAN), UnbornRefusal::NotALength);
        assert_eq!(of(-3.0), UnbornRefusal::NotALength);
        assert_eq!(read_unborn(&[], one_day(date!(2026 - 02 - 20)), None), Err(UnbornRefusal::NoLength));
        let reversed = DeathWindow { from: date!(2026 - 02 - 20), to: date!(2026 - 02 - 19) };
        assert_eq!(read_unborn(&[150.0], reversed, None), Err(UnbornRefusal::WindowReversed));
    }

    #[test]
    fn a_thin_doe_and_a_long_window_widen() {
        let width = |r: &UnbornReading| (r.conception.high - r.conception.low).whole_days();
        let day = one_day(date!(2026 - 02 - 20));
        let plain = read_unborn(&[150.0], day, Some(false)).unwrap();
        let thin = read_unborn(&[150.0], day, Some(true)).unwrap();
        assert_eq!((width(&plain), width(&thin)), (16, 24));
        assert!(thin.may_be_earlier && !plain.may_be_earlier);
        let month = DeathWindow { from: date!(2026 - 01 - 21), ..day };
        let long = read_unborn(&[150.0], month, None).unwrap();
        assert_eq!(width(&long), 16 + 30);
        assert!(long.birth.low >= month.to);
        // Near term the spread would reach back past her death.
        let term = read_unborn(&[495.0], day, None).unwrap();
        assert_eq!(term.birth.low, day.to);
    }

    #[test]
    fn litter_mates() {
        let day = one_day(date!(2026 - 02 - 20));
        assert!(!read_unborn(&[150.0, 158.0], day, None).unwrap().mates_differ);
        let apart = read_unborn(&[150.0, 250.0], day, None).unwrap();
        assert!(apart.mates_differ);
        assert!((apart.age_days - age_days(200.0)).abs() < 1e-9);
    }

    /// The published calendar example (`age-and-sex.md`, S56): on 15 December 147 days before a birth on 11 May. Spreads
    /// of conception and of gestation are independent and add as squares: 1.645 times the root of 5 and 3 squared is
    /// 9.6 days, of 8 and 3 squared 14.1 days.
    #[test]
    fn a_birth_is_as_uncertain_as_conception_and_gestation_together() {
        let death = one_day(date!(2025 - 12 - 15));
        let young = read_unborn(&[length_at_mm(53.0)], death, None).unwrap();
        let birth = date!(2026 - 05 - 11);
        let ten = Duration::days(10);
        assert_eq!(young.birth, DaySpan { best: birth, low: birth - ten, high: birth + ten });
        let old = read_unborn(&[length_at_mm(120.0)], death, None).unwrap();
        let birth = death.from + Duration::days(80);
        let fortnight = Duration::days(14);
        assert_eq!(old.birth, DaySpan { best: birth, low: birth - fortnight, high: birth + fortnight });
    }
}
