//! A calendar day, for what is logged once a day.

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use time::{Date, Month};

use super::Moment;

/// A calendar day by the wall calendar of the place where it was logged; written `2026-11-25`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day(Date);

/// A text that is no day.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{text}` is not a day such as 2026-11-25 (1800 to 2199)")]
pub struct DayError {
    text: String,
}

impl Day {
    /// From year, month (1 to 12) and day of the month; `None` for what no calendar has, or a year
    /// outside 1800 to 2199: a slip of the key, not a winter.
    pub fn new(year: i32, month: u8, day: u8) -> Option<Self> {
        let month = Month::try_from(month).ok()?;
        Date::from_calendar_date(year, month, day).ok().and_then(Self::of_date)
    }

    /// From a date; `None` outside 1800 to 2199.
    pub fn of_date(date: Date) -> Option<Self> {
        (1800..=2199).contains(&date.year()).then_some(Self(date))
    }

    /// The local day of a moment; `None` outside 1800 to 2199.
    pub fn of(at: Moment) -> Option<Self> {
        let (year, month, day) = at.date();
        Self::new(year, month, day)
    }

    /// From `2026-11-25`: four digits, two, two.
    ///
    /// # Errors
    /// Where the text is not of that form, or no such day is in the calendar.
    pub fn parse(text: &str) -> Result<Self, DayError> {
        let bad = || DayError { text: text.chars().take(20).collect() };
        let mut parts = text.split('-').map(|part| {
            let plain = part.bytes().all(|b| b.is_ascii_digit());
            plain.then(|| (part.len(), part.parse::<u16>().ok()))
        });
        let (Some(Some((4, Some(year)))), Some(Some((2, Some(month)))), Some(Some((2, Some(day)))), None) =
            (parts.next(), parts.next(), parts.next(), parts.next())
        else {
            return Err(bad());
        };
        let small = |n: u16| u8::try_from(n).unwrap_or_default();
        Self::new(i32::from(year), small(month), small(day)).ok_or_else(bad)
    }

    /// The date.
    pub const fn date(self) -> Date {
        self.0
    }

    /// So many days later (earlier where negative); `None` outside the years that a log may have.
    pub fn shifted(self, days: i64) -> Option<Self> {
        self.0.checked_add(time::Duration::days(days)).and_then(Self::of_date)
    }
}

impl std::fmt::Display for Day {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{:04}-{:02}-{:02}", self.0.year(), u8::from(self.0.month()), self.0.day())
    }
}

impl Serialize for Day {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Day {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        Self::parse(&text).map_err(de::Error::custom)
    }
}

#[cfg(feature = "cli")]
impl schemars::JsonSchema for Day {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Day".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({
            "type": "string",
            "description": "Calendar day of a log kept day by day",
            "pattern": "^(1[89][0-9]{2}|2[01][0-9]{2})-[0-9]{2}-[0-9]{2}$"
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_is_written_and_read_as_iso_8601_writes_it() {
        // ISO 8601 calendar date, extended form.
        for text in ["2026-11-25", "1969-03-21", "2028-02-29"] {
            assert_eq!(Day::parse(text).unwrap().to_string(), text);
        }
        for text in ["2027-02-29", "2026-13-01", "26-11-25", "2026-1-05", "2026-11-25T", "+026-11-25", "1799-12-31", ""]
        {
            assert!(Day::parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn days_follow_each_other_over_the_year_s_end() {
        let last = Day::new(2026, 12, 31).unwrap();
        assert_eq!(last.shifted(1).unwrap().to_string(), "2027-01-01");
        assert_eq!(last.shifted(-365).unwrap().to_string(), "2025-12-31");
        assert_eq!(Day::new(2199, 12, 31).unwrap().shifted(1), None);
        assert_eq!(
            Day::of(Moment::parse("2027-02-14T23:10:05-05:00").unwrap()).unwrap().to_string(),
            "2027-02-14",
            "the wall calendar of the place"
        );
    }
}
