//! Base64url without padding (RFC 4648 section 5, as RFC 7515 appendix C wants it), strictly.

use base64::Engine;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;

/// Encodes bytes, without padding.
pub fn encode(bytes: &[u8]) -> String {
    URL_SAFE_NO_PAD.encode(bytes)
}

/// Decodes text; refuses padding, white space, the other base64 alphabet and stray bits in the last
/// character.
///
/// Stray bits matter: without the check two different texts would decode to the same bytes, and a
/// changed character in a signed file could go unseen.
///
/// # Errors
/// A clause that says what is wrong and where (position counted in characters from 0).
pub fn decode(text: &str) -> Result<Vec<u8>, Damage> {
    URL_SAFE_NO_PAD.decode(text).map_err(|error| Damage(error.to_string()))
}

/// Decodes text that must hold exactly `N` bytes.
///
/// # Errors
/// As [`decode`], or a wrong length.
pub fn decode_array<const N: usize>(text: &str) -> Result<[u8; N], Damage> {
    let bytes = decode(text)?;
    let found = bytes.len();
    bytes.try_into().map_err(|_| Damage(format!("holds {found} bytes where {N} belong")))
}

/// What is wrong with a base64url text, as a lower-case clause.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct Damage(String);

#[cfg(test)]
mod tests {
    use super::*;

    // RFC 4648 section 10, padding left off.
    #[test]
    fn rfc_4648_vectors() {
        for (plain, coded) in [("", ""), ("f", "Zg"), ("fo", "Zm8"), ("foo", "Zm9v"), ("foobar", "Zm9vYmFy")] {
            assert_eq!(encode(plain.as_bytes()), coded);
            assert_eq!(decode(coded).unwrap(), plain.as_bytes());
        }
    }

    #[test]
    fn what_is_not_strict_is_refused() {
        // padding; stray bits ("Zh" would decode to "f" as well); the other alphabet; white space;
        // a length that no byte string has
        for text in ["Zg==", "Zh", "+/+/", "Zm 9v", "Zm9v\n", "Z"] {
            assert!(decode(text).is_err(), "{text:?} was accepted");
        }
        assert_eq!(decode("-_-_").unwrap(), [0xfb, 0xff, 0xbf]);
    }

    #[test]
    fn a_wrong_length_is_named() {
        assert_eq!(decode_array::<2>("Zm9v").unwrap_err().to_string(), "holds 3 bytes where 2 belong");
    }
}
