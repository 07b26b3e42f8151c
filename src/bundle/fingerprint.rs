//! What two people compare when a phone and an office meet: 64 bits of the device id, as eight words
//! or as eight groups of three digits.

use super::fingerprint_words::WORDS;
use crate::record::DeviceId;
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use std::fmt;

/// The first eight bytes of a device id.
///
/// Making a second key with the same 64 bits takes about 2^64 tries: far beyond a mix-up or a prank,
/// not beyond a state. The office that wants more compares the QR code, which holds the whole id.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Fingerprint(pub [u8; 8]);

/// Why a typed fingerprint was not understood.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum FingerprintError {
    /// Not eight words.
    #[error("a fingerprint has eight words, here are {0}")]
    WrongCount(usize),
    /// A word that no fingerprint holds.
    #[error("\"{typed}\" is no fingerprint word{}", .meant.map(|word| format!("; did you mean \"{word}\"?")).unwrap_or_default())]
    UnknownWord {
        /// As typed.
        typed: String,
        /// The one word that begins alike.
        meant: Option<&'static str>,
    },
}

impl Fingerprint {
    /// The fingerprint of a device.
    pub fn of(device: DeviceId) -> Self {
        Self(std::array::from_fn(|at| device.0.0.get(at).copied().unwrap_or_default()))
    }

    /// The eight words.
    pub fn words(&self) -> [&'static str; 8] {
        // A byte is always within the 256 words.
        self.0.map(|byte| WORDS.get(usize::from(byte)).copied().unwrap_or_default())
    }

    /// The same eight bytes as groups of digits, `000` to `255`, for telephones and other languages.
    pub fn digits(&self) -> String {
        self.0.map(|byte| format!("{byte:03}")).join(" ")
    }

    /// Reads words or digit groups, separated by spaces, commas or hyphens, in any case.
    ///
    /// # Errors
    /// Not eight of them, or one that is none of the words.
    pub fn parse(typed: &str) -> Result<Self, FingerprintError> {
        let parts: Vec<&str> =
            typed.split(|c: char| c.is_whitespace() || c == ',' || c == '-').filter(|part| !part.is_empty()).collect();
        let count = parts.len();
        let bytes = parts.into_iter().map(byte_of).collect::<Result<Vec<u8>, _>>()?;
        bytes.try_into().map(Self).map_err(|_| FingerprintError::WrongCount(count))
    }
}

fn byte_of(typed: &str) -> Result<u8, FingerprintError> {
    let lower = typed.to_ascii_lowercase();
    let place = WORDS.iter().position(|word| *word == lower).and_then(|place| u8::try_from(place).ok());
    let digits = (typed.len() == 3).then(|| typed.parse().ok()).flatten();
    place.or(digits).ok_or_else(|| FingerprintError::UnknownWord {
        meant: lower.get(..3).and_then(|start| WORDS.iter().find(|word| word.starts_with(start))).copied(),
        typed: typed.to_owned(),
    })
}

impl fmt::Display for Fingerprint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.words().join(" "))
    }
}

impl fmt::Debug for Fingerprint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Fingerprint({self})")
    }
}

impl Serialize for Fingerprint {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Fingerprint {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Self::parse(&String::deserialize(deserializer)?).map_err(de::Error::custom)
    }
}

#[cfg(feature = "cli")]
impl schemars::JsonSchema for Fingerprint {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Fingerprint".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({
            "type": "string",
            "description": "Eight fingerprint words, separated by spaces",
            "pattern": "^[a-z]{3,8}( [a-z]{3,8}){7}$"
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bundle::vectors::published_key;
    use std::collections::BTreeSet;

    fn letters_apart(a: &str, b: &str) -> usize {
        let b: Vec<char> = b.chars().collect();
        let mut row: Vec<usize> = (0..=b.len()).collect();
        for (i, from) in a.chars().enumerate() {
            let mut next = vec![i + 1];
            for (j, to) in b.iter().enumerate() {
                next.push((row[j] + usize::from(from != *to)).min(row[j + 1] + 1).min(next[j] + 1));
            }
            row = next;
        }
        row[b.len()]
    }

    #[test]
    fn no_two_words_are_easily_mistaken() {
        let starts: BTreeSet<&str> = WORDS.iter().map(|word| &word[..3]).collect();
        assert_eq!(starts.len(), 256);
        for (place, word) in WORDS.iter().enumerate() {
            assert!((3..=8).contains(&word.len()) && word.bytes().all(|b| b.is_ascii_lowercase()), "{word}");
            for other in &WORDS[..place] {
                assert!(letters_apart(word, other) >= 3, "{word} {other}");
            }
        }
    }

    // The device id of RFC 8037 A.3 begins with the bytes 90 fa ca fe a9 b1 55 66
    // ("kPrK_qmxVWY" in base64url).
    #[test]
    fn words_and_digits_of_the_published_key() {
        let fingerprint = Fingerprint::of(published_key().public().id());
        assert_eq!(fingerprint.digits(), "144 250 202 254 169 177 085 102");
        assert_eq!(Fingerprint::parse(&fingerprint.digits()), Ok(fingerprint));
        let typed = fingerprint.words().join(", ").to_uppercase();
        assert_eq!(Fingerprint::parse(&typed), Ok(fingerprint));
    }

    #[test]
    fn every_byte_has_its_word() {
        for byte in 0..=255 {
            let fingerprint = Fingerprint([byte; 8]);
            assert_eq!(Fingerprint::parse(&fingerprint.to_string()), Ok(fingerprint));
        }
    }

    #[test]
    fn mistypings_are_named() {
        assert_eq!(Fingerprint::parse("acorn album"), Err(FingerprintError::WrongCount(2)));
        let error = Fingerprint::parse("acorns acorn acorn acorn acorn acorn acorn acorn").unwrap_err();
        assert_eq!(error.to_string(), "\"acorns\" is no fingerprint word; did you mean \"acorn\"?");
        let error = Fingerprint::parse("256 000 000 000 000 000 000 000").unwrap_err();
        assert_eq!(error.to_string(), "\"256\" is no fingerprint word");
        assert!(Fingerprint::parse("é").is_err());
    }
}
