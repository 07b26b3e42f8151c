//! Making a signed file: a flattened JWS (RFC 7515 section 7.2.2), one line of ASCII.
//!
//! ```text
//! {"payload":"<base64url>","protected":"<base64url>","signature":"<base64url>"}
//! ```
//!
//! Protected header: `alg` is `Ed25519` (RFC 9864), `cty` is `application/json`, `jwk` is the public
//! key, `kid` its thumbprint (RFC 7638), `typ` the kind of file. A bundle has `zip` with the value
//! `DEF` as well: its payload is raw DEFLATE (RFC 1951) of the JSON text. RFC 7516 gives that member
//! and value their meaning for encrypted files; in a signed one they are private use, and a reader
//! that does not know them still verifies the signature.
//!
//! An outside reader must take the key from the office's keyring by `kid`. The key inside the file
//! serves only to tell a damaged file from an unknown phone.

use super::base64url::encode;
use super::canonical;
use super::deflate::deflate;
use super::jwk;
use super::key::DeviceKey;
use super::kind::Kind;
use super::opening::Limits;
use super::strict::ReadError;

/// Why a payload was not signed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum SealError {
    /// The payload is not strict JSON in canonical form: no reader of ours would take it.
    #[error("the content {0}")]
    Form(ReadError),
    /// The payload or the signed file would be larger than a reader of ours takes.
    #[error("the content has {bytes} bytes, and at most {limit} can be handed over in one file; hand over in parts")]
    TooLarge {
        /// Its size in bytes.
        bytes: usize,
        /// The limit in bytes.
        limit: usize,
    },
}

/// Signs a payload, which must be JSON in canonical form. The same input always gives the same text.
///
/// # Errors
/// See [`SealError`].
pub fn seal(kind: Kind, payload: &[u8], key: &DeviceKey) -> Result<String, SealError> {
    seal_within(kind, payload, key, Limits::default())
}

fn seal_within(kind: Kind, payload: &[u8], key: &DeviceKey, limits: Limits) -> Result<String, SealError> {
    canonical::check(payload).map_err(SealError::Form)?;
    within(payload.len(), limits.payload_bytes)?;
    let sealed = if kind.deflated() {
        seal_as(&kind.typ(), Some("DEF"), &deflate(payload), key)
    } else {
        seal_as(&kind.typ(), None, payload, key)
    };
    within(sealed.len(), limits.file_bytes)?;
    Ok(sealed)
}

fn within(bytes: usize, limit: usize) -> Result<(), SealError> {
    if bytes > limit { Err(SealError::TooLarge { bytes, limit }) } else { Ok(()) }
}

/// Signs bytes under any `typ`, without looking at them.
pub(crate) fn seal_as(typ: &str, zip: Option<&str>, packed: &[u8], key: &DeviceKey) -> String {
    let protected = encode(header(typ, zip, key).as_bytes());
    let payload = encode(packed);
    let signature = encode(&key.sign(format!("{protected}.{payload}").as_bytes()));
    format!(r#"{{"payload":"{payload}","protected":"{protected}","signature":"{signature}"}}"#)
}

/// The protected header in canonical form. No value in it needs an escape.
fn header(typ: &str, zip: Option<&str>, key: &DeviceKey) -> String {
    let public = key.public();
    let (jwk, kid) = (jwk::write(&public), public.id());
    let zip = zip.map(|zip| format!(r#","zip":"{zip}""#)).unwrap_or_default();
    format!(r#"{{"alg":"Ed25519","cty":"application/json","jwk":{jwk},"kid":"{kid}","typ":"{typ}"{zip}}}"#)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bundle::strict;
    use crate::bundle::vectors::published_key;

    // Made and verified outside this project: Python jwcrypto 1.6.1, joserfc 1.8.0 and PyNaCl 1.6.2,
    // and the JavaScript library jose 6.2.18 accept it and refuse it after a one-byte change. The key
    // is the published one of RFC 8032 section 7.1 TEST 1.
    pub(crate) const KNOWN_ANSWER: &str = r#"{"payload":"eyJmb3JtYXQiOiJzYW1wbGUvMSIsInJlY29yZHMiOltdfQ","protected":"eyJhbGciOiJFZDI1NTE5IiwiY3R5IjoiYXBwbGljYXRpb24vanNvbiIsImp3ayI6eyJjcnYiOiJFZDI1NTE5Iiwia3R5IjoiT0tQIiwieCI6IjExcVlBWUt4Q3JmVlNfN1R5V1FIT2c3aGN2UGFwaU1scndJYWFQY0hVUm8ifSwia2lkIjoia1ByS19xbXhWV2FZVkE5d3dCRjZJdW8zdlZ6ejdUeEhDVHdYQnlnclM0ayIsInR5cCI6InNhbXBsZS1idW5kbGUtMStqd3MifQ","signature":"CDj2fi4zqquOUi4U9SWylLoK61cfZxO5QRWW1QvHjx8yvcqQ1UDHuIhQWPIJeUGVLjFatRQFg0upFFYzQwdZCA"}"#;

    #[test]
    fn the_known_answer_is_made_byte_for_byte() {
        let made = seal_as("sample-bundle-1+jws", None, br#"{"format":"sample/1","records":[]}"#, &published_key());
        assert_eq!(made, KNOWN_ANSWER);
    }

    #[test]
    fn envelope_and_header_are_canonical() {
        assert!(canonical::is_canonical(KNOWN_ANSWER.as_bytes()));
        for kind in Kind::ALL {
            for zip in [None, Some("DEF")] {
                assert_eq!(canonical::check(header(&kind.typ(), zip, &published_key()).as_bytes()), Ok(()));
            }
        }
    }

    #[test]
    fn a_payload_that_no_reader_would_take_is_not_signed() {
        let refused = |payload: &[u8]| seal(Kind::Card, payload, &published_key()).unwrap_err();
        assert!(matches!(refused(b"{ }"), SealError::Form(ReadError::NotCanonical { .. })));
        assert!(matches!(refused(b"not json"), SealError::Form(strict::ReadError::NotJson(_))));
    }

    #[test]
    fn nothing_is_made_that_is_too_large_to_open() {
        let payload = format!("\"{}\"", "x".repeat(1000));
        let seal = |kind, file_bytes, payload_bytes| {
            let limits = Limits { file_bytes, payload_bytes };
            seal_within(kind, payload.as_bytes(), &published_key(), limits)
        };
        assert_eq!(seal(Kind::Card, 9000, 1001), Err(SealError::TooLarge { bytes: 1002, limit: 1001 }));
        assert!(matches!(seal(Kind::Card, 1500, 1002), Err(SealError::TooLarge { limit: 1500, .. })));
        assert!(seal(Kind::Bundle, 1500, 1002).is_ok());
    }
}
