//! SHA-256 digests (FIPS 180-4), written as base64url text of 43 characters.

use super::base64url;
use sha2::{Digest as _, Sha256};
use std::fmt;
use std::str::FromStr;

/// A SHA-256 digest.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Digest(pub [u8; 32]);

/// The SHA-256 digest of `bytes`.
pub fn sha256(bytes: &[u8]) -> Digest {
    Digest(Sha256::digest(bytes).into())
}

/// The SHA-256 digest of several pieces taken as one run of bytes.
pub fn sha256_of_parts(parts: &[&[u8]]) -> Digest {
    let mut hasher = Sha256::new();
    for part in parts {
        hasher.update(part);
    }
    Digest(hasher.finalize().into())
}

impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&base64url::encode(&self.0))
    }
}

impl fmt::Debug for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Digest({self})")
    }
}

impl FromStr for Digest {
    type Err = base64url::Damage;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        base64url::decode_array(text).map(Self)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hex(digest: Digest) -> String {
        digest
            .0
            .iter()
            .fold(String::new(), |text, byte| format!("{text}{byte:02x}"))
    }

    // FIPS 180-4 example values: one block ("abc"), two blocks, and the empty message.
    #[test]
    fn fips_180_4_examples() {
        assert_eq!(
            hex(sha256(b"abc")),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
        assert_eq!(
            hex(sha256(
                b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"
            )),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"
        );
        assert_eq!(
            hex(sha256(b"")),
            "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
        );
    }

    #[test]
    fn parts_are_one_run_of_bytes() {
        assert_eq!(sha256_of_parts(&[b"a", b"", b"bc"]), sha256(b"abc"));
    }

    #[test]
    fn text_form_round_trips() {
        let digest = sha256(b"abc");
        assert_eq!(digest.to_string().len(), 43);
        assert_eq!(digest.to_string().parse::<Digest>().unwrap(), digest);
        assert!("".parse::<Digest>().is_err());
    }
}
