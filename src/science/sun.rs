//! Sunrise, sunset and civil dusk from date and place, without a network.
//!
//! The method is the US National Oceanic and Atmospheric Administration's spreadsheet form of
//! Meeus, *Astronomical Algorithms*, iterated on the time of the event. It assumes a flat horizon:
//! hills and conifers steal light earlier, so say "sun down at about".

use core::f64::consts::PI;

use time::Date;

use super::source::{Mark, Source};

/// Sun's centre at rise or set, degrees from overhead, with refraction and the sun's radius.
pub const ZENITH_SET: f64 = 90.833;
/// Sun 6 degrees below the horizon, degrees from overhead.
pub const ZENITH_CIVIL: f64 = 96.0;

/// Everything that the method rests on.
pub static SOURCES: [Source; 1] = [Source::new(
    "sun-noaa",
    "NOAA solar calculator, after Meeus; coefficients from memory, results checked against published times",
    Mark::Memory,
)];

const RAD: f64 = PI / 180.0;
/// Noon of 1 January 2000 as a Julian date.
const J2000: f64 = 2_451_545.0;
const DAYS_PER_CENTURY: f64 = 36_525.0;
/// Minutes for the earth to turn one degree.
const MINUTES_PER_DEGREE: f64 = 4.0;

/// What the sun does on one local date at one place.
///
/// Times are minutes after 0 h UTC of that date and may be negative or exceed 1440. `None` means
/// that the sun does not cross that height on that date; whether it is all day or all night then is
/// not said (in winter at high latitude it is night).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SunTimes {
    /// Upper edge of the sun comes up.
    pub sunrise_utc_min: Option<f64>,
    /// Upper edge of the sun goes down.
    pub sunset_utc_min: Option<f64>,
    /// End of civil twilight.
    pub civil_dusk_utc_min: Option<f64>,
}

/// Why there is no figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SunRefusal {
    /// Latitude not a number or beyond a pole.
    #[error("latitude is not between -90 and 90 degrees")]
    Latitude,
    /// Longitude not a number or beyond 180.
    #[error("longitude is not between -180 and 180 degrees")]
    Longitude,
}

/// Rise, set and civil dusk. `latitude` north and `longitude` east positive, degrees.
pub fn sun_times(date: Date, latitude: f64, longitude: f64) -> Result<SunTimes, SunRefusal> {
    if !(-90.0..=90.0).contains(&latitude) {
        return Err(SunRefusal::Latitude);
    }
    if !(-180.0..=180.0).contains(&longitude) {
        return Err(SunRefusal::Longitude);
    }
    let event = |zenith, side| sun_event(date, latitude, longitude, zenith, side);
    Ok(SunTimes {
        sunrise_utc_min: event(ZENITH_SET, 1.0),
        sunset_utc_min: event(ZENITH_SET, -1.0),
        civil_dusk_utc_min: event(ZENITH_CIVIL, -1.0),
    })
}

/// `side` is 1 for the morning and -1 for the evening.
fn sun_event(date: Date, latitude: f64, longitude: f64, zenith: f64, side: f64) -> Option<f64> {
    let midnight = f64::from(date.to_julian_day()) - 0.5;
    let mut minutes = 720.0 - MINUTES_PER_DEGREE * longitude;
    for _ in 0..4 {
        let century = (midnight + minutes / 1440.0 - J2000) / DAYS_PER_CENTURY;
        let (declination, equation_min) = declination_and_equation(century);
        let hour_angle_cos = libm::cos(zenith * RAD) / (libm::cos(latitude * RAD) * libm::cos(declination))
            - libm::tan(latitude * RAD) * libm::tan(declination);
        if !(-1.0..=1.0).contains(&hour_angle_cos) {
            return None;
        }
        let hour_angle = libm::acos(hour_angle_cos) / RAD;
        minutes = 720.0 - MINUTES_PER_DEGREE * (longitude + side * hour_angle) - equation_min;
    }
    Some(minutes)
}

/// The sun's declination in radians and the equation of time in minutes.
fn declination_and_equation(t: f64) -> (f64, f64) {
    let longitude = (280.46646 + t * (36000.76983 + t * 0.0003032)).rem_euclid(360.0) * RAD;
    let anomaly = (357.52911 + t * (35999.05029 - 0.0001537 * t)) * RAD;
    let eccentricity = 0.016708634 - t * (0.000042037 + 0.0000001267 * t);
    let centre = libm::sin(anomaly) * (1.914602 - t * (0.004817 + 0.000014 * t))
        + libm::sin(2.0 * anomaly) * (0.019993 - 0.000101 * t)
        + libm::sin(3.0 * anomaly) * 0.000289;
    let node = (125.04 - 1934.136 * t) * RAD;
    let apparent = longitude + (centre - 0.00569 - 0.00478 * libm::sin(node)) * RAD;
    let obliquity = (23.0
        + (26.0 + (21.448 - t * (46.815 + t * (0.00059 - t * 0.001813))) / 60.0) / 60.0
        + 0.00256 * libm::cos(node))
        * RAD;
    let half = libm::tan(obliquity / 2.0);
    let y = half * half;
    let equation = y * libm::sin(2.0 * longitude) - 2.0 * eccentricity * libm::sin(anomaly)
        + 4.0 * eccentricity * y * libm::sin(anomaly) * libm::cos(2.0 * longitude)
        - 0.5 * y * y * libm::sin(4.0 * longitude)
        - 1.25 * eccentricity * eccentricity * libm::sin(2.0 * anomaly);
    let declination = libm::asin(libm::sin(obliquity) * libm::sin(apparent));
    (declination, MINUTES_PER_DEGREE * equation / RAD)
}

#[cfg(test)]
mod tests {
    use super::*;
    use time::Month;

    fn day(year: i32, month: u8, day: u8) -> Date {
        Date::from_calendar_date(year, Month::try_from(month).unwrap(), day).unwrap()
    }

    /// Seconds after local midnight.
    fn clock(text: &str) -> f64 {
        let parts: Vec<f64> = text.split(':').map(|p| p.parse().unwrap()).collect();
        parts[0] * 3600.0 + parts[1] * 60.0 + parts.get(2).copied().unwrap_or(0.0)
    }

    fn local_seconds(utc_min: Option<f64>, zone_h: f64) -> f64 {
        utc_min.unwrap() * 60.0 + zone_h * 3600.0
    }

    /// Values of the same method coded apart from this crate and compared with PyEphem; 10 s.
    #[test]
    fn worked_rows() {
        for (lat, lon, zone, date, rise, set, dusk) in [
            (44.4759, -73.2121, -5.0, day(2025, 12, 21), "07:26:14", "16:16:04", "16:49:33"),
            (46.7867, -92.1005, -6.0, day(2026, 1, 15), "07:48:54", "16:47:16", "17:21:20"),
            (46.5436, -87.3954, -5.0, day(2026, 2, 14), "07:54:37", "18:13:31", "18:44:41"),
            (45.9636, -66.6431, -4.0, day(2025, 12, 10), "07:57:38", "16:41:19", "17:15:43"),
            (42.6526, -73.7562, -5.0, day(2026, 3, 7), "06:20:36", "17:52:01", "18:20:13"),
        ] {
            let got = sun_times(date, lat, lon).unwrap();
            for (value, expected) in
                [(got.sunrise_utc_min, rise), (got.sunset_utc_min, set), (got.civil_dusk_utc_min, dusk)]
            {
                let off = local_seconds(value, zone) - clock(expected);
                assert!(off.abs() <= 10.0, "{date} {expected}: off {off} s");
            }
        }
    }

    /// Times printed in newspapers; their points are not given, so two minutes are allowed.
    /// Minneapolis, Caribou, Muskegon, Milwaukee, Fairbanks.
    #[test]
    fn published_times() {
        for (place, lat, lon, zone, date, rise, set) in [
            ("Minneapolis", 44.98, -93.27, -6.0, day(2020, 12, 21), None, "16:34"),
            ("Minneapolis", 44.98, -93.27, -6.0, day(2020, 12, 31), None, "16:41"),
            ("Minneapolis", 44.98, -93.27, -6.0, day(2009, 12, 14), Some("07:43"), "16:31"),
            ("Caribou", 46.86, -68.01, -5.0, day(2011, 12, 9), None, "15:43"),
            ("Muskegon", 43.23, -86.25, -5.0, day(2021, 1, 5), Some("08:17"), "17:24"),
            ("Milwaukee", 43.04, -87.91, -6.0, day(2021, 1, 5), Some("07:23"), "16:31"),
            ("Fairbanks", 64.84, -147.72, -9.0, day(2021, 1, 5), Some("10:47"), "15:06"),
        ] {
            let got = sun_times(date, lat, lon).unwrap();
            let mut pairs = vec![(got.sunset_utc_min, set)];
            pairs.extend(rise.map(|r| (got.sunrise_utc_min, r)));
            for (value, printed) in pairs {
                let off = local_seconds(value, zone) - clock(printed);
                assert!(off.abs() <= 120.0, "{place} {date} {printed}: off {off} s");
            }
        }
    }

    /// PyEphem over places and winter dates (`tests/reference/sun.csv`); 10 s.
    #[test]
    fn agrees_with_pyephem() {
        let table = include_str!("../../tests/reference/sun.csv");
        let mut rows = 0;
        for line in table.lines().filter(|l| !l.starts_with('#')).skip(1) {
            let cells: Vec<&str> = line.split(',').collect();
            let number = |i: usize| cells[i].parse::<f64>().unwrap();
            let date = day(cells[0].parse().unwrap(), cells[1].parse().unwrap(), cells[2].parse().unwrap());
            let got = sun_times(date, number(3), number(4)).unwrap();
            for (value, column) in [(got.sunrise_utc_min, 5), (got.sunset_utc_min, 6), (got.civil_dusk_utc_min, 7)] {
                let off_s = (value.unwrap() - number(column)) * 60.0;
                assert!(off_s.abs() <= 10.0, "{line}: column {column} off {off_s} s");
            }
            rows += 1;
        }
        assert!(rows >= 40, "only {rows} rows read");
    }

    #[test]
    fn no_sunset_in_the_far_north() {
        let got = sun_times(day(2025, 12, 21), 68.0, -133.0).unwrap();
        assert_eq!(got.sunrise_utc_min, None);
        assert_eq!(got.sunset_utc_min, None);
    }

    #[test]
    fn refuses_places_off_the_globe() {
        let date = day(2025, 12, 21);
        assert_eq!(sun_times(date, 91.0, 0.0), Err(SunRefusal::Latitude));
        assert_eq!(sun_times(date, f64::NAN, 0.0), Err(SunRefusal::Latitude));
        assert_eq!(sun_times(date, 45.0, 181.0), Err(SunRefusal::Longitude));
    }
}
