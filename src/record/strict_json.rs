//! Reading JSON without second guesses: a duplicate member, a fraction or an integer that a double
//! cannot hold is an error, never a silent choice.

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::fmt;

use serde::de::{self, DeserializeOwned, Deserializer, MapAccess, SeqAccess, Visitor};
use serde::{Deserialize, Serialize};

/// The largest integer that every JSON reader holds exactly.
pub(super) const MAX_EXACT: u64 = 1 << 53;

/// Objects with more members than this are compared through a set.
const FEW: usize = 12;

/// Why a text is not taken.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{reason}")]
pub struct JsonError {
    /// What the reader found, in a plain clause.
    pub reason: String,
}

/// Read a text strictly into `T`. Fractions are refused: records hold scaled integers only.
///
/// # Errors
/// Where the text is no JSON, has a member twice in one object, a number with a fraction or
/// exponent, an integer beyond 2^53, or does not fit `T`.
pub fn read_strict<T: DeserializeOwned>(text: &str) -> Result<T, JsonError> {
    // Two passes that build nothing they do not keep cost less than one that builds a tree first.
    let because = |e: serde_json::Error| JsonError { reason: e.to_string() };
    serde_json::from_str::<Strict>(text).map_err(because)?;
    serde_json::from_str(text).map_err(because)
}

/// Write a value in the canonical form of RFC 8785.
///
/// # Errors
/// Where the value cannot be written as JSON (a map with keys that are no strings, a NaN).
pub fn to_canonical<T: Serialize>(value: &T) -> Result<String, JsonError> {
    serde_json_canonicalizer::to_string(value).map_err(|e| JsonError { reason: e.to_string() })
}

/// Any JSON value that is strict; nothing of it is kept.
struct Strict;

impl<'de> Deserialize<'de> for Strict {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(StrictVisitor)
    }
}

struct StrictVisitor;

impl<'de> Visitor<'de> for StrictVisitor {
    type Value = Strict;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("JSON with whole numbers up to 2^53 and no repeated member")
    }

    fn visit_bool<E>(self, _: bool) -> Result<Strict, E> {
        Ok(Strict)
    }

    fn visit_unit<E>(self) -> Result<Strict, E> {
        Ok(Strict)
    }

    fn visit_u64<E: de::Error>(self, v: u64) -> Result<Strict, E> {
        if v > MAX_EXACT {
            return Err(E::custom(format_args!("integer {v} is beyond 2^53")));
        }
        Ok(Strict)
    }

    fn visit_i64<E: de::Error>(self, v: i64) -> Result<Strict, E> {
        if v.unsigned_abs() > MAX_EXACT {
            return Err(E::custom(format_args!("integer {v} is beyond 2^53")));
        }
        Ok(Strict)
    }

    fn visit_f64<E: de::Error>(self, v: f64) -> Result<Strict, E> {
        Err(E::custom(format_args!("{v} is not a whole number up to 2^53")))
    }

    fn visit_str<E>(self, _: &str) -> Result<Strict, E> {
        Ok(Strict)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Strict, A::Error> {
        while let Some(Strict) = seq.next_element()? {}
        Ok(Strict)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Strict, A::Error> {
        let mut few: Vec<Cow<'de, str>> = Vec::new();
        let mut many: BTreeSet<Cow<'de, str>> = BTreeSet::new();
        while let Some(Name(name)) = map.next_key()? {
            if few.contains(&name) || many.contains(&name) {
                return Err(de::Error::custom(format_args!("member `{name}` stands twice")));
            }
            let Strict = map.next_value()?;
            if few.len() < FEW {
                few.push(name);
            } else {
                many.insert(name);
            }
        }
        Ok(Strict)
    }
}

/// A member name, borrowed where it holds no escape.
struct Name<'a>(Cow<'a, str>);

impl<'de: 'a, 'a> Deserialize<'de> for Name<'a> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_str(NameVisitor).map(Name)
    }
}

struct NameVisitor;

impl<'de> Visitor<'de> for NameVisitor {
    type Value = Cow<'de, str>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a member name")
    }

    fn visit_borrowed_str<E>(self, v: &'de str) -> Result<Self::Value, E> {
        Ok(Cow::Borrowed(v))
    }

    fn visit_str<E>(self, v: &str) -> Result<Self::Value, E> {
        Ok(Cow::Owned(v.to_owned()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::Value;

    #[test]
    fn a_repeated_member_is_an_error_at_any_depth() {
        assert!(read_strict::<Value>(r#"{"a":{"b":1,"b":1}}"#).unwrap_err().reason.contains("`b` stands twice"));
    }

    #[test]
    fn a_repeated_member_is_an_error_in_large_objects_and_under_an_escape() {
        let members: Vec<String> = (0..40).map(|n| format!("\"m{n}\":{n}")).collect();
        assert!(read_strict::<Value>(&format!("{{{}}}", members.join(","))).is_ok());
        for again in ["m0", "m11", "m12", "m39", "\\u006d39"] {
            let text = format!("{{{},\"{again}\":1}}", members.join(","));
            assert!(read_strict::<Value>(&text).unwrap_err().reason.contains("stands twice"), "{again}");
        }
    }

    #[test]
    fn numbers_are_whole_and_exact() {
        assert!(read_strict::<Value>("9007199254740992").is_ok());
        assert!(read_strict::<Value>("9007199254740993").is_err());
        assert!(read_strict::<Value>("-9007199254740993").is_err());
        assert!(read_strict::<Value>("[1.5]").is_err());
        assert!(read_strict::<Value>("1e3").is_err());
    }

    #[test]
    fn canonical_form_sorts_members() {
        let value: Value = read_strict(r#"{"b":1,"a":[true,null]}"#).unwrap();
        assert_eq!(to_canonical(&value).unwrap(), r#"{"a":[true,null],"b":1}"#);
    }
}
