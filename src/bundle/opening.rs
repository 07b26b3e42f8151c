//! Opening a signed file: every check, in order, before anything in it is believed.
//!
//! 1. size, then text, then the three members of the envelope and no other;
//! 2. the protected header: strict base64url, strict JSON, the known members and no other;
//! 3. the kind of file; 4. the key and its name; 5. the signature over the text as received;
//! 6. only then the payload, unpacked from the same bytes and in canonical form.

use super::base64url;
use super::canonical;
use super::deflate::{InflateError, Inflating, inflate};
use super::jwk;
use super::key::PublicKey;
use super::kind::{Kind, Typ};
use super::open_error::{OpenError, Part};
use super::received::{Repair, receive};
use super::strict::{self, ReadError, Strict};
use std::borrow::Cow;
use std::collections::BTreeMap;

/// The most that is read of one signed file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    /// Bytes of the file.
    pub file_bytes: usize,
    /// Bytes of the payload once unpacked.
    pub payload_bytes: usize,
}

impl Default for Limits {
    /// 64 MiB each: over 5,000 full carcasses, while a phone can still hold it.
    fn default() -> Self {
        Self { file_bytes: 64 << 20, payload_bytes: 64 << 20 }
    }
}

/// A signed file that was not changed since it was signed. Whether the signer is known is another
/// question, which only a keyring answers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Opened<'a> {
    /// What the file is.
    pub kind: Kind,
    /// The key that signed it.
    pub signer: PublicKey,
    /// The payload, exactly as signed: strict JSON in canonical form.
    pub payload: Vec<u8>,
    /// What was taken off the file before reading; empty for a file as it was made.
    pub repairs: Vec<Repair>,
    /// The file as received, for the archive.
    pub original: &'a [u8],
}

/// Opens a file that should be of `kind`, with the usual [`Limits`].
///
/// # Errors
/// The first check that fails, see [`OpenError`].
pub fn open(bytes: &[u8], kind: Kind) -> Result<Opened<'_>, OpenError> {
    open_within(bytes, kind, Limits::default())
}

/// Opens a file that should be of `kind`.
///
/// # Errors
/// The first check that fails, see [`OpenError`].
pub fn open_within(bytes: &[u8], kind: Kind, limits: Limits) -> Result<Opened<'_>, OpenError> {
    let verified = verify_kind(bytes, kind, limits)?;
    let payload = unpack(verified.packed, kind.deflated(), limits.payload_bytes)?;
    let Verified { signer, repairs, .. } = verified;
    Ok(Opened { kind, signer, payload, repairs, original: bytes })
}

fn verify_kind(bytes: &[u8], kind: Kind, limits: Limits) -> Result<Verified, OpenError> {
    let expect = |typ: &str| match Typ::parse(typ) {
        Typ::Known(found) if found == kind => Ok(()),
        Typ::Newer(found, version) if found == kind => Err(OpenError::NewerVersion { kind, version }),
        Typ::Known(found) | Typ::Newer(found, _) => Err(OpenError::OtherKind { expected: kind, found }),
        Typ::Unknown => Err(OpenError::UnknownKind(typ.to_owned())),
    };
    verify(bytes, limits.file_bytes, expect, kind.deflated())
}

/// The same in short parts, for a page that answers taps in between. Nothing of the payload is to be had before the last
/// check has passed.
pub struct Opening {
    signer: PublicKey,
    repairs: Vec<Repair>,
    unpacking: Unpacking,
}

enum Unpacking {
    Inflating {
        packed: Vec<u8>,
        inflating: Inflating,
    },
    /// All there, its form not looked at.
    Plain(Vec<u8>),
    Checked(Vec<u8>),
}

/// What a file of which nothing more is to be checked holds.
#[derive(Debug)]
pub struct Checked {
    /// The key that signed it.
    pub signer: PublicKey,
    /// The payload, exactly as signed: strict JSON in canonical form.
    pub payload: Vec<u8>,
    /// What was taken off the file before reading.
    pub repairs: Vec<Repair>,
}

/// Bytes that are inflated in one part.
const AT_ONCE: usize = 1 << 19;

impl Opening {
    /// Checks a file up to its signature.
    ///
    /// # Errors
    /// The first check that fails, see [`OpenError`].
    pub fn begin(bytes: &[u8], kind: Kind, limits: Limits) -> Result<Self, OpenError> {
        let Verified { signer, packed, repairs } = verify_kind(bytes, kind, limits)?;
        let unpacking = if kind.deflated() {
            let inflating = Inflating::begin(&packed, limits.payload_bytes);
            Unpacking::Inflating { packed, inflating }
        } else {
            Unpacking::Plain(within(packed, limits.payload_bytes)?)
        };
        Ok(Self { signer, repairs, unpacking })
    }

    /// Does the next part; false where nothing is left.
    ///
    /// # Errors
    /// The first check that fails, see [`OpenError`].
    pub fn step(&mut self) -> Result<bool, OpenError> {
        // Nothing checked stands there meanwhile: after an error there is nothing to be had.
        self.unpacking = match std::mem::replace(&mut self.unpacking, Unpacking::Plain(Vec::new())) {
            Unpacking::Inflating { packed, mut inflating } => {
                if inflating.go(&packed, AT_ONCE).map_err(not_inflated)? {
                    Unpacking::Inflating { packed, inflating }
                } else {
                    Unpacking::Plain(inflating.done())
                }
            }
            Unpacking::Plain(payload) => {
                canonical::check(&payload).map_err(OpenError::PayloadForm)?;
                Unpacking::Checked(payload)
            }
            checked @ Unpacking::Checked(_) => {
                self.unpacking = checked;
                return Ok(false);
            }
        };
        Ok(true)
    }

    /// Whether the next part goes through the whole payload.
    pub fn is_long(&self) -> bool {
        matches!(self.unpacking, Unpacking::Plain(_))
    }

    /// What it holds, once nothing is left.
    ///
    /// # Errors
    /// The first check that fails, where not all were made.
    pub fn done(mut self) -> Result<Checked, OpenError> {
        while self.step()? {}
        let Self { signer, repairs, unpacking, .. } = self;
        let payload = if let Unpacking::Checked(payload) = unpacking { payload } else { Vec::new() };
        Ok(Checked { signer, payload, repairs })
    }
}

fn not_inflated(error: InflateError) -> OpenError {
    match error {
        InflateError::TooLarge { limit } => OpenError::PayloadTooLarge { limit },
        other => OpenError::Inflate(other),
    }
}

fn within(packed: Vec<u8>, limit: usize) -> Result<Vec<u8>, OpenError> {
    if packed.len() > limit { Err(OpenError::PayloadTooLarge { limit }) } else { Ok(packed) }
}

fn unpack(packed: Vec<u8>, deflated: bool, limit: usize) -> Result<Vec<u8>, OpenError> {
    let payload = if deflated { inflate(&packed, limit).map_err(not_inflated)? } else { within(packed, limit)? };
    canonical::check(&payload).map_err(OpenError::PayloadForm)?;
    Ok(payload)
}

/// What stands once the signature has been checked.
struct Verified {
    signer: PublicKey,
    packed: Vec<u8>,
    repairs: Vec<Repair>,
}

/// Checks everything up to the signature. `expect` judges the `typ`; `deflated` says whether the
/// header must name the packing.
fn verify(
    bytes: &[u8],
    limit: usize,
    expect: impl Fn(&str) -> Result<(), OpenError>,
    deflated: bool,
) -> Result<Verified, OpenError> {
    let received = receive(bytes, limit)?;
    let Parts { protected, payload, signature } = envelope(&received.text)?;
    let header = part(Part::Protected, &protected)?;
    let signer = header_key(&header, expect, deflated)?;
    let signature =
        base64url::decode_array(&signature).map_err(|damage| OpenError::Base64 { part: Part::Signature, damage })?;
    let packed = part(Part::Payload, &payload)?;
    if !signer.verifies(format!("{protected}.{payload}").as_bytes(), &signature) {
        return Err(OpenError::SignatureWrong);
    }
    Ok(Verified { signer, packed, repairs: received.repairs })
}

fn part(part: Part, text: &str) -> Result<Vec<u8>, OpenError> {
    base64url::decode(text).map_err(|damage| OpenError::Base64 { part, damage })
}

struct Parts<'a> {
    protected: Cow<'a, str>,
    payload: Cow<'a, str>,
    signature: Cow<'a, str>,
}

/// Takes the envelope apart: exactly three text members.
fn envelope(text: &str) -> Result<Parts<'_>, OpenError> {
    let read = strict::read_few(text.as_bytes()).map_err(|error| match error {
        ReadError::Truncated => OpenError::Truncated,
        other => OpenError::NotAnEnvelope(other),
    })?;
    let mut members = read.into_object().ok_or(OpenError::NotAnObject)?;
    match members.get("signatures") {
        Some(Strict::List(list)) if list.len() > 1 => {
            return Err(OpenError::SignedAgain(list.len()));
        }
        Some(_) => return Err(OpenError::SignaturesList),
        None => {}
    }
    if members.contains_key("header") {
        return Err(OpenError::UnprotectedHeader);
    }
    let mut take = |part: Part| {
        let value = members.remove(part.name()).ok_or(OpenError::MissingMember(part))?;
        value.into_text().ok_or(OpenError::MemberNotText(part))
    };
    let parts =
        Parts { protected: take(Part::Protected)?, payload: take(Part::Payload)?, signature: take(Part::Signature)? };
    match members.into_keys().next() {
        Some(name) => Err(OpenError::UnknownMember(name.into_owned())),
        None => Ok(parts),
    }
}

/// Checks the protected header and gives the key in it.
///
/// The kind is judged before unknown members are, so that a file of a later version, which may have
/// more of them, is called newer and not damaged.
fn header_key(
    header: &[u8],
    expect: impl Fn(&str) -> Result<(), OpenError>,
    deflated: bool,
) -> Result<PublicKey, OpenError> {
    let read = strict::read_few(header).map_err(OpenError::HeaderNotJson)?;
    let mut members = read.into_object().ok_or(OpenError::HeaderNotObject)?;
    expect(&text_member(&mut members, "typ")?)?;
    for name in ["crit", "b64"] {
        if members.contains_key(name) {
            return Err(OpenError::Extension(name));
        }
    }
    let algorithm = text_member(&mut members, "alg")?;
    if algorithm != "Ed25519" {
        return Err(OpenError::WrongAlgorithm(algorithm.into_owned()));
    }
    if text_member(&mut members, "cty")? != "application/json" {
        return Err(OpenError::WrongForm { member: "cty" });
    }
    let zip = members.remove("zip");
    let right_zip =
        if deflated { zip.and_then(Strict::into_text).is_some_and(|zip| zip == "DEF") } else { zip.is_none() };
    if !right_zip {
        return Err(OpenError::WrongForm { member: "zip" });
    }
    let kid = text_member(&mut members, "kid")?;
    let key = members.remove("jwk").ok_or(OpenError::HeaderMissing("jwk"))?;
    if let Some(name) = members.into_keys().next() {
        return Err(OpenError::HeaderUnknown(name.into_owned()));
    }
    let key = jwk::read(key).map_err(OpenError::BadKey)?;
    if key.id().to_string() != kid {
        return Err(OpenError::KeyNameMismatch);
    }
    Ok(key)
}

fn text_member<'a>(
    members: &mut BTreeMap<Cow<'a, str>, Strict<'a>>,
    name: &'static str,
) -> Result<Cow<'a, str>, OpenError> {
    members.remove(name).and_then(Strict::into_text).ok_or(OpenError::HeaderMissing(name))
}

#[cfg(test)]
#[path = "opening_tests.rs"]
mod tests;
