//! Numbers that stand for chance: SplitMix64 (Steele, Lea and Flood 2014), started from a fixed number.

/// A die that always falls the same way.
pub(crate) struct Dice(u64);

impl Dice {
    /// One for each purpose, so that a change in one place moves nothing elsewhere.
    pub(crate) const fn new(start: u64) -> Self {
        Self(start.wrapping_mul(0x9E37_79B9_7F4A_7C15))
    }

    pub(crate) const fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number under `sides`.
    pub(crate) fn below(&mut self, sides: u64) -> u64 {
        self.next() % sides.max(1)
    }

    /// A whole number from `low` to `high`.
    pub(crate) fn between(&mut self, low: i64, high: i64) -> i64 {
        let span = u64::try_from(high - low + 1).unwrap_or(1);
        low + i64::try_from(self.below(span)).unwrap_or(0)
    }

    /// True so many times in a hundred.
    pub(crate) fn chance(&mut self, in_hundred: u64) -> bool {
        self.below(100) < in_hundred
    }

    /// Bytes for ids and salts.
    pub(crate) fn bytes<const N: usize>(&mut self) -> [u8; N] {
        let mut out = [0; N];
        for part in out.chunks_mut(8) {
            let next = self.next().to_le_bytes();
            for (slot, byte) in part.iter_mut().zip(next) {
                *slot = byte;
            }
        }
        out
    }
}
