//! The moment at which something is done, as the phone's clocks tell it.

use uuid::Uuid;

use crate::record::{Moment, uuid_v7};

/// Time from both clocks.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct When {
    /// Local time by the clock that people set.
    pub(crate) at: Moment,
    /// Zone name; empty where the device tells none.
    pub(crate) zone: String,
    /// Milliseconds since 1970, for ids.
    pub(crate) unix_ms: u64,
    /// Milliseconds by the clock that nobody can set, from some start of its own.
    pub(crate) steady_ms: u64,
}

/// Where times and random bytes come from: the browser, or a test.
pub(crate) trait Source {
    /// Now.
    fn when(&self) -> When;
    /// Fresh random bytes from the system.
    fn random<const N: usize>(&self) -> [u8; N];

    /// A new id.
    fn id(&self) -> Uuid {
        uuid_v7(self.when().unix_ms, self.random::<10>())
    }
}

/// The moment at which a clock on the wall shows these four digits, so many days from `now`, at the
/// same offset from UTC. `None` where they are no time of day.
pub(crate) fn at_clock(now: Moment, days: i32, digits: &str) -> Option<Moment> {
    if digits.len() != 4 {
        return None;
    }
    let hour: i64 = digits.get(..2)?.parse().ok()?;
    let minute: i64 = digits.get(2..)?.parse().ok()?;
    if hour > 23 || minute > 59 {
        return None;
    }
    let offset_s = i64::from(now.offset_minutes()) * 60;
    let midnight_s = (now.unix_seconds() + offset_s).div_euclid(86_400) * 86_400 - offset_s;
    let seconds = midnight_s + i64::from(days) * 86_400 + hour * 3_600 + minute * 60;
    Moment::from_unix(seconds, now.offset_minutes()).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn four_digits_are_a_time_of_the_local_day() {
        let now = Moment::parse("2027-02-14T23:10:05-05:00").unwrap();
        let at = |days, digits| at_clock(now, days, digits).map(|m| m.to_string());
        assert_eq!(at(0, "1510").as_deref(), Some("2027-02-14T15:10:00-05:00"));
        assert_eq!(at(1, "0005").as_deref(), Some("2027-02-15T00:05:00-05:00"));
        assert_eq!(at(0, "2460"), None);
        assert_eq!(at(0, "151"), None);
        assert_eq!(at(0, "15:1"), None);
    }
}
