//! Names of things: devices, entries, people, digests, and time-ordered ids.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use sha2::Digest as _;
use uuid::Uuid;

/// A text that is not the name it should be.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum IdError {
    /// Not 32 bytes in unpadded base64url.
    #[error("`{0}` is not a digest (43 characters of unpadded base64url)")]
    Digest(String),
    /// Not `device:number`.
    #[error("`{0}` is not an entry id (device, colon, number)")]
    Entry(String),
    /// Not 1 to 12 letters, digits or hyphens.
    #[error("`{0}` is not a person code (1 to 12 letters, digits or hyphens)")]
    Person(String),
}

/// 32 bytes of SHA-256, printed as unpadded base64url.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Digest(pub [u8; 32]);

impl Digest {
    /// SHA-256 over the parts in turn.
    pub fn of(parts: &[&[u8]]) -> Self {
        let mut hasher = sha2::Sha256::new();
        for part in parts {
            hasher.update(part);
        }
        Self(hasher.finalize().into())
    }

    /// SHA-256 over what is told bit by bit.
    pub fn bit_by_bit() -> Digesting {
        Digesting(sha2::Sha256::new())
    }

    /// From its printed form.
    ///
    /// # Errors
    /// Where the text is not 43 characters of strict unpadded base64url.
    pub fn parse(text: &str) -> Result<Self, IdError> {
        let bad = || IdError::Digest(text.chars().take(50).collect());
        let bytes = URL_SAFE_NO_PAD.decode(text).map_err(|_| bad())?;
        bytes.try_into().map(Self).map_err(|_| bad())
    }
}

impl std::fmt::Display for Digest {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let mut text = [0; 43];
        URL_SAFE_NO_PAD.encode_slice(self.0, &mut text).map_err(|_| std::fmt::Error)?;
        f.write_str(str::from_utf8(&text).map_err(|_| std::fmt::Error)?)
    }
}

impl std::fmt::Debug for Digest {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Digest({self})")
    }
}

/// A digest of what is not there all at once.
#[derive(Clone, Debug)]
pub struct Digesting(sha2::Sha256);

impl Digesting {
    /// Takes in what comes next.
    pub fn take(&mut self, bytes: &[u8]) {
        self.0.update(bytes);
    }

    /// The digest of all of it.
    pub fn done(self) -> Digest {
        Digest(self.0.finalize().into())
    }
}

/// A device: the RFC 7638 thumbprint of its public key.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct DeviceId(pub Digest);

impl std::fmt::Display for DeviceId {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.fmt(f)
    }
}

/// One entry: its device and its number on that device's chain, from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EntryId {
    /// The device that wrote it.
    pub device: DeviceId,
    /// Its number, from 1.
    pub seq: u64,
}

impl EntryId {
    /// From `device:number`.
    ///
    /// # Errors
    /// Where the text is not of that form.
    pub fn parse(text: &str) -> Result<Self, IdError> {
        let bad = || IdError::Entry(text.chars().take(70).collect());
        let (device, seq) = text.split_once(':').ok_or_else(bad)?;
        let device = Digest::parse(device).map_err(|_| bad())?;
        let seq = seq.parse().map_err(|_| bad())?;
        Ok(Self { device: DeviceId(device), seq })
    }
}

impl std::fmt::Display for EntryId {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}:{}", self.device, self.seq)
    }
}

/// A person by the code that the local card gives; names stay on the card and in the office.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PersonCode(String);

impl PersonCode {
    /// From text: 1 to 12 letters, digits or hyphens.
    ///
    /// # Errors
    /// Where the text is longer, empty or holds anything else.
    pub fn new(text: &str) -> Result<Self, IdError> {
        let fits = (1..=12).contains(&text.chars().count()) && text.chars().all(|c| c.is_alphanumeric() || c == '-');
        if fits { Ok(Self(text.to_owned())) } else { Err(IdError::Person(text.chars().take(20).collect())) }
    }

    /// The code for a crew that has given none.
    pub fn unnamed() -> Self {
        Self("unnamed".to_owned())
    }

    /// The code.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

/// A UUIDv7 (RFC 9562) from milliseconds since 1970 and ten random bytes. Never read back as a
/// date: phone clocks are wrong.
pub fn uuid_v7(unix_ms: u64, random: [u8; 10]) -> Uuid {
    uuid::Builder::from_unix_timestamp_millis(unix_ms, &random).into_uuid()
}

macro_rules! as_text {
    ($name:ident, $parse:expr, $pattern:literal, $what:literal) => {
        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.collect_str(self)
            }
        }
        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let text = String::deserialize(deserializer)?;
                let parse = $parse;
                parse(&text).map_err(|e: IdError| de::Error::custom(e))
            }
        }
        #[cfg(feature = "cli")]
        impl schemars::JsonSchema for $name {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($name).into()
            }
            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!({ "type": "string", "description": $what, "pattern": $pattern })
            }
        }
    };
}

impl std::fmt::Display for PersonCode {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

as_text!(Digest, Digest::parse, "^[A-Za-z0-9_-]{43}$", "SHA-256 in unpadded base64url");
as_text!(
    DeviceId,
    |t: &str| Digest::parse(t).map(DeviceId),
    "^[A-Za-z0-9_-]{43}$",
    "RFC 7638 thumbprint of the device's key"
);
as_text!(EntryId, EntryId::parse, "^[A-Za-z0-9_-]{43}:[0-9]+$", "device, colon, number on its chain");
as_text!(PersonCode, PersonCode::new, "^[^\\x00-,./:-@\\[-`{-\\x7f]{1,12}$", "Person code of the local card");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sha256_of_abc() {
        // FIPS 180-4 example for "abc".
        let hex = Digest::of(&[b"a", b"bc"]).0.iter().fold(String::new(), |hex, byte| format!("{hex}{byte:02x}"));
        assert_eq!(hex, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }

    #[test]
    fn uuid_v7_has_the_layout_of_rfc_9562() {
        // RFC 9562 appendix A.6: unix_ts_ms 0x017F22E279B0, rand_a 0xCC3, rand_b 0x18C4DC0C0C07398F.
        let mut random = [0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f];
        random[0] = 0x0c;
        let id = uuid_v7(0x017F_22E2_79B0, random);
        assert_eq!(id.to_string(), "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
    }

    #[test]
    fn names_are_checked() {
        assert!(PersonCode::new("K7").is_ok());
        assert!(PersonCode::new("").is_err());
        assert!(PersonCode::new("Ann Smith").is_err());
        assert!(Digest::parse("abc").is_err());
        assert!(EntryId::parse("x:1").is_err());
    }
}
