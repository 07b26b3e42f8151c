//! A moment of local time: RFC 3339 with a numeric offset. The zone name travels in a field of its own.

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use time::{OffsetDateTime, UtcOffset, format_description::well_known::Rfc3339};

/// A local time with its offset from UTC, to the second.
///
/// Kept as an instant with offset; written as `2027-02-14T10:23:05-05:00`. Clocks of phones are
/// wrong at times: nothing in the fold depends on a moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Moment(OffsetDateTime);

/// A text that is no moment.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{text}` is not a local time with offset such as 2027-02-14T10:23:05-05:00")]
pub struct MomentError {
    text: String,
}

impl Moment {
    /// Stands in where a body of a newer form tells no time that this program can read.
    pub const EPOCH: Self = Self(OffsetDateTime::UNIX_EPOCH);

    /// From seconds since 1970 (UTC) and the local offset in minutes east of UTC.
    ///
    /// # Errors
    /// Where the instant or the offset lies outside what a calendar of years 0 to 9999 can show.
    pub fn from_unix(seconds: i64, offset_minutes: i32) -> Result<Self, MomentError> {
        let bad = || MomentError { text: format!("{seconds} s, offset {offset_minutes} min") };
        let offset = UtcOffset::from_whole_seconds(offset_minutes.saturating_mul(60)).map_err(|_| bad())?;
        let at = OffsetDateTime::from_unix_timestamp(seconds).map_err(|_| bad())?;
        let local = at.checked_to_offset(offset).ok_or_else(bad)?;
        if (0..=9999).contains(&local.year()) { Ok(Self(local)) } else { Err(bad()) }
    }

    /// From RFC 3339 text; a fraction of a second is dropped.
    ///
    /// # Errors
    /// Where the text is not of that form, or uses `Z`: a local event names its offset.
    pub fn parse(text: &str) -> Result<Self, MomentError> {
        let bad = || MomentError { text: text.chars().take(40).collect() };
        if text.ends_with(['Z', 'z']) {
            return Err(bad());
        }
        let at = OffsetDateTime::parse(text, &Rfc3339).map_err(|_| bad())?;
        at.replace_nanosecond(0).map(Self).map_err(|_| bad())
    }

    /// Seconds since 1970, UTC.
    pub const fn unix_seconds(self) -> i64 {
        self.0.unix_timestamp()
    }

    /// Offset in minutes east of UTC.
    pub fn offset_minutes(self) -> i32 {
        self.0.offset().whole_seconds() / 60
    }

    /// Local year, month (1 to 12) and day of the month.
    pub fn date(self) -> (i32, u8, u8) {
        let date = self.0.date();
        (date.year(), u8::from(date.month()), date.day())
    }

    /// Local hour and minute.
    pub const fn hour_minute(self) -> (u8, u8) {
        (self.0.hour(), self.0.minute())
    }
}

impl std::fmt::Display for Moment {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let offset = self.0.offset();
        let (h, m, _) = offset.as_hms();
        let sign = if offset.is_negative() { '-' } else { '+' };
        write!(
            f,
            "{:04}-{:02}-{:02}T{:02}:{:02}:{:02}{sign}{:02}:{:02}",
            self.0.year(),
            u8::from(self.0.month()),
            self.0.day(),
            self.0.hour(),
            self.0.minute(),
            self.0.second(),
            h.unsigned_abs(),
            m.unsigned_abs()
        )
    }
}

impl Serialize for Moment {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Moment {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        Self::parse(&text).map_err(de::Error::custom)
    }
}

#[cfg(feature = "cli")]
impl schemars::JsonSchema for Moment {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Moment".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({
            "type": "string",
            "description": "Local time with numeric offset, to the second (RFC 3339, never Z)",
            "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(\\.[0-9]+)?[+-][0-9]{2}:[0-9]{2}$"
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prints_the_example_of_rfc_3339() {
        // RFC 3339 section 5.8, second example: 1996-12-19T16:39:57-08:00 is 1996-12-20T00:39:57 UTC.
        let at = Moment::parse("1996-12-19T16:39:57-08:00").unwrap();
        assert_eq!(at.unix_seconds(), 851_042_397);
        assert_eq!(at.to_string(), "1996-12-19T16:39:57-08:00");
        assert_eq!(Moment::from_unix(851_042_397, -480).unwrap(), at);
    }

    #[test]
    fn refuses_z_and_nonsense() {
        for text in ["1996-12-20T00:39:57Z", "1996-13-19T16:39:57-08:00", "yesterday", ""] {
            assert!(Moment::parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn half_hour_offsets_keep_their_minutes() {
        let at = Moment::parse("2027-02-14T10:23:05-03:30").unwrap();
        assert_eq!(at.to_string(), "2027-02-14T10:23:05-03:30");
        assert_eq!(at.offset_minutes(), -210);
    }
}
