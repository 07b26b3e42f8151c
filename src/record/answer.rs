//! An answer is never just a value: it is one of five states, kept apart everywhere.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::{Digest, JsonError, Moment, to_canonical};
use crate::order::Short as _;

/// What came of asking one question.
///
/// `NotLooked` is the default of every question and is never read as `NotSeen`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(tag = "state", rename_all = "snake_case", deny_unknown_fields)]
pub enum Answer {
    /// Looked, and found this (zero is a legal counted value).
    Seen {
        /// What was found.
        value: Value,
    },
    /// Looked properly; it is not there.
    NotSeen,
    /// Looked, and could not decide.
    CantTell {
        /// What stood in the way.
        why: Why,
    },
    /// Did not look.
    NotLooked {
        /// What stood in the way.
        why: Why,
    },
    /// The part that would show it has been eaten or removed.
    PartGone {
        /// How it went.
        why: Why,
    },
}

impl Answer {
    /// Found, as one of the finding's options.
    pub fn choice(code: &str) -> Self {
        Self::Seen { value: Value::Choice(code.to_owned()) }
    }

    /// Found, as a scaled integer in the finding's resolution.
    pub const fn number(scaled: i64) -> Self {
        Self::Seen { value: Value::Number(scaled) }
    }

    /// The value, where something was found.
    pub const fn value(&self) -> Option<&Value> {
        match self {
            Self::Seen { value } => Some(value),
            _ => None,
        }
    }

    /// True where somebody looked and came to a result: found, or properly not there.
    pub const fn is_informative(&self) -> bool {
        matches!(self, Self::Seen { .. } | Self::NotSeen)
    }

    /// Its canonical form (RFC 8785). The kinds that most answers are of are put together by hand: the digests of one
    /// carcass's readings take some hundreds.
    ///
    /// # Errors
    /// As [`to_canonical`].
    pub fn canonical(&self) -> Result<String, JsonError> {
        let bare = |code: &str| code.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'_');
        match self {
            Self::NotSeen => Ok(r#"{"state":"not_seen"}"#.to_owned()),
            Self::Seen { value: Value::Choice(code) } if bare(code) => {
                Ok(format!(r#"{{"state":"seen","value":{{"choice":"{code}"}}}}"#))
            }
            // Beyond this the canonical form has the digits of the nearest double.
            Self::Seen { value: Value::Number(n) } if n.unsigned_abs() < 1 << 53 => {
                Ok(format!(r#"{{"state":"seen","value":{{"number":{n}}}}}"#))
            }
            _ => to_canonical(self),
        }
    }

    /// The state's code, as in the record.
    pub const fn state(&self) -> &'static str {
        match self {
            Self::Seen { .. } => "seen",
            Self::NotSeen => "not_seen",
            Self::CantTell { .. } => "cant_tell",
            Self::NotLooked { .. } => "not_looked",
            Self::PartGone { .. } => "part_gone",
        }
    }
}

/// Why there is no value.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Why {
    /// Frozen hard.
    Frozen,
    /// Under snow.
    Buried,
    /// Eaten by scavengers or a predator.
    Scavenged,
    /// Rotten, dried or weathered.
    Decayed,
    /// On the side that the body lies on.
    UnderBody,
    /// Too dark.
    Dark,
    /// Too cold for the hands.
    Cold,
    /// No time left.
    Time,
    /// Not safe.
    Unsafe,
    /// A stop closed the step.
    StopInForce,
    /// Nobody here is trained or allowed to.
    NotTrained,
    /// Not opened or pried apart, as the rules ask.
    NotOpened,
    /// Covered by the animal that feeds on it, so that fallen snow cannot be told from scraped snow.
    Cached,
    /// Removed by a person (antlers, head, meat).
    Removed,
    /// One of many at one place: only the short record is asked for.
    OneOfMany,
    /// The crew chose the short record, which leaves this out.
    ShortRecord,
    /// No reason was given.
    NotGiven,
    /// In the crew's own words.
    Other(String),
}

impl Why {
    /// All reasons but the crew's own words, in the order in which they are offered.
    pub const PLAIN: [Self; 17] = [
        Self::Frozen,
        Self::Buried,
        Self::Scavenged,
        Self::Decayed,
        Self::UnderBody,
        Self::Dark,
        Self::Cold,
        Self::Time,
        Self::Unsafe,
        Self::StopInForce,
        Self::NotTrained,
        Self::NotOpened,
        Self::Cached,
        Self::Removed,
        Self::OneOfMany,
        Self::ShortRecord,
        Self::NotGiven,
    ];

    /// The code used in records and message ids.
    pub const fn code(&self) -> &'static str {
        match self {
            Self::Frozen => "frozen",
            Self::Buried => "buried",
            Self::Scavenged => "scavenged",
            Self::Decayed => "decayed",
            Self::UnderBody => "under_body",
            Self::Dark => "dark",
            Self::Cold => "cold",
            Self::Time => "time",
            Self::Unsafe => "unsafe",
            Self::StopInForce => "stop_in_force",
            Self::NotTrained => "not_trained",
            Self::NotOpened => "not_opened",
            Self::Cached => "cached",
            Self::Removed => "removed",
            Self::OneOfMany => "one_of_many",
            Self::ShortRecord => "short_record",
            Self::NotGiven => "not_given",
            Self::Other(_) => "other",
        }
    }
}

/// What was found.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Value {
    /// One of the finding's options, by code.
    Choice(String),
    /// Several of the finding's options, sorted, without repeats.
    Choices(Vec<String>),
    /// A measured or counted number as a scaled integer in the finding's resolution.
    Number(i64),
    /// Words as typed.
    Text(String),
    /// A moment of local time.
    Instant(Moment),
    /// A place on the ground.
    Place(Place),
    /// A photo, by the digest of its bytes.
    Photo(Photo),
    /// Another subject or carcass, by id.
    Ref(Uuid),
}

impl Value {
    /// Several options; sorted and freed of repeats, so that equal sets compare equal.
    pub fn choices<S: Into<String>>(codes: impl IntoIterator<Item = S>) -> Self {
        let mut all: Vec<String> = codes.into_iter().map(Into::into).collect();
        all.order();
        all.dedup();
        Self::Choices(all)
    }
}

/// How a place was got.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum PlaceSource {
    /// From the phone's receiver.
    Device,
    /// Typed from a map or another receiver.
    Typed,
}

/// A place, WGS 84. Degrees times ten million, so that no fraction is stored.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Place {
    /// Latitude in 1e-7 degrees, north positive, -900000000 to 900000000.
    pub lat_e7: i64,
    /// Longitude in 1e-7 degrees, east positive, -1800000000 to 1800000000.
    pub lon_e7: i64,
    /// Radius in metres within which the place lies with 95 % confidence, where it is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub accuracy_m_95: Option<u32>,
    /// How it was got.
    pub source: PlaceSource,
}

/// A photo kept beside the journal.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Photo {
    /// Length in bytes.
    pub bytes: u64,
    /// Media type, such as `image/jpeg`.
    pub media: String,
    /// SHA-256 of the bytes kept.
    pub sha256: Digest,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_form_put_together_by_hand_is_the_canonical_form() {
        let codes = ["there", "", "P4_stain", "with space", "quo\"te", "back\\slash", "line\nbreak", "\u{fc}"];
        let numbers = [0, -1, 452, (1 << 53) - 1, 1 << 53, (1 << 53) + 1, -(1 << 53) - 1, i64::MAX, i64::MIN];
        let others = [
            Answer::NotSeen,
            Answer::NotLooked { why: Why::Frozen },
            Answer::Seen { value: Value::Text("words".to_owned()) },
        ];
        let all = codes.map(Answer::choice).into_iter().chain(numbers.map(Answer::number)).chain(others);
        for answer in all {
            assert_eq!(answer.canonical(), to_canonical(&answer), "{answer:?}");
        }
    }
}
