//! The body of an entry: what was said, by whom, when, under which versions.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

use super::{
    Answer, Digest, EntryId, FindingCode, JsonError, Key, Moment, PersonCode, Site, read_strict, to_canonical,
};

/// The version of the entry's form that this program writes.
pub const ENTRY_SCHEMA: u32 = 1;

/// Versions under which an answer was given, named apart.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Versions {
    /// Version of the table of steps.
    pub protocol: u32,
    /// The step that asked, by id; absent for what the phone notes by itself.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step: Option<String>,
    /// Digest of the local card in force; absent where there was none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub card: Option<Digest>,
}

/// What happened to a sample.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum CustodyStep {
    /// Taken from the carcass.
    Taken,
    /// Sealed, with the seal's number in the note.
    Sealed,
    /// Given from one person to another.
    Handed,
    /// Received at the office or laboratory.
    Received,
    /// Destroyed or used up.
    UsedUp,
}

/// What an entry does.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Act {
    /// An answer to one question.
    Answer {
        /// Which question of what, where, by whom.
        key: Key,
        /// The answer.
        answer: Answer,
        /// Earlier entries on this key that its author could see and that it replaces.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        supersedes: Vec<EntryId>,
    },
    /// Taking back: what is named stands no longer, and nothing takes its place.
    Withdraw {
        /// The entries taken back.
        supersedes: Vec<EntryId>,
    },
    /// Two carcass ids are one animal (office only).
    Alias {
        /// The two ids.
        carcasses: [Uuid; 2],
    },
    /// A sample changed hands.
    Custody {
        /// The sample's number as on its label.
        sample: String,
        /// What happened.
        step: CustodyStep,
        /// Who gave it, where somebody did.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        from: Option<PersonCode>,
        /// Who has it now.
        to: PersonCode,
        /// Where it changed hands, in words or as a position.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        place: String,
        /// The number read off the seal.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        seal: String,
        /// Whether the seal was whole; absent where nobody looked.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        seal_intact: Option<bool>,
        /// In what state the thing was: frozen, cool, thawing, dry, leaking.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        condition: String,
        /// Container, reason, remarks.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        note: String,
    },
    /// The office settles a conflict: this answer stands for the carcass in place of those named.
    Decide {
        /// The carcass.
        carcass: Uuid,
        /// The question.
        finding: FindingCode,
        /// Where.
        #[serde(default, skip_serializing_if = "Site::is_none")]
        site: Site,
        /// What stands.
        answer: Answer,
        /// The answers weighed; a later answer that is not among them reopens the question.
        supersedes: Vec<EntryId>,
        /// Why.
        reason: String,
    },
    /// A chain begins again after damage or a lost key, and says what it follows.
    NewChain {
        /// The last entry known to be good, where there was one.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        last_good: Option<EntryId>,
        /// Digest of its header.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        last_digest: Option<Digest>,
        /// What was found at the start, in plain words.
        reason: String,
    },
    /// Of a newer program: kept, shown as unknown and passed on.
    #[serde(skip)]
    Unknown {
        /// Its kind, where it names one.
        kind: String,
    },
}

/// The body of an entry.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Body {
    /// Version of the entry's form.
    pub schema: u32,
    /// What it does.
    pub act: Act,
    /// Who typed it.
    pub typed_by: PersonCode,
    /// Local time by the device's clock.
    pub at: Moment,
    /// Zone name, such as `America/Toronto`; empty where the device tells none.
    pub zone: String,
    /// Milliseconds since the subject was begun on this device, by a clock that cannot be set.
    pub since_start_ms: Option<u64>,
    /// Versions.
    pub versions: Versions,
}

#[cfg(feature = "cli")]
impl schemars::JsonSchema for Body {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Body".into()
    }
    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        WrittenBody::json_schema(generator)
    }
}

/// A body that cannot be taken.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum BodyError {
    /// Not strict JSON, or not of this form although it says so.
    #[error("entry body cannot be read: {0}")]
    Form(#[from] JsonError),
    /// No `schema` member, or not a number.
    #[error("entry body does not say its form (member `schema`)")]
    NoSchema,
}

/// The written form of a body: the act's own members beside those that every body has.
#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub(crate) struct WrittenBody {
    schema: u32,
    act: Act,
    typed_by: PersonCode,
    at: Moment,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    zone: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    since_start_ms: Option<u64>,
    versions: Versions,
}

/// Only what says which form it is; the rest is looked at later.
#[derive(Deserialize)]
struct Form {
    schema: Option<serde_json::Value>,
}

impl Body {
    /// Write it in canonical form. This text is what is digested, stored and sent, verbatim.
    ///
    /// # Errors
    /// For a body of an unknown kind: its text exists already and is passed on as it came.
    pub fn write(&self) -> Result<String, JsonError> {
        if let Act::Unknown { kind } = &self.act {
            return Err(JsonError {
                reason: format!("an entry of unknown kind `{kind}` is passed on as it came, never written anew"),
            });
        }
        to_canonical(&WrittenBody {
            schema: self.schema,
            act: self.act.clone(),
            typed_by: self.typed_by.clone(),
            at: self.at,
            zone: self.zone.clone(),
            since_start_ms: self.since_start_ms,
            versions: self.versions.clone(),
        })
    }

    /// Read a text again that [`Body::read`] took before. It is not looked at so strictly a second time: half the cost,
    /// which counts where an archive is read.
    ///
    /// # Errors
    /// As [`Body::read`].
    pub fn read_again(text: &str) -> Result<Self, BodyError> {
        #[cfg(not(target_arch = "wasm32"))]
        if let Some(body) = super::answer_body::read(text) {
            return Ok(body);
        }
        match serde_json::from_str::<WrittenBody>(text) {
            Ok(written) => Ok(Self::of_written(written)),
            Err(_) => Self::read(text),
        }
    }

    fn of_written(written: WrittenBody) -> Self {
        Self {
            schema: written.schema,
            act: written.act,
            typed_by: written.typed_by,
            at: written.at,
            zone: written.zone,
            since_start_ms: written.since_start_ms,
            versions: written.versions,
        }
    }

    /// Read a body's text. What a newer form brings is kept as [`Act::Unknown`].
    ///
    /// # Errors
    /// Where the text is not strict JSON, or breaks the form that it claims.
    pub fn read(text: &str) -> Result<Self, BodyError> {
        #[cfg(not(target_arch = "wasm32"))]
        if let Some(body) = super::answer_body::read(text) {
            return Ok(body);
        }
        Self::read_at_length(text)
    }

    pub(super) fn read_at_length(text: &str) -> Result<Self, BodyError> {
        let error = match read_strict::<WrittenBody>(text) {
            Ok(written) => return Ok(Self::of_written(written)),
            Err(error) => error,
        };
        let Form { schema } = read_strict::<Form>(text)?;
        let schema = schema.and_then(|schema| schema.as_u64()).ok_or(BodyError::NoSchema)?;
        let schema = u32::try_from(schema).map_err(|_| BodyError::NoSchema)?;
        if schema > ENTRY_SCHEMA { Ok(Self::unknown(schema, &read_strict(text)?)) } else { Err(BodyError::Form(error)) }
    }

    fn unknown(schema: u32, raw: &serde_json::Value) -> Self {
        let text = |name: &str| raw.get(name).and_then(serde_json::Value::as_str);
        let kind = raw.pointer("/act/kind").and_then(serde_json::Value::as_str).unwrap_or("unnamed");
        Self {
            schema,
            act: Act::Unknown { kind: kind.to_owned() },
            typed_by: text("typed_by").and_then(|t| PersonCode::new(t).ok()).unwrap_or_else(PersonCode::unnamed),
            at: text("at").and_then(|t| Moment::parse(t).ok()).unwrap_or(Moment::EPOCH),
            zone: text("zone").unwrap_or_default().to_owned(),
            since_start_ms: raw.get("since_start_ms").and_then(serde_json::Value::as_u64),
            versions: Versions { protocol: 0, step: None, card: None },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::{Subject, Value};

    fn sample() -> Body {
        Body {
            schema: ENTRY_SCHEMA,
            act: Act::Answer {
                key: Key {
                    subject: Subject::Examination(Uuid::from_u128(7)),
                    finding: "hind_foot_mm".into(),
                    site: Site::NONE,
                    observer: PersonCode::new("K7").unwrap(),
                },
                answer: Answer::number(452),
                supersedes: vec![],
            },
            typed_by: PersonCode::new("K7").unwrap(),
            at: Moment::parse("2027-02-14T10:23:05-05:00").unwrap(),
            zone: "America/Toronto".to_owned(),
            since_start_ms: Some(81_000),
            versions: Versions { protocol: 1, step: Some("hind_foot".to_owned()), card: None },
        }
    }

    #[test]
    fn written_and_read_again_is_the_same() {
        let body = sample();
        let text = body.write().unwrap();
        assert_eq!(Body::read(&text).unwrap(), body);
        assert!(text.starts_with(r#"{"act":{"answer":{"state":"seen","value":{"number":452}},"key":{"#), "{text}");
    }

    #[test]
    fn unknown_members_are_refused_in_our_form_and_kept_in_a_newer_one() {
        let text = sample().write().unwrap().replacen('{', r#"{"mood":"calm","#, 1);
        assert!(matches!(Body::read(&text), Err(BodyError::Form(_))));
        let newer = text.replace(r#""schema":1"#, r#""schema":2"#);
        let body = Body::read(&newer).unwrap();
        assert_eq!(body.act, Act::Unknown { kind: "answer".to_owned() });
        assert!(body.write().is_err(), "an unknown body is never written anew");
    }

    #[test]
    fn a_body_without_a_schema_or_with_a_repeated_member_is_refused() {
        assert_eq!(Body::read(r#"{"act":1}"#), Err(BodyError::NoSchema));
        let text = sample().write().unwrap().replacen('{', r#"{"schema":1,"#, 1);
        assert!(matches!(Body::read(&text), Err(BodyError::Form(_))));
    }

    #[test]
    fn the_value_form_is_tagged() {
        assert_eq!(to_canonical(&Value::choices(["b", "a", "b"])).unwrap(), r#"{"choices":["a","b"]}"#);
    }
}
