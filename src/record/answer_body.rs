//! Bodies that answer a question, read in one go: nearly all that an archive holds.
//!
//! [`Act`] and [`Answer`] name their kind among their own members, so that all of them are kept aside until the kind is
//! known, and the strict reader goes over the text a time before. Here every member has a place of its own and none is
//! passed over: one that stands twice, has a fraction or is of another form cannot go unseen. What does not fit, whatever
//! the reason, is left to [`Body::read`], which takes longer and says why. Only natively: what an office reads in thousands
//! is worth code that a phone need not carry.

use serde::{Deserialize, Deserializer};

use super::strict_json::MAX_EXACT;
use super::{Act, Answer, Body, EntryId, Key, Moment, PersonCode, Value, Versions, Why};

/// How the canonical form of such a body begins.
const START: &str = r#"{"act":{"answer":{"state":""#;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Written<'a> {
    schema: u32,
    #[serde(borrow)]
    act: WrittenAct<'a>,
    typed_by: PersonCode,
    at: Moment,
    #[serde(default)]
    zone: String,
    #[serde(default)]
    since_start_ms: Option<u64>,
    versions: Versions,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenAct<'a> {
    kind: &'a str,
    key: Key,
    #[serde(borrow)]
    answer: WrittenAnswer<'a>,
    #[serde(default)]
    supersedes: Vec<EntryId>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenAnswer<'a> {
    state: &'a str,
    #[serde(default, deserialize_with = "never_null")]
    value: Option<Value>,
    #[serde(default, deserialize_with = "never_null")]
    why: Option<Why>,
}

fn never_null<'de, D: Deserializer<'de>, T: Deserialize<'de>>(deserializer: D) -> Result<Option<T>, D::Error> {
    T::deserialize(deserializer).map(Some)
}

/// The body, where it is just such a one; `None` says nothing.
pub(super) fn read(text: &str) -> Option<Body> {
    if !text.starts_with(START) {
        return None;
    }
    let Written { schema, act, typed_by, at, zone, since_start_ms, versions } = serde_json::from_str(text).ok()?;
    let WrittenAct { kind: "answer", key, answer, supersedes } = act else { return None };
    let answer = match answer {
        WrittenAnswer { state: "seen", value: Some(value), why: None } if is_exact(&value) => Answer::Seen { value },
        WrittenAnswer { state: "not_seen", value: None, why: None } => Answer::NotSeen,
        WrittenAnswer { state: "cant_tell", value: None, why: Some(why) } => Answer::CantTell { why },
        WrittenAnswer { state: "not_looked", value: None, why: Some(why) } => Answer::NotLooked { why },
        WrittenAnswer { state: "part_gone", value: None, why: Some(why) } => Answer::PartGone { why },
        _ => return None,
    };
    let act = Act::Answer { key, answer, supersedes };
    (since_start_ms.unwrap_or(0) <= MAX_EXACT).then_some(Body {
        schema,
        act,
        typed_by,
        at,
        zone,
        since_start_ms,
        versions,
    })
}

/// Whether a double holds every number in it.
fn is_exact(value: &Value) -> bool {
    match value {
        Value::Number(n) => n.unsigned_abs() <= MAX_EXACT,
        Value::Place(place) => place.lat_e7.unsigned_abs().max(place.lon_e7.unsigned_abs()) <= MAX_EXACT,
        Value::Photo(photo) => photo.bytes <= MAX_EXACT,
        Value::Choice(_) | Value::Choices(_) | Value::Text(_) | Value::Instant(_) | Value::Ref(_) => true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::Digest;
    use proptest::prelude::*;

    const DIGEST: &str = "47DEQpj8HBSa-_TImW-5JCeuQeRkm5NMpJWZG3hSuFU";

    /// Bodies of every state and every kind of value, as [`Body::write`] writes them but for what the members hold.
    fn texts() -> Vec<String> {
        let values = [
            r#"{"choice":"there"}"#,
            r#"{"choices":["a","b"]}"#,
            r#"{"number":452}"#,
            r#"{"number":-3}"#,
            r#"{"text":"a \"word\" \u0001"}"#,
            r#"{"instant":"2027-02-14T10:23:05-05:00"}"#,
            r#"{"place":{"accuracy_m_95":12,"lat_e7":471000000,"lon_e7":-920000000,"source":"device"}}"#,
            &format!(r#"{{"photo":{{"bytes":77,"media":"image/jpeg","sha256":"{DIGEST}"}}}}"#),
            r#"{"ref":"00000000-0000-0000-0000-000000000007"}"#,
        ];
        let seen = values.map(|value| format!(r#"{{"state":"seen","value":{value}}}"#));
        let others = [
            r#"{"state":"not_seen"}"#,
            r#"{"state":"cant_tell","why":"frozen"}"#,
            r#"{"state":"not_looked","why":{"other":"bear"}}"#,
            r#"{"state":"part_gone","why":"removed"}"#,
        ];
        let body = |answer: String| {
            format!(
                r#"{{"act":{{"answer":{answer},"key":{{"finding":"hind_foot_mm","observer":"K7","site":{{"item":2}},"subject":{{"examination":"00000000-0000-0000-0000-000000000007"}}}},"kind":"answer","supersedes":["{DIGEST}:4"]}},"at":"2027-02-14T10:23:05-05:00","schema":1,"since_start_ms":81000,"typed_by":"K7","versions":{{"protocol":1,"step":"hind_foot"}},"zone":"America/Toronto"}}"#
            )
        };
        seen.into_iter().chain(others.map(str::to_owned)).map(body).collect()
    }

    /// What is read in one go is what is read at length; nothing that is refused there is taken here.
    fn holds(text: &str) {
        if let Some(body) = read(text) {
            assert_eq!(Body::read_at_length(text), Ok(body), "{text}");
        }
    }

    #[test]
    fn every_answer_is_read_in_one_go_as_at_length() {
        for text in texts() {
            assert!(read(&text).is_some(), "{text}");
            holds(&text);
        }
        assert_eq!(Digest::of(&[]).to_string(), DIGEST);
    }

    #[test]
    fn what_the_strict_reader_refuses_is_not_read_in_one_go() {
        let spoilt = [
            (r#""schema":1"#, r#""schema":1.0"#),
            (r#""schema":1"#, r#""schema":1,"schema":1"#),
            (r#""schema":1"#, r#""schema":1,"mood":"calm""#),
            (r#""schema":1"#, r#""schema":1,"act":{}"#),
            (r#""since_start_ms":81000"#, r#""since_start_ms":9007199254740993"#),
            (r#""number":452"#, r#""number":9007199254740993"#),
            (r#""number":452"#, r#""number":-9007199254740993"#),
            (r#""number":452"#, r#""number":452,"number":452"#),
            (r#""number":452"#, r#""number":4e2"#),
            (r#""lat_e7":471000000"#, r#""lat_e7":9007199254740993"#),
            (r#""lon_e7":-920000000"#, r#""lon_e7":-9007199254740993"#),
            (r#""lon_e7":-920000000"#, r#""lat_e7":1,"lon_e7":-920000000"#),
            (r#""bytes":77"#, r#""bytes":9007199254740993"#),
            (r#""item":2"#, r#""item":2,"item":2"#),
            (r#""protocol":1"#, r#""protocol":1,"protocol":1"#),
            (r#""state":"seen""#, r#""state":"seen","state":"seen""#),
            (r#""state":"seen""#, r#""state":"seen","why":null"#),
            (r#""state":"seen""#, r#""state":"seen","why":"frozen""#),
            (r#""state":"cant_tell""#, r#""state":"cant_tell","value":null"#),
            (r#""state":"cant_tell""#, r#""state":"seen""#),
            (r#""kind":"answer""#, r#""kind":"answer","kind":"answer""#),
            (r#""kind":"answer""#, r#""kind":{"answer":null}"#),
            (r#""kind":"answer""#, r#""kind":"withdraw""#),
            (r#""why":"frozen""#, r#""why":null"#),
        ];
        for (right, wrong) in spoilt {
            let of_it = texts().into_iter().filter(|text| text.contains(right)).map(|text| text.replace(right, wrong));
            let all: Vec<String> = of_it.collect();
            assert!(!all.is_empty(), "{right}");
            for text in all {
                assert!(Body::read_at_length(&text).is_err(), "{text}");
                assert!(read(&text).is_none(), "{text}");
            }
        }
    }

    proptest! {
        #[test]
        fn spoilt_anywhere_it_is_read_as_at_length_or_not_at_all(
            which in any::<prop::sample::Index>(), cut in any::<prop::sample::Index>(), from in any::<prop::sample::Index>(),
            long in 0_usize..30, byte in 0x20_u8..0x7f,
        ) {
            let all = texts();
            let text = which.get(&all);
            let at = cut.index(text.len());
            let mut changed = text.clone().into_bytes();
            changed[at] = byte;
            holds(&String::from_utf8(changed).unwrap());
            // A piece of it once more, at another place.
            let from = from.index(text.len());
            let piece = &text[from..(from + long).min(text.len())];
            holds(&format!("{}{piece}{}", &text[..at], &text[at..]));
        }
    }
}
