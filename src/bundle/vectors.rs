//! Helpers for the published test vectors.

use super::key::DeviceKey;

/// Bytes of a hexadecimal text.
pub(crate) fn hex(text: &str) -> Vec<u8> {
    assert!(text.len().is_multiple_of(2));
    (0..text.len()).step_by(2).map(|at| u8::from_str_radix(&text[at..at + 2], 16).unwrap()).collect()
}

/// Exactly `N` bytes of a hexadecimal text.
pub(crate) fn hex_array<const N: usize>(text: &str) -> [u8; N] {
    hex(text).try_into().unwrap()
}

/// The published key of RFC 8032 section 7.1 TEST 1 (and of RFC 8037 appendix A). For tests only.
pub(crate) fn published_key() -> DeviceKey {
    DeviceKey::from_seed(&hex_array("9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60"))
}
