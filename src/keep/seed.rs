//! The 32 random bytes that a device's key is made from.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;

/// A key's seed. It lies beside the journal, unwrapped: whoever holds the phone can sign as it.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct Seed(pub [u8; 32]);

impl Seed {
    /// As stored: unpadded base64url.
    pub fn write(&self) -> String {
        URL_SAFE_NO_PAD.encode(self.0)
    }

    /// From its stored form; `None` where it is damaged.
    pub fn read(text: &str) -> Option<Self> {
        URL_SAFE_NO_PAD.decode(text).ok()?.try_into().ok().map(Self)
    }
}

impl std::fmt::Debug for Seed {
    // Logs and crash notes are shown and sent; a seed must not travel in them.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Seed(not shown)")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_seed_is_read_back_and_never_printed() {
        let seed = Seed([7; 32]);
        assert_eq!(Seed::read(&seed.write()), Some(seed));
        assert_eq!(Seed::read(&seed.write()[1..]), None);
        assert!(!format!("{seed:?}").contains("BwcH"));
    }
}
