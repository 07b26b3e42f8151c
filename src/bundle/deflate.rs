//! Raw DEFLATE (RFC 1951), with limits on what may come out.

use miniz_oxide::deflate::compress_to_vec;
use miniz_oxide::inflate::TINFLStatus;
use miniz_oxide::inflate::core::inflate_flags::TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF;
use miniz_oxide::inflate::core::{DecompressorOxide, decompress};

/// Level 4 of 10. Measured on 9,000 entries: level 6 saves 1 % and takes more than twice the time, which
/// is the larger part of making a bundle on a phone.
const LEVEL: u8 = 4;

/// Below this many bytes the ratio is not looked at: a short list of like entries may be tiny.
const RATIO_FREE_BYTES: usize = 1 << 20;

/// The largest ratio of plain to deflated bytes. Journals reach about 20; the format could reach 1000.
const MAX_RATIO: usize = 200;

/// Why deflated bytes were refused, as a lower-case clause.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum InflateError {
    /// Not deflated data, or damaged.
    #[error("is not deflated data")]
    Broken,
    /// Ends in the middle.
    #[error("ends in the middle")]
    Truncated,
    /// More bytes after the end of the deflated data.
    #[error("goes on for {0} bytes after its end")]
    Trailing(usize),
    /// Would grow beyond the limit.
    #[error("would grow beyond {limit} bytes")]
    TooLarge {
        /// The limit in bytes.
        limit: usize,
    },
}

/// Deflates.
pub fn deflate(plain: &[u8]) -> Vec<u8> {
    compress_to_vec(plain, LEVEL)
}

/// Deflates what is read again by the same program soon: a quarter larger, in a third of the time.
pub fn deflate_quick(plain: &[u8]) -> Vec<u8> {
    compress_to_vec(plain, 1)
}

/// The most bytes that `packed` deflated bytes may grow to under an overall limit.
fn ceiling(packed: usize, limit: usize) -> usize {
    packed.saturating_mul(MAX_RATIO).max(RATIO_FREE_BYTES).min(limit)
}

/// Inflates; stops as soon as more than `limit` bytes, or more than 200 times the input, would come
/// out, before room for them is taken.
///
/// # Errors
/// See [`InflateError`].
pub fn inflate(packed: &[u8], limit: usize) -> Result<Vec<u8>, InflateError> {
    let mut inflating = Inflating::begin(packed, limit);
    while inflating.go(packed, usize::MAX)? {}
    Ok(inflating.plain)
}

/// What is inflated bit by bit.
pub(super) struct Inflating {
    state: Box<DecompressorOxide>,
    limit: usize,
    read: usize,
    written: usize,
    plain: Vec<u8>,
}

impl Inflating {
    pub(super) fn begin(packed: &[u8], limit: usize) -> Self {
        let limit = ceiling(packed.len(), limit);
        let plain = vec![0; packed.len().saturating_mul(4).clamp(256, limit.max(256))];
        Self { state: Box::default(), limit, read: 0, written: 0, plain }
    }

    /// At most so many bytes more, of the same `packed` as before; false once all are there.
    pub(super) fn go(&mut self, packed: &[u8], most: usize) -> Result<bool, InflateError> {
        let Self { state, limit, read, written, plain } = self;
        let limit = *limit;
        let rest = packed.get(*read..).unwrap_or_default();
        let flags = TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF;
        let to = plain.len().min(written.saturating_add(most));
        let room = plain.get_mut(..to).unwrap_or_default();
        let (status, took, gave) = decompress(state, rest, room, *written, flags);
        *read += took;
        *written += gave;
        match status {
            TINFLStatus::Done if *written > limit => return Err(InflateError::TooLarge { limit }),
            TINFLStatus::Done if *read < packed.len() => {
                return Err(InflateError::Trailing(packed.len() - *read));
            }
            TINFLStatus::Done => {
                plain.truncate(*written);
                return Ok(false);
            }
            TINFLStatus::HasMoreOutput if to < plain.len() => {}
            TINFLStatus::HasMoreOutput if plain.len() >= limit => {
                return Err(InflateError::TooLarge { limit });
            }
            TINFLStatus::HasMoreOutput => plain.resize(plain.len().saturating_mul(2).min(limit), 0),
            TINFLStatus::NeedsMoreInput | TINFLStatus::FailedCannotMakeProgress => {
                return Err(InflateError::Truncated);
            }
            _ => return Err(InflateError::Broken),
        }
        Ok(true)
    }

    pub(super) fn done(self) -> Vec<u8> {
        self.plain
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const LIMIT: usize = 64 << 20;

    // RFC 1951 section 3.2.4: a stored block is 1 (final, type 00), LEN, one's complement of LEN, bytes.
    #[test]
    fn rfc_1951_stored_block() {
        let mut block = vec![0x01, 0x03, 0x00, 0xfc, 0xff];
        block.extend(b"doe");
        assert_eq!(inflate(&block, LIMIT).unwrap(), b"doe");
        block.push(0);
        assert_eq!(inflate(&block, LIMIT), Err(InflateError::Trailing(1)));
    }

    // Made by zlib 1.2.13 through Python: zlib.compressobj(9, zlib.DEFLATED, -15) over b"marrow" * 20.
    #[test]
    fn what_zlib_made_is_read() {
        let packed = crate::bundle::vectors::hex("cb4d2c2aca2fcfa53b0900");
        assert_eq!(inflate(&packed, LIMIT).unwrap(), "marrow".repeat(20).as_bytes());
    }

    #[test]
    fn a_bomb_is_stopped_at_the_ratio() {
        let bomb = compress_to_vec(&vec![b'0'; 40 << 20], 9);
        let limit = bomb.len() * MAX_RATIO;
        assert!(limit < 40 << 20);
        assert_eq!(inflate(&bomb, LIMIT), Err(InflateError::TooLarge { limit }));
    }

    #[test]
    fn the_limit_itself_is_allowed() {
        let packed = deflate(&[7; 5000]);
        assert_eq!(inflate(&packed, 5000).unwrap().len(), 5000);
        assert_eq!(inflate(&packed, 4999), Err(InflateError::TooLarge { limit: 4999 }));
        assert_eq!(inflate(&deflate(b"ab"), 1), Err(InflateError::TooLarge { limit: 1 }));
    }

    #[test]
    fn cut_short_says_so() {
        let packed = deflate("browse, browse, browse and bark".as_bytes());
        assert_eq!(inflate(&packed[..packed.len() - 3], LIMIT), Err(InflateError::Truncated));
        assert_eq!(inflate(&[], LIMIT), Err(InflateError::Truncated));
        assert_eq!(inflate(&[0x07], LIMIT), Err(InflateError::Broken));
    }

    proptest! {
        #[test]
        fn round_trip(plain in proptest::collection::vec(0_u8..4, 0..3000)) {
            prop_assert_eq!(inflate(&deflate(&plain), LIMIT).unwrap(), plain);
        }

        #[test]
        fn in_parts_as_in_one_go(plain in proptest::collection::vec(0_u8..4, 0..3000), cut in 0_usize..40, most in 1_usize..900) {
            let mut packed = deflate(&plain);
            packed.truncate(packed.len().saturating_sub(cut));
            let mut inflating = Inflating::begin(&packed, LIMIT);
            let parts = loop {
                match inflating.go(&packed, most) {
                    Ok(true) => {}
                    Ok(false) => break Ok(inflating.done()),
                    Err(error) => break Err(error),
                }
            };
            prop_assert_eq!(parts, inflate(&packed, LIMIT));
        }

        #[test]
        fn never_panics(packed in proptest::collection::vec(any::<u8>(), 0..100)) {
            let _ = inflate(&packed, 10_000);
        }
    }
}
