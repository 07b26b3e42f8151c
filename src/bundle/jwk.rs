//! The public key in JSON form (RFC 8037 section 2): members `crv`, `kty`, `x` and no other.

use super::base64url;
use super::key::{KeyError, PublicKey};
use super::strict::Strict;

/// Writes a key, members in the order of RFC 7638 section 3.2, which is also the canonical form.
pub fn write(key: &PublicKey) -> String {
    format!(r#"{{"crv":"Ed25519","kty":"OKP","x":"{}"}}"#, key.x())
}

/// Why a JSON value is no device key, as a lower-case clause.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum JwkError {
    /// Not an object with exactly `crv`, `kty` and `x`, all text.
    #[error("must be an object with exactly the text members crv, kty and x")]
    Shape,
    /// Another key type or curve.
    #[error("must be of type OKP on the curve Ed25519")]
    OtherKeyType,
    /// `x` is damaged.
    #[error("has a damaged member x: {0}")]
    Damaged(base64url::Damage),
    /// `x` is no usable key.
    #[error("{0}")]
    Key(KeyError),
}

/// Reads a key.
///
/// # Errors
/// See [`JwkError`].
pub fn read(value: Strict<'_>) -> Result<PublicKey, JwkError> {
    let mut members = value.into_object().ok_or(JwkError::Shape)?;
    let mut text = |name: &str| members.remove(name).and_then(Strict::into_text).ok_or(JwkError::Shape);
    let (curve, key_type, x) = (text("crv")?, text("kty")?, text("x")?);
    if !members.is_empty() {
        return Err(JwkError::Shape);
    }
    if curve != "Ed25519" || key_type != "OKP" {
        return Err(JwkError::OtherKeyType);
    }
    let bytes = base64url::decode_array(&x).map_err(JwkError::Damaged)?;
    PublicKey::from_bytes(&bytes).map_err(JwkError::Key)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bundle::{canonical, strict};

    fn read_text(text: &str) -> Result<PublicKey, JwkError> {
        read(strict::read(text.as_bytes()).unwrap())
    }

    // RFC 8037 appendix A.2.
    const A_2: &str = r#"{"kty":"OKP","crv":"Ed25519","x":"11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo"}"#;

    #[test]
    fn rfc_8037_a_2() {
        let key = read_text(A_2).unwrap();
        assert_eq!(key.x(), "11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo");
        assert!(canonical::is_canonical(write(&key).as_bytes()));
        assert_eq!(read_text(&write(&key)).unwrap(), key);
    }

    // RFC 8037 appendix A.1: a private key must never be taken for a public one.
    #[test]
    fn a_private_key_is_refused() {
        let a_1 = A_2.replace("\"crv\"", r#""d":"nWGxne_9WmC6hEr0kuwsxERJxWl7MmkZcDusAxyuf2A","crv""#);
        assert_eq!(read_text(&a_1), Err(JwkError::Shape));
    }

    #[test]
    fn other_shapes_are_refused() {
        assert_eq!(read_text("[]"), Err(JwkError::Shape));
        assert_eq!(read_text(r#"{"kty":"OKP","crv":"Ed25519"}"#), Err(JwkError::Shape));
        assert_eq!(read_text(&A_2.replace("OKP", "EC")), Err(JwkError::OtherKeyType));
        assert_eq!(read_text(&A_2.replace("Ed25519", "X25519")), Err(JwkError::OtherKeyType));
        assert!(matches!(read_text(&A_2.replace("URo", "URp")), Err(JwkError::Damaged(_))));
        assert!(matches!(read_text(&A_2.replace("URo", "")), Err(JwkError::Damaged(_))));
    }
}
