//! JSON reading that lets nothing ambiguous through.
//!
//! RFC 8259 leaves open what a reader does with a member that stands twice, or with an integer that
//! a double cannot hold; two readers may then see two different records in one signed file. Here
//! both are refused, everywhere, as I-JSON (RFC 7493) advises.

use serde::de::{self, DeserializeSeed, Deserializer, MapAccess, SeqAccess, Visitor};
use std::borrow::Cow;
use std::cell::{Cell, RefCell};
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;
use std::fmt;

/// The largest magnitude a number may have: 2^53 - 1 (RFC 7493 section 2.2).
///
/// Every double beyond it is an integer whose neighbours it may stand for as well.
pub const MAX_MAGNITUDE: f64 = 9_007_199_254_740_991.0;

/// How deep lists and objects may nest.
pub const MAX_DEPTH: usize = 32;

/// How many values the envelope or the header of a signed file may hold. Ours have three and eight; without a bound a file
/// of 64 MB takes two GB as a tree.
pub const FEW_VALUES: usize = 100;

/// A JSON value read strictly.
#[derive(Debug, Clone, PartialEq)]
pub enum Strict<'a> {
    /// `null`
    Null,
    /// `true` or `false`
    Bool(bool),
    /// A number written without fraction or exponent.
    Integer(i64),
    /// Any other number.
    Number(f64),
    /// A string.
    Text(Cow<'a, str>),
    /// A list.
    List(Vec<Strict<'a>>),
    /// An object; member names are all different.
    Object(BTreeMap<Cow<'a, str>, Strict<'a>>),
}

impl<'a> Strict<'a> {
    /// The members, if this is an object.
    pub fn into_object(self) -> Option<BTreeMap<Cow<'a, str>, Strict<'a>>> {
        match self {
            Self::Object(members) => Some(members),
            _ => None,
        }
    }

    /// The text, if this is a string.
    pub fn into_text(self) -> Option<Cow<'a, str>> {
        match self {
            Self::Text(text) => Some(text),
            _ => None,
        }
    }
}

/// Why a JSON text was refused, as a lower-case clause.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ReadError {
    /// Not UTF-8.
    #[error("is not UTF-8 text (first bad byte at {at})")]
    NotUtf8 {
        /// Offset of the first bad byte, from 0.
        at: usize,
    },
    /// The text ends in the middle.
    #[error("ends in the middle")]
    Truncated,
    /// Not JSON at all, or more after its end.
    #[error("is not JSON: {0}")]
    NotJson(String),
    /// One object holds two members of that name.
    #[error("has the member \"{0}\" twice")]
    DuplicateMember(String),
    /// A number beyond 2^53 - 1 in magnitude.
    #[error("has the number {0}, which is beyond 2^53 - 1")]
    NumberTooLarge(String),
    /// Nested deeper than [`MAX_DEPTH`].
    #[error("nests deeper than {MAX_DEPTH} levels")]
    TooDeep,
    /// More values than belong there.
    #[error("holds more than {FEW_VALUES} values")]
    TooMany,
    /// Valid JSON, but not in the canonical form of RFC 8785.
    #[error("is not in canonical form (RFC 8785) at byte {at}")]
    NotCanonical {
        /// Offset at which the canonical form differs, from 0.
        at: usize,
    },
    /// Strict JSON, but not of the shape that belongs here.
    #[error("has the wrong shape: {0}")]
    WrongShape(String),
}

/// Reads one JSON text strictly.
///
/// # Errors
/// Every [`ReadError`] but `NotCanonical`, `WrongShape` and `TooMany`.
pub fn read(bytes: &[u8]) -> Result<Strict<'_>, ReadError> {
    read_most(bytes, usize::MAX)
}

/// As [`read`], a text that holds [`FEW_VALUES`] at most.
///
/// # Errors
/// As [`read`], and `TooMany`.
pub fn read_few(bytes: &[u8]) -> Result<Strict<'_>, ReadError> {
    read_most(bytes, FEW_VALUES)
}

fn read_most(bytes: &[u8], most: usize) -> Result<Strict<'_>, ReadError> {
    let (fault, left) = (RefCell::new(None), Cell::new(most));
    run(bytes, &fault, Seed { depth: 0, fault: &fault, left: &left })
}

/// Reads one JSON text strictly into a type of ours.
///
/// # Errors
/// Every [`ReadError`] but `NotCanonical` and `TooMany`.
pub fn read_as<T: de::DeserializeOwned>(bytes: &[u8]) -> Result<T, ReadError> {
    read(bytes)?;
    // From text, as everything of ours: reading from bytes would be a second copy of the code for every type.
    let text = std::str::from_utf8(bytes).map_err(|error| ReadError::NotUtf8 { at: error.valid_up_to() })?;
    serde_json::from_str(text).map_err(|error| ReadError::WrongShape(error.to_string()))
}

/// Runs a seed over the whole text and turns whatever went wrong into a [`ReadError`].
///
/// The seeds leave their own fault in the cell, because a serde error carries only text.
pub(super) fn run<'de, S: DeserializeSeed<'de>>(
    bytes: &'de [u8],
    fault: &RefCell<Option<ReadError>>,
    seed: S,
) -> Result<S::Value, ReadError> {
    let text = std::str::from_utf8(bytes).map_err(|error| ReadError::NotUtf8 { at: error.valid_up_to() })?;
    let mut reader = serde_json::Deserializer::from_str(text);
    let read = seed.deserialize(&mut reader).and_then(|value| reader.end().map(|()| value));
    read.map_err(|error| {
        fault.take().unwrap_or_else(|| {
            if error.is_eof() { ReadError::Truncated } else { ReadError::NotJson(error.to_string()) }
        })
    })
}

/// Leaves `error` in the cell and returns a serde error to stop the reading.
pub(super) fn stop<E: de::Error>(fault: &RefCell<Option<ReadError>>, error: ReadError) -> E {
    let message = E::custom(&error);
    *fault.borrow_mut() = Some(error);
    message
}

/// Whether a number written without fraction lies within +-(2^53 - 1).
pub(super) fn within_magnitude(value: i64) -> bool {
    value.unsigned_abs() < 1 << 53
}

#[derive(Clone, Copy)]
struct Seed<'c> {
    depth: usize,
    fault: &'c RefCell<Option<ReadError>>,
    left: &'c Cell<usize>,
}

impl Seed<'_> {
    fn deeper<E: de::Error>(self) -> Result<Self, E> {
        if self.depth == MAX_DEPTH {
            return Err(stop(self.fault, ReadError::TooDeep));
        }
        Ok(Self { depth: self.depth + 1, ..self })
    }
}

impl<'de> DeserializeSeed<'de> for Seed<'_> {
    type Value = Strict<'de>;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Self::Value, D::Error> {
        match self.left.get().checked_sub(1) {
            Some(left) => self.left.set(left),
            None => return Err(stop(self.fault, ReadError::TooMany)),
        }
        deserializer.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Seed<'_> {
    type Value = Strict<'de>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a JSON value")
    }

    fn visit_unit<E: de::Error>(self) -> Result<Self::Value, E> {
        Ok(Strict::Null)
    }

    fn visit_bool<E: de::Error>(self, value: bool) -> Result<Self::Value, E> {
        Ok(Strict::Bool(value))
    }

    fn visit_i64<E: de::Error>(self, value: i64) -> Result<Self::Value, E> {
        if within_magnitude(value) {
            Ok(Strict::Integer(value))
        } else {
            Err(stop(self.fault, ReadError::NumberTooLarge(value.to_string())))
        }
    }

    fn visit_u64<E: de::Error>(self, value: u64) -> Result<Self::Value, E> {
        match i64::try_from(value) {
            Ok(value) => self.visit_i64(value),
            Err(_) => Err(stop(self.fault, ReadError::NumberTooLarge(value.to_string()))),
        }
    }

    fn visit_f64<E: de::Error>(self, value: f64) -> Result<Self::Value, E> {
        if value.abs() <= MAX_MAGNITUDE {
            Ok(Strict::Number(value))
        } else {
            Err(stop(self.fault, ReadError::NumberTooLarge(format!("{value:e}"))))
        }
    }

    fn visit_borrowed_str<E: de::Error>(self, value: &'de str) -> Result<Self::Value, E> {
        Ok(Strict::Text(Cow::Borrowed(value)))
    }

    fn visit_str<E: de::Error>(self, value: &str) -> Result<Self::Value, E> {
        Ok(Strict::Text(Cow::Owned(value.to_owned())))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Self::Value, A::Error> {
        let inner = self.deeper()?;
        let mut list = Vec::new();
        while let Some(item) = items.next_element_seed(inner)? {
            list.push(item);
        }
        Ok(Strict::List(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Self::Value, A::Error> {
        let inner = self.deeper()?;
        let mut members = BTreeMap::new();
        while let Some(name) = entries.next_key_seed(Name)? {
            match members.entry(name) {
                Entry::Occupied(taken) => {
                    return Err(stop(self.fault, ReadError::DuplicateMember(taken.key().clone().into_owned())));
                }
                Entry::Vacant(free) => free.insert(entries.next_value_seed(inner)?),
            };
        }
        Ok(Strict::Object(members))
    }
}

/// Reads a member name; borrowed where it holds no escape.
pub(super) struct Name;

impl<'de> DeserializeSeed<'de> for Name {
    type Value = Cow<'de, str>;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Self::Value, D::Error> {
        deserializer.deserialize_str(self)
    }
}

impl<'de> Visitor<'de> for Name {
    type Value = Cow<'de, str>;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a member name")
    }

    fn visit_borrowed_str<E: de::Error>(self, value: &'de str) -> Result<Self::Value, E> {
        Ok(Cow::Borrowed(value))
    }

    fn visit_str<E: de::Error>(self, value: &str) -> Result<Self::Value, E> {
        Ok(Cow::Owned(value.to_owned()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn refused(text: &str) -> ReadError {
        read(text.as_bytes()).unwrap_err()
    }

    #[test]
    fn a_member_standing_twice_is_refused_at_any_depth() {
        let twice = |name: &str| ReadError::DuplicateMember(name.into());
        assert_eq!(refused(r#"{"a":1,"b":2,"a":1}"#), twice("a"));
        assert_eq!(refused(r#"[0,{"x":{"y":[{"z":1,"z":2}]}}]"#), twice("z"));
        // the same name, once written with an escape
        assert_eq!(refused(r#"{"a":1,"\u0061":2}"#), twice("a"));
        assert!(read(br#"{"a":{"a":{"a":1}},"b":{"a":1}}"#).is_ok());
    }

    // RFC 7493 section 2.2: the range [-(2^53)+1, (2^53)-1].
    #[test]
    fn numbers_stop_at_two_to_the_53_minus_1() {
        assert_eq!(read(b"9007199254740991").unwrap(), Strict::Integer(9_007_199_254_740_991));
        assert_eq!(read(b"-9007199254740991").unwrap(), Strict::Integer(-9_007_199_254_740_991));
        for text in [
            "9007199254740992",
            "-9007199254740992",
            "9223372036854775808",
            "18446744073709551616",
            "9007199254740992.0",
            "1e16",
            "-1e300",
        ] {
            assert!(matches!(refused(text), ReadError::NumberTooLarge(_)), "{text}");
        }
        assert!(matches!(refused("1e999"), ReadError::NotJson(_)));
        assert_eq!(read(b"0.1").unwrap(), Strict::Number(0.1));
    }

    #[test]
    fn depth_is_limited() {
        let nested = |depth: usize| format!("{}{}", "[".repeat(depth), "]".repeat(depth));
        assert!(read(nested(MAX_DEPTH).as_bytes()).is_ok());
        assert_eq!(refused(&nested(MAX_DEPTH + 1)), ReadError::TooDeep);
        assert_eq!(refused(&"[".repeat(1_000_000)), ReadError::TooDeep);
    }

    #[test]
    fn broken_text_says_how_it_is_broken() {
        assert_eq!(refused(r#"{"a":"#), ReadError::Truncated);
        assert_eq!(refused(""), ReadError::Truncated);
        assert!(matches!(refused("{} {}"), ReadError::NotJson(_)));
        assert!(matches!(refused("{'a':1}"), ReadError::NotJson(_)));
        assert!(matches!(refused(r#""\ud800""#), ReadError::NotJson(_)));
        assert_eq!(read(b"\"a\xff\"").unwrap_err(), ReadError::NotUtf8 { at: 2 });
    }

    proptest! {
        #[test]
        fn never_panics(bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
            let _ = read(&bytes);
        }

        #[test]
        fn agrees_with_the_plain_reader_where_it_accepts(text in r#"[\[\]{}",:0-9a-c\\.eE+\- ]{0,40}"#) {
            if let Ok(Strict::Integer(value)) = read(text.as_bytes()) {
                prop_assert_eq!(serde_json::from_str::<i64>(&text).unwrap(), value);
            }
            if read(text.as_bytes()).is_ok() {
                prop_assert!(serde_json::from_str::<serde_json::Value>(&text).is_ok());
            }
        }
    }
}
