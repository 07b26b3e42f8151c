//! Device keys: Ed25519 (RFC 8032), named by their thumbprint (RFC 7638).

use super::base64url;
use super::jwk;
use crate::record::{DeviceId, Digest};
use ed25519_dalek::{Signature, Signer, SigningKey, VerifyingKey};
use std::fmt;

/// A device's signing key, made from 32 random bytes.
///
/// The bytes are wiped from memory on drop and never printed. On the phone they lie beside the
/// journal, unwrapped: the key proves which phone, not who held it.
pub struct DeviceKey(SigningKey);

impl DeviceKey {
    /// The key of a seed (RFC 8032 section 5.1.5). The seed must come from the system's random source.
    pub fn from_seed(seed: &[u8; 32]) -> Self {
        Self(SigningKey::from_bytes(seed))
    }

    /// The seed, for the device's own store.
    pub fn seed(&self) -> [u8; 32] {
        self.0.to_bytes()
    }

    /// The public half.
    pub fn public(&self) -> PublicKey {
        PublicKey(self.0.verifying_key())
    }

    /// Signs a message. The same key and message always give the same 64 bytes.
    pub fn sign(&self, message: &[u8]) -> [u8; 64] {
        self.0.sign(message).to_bytes()
    }
}

impl fmt::Debug for DeviceKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "DeviceKey({})", self.public().id())
    }
}

/// The public half of a device key.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct PublicKey(VerifyingKey);

/// Why 32 bytes are no usable public key.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum KeyError {
    /// Not the one encoding of a point on the curve.
    #[error("is not a point of the curve Ed25519")]
    NotAPoint,
    /// A point of small order: a signature under it would prove nothing.
    #[error("is a weak point, under which anyone can sign")]
    Weak,
}

impl PublicKey {
    /// Takes the 32 bytes of RFC 8032 section 5.1.2.
    ///
    /// # Errors
    /// The bytes are no point, another spelling of a point, or a point of small order.
    pub fn from_bytes(bytes: &[u8; 32]) -> Result<Self, KeyError> {
        let key = VerifyingKey::from_bytes(bytes).map_err(|_| KeyError::NotAPoint)?;
        if key.is_weak() {
            return Err(KeyError::Weak);
        }
        // The library takes a coordinate of p or more modulo p; one key would then have two ids.
        if key.to_edwards().compress().as_bytes() != bytes {
            return Err(KeyError::NotAPoint);
        }
        Ok(Self(key))
    }

    /// The 32 bytes.
    pub fn to_bytes(&self) -> [u8; 32] {
        self.0.to_bytes()
    }

    /// The bytes as base64url: member `x` of the key in JSON form (RFC 8037 section 2).
    pub fn x(&self) -> String {
        base64url::encode(&self.to_bytes())
    }

    /// The device id: the RFC 7638 thumbprint of the key.
    pub fn id(&self) -> DeviceId {
        DeviceId(Digest::of(&[jwk::write(self).as_bytes()]))
    }

    /// Whether `signature` is this key's over `message`, by the strict rules: one signature text per
    /// message, no weak points.
    pub fn verifies(&self, message: &[u8], signature: &[u8; 64]) -> bool {
        self.0.verify_strict(message, &Signature::from_bytes(signature)).is_ok()
    }
}

impl fmt::Debug for PublicKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "PublicKey({})", self.x())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bundle::vectors::{hex, hex_array};

    // RFC 8032 section 7.1: TEST 1 (empty message), TEST 2, TEST 3, TEST SHA(abc).
    // Columns: seed, public key, message, signature.
    #[test]
    fn rfc_8032_section_7_1() {
        let mut rows = 0;
        for row in include_str!("../../tests/vectors/rfc8032-7.1.csv").lines().skip(1) {
            let columns: Vec<&str> = row.split(',').collect();
            let [name, seed, public, message, signature] = columns[..] else { panic!("{row}") };
            let key = DeviceKey::from_seed(&hex_array(seed));
            assert_eq!(key.public().to_bytes(), hex_array(public), "{name}");
            assert_eq!(key.sign(&hex(message)), hex_array(signature), "{name}");
            assert!(key.public().verifies(&hex(message), &hex_array(signature)), "{name}");
            let mut changed = hex_array(signature);
            changed[63] ^= 1;
            assert!(!key.public().verifies(&hex(message), &changed), "{name}");
            rows += 1;
        }
        assert_eq!(rows, 4);
    }

    // RFC 8037 appendix A.3, which is also the example of RFC 7638 for this key type.
    #[test]
    fn rfc_8037_a_3_thumbprint() {
        let key = DeviceKey::from_seed(&hex_array("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60"));
        assert_eq!(key.public().id().to_string(), "kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k");
        assert_eq!(format!("{key:?}"), "DeviceKey(kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k)");
    }

    // The small-order points: the neutral element (y = 1), order 2 (y = -1) and order 4 (y = 0),
    // computed by hand from the curve equation of RFC 8032 section 5.1.
    #[test]
    fn weak_and_misspelt_keys_are_refused() {
        let mut neutral = [0; 32];
        neutral[0] = 1;
        assert_eq!(PublicKey::from_bytes(&neutral), Err(KeyError::Weak));
        let mut minus_one = [0xff; 32];
        minus_one[0] = 0xec;
        minus_one[31] = 0x7f;
        assert_eq!(PublicKey::from_bytes(&minus_one), Err(KeyError::Weak));
        assert_eq!(PublicKey::from_bytes(&[0; 32]), Err(KeyError::Weak));
        // y = 2 has no x on the curve
        let mut off_curve = [0; 32];
        off_curve[0] = 2;
        assert_eq!(PublicKey::from_bytes(&off_curve), Err(KeyError::NotAPoint));
    }

    #[test]
    fn a_coordinate_written_modulo_p_is_refused() {
        // Values of y from p to 2^255 - 1 are second spellings of 0 to 18. Those that are points at
        // all must not be taken.
        for low in 0xed..=0xff_u8 {
            let mut bytes = [0xff; 32];
            bytes[0] = low;
            bytes[31] = 0x7f;
            assert!(PublicKey::from_bytes(&bytes).is_err(), "{low:02x}");
        }
    }
}
