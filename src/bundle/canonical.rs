//! The canonical form of JSON (RFC 8785, JCS): writing it, and checking that bytes are in it.
//!
//! It makes digests and payload bytes stable. It is never what a signature is checked over: that is
//! always the text as received.

use super::strict::{self, MAX_DEPTH, MAX_MAGNITUDE, Name, ReadError, stop, within_magnitude};
use serde::Serialize;
use serde::de::{self, DeserializeSeed, Deserializer, MapAccess, SeqAccess, Visitor};
use std::borrow::Cow;
use std::cell::{Cell, RefCell};
use std::cmp::Ordering;
use std::fmt;

/// Writes a value in canonical form.
///
/// # Errors
/// The value cannot be written as JSON (a map key that is not text, a number that is not finite).
pub fn to_vec<T: Serialize>(value: &T) -> Result<Vec<u8>, serde_json::Error> {
    serde_json_canonicalizer::to_vec(value)
}

/// Whether the bytes are strict JSON in canonical form.
pub fn is_canonical(bytes: &[u8]) -> bool {
    check(bytes).is_ok()
}

/// Checks in one pass that the bytes are strict JSON in canonical form.
///
/// The form is checked token by token as the text is read, because writing a second copy of a large
/// payload only to compare it would cost more than all other checks together.
///
/// # Errors
/// Every [`ReadError`] but `WrongShape`.
pub fn check(bytes: &[u8]) -> Result<(), ReadError> {
    let fault = RefCell::new(None);
    let at = Cell::new(0);
    let seed = Expect { bytes, at: &at, fault: &fault, depth: 0 };
    strict::run(bytes, &fault, seed)?;
    if at.get() == bytes.len() { Ok(()) } else { Err(ReadError::NotCanonical { at: at.get() }) }
}

/// Orders member names as RFC 8785 section 3.2.3 wants: as arrays of UTF-16 code units.
///
/// This differs from the order of UTF-8 bytes only where a character above U+FFFF meets one from
/// U+E000 to U+FFFF.
pub fn compare_names(a: &str, b: &str) -> Ordering {
    if a.is_ascii() && b.is_ascii() { a.cmp(b) } else { a.encode_utf16().cmp(b.encode_utf16()) }
}

/// Reads one value and compares its canonical text with the bytes at the cursor.
#[derive(Clone, Copy)]
struct Expect<'c> {
    bytes: &'c [u8],
    at: &'c Cell<usize>,
    fault: &'c RefCell<Option<ReadError>>,
    depth: usize,
}

impl Expect<'_> {
    /// Moves the cursor over `piece`, which must stand there.
    fn piece<E: de::Error>(self, piece: &[u8]) -> Result<(), E> {
        let at = self.at.get();
        if self.bytes.get(at..).is_some_and(|rest| rest.starts_with(piece)) {
            self.at.set(at + piece.len());
            return Ok(());
        }
        Err(stop(self.fault, ReadError::NotCanonical { at }))
    }

    /// A string that was read without any escape is canonical as it stands: a character that needs
    /// an escape cannot occur bare in JSON.
    fn bare_text<E: de::Error>(self, text: &str) -> Result<(), E> {
        self.piece(b"\"")?;
        self.piece(text.as_bytes())?;
        self.piece(b"\"")
    }

    /// A string that was read with escapes: each character must stand in its one spelling (RFC 8785
    /// section 3.2.2.2).
    fn escaped_text<E: de::Error>(self, text: &str) -> Result<(), E> {
        self.piece(b"\"")?;
        // Bodies of entries have a quotation mark at every few bytes: one by one costs less than by pieces.
        let rest = || self.bytes.get(self.at.get()..).unwrap_or_default();
        let mut ahead = rest().iter();
        for byte in text.bytes() {
            if needs_escape(byte) {
                self.at.set(self.bytes.len() - ahead.len());
                self.piece(escape(byte).as_bytes())?;
                ahead = rest().iter();
            } else if ahead.next() != Some(&byte) {
                return Err(stop(self.fault, ReadError::NotCanonical { at: self.at.get() }));
            }
        }
        self.at.set(self.bytes.len() - ahead.len());
        self.piece(b"\"")
    }

    fn deeper<E: de::Error>(self) -> Result<Self, E> {
        if self.depth == MAX_DEPTH {
            return Err(stop(self.fault, ReadError::TooDeep));
        }
        Ok(Self { depth: self.depth + 1, ..self })
    }
}

fn needs_escape(byte: u8) -> bool {
    byte < 0x20 || byte == b'"' || byte == b'\\'
}

fn escape(byte: u8) -> Cow<'static, str> {
    match byte {
        b'"' => "\\\"".into(),
        b'\\' => "\\\\".into(),
        0x08 => "\\b".into(),
        b'\t' => "\\t".into(),
        b'\n' => "\\n".into(),
        0x0c => "\\f".into(),
        b'\r' => "\\r".into(),
        other => format!("\\u{other:04x}").into(),
    }
}

impl<'de> DeserializeSeed<'de> for Expect<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Expect<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a JSON value")
    }

    fn visit_unit<E: de::Error>(self) -> Result<(), E> {
        self.piece(b"null")
    }

    fn visit_bool<E: de::Error>(self, value: bool) -> Result<(), E> {
        self.piece(if value { b"true" } else { b"false" })
    }

    fn visit_i64<E: de::Error>(self, value: i64) -> Result<(), E> {
        let text = value.to_string();
        if within_magnitude(value) {
            self.piece(text.as_bytes())
        } else {
            Err(stop(self.fault, ReadError::NumberTooLarge(text)))
        }
    }

    fn visit_u64<E: de::Error>(self, value: u64) -> Result<(), E> {
        match i64::try_from(value) {
            Ok(value) => self.visit_i64(value),
            Err(_) => Err(stop(self.fault, ReadError::NumberTooLarge(value.to_string()))),
        }
    }

    fn visit_f64<E: de::Error>(self, value: f64) -> Result<(), E> {
        if value.abs() <= MAX_MAGNITUDE {
            self.piece(&to_vec(&value).map_err(E::custom)?)
        } else {
            Err(stop(self.fault, ReadError::NumberTooLarge(format!("{value:e}"))))
        }
    }

    fn visit_borrowed_str<E: de::Error>(self, value: &'de str) -> Result<(), E> {
        self.bare_text(value)
    }

    fn visit_str<E: de::Error>(self, value: &str) -> Result<(), E> {
        self.escaped_text(value)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<(), A::Error> {
        let inner = self.deeper()?;
        self.piece(b"[")?;
        let mut first = true;
        while items.next_element_seed(Item { expect: inner, first })?.is_some() {
            first = false;
        }
        self.piece(b"]")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<(), A::Error> {
        let inner = self.deeper()?;
        self.piece(b"{")?;
        let mut last: Option<Cow<'de, str>> = None;
        while let Some(name) = entries.next_key_seed(Name)? {
            match last.as_deref().map(|last| compare_names(last, &name)) {
                None => {}
                Some(Ordering::Less) => self.piece(b",")?,
                Some(Ordering::Equal) => {
                    return Err(stop(self.fault, ReadError::DuplicateMember(name.into_owned())));
                }
                Some(Ordering::Greater) => {
                    return Err(stop(self.fault, ReadError::NotCanonical { at: self.at.get() }));
                }
            }
            match &name {
                Cow::Borrowed(name) => self.bare_text(name)?,
                Cow::Owned(name) => self.escaped_text(name)?,
            }
            self.piece(b":")?;
            entries.next_value_seed(inner)?;
            last = Some(name);
        }
        self.piece(b"}")
    }
}

/// An item of a list: the comma before it is checked only once there is known to be an item.
struct Item<'c> {
    expect: Expect<'c>,
    first: bool,
}

impl<'de> DeserializeSeed<'de> for Item<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        if !self.first {
            self.expect.piece(b",")?;
        }
        self.expect.deserialize(deserializer)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;
    use serde_json::Value;

    fn canonical(text: &str) -> String {
        String::from_utf8(to_vec(&serde_json::from_str::<Value>(text).unwrap()).unwrap()).unwrap()
    }

    // RFC 8785 appendix B, all rows: the bits of a double and its text; empty where it is refused.
    #[test]
    fn rfc_8785_appendix_b_numbers() {
        let mut rows = 0;
        for row in include_str!("../../tests/vectors/rfc8785-appendix-b.csv").lines().skip(1) {
            let (bits, text) = row.split_once(',').unwrap();
            let number = f64::from_bits(u64::from_str_radix(bits, 16).unwrap());
            if text.is_empty() {
                assert!(to_vec(&number).is_err(), "{bits}");
            } else {
                assert_eq!(String::from_utf8(to_vec(&number).unwrap()).unwrap(), text, "{bits}");
            }
            rows += 1;
        }
        assert_eq!(rows, 26);
    }

    // RFC 8785 section 3.2.3: input and order of the sorting example.
    #[test]
    fn rfc_8785_sorting_example() {
        let input = r#"{
            "\u20ac": "Euro Sign",
            "\r": "Carriage Return",
            "\ufb33": "Hebrew Letter Dalet With Dagesh",
            "1": "One",
            "\ud83d\ude00": "Emoji: Grinning Face",
            "\u0080": "Control",
            "\u00f6": "Latin Small Letter O With Diaeresis"
        }"#;
        let expected = [
            "Carriage Return",
            "One",
            "Control",
            "Latin Small Letter O With Diaeresis",
            "Euro Sign",
            "Emoji: Grinning Face",
            "Hebrew Letter Dalet With Dagesh",
        ];
        let text = canonical(input);
        let places: Vec<usize> = expected.iter().map(|value| text.find(value).unwrap()).collect();
        assert!(places.is_sorted(), "{text}");
        assert!(is_canonical(text.as_bytes()));
    }

    // RFC 8785 section 3.2.2: literals, numbers and string escapes.
    #[test]
    fn rfc_8785_serialization_example() {
        let input = r#"{"numbers":[333333333.33333329,1E30,4.50,2e-3,0.000000000000000000000000001],
            "string":"\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/","literals":[null,true,false]}"#;
        let expected = "{\"literals\":[null,true,false],\"numbers\":[333333333.3333333,1e+30,4.5,0.002,1e-27],\
            \"string\":\"\u{20ac}$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"}";
        assert_eq!(canonical(input), expected);
    }

    // The pair on which the order of UTF-8 bytes and of UTF-16 units differ. U+10000 is D800 DC00.
    #[test]
    fn names_sort_by_utf_16_units() {
        let right = "{\"\u{10000}\":1,\"\u{ff21}\":2}";
        let wrong = "{\"\u{ff21}\":2,\"\u{10000}\":1}";
        assert_eq!(canonical(wrong), right);
        assert!(is_canonical(right.as_bytes()));
        assert_eq!(check(wrong.as_bytes()), Err(ReadError::NotCanonical { at: 8 }));
    }

    #[test]
    fn other_spellings_are_refused() {
        for text in [
            "{\"a\":1 }",
            " {}",
            "{}\n",
            "[1, 2]",
            "[1.0]",
            "[1e2]",
            "[-0]",
            "[0.10]",
            "[1E-7]",
            "{\"b\":1,\"a\":2}",
            "[\"\\u0041\"]",
            "[\"\\/\"]",
            "[\"\\u000A\"]",
            "[\"\\u001F\"]",
            "{\"\\u0061\":1}",
        ] {
            assert!(matches!(check(text.as_bytes()), Err(ReadError::NotCanonical { .. })), "{text}");
        }
        for text in ["{}", "[]", "[[],{}]", "[1,0.1,1e-7,-5]", "[\"\\u001f\\n\\\"\"]", "\"\u{7f}\"", "null"] {
            assert_eq!(check(text.as_bytes()), Ok(()), "{text}");
        }
    }

    #[test]
    fn strict_faults_come_before_form() {
        assert_eq!(check(br#"{"a":1,"a":1}"#), Err(ReadError::DuplicateMember("a".into())));
        assert!(matches!(check(b"[9007199254740992]"), Err(ReadError::NumberTooLarge(_))));
        assert_eq!(check(b"[1"), Err(ReadError::Truncated));
        assert_eq!(check(&b"[".repeat(100)), Err(ReadError::TooDeep));
    }

    fn json() -> impl Strategy<Value = Value> {
        let leaf = prop_oneof![
            Just(Value::Null),
            any::<bool>().prop_map(Value::from),
            (-9_007_199_254_740_991_i64..=9_007_199_254_740_991).prop_map(Value::from),
            any::<i32>().prop_map(|n| Value::from(f64::from(n) / 1024.0)),
            (-1e15_f64..1e15).prop_map(Value::from),
            any::<String>().prop_map(Value::from),
        ];
        leaf.prop_recursive(4, 40, 6, |inner| {
            prop_oneof![
                proptest::collection::vec(inner.clone(), 0..6).prop_map(Value::from),
                proptest::collection::btree_map(any::<String>(), inner, 0..6)
                    .prop_map(|members| Value::Object(members.into_iter().collect())),
            ]
        })
    }

    proptest! {
        // The oracle is another implementation of RFC 8785, the crate serde_jcs.
        #[test]
        fn agrees_with_another_implementation(value in json()) {
            let ours = to_vec(&value).unwrap();
            prop_assert_eq!(&ours, &serde_jcs::to_vec(&value).unwrap());
            prop_assert_eq!(check(&ours), Ok(()));
        }

        // The one-pass check against the plain way: read, write again, compare.
        #[test]
        fn check_means_equal_to_its_own_canonical_form(value in json(), cut in any::<prop::sample::Index>(), byte in any::<u8>()) {
            let mut bytes = to_vec(&value).unwrap();
            let place = cut.index(bytes.len());
            bytes[place] = byte;
            let rewritten = serde_json::from_slice::<Value>(&bytes).ok().map(|value| serde_jcs::to_vec(&value).unwrap());
            match check(&bytes) {
                Ok(()) => prop_assert_eq!(rewritten.as_deref(), Some(&bytes[..])),
                Err(ReadError::NotCanonical { .. }) => prop_assert_ne!(rewritten.as_deref(), Some(&bytes[..])),
                Err(_) => {}
            }
        }
    }
}
