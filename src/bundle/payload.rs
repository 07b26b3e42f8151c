//! What stands inside a bundle.
//!
//! A bundle carries one contiguous range of its own device's chain. Of each entry it carries only
//! the body and its salt: the headers follow from them, from the header digest before the range and
//! from the device, because a header has exactly one written form. The digest of the last header is
//! stated too, so that a body changed, dropped, doubled or moved before signing shows.
//!
//! Another phone's entries travel only inside that phone's own signed file, as text, under
//! `carried`. Readings travel as the phone saw them, as text that is shown and compared and never
//! believed: the office computes its own.

use crate::record::{DeviceId, Digest, Moment, Photo};
use serde::de::{Error as _, IgnoredAny, SeqAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize};
use std::fmt;
use uuid::Uuid;

/// The version of the payload's form that this program writes.
pub const PAYLOAD_FORMAT: u32 = 1;

/// The four versions under which a phone worked, named apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct FourVersions {
    /// Version of the entries' form.
    pub entry_schema: u32,
    /// Version of the signed envelope.
    pub envelope: u32,
    /// Version of the table of steps.
    pub protocol: u32,
    /// Version of the methods behind the readings.
    pub science: u32,
}

/// One entry as it is passed on. Either `body` and `salt`; or `withheld` alone; or `withheld` and
/// `found`, where the text that the phone found no longer agrees with its header.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "cli", schemars(extend("oneOf" = [
    { "required": ["body", "salt"], "maxProperties": 2 },
    { "required": ["withheld"], "not": { "anyOf": [{ "required": ["body"] }, { "required": ["salt"] }] } }
])))]
#[serde(deny_unknown_fields)]
pub struct Passed {
    /// The body's text, verbatim.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub body: Option<String>,
    /// The text as the phone found it, where it no longer agrees with its header: kept, not used.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub found: Option<String>,
    /// The 16 bytes mixed into the body's digest, in unpadded base64url.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "cli", schemars(regex(pattern = r"^[A-Za-z0-9_-]{22}$")))]
    pub salt: Option<String>,
    /// The body's salted digest, where the body itself is not passed on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub withheld: Option<Digest>,
}

impl Passed {
    /// Whether it is passed on in one of the known ways.
    fn is_known(&self) -> bool {
        match self {
            // 16 bytes in base64url.
            Self { body: Some(_), salt: Some(salt), withheld: None, found: None } => salt.len() == 22,
            Self { body: None, salt: None, withheld: Some(_), .. } => true,
            _ => false,
        }
    }
}

/// The most bundles of other phones that one bundle may carry. A phone carries eight.
pub const MOST_CARRIED: usize = 64;

/// Reads a list of entries up to the first that is passed on in no known way, that one included; the rest is read over.
/// A list of empty objects would otherwise take forty times the room of its text, and a text packs two hundredfold.
fn passed<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<Passed>, D::Error> {
    struct All;
    impl<'de> Visitor<'de> for All {
        type Value = Vec<Passed>;

        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            f.write_str("a list of entries")
        }

        fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Self::Value, A::Error> {
            let mut all: Vec<Passed> = Vec::new();
            while all.last().is_none_or(Passed::is_known) {
                let Some(one) = items.next_element()? else { return Ok(all) };
                all.push(one);
            }
            while items.next_element::<IgnoredAny>()?.is_some() {}
            Ok(all)
        }
    }
    deserializer.deserialize_seq(All)
}

/// Reads the bundles carried along; more than [`MOST_CARRIED`] end the reading, before they fill memory.
fn carried<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Vec<String>, D::Error> {
    struct All;
    impl<'de> Visitor<'de> for All {
        type Value = Vec<String>;

        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            f.write_str("a list of texts")
        }

        fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Self::Value, A::Error> {
            let mut all = Vec::new();
            while let Some(one) = items.next_element()? {
                if all.len() == MOST_CARRIED {
                    return Err(A::Error::custom(format_args!("more than {MOST_CARRIED} bundles are carried")));
                }
                all.push(one);
            }
            Ok(all)
        }
    }
    deserializer.deserialize_seq(All)
}

/// A contiguous range of one device's chain.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Range {
    /// The device whose chain it is.
    pub device: DeviceId,
    /// The entries in order.
    #[serde(deserialize_with = "passed")]
    pub entries: Vec<Passed>,
    /// Number of the first entry, from 1.
    #[cfg_attr(feature = "cli", schemars(range(min = 1)))]
    pub first_seq: u64,
    /// Digest of the last entry's header.
    pub head: Digest,
    /// Digest of the header before the first entry; absent where the range begins the chain.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub prev: Option<Digest>,
}

/// One carcass's readings as the phone saw them.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct PhoneReading {
    /// The carcass.
    pub carcass: Uuid,
    /// The readings as JSON text, verbatim.
    pub text: String,
}

/// The payload of a bundle.
///
/// Members of this and of the types above stand in the order of the canonical form, so that writing
/// them plainly gives it; sealing checks that it does.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "cli", derive(schemars::JsonSchema))]
#[serde(deny_unknown_fields)]
pub struct Payload {
    /// Ranges of chains of the same phone whose keys it has lost. No key of their own vouches for
    /// them, only this bundle's.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub adopted: Vec<Range>,
    /// Version of the program that made it.
    pub app: String,
    /// UUIDv7 of the bundle, made by the phone.
    pub bundle: Uuid,
    /// Digest of the local card in force; absent where there was none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub card: Option<Digest>,
    /// Other phones' signed bundles, verbatim; at most 64.
    #[serde(default, deserialize_with = "carried", skip_serializing_if = "Vec::is_empty")]
    #[cfg_attr(feature = "cli", schemars(extend("maxItems" = MOST_CARRIED)))]
    pub carried: Vec<String>,
    /// The range of the device's own chain.
    pub chain: Range,
    /// The crew's code on the local card; absent where none was chosen.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crew: Option<String>,
    /// Version of this form: 1.
    #[cfg_attr(feature = "cli", schemars(extend("const" = 1)))]
    pub format: u32,
    /// What the crew calls the device.
    pub label: String,
    /// When it was made, by the phone's clock.
    pub made_at: Moment,
    /// The photos that the entries name and that go with the bundle as files of their own.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub photos: Vec<Photo>,
    /// Readings as the phone saw them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub readings: Vec<PhoneReading>,
    /// The four versions.
    pub versions: FourVersions,
    /// Zone name, such as `America/Toronto`; empty where the device tells none.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub zone: String,
}
