//! Reading JSON without second guesses: a duplicate member, a fraction or an integer that a double
//! cannot hold is an error, never a silent choice.

use std::collections::BTreeSet;
use std::fmt;

use serde::de::{self, DeserializeOwned, Deserializer, MapAccess, SeqAccess, Visitor};
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

/// The largest integer that every JSON reader holds exactly.
const MAX_EXACT: u64 = 1 << 53;

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
    let Strict(value) = serde_json::from_str(text).map_err(|e| JsonError { reason: e.to_string() })?;
    T::deserialize(value).map_err(|e| JsonError { reason: e.to_string() })
}

/// Write a value in the canonical form of RFC 8785.
///
/// # Errors
/// Where the value cannot be written as JSON (a map with keys that are no strings, a NaN).
pub fn to_canonical<T: Serialize>(value: &T) -> Result<String, JsonError> {
    serde_json_canonicalizer::to_string(value).map_err(|e| JsonError { reason: e.to_string() })
}

struct Strict(Value);

impl<'de> Deserialize<'de> for Strict {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(StrictVisitor).map(Strict)
    }
}

struct StrictVisitor;

impl<'de> Visitor<'de> for StrictVisitor {
    type Value = Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("JSON with whole numbers up to 2^53 and no repeated member")
    }

    fn visit_bool<E>(self, v: bool) -> Result<Value, E> {
        Ok(Value::Bool(v))
    }

    fn visit_unit<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_u64<E: de::Error>(self, v: u64) -> Result<Value, E> {
        if v > MAX_EXACT {
            return Err(E::custom(format_args!("integer {v} is beyond 2^53")));
        }
        Ok(v.into())
    }

    fn visit_i64<E: de::Error>(self, v: i64) -> Result<Value, E> {
        if v.unsigned_abs() > MAX_EXACT {
            return Err(E::custom(format_args!("integer {v} is beyond 2^53")));
        }
        Ok(v.into())
    }

    fn visit_f64<E: de::Error>(self, v: f64) -> Result<Value, E> {
        Err(E::custom(format_args!("{v} is not a whole number up to 2^53")))
    }

    fn visit_str<E>(self, v: &str) -> Result<Value, E> {
        Ok(Value::String(v.to_owned()))
    }

    fn visit_string<E>(self, v: String) -> Result<Value, E> {
        Ok(Value::String(v))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut seq: A) -> Result<Value, A::Error> {
        let mut all = Vec::new();
        while let Some(Strict(item)) = seq.next_element()? {
            all.push(item);
        }
        Ok(Value::Array(all))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Value, A::Error> {
        let mut seen = BTreeSet::new();
        let mut all = Map::new();
        while let Some(name) = map.next_key::<String>()? {
            if !seen.insert(name.clone()) {
                return Err(de::Error::custom(format_args!("member `{name}` stands twice")));
            }
            let Strict(value) = map.next_value()?;
            all.insert(name, value);
        }
        Ok(Value::Object(all))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_repeated_member_is_an_error_at_any_depth() {
        assert!(read_strict::<Value>(r#"{"a":{"b":1,"b":1}}"#).unwrap_err().reason.contains("`b` stands twice"));
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
