//! One frame: header, symbol, check.
//!
//! | bytes | what |
//! |---|---|
//! | 3 | `MBF` |
//! | 1 | version, 1 |
//! | 8 | first bytes of the file's SHA-256 |
//! | 3 | length of the file in bytes, big-endian |
//! | 3 | number of the frame, big-endian |
//! | 340 | symbol; the last of a file is filled with zeros |
//! | 4 | CRC-32 (ISO-HDLC) of all before, big-endian |

use super::{MOST_BYTES, SYMBOL_BYTES};

/// What every frame of ours begins with.
const MAGIC: &[u8; 3] = b"MBF";
/// The version that is written and read.
pub const VERSION: u8 = 1;
/// Bytes before the symbol.
const HEADER: usize = 18;
/// Bytes of a whole frame.
pub const FRAME_BYTES: usize = HEADER + SYMBOL_BYTES + 4;
/// Numbers of frames are below this: 27 days at seven a second.
pub const NUMBERS: u32 = 1 << 24;

/// Which file a frame belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FileName {
    /// First bytes of its SHA-256.
    pub digest: [u8; 8],
    /// Its length in bytes.
    pub bytes: usize,
}

impl FileName {
    /// Symbols that it is cut into.
    pub const fn symbols(&self) -> usize {
        self.bytes.div_ceil(SYMBOL_BYTES)
    }
}

/// A frame that was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Frame {
    /// The file that it is of.
    pub file: FileName,
    /// Its number.
    pub number: u32,
    /// The symbol, [`SYMBOL_BYTES`] long.
    pub symbol: Vec<u8>,
}

/// Why what a code holds is no frame to be used.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotOurs {
    /// Another code.
    #[error("not one of our frames")]
    Foreign,
    /// One of ours, of another version.
    #[error("a frame of version {0}; this program reads version {VERSION}")]
    OtherVersion(u8),
    /// One of ours, but its check does not hold.
    #[error("a damaged frame")]
    Damaged,
    /// It announces no file, or one that is too large.
    #[error("a file of {0} bytes is announced; at most {MOST_BYTES} are taken")]
    Length(usize),
}

impl Frame {
    /// The bytes that go into the code.
    pub fn write(&self) -> Vec<u8> {
        let mut bytes = Vec::with_capacity(FRAME_BYTES);
        bytes.extend_from_slice(MAGIC);
        bytes.push(VERSION);
        bytes.extend_from_slice(&self.file.digest);
        bytes.extend_from_slice(&three(self.file.bytes));
        bytes.extend_from_slice(&three(self.number as usize));
        bytes.extend_from_slice(&self.symbol);
        let check = crc32(&bytes);
        bytes.extend_from_slice(&check.to_be_bytes());
        bytes
    }

    /// Reads what a code holds.
    ///
    /// # Errors
    /// Why it is no frame to be used.
    pub fn read(bytes: &[u8]) -> Result<Self, NotOurs> {
        let rest = bytes.strip_prefix(MAGIC).ok_or(NotOurs::Foreign)?;
        let (version, rest) = rest.split_first().ok_or(NotOurs::Foreign)?;
        if *version != VERSION {
            return Err(NotOurs::OtherVersion(*version));
        }
        if bytes.len() != FRAME_BYTES {
            return Err(NotOurs::Damaged);
        }
        let (body, check) = bytes.split_last_chunk::<4>().ok_or(NotOurs::Damaged)?;
        if crc32(body) != u32::from_be_bytes(*check) {
            return Err(NotOurs::Damaged);
        }
        let parts = || {
            let (digest, rest) = rest.split_first_chunk::<8>()?;
            let (length, rest) = rest.split_first_chunk::<3>()?;
            let (number, rest) = rest.split_first_chunk::<3>()?;
            let (symbol, _) = rest.split_last_chunk::<4>()?;
            Some((*digest, number_of(*length), number_of(*number), symbol.to_vec()))
        };
        let (digest, length, number, symbol) = parts().ok_or(NotOurs::Damaged)?;
        let bytes = length as usize;
        if bytes == 0 || bytes > MOST_BYTES {
            return Err(NotOurs::Length(bytes));
        }
        Ok(Self { file: FileName { digest, bytes }, number, symbol })
    }
}

/// The three low bytes; lengths and numbers are below 2^24.
#[allow(clippy::cast_possible_truncation)] // cut on purpose
const fn three(n: usize) -> [u8; 3] {
    [(n >> 16) as u8, (n >> 8) as u8, n as u8]
}

fn number_of([a, b, c]: [u8; 3]) -> u32 {
    u32::from_be_bytes([0, a, b, c])
}

/// CRC-32 as in ISO 3309 and PNG annex D, bit by bit: a frame is short.
fn crc32(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(u32::MAX, |crc, byte| {
        (0..8).fold(crc ^ u32::from(*byte), |crc, _| (crc >> 1) ^ (0xedb8_8320 & (crc & 1).wrapping_neg()))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn frame() -> Frame {
        let file = FileName { digest: [1, 2, 3, 4, 5, 6, 7, 8], bytes: 70_000 };
        Frame { file, number: 70_001, symbol: vec![9; SYMBOL_BYTES] }
    }

    /// The check value of the catalogue of parametrised CRC algorithms for CRC-32/ISO-HDLC, over "123456789".
    #[test]
    fn the_published_check_value() {
        assert_eq!(crc32(b"123456789"), 0xcbf4_3926);
    }

    #[test]
    fn written_and_read_again() {
        let bytes = frame().write();
        assert_eq!(bytes.len(), FRAME_BYTES);
        assert_eq!(Frame::read(&bytes), Ok(frame()));
    }

    #[test]
    fn every_changed_byte_shows() {
        let bytes = frame().write();
        for at in 0..bytes.len() {
            let mut changed = bytes.clone();
            changed[at] ^= 0x10;
            assert!(Frame::read(&changed).is_err(), "{at}");
        }
        assert_eq!(Frame::read(&bytes[..100]), Err(NotOurs::Damaged));
    }

    #[test]
    fn other_codes_other_versions_and_wrong_lengths_are_told_apart() {
        assert_eq!(Frame::read(b"https://example.org"), Err(NotOurs::Foreign));
        assert_eq!(Frame::read(b""), Err(NotOurs::Foreign));
        let mut newer = frame().write();
        newer[3] = 2;
        assert_eq!(Frame::read(&newer), Err(NotOurs::OtherVersion(2)));
        for bytes in [0, MOST_BYTES + 1] {
            let frame = Frame { file: FileName { bytes, ..frame().file }, ..frame() };
            assert_eq!(Frame::read(&frame.write()), Err(NotOurs::Length(bytes)));
        }
    }
}
