//! Where entries lie between two passes: packed, each with its part.

use std::io;

use crate::bundle::deflate::{deflate_quick, inflate};

/// Bytes of entries that are packed together, where there are few parts.
const BLOCK: usize = 128 << 10;
/// What all parts together may hold that is not packed yet.
const OPEN: usize = 24 << 20;
/// Below this a block does not pack well.
const LEAST_BLOCK: usize = 8 << 10;

/// A place for bytes, in one row.
pub trait Store: Send + Sync {
    /// Puts them behind what lies there; where they begin.
    ///
    /// # Errors
    /// They cannot be written.
    fn put(&mut self, bytes: &[u8]) -> io::Result<u64>;

    /// Gets them again.
    ///
    /// # Errors
    /// They cannot be read.
    fn get(&self, at: u64, length: usize) -> io::Result<Vec<u8>>;
}

/// In memory.
#[derive(Debug, Default)]
pub struct InMemory(Vec<u8>);

impl InMemory {
    /// All that lies there.
    pub fn bytes(&self) -> &[u8] {
        &self.0
    }
}

impl Store for InMemory {
    fn put(&mut self, bytes: &[u8]) -> io::Result<u64> {
        let at = self.0.len() as u64;
        self.0.extend_from_slice(bytes);
        Ok(at)
    }

    fn get(&self, at: u64, length: usize) -> io::Result<Vec<u8>> {
        let at = usize::try_from(at).map_err(io::Error::other)?;
        let found = at.checked_add(length).and_then(|end| self.0.get(at..end));
        found.map(<[u8]>::to_vec).ok_or_else(|| io::ErrorKind::UnexpectedEof.into())
    }
}

/// An entry's body on its way to its part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Record<T = String> {
    /// Which of the archive's devices wrote it.
    pub(super) device: u32,
    /// Its number.
    pub(super) seq: u64,
    /// Another entry replaces it or takes it back.
    pub(super) superseded: bool,
    /// The body's text.
    pub(super) text: T,
}

impl Record {
    fn write(&self, to: &mut Vec<u8>) -> io::Result<()> {
        let length = u32::try_from(self.text.len()).map_err(io::Error::other)?;
        to.extend_from_slice(&self.device.to_le_bytes());
        to.extend_from_slice(&self.seq.to_le_bytes());
        to.push(self.superseded.into());
        to.extend_from_slice(&length.to_le_bytes());
        to.extend_from_slice(self.text.as_bytes());
        Ok(())
    }
}

impl<'a> Record<&'a str> {
    /// The next one, and what lies behind it.
    fn read(from: &'a [u8]) -> Option<(Self, &'a [u8])> {
        let (device, from) = from.split_first_chunk()?;
        let (seq, from) = from.split_first_chunk()?;
        let (superseded, from) = from.split_first()?;
        let (length, from) = from.split_first_chunk()?;
        let (text, from) = from.split_at_checked(u32::from_le_bytes(*length) as usize)?;
        let record = Self {
            device: u32::from_le_bytes(*device),
            seq: u64::from_le_bytes(*seq),
            superseded: *superseded != 0,
            text: std::str::from_utf8(text).ok()?,
        };
        Some((record, from))
    }
}

struct Block {
    at: u64,
    packed: u32,
    plain: u32,
}

#[derive(Default)]
struct Part {
    open: Vec<u8>,
    blocks: Vec<Block>,
}

/// Parts that lie in one store.
pub(super) struct Parts<'s> {
    store: &'s mut dyn Store,
    block: usize,
    all: Vec<Part>,
}

impl<'s> Parts<'s> {
    /// So many, with nothing in them.
    pub(super) fn new(store: &'s mut dyn Store, count: u32) -> Self {
        let block = (OPEN / (count as usize).max(1)).clamp(LEAST_BLOCK, BLOCK);
        Self { store, block, all: (0..count).map(|_| Part::default()).collect() }
    }

    /// Puts a record behind what lies in each of these parts.
    pub(super) fn put(&mut self, to: &[u32], record: &Record) -> io::Result<()> {
        for number in to {
            let Some(part) = self.all.get_mut(*number as usize) else { continue };
            record.write(&mut part.open)?;
            if part.open.len() >= self.block {
                pack(part, self.store)?;
                part.open.clear();
            }
        }
        Ok(())
    }

    /// When all was put.
    pub(super) fn close(&mut self) -> io::Result<()> {
        for part in self.all.iter_mut().filter(|part| !part.open.is_empty()) {
            pack(part, self.store)?;
            part.open = Vec::new();
        }
        Ok(())
    }

    /// Every record of a part, in the order in which they were put.
    pub(super) fn each(&self, number: u32, mut take: impl FnMut(Record<&str>)) -> io::Result<()> {
        let broken = || io::Error::new(io::ErrorKind::InvalidData, "what was put down in between reads otherwise now");
        for block in self.all.get(number as usize).into_iter().flat_map(|part| &part.blocks) {
            let packed = self.store.get(block.at, block.packed as usize)?;
            let plain = inflate(&packed, block.plain as usize).map_err(|_| broken())?;
            if plain.len() != block.plain as usize {
                return Err(broken());
            }
            let mut rest = plain.as_slice();
            while !rest.is_empty() {
                let (record, behind) = Record::read(rest).ok_or_else(broken)?;
                take(record);
                rest = behind;
            }
        }
        Ok(())
    }
}

fn pack(part: &mut Part, store: &mut dyn Store) -> io::Result<()> {
    let packed = deflate_quick(&part.open);
    let at = store.put(&packed)?;
    let size = |bytes: &[u8]| u32::try_from(bytes.len()).map_err(io::Error::other);
    part.blocks.push(Block { at, packed: size(&packed)?, plain: size(&part.open)? });
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_part_gives_back_what_was_put_in_its_order() {
        let mut store = InMemory::default();
        let mut parts = Parts::new(&mut store, 3);
        let record = |n: u32| Record {
            device: n % 7,
            seq: u64::from(n) << 33,
            superseded: n.is_multiple_of(3),
            text: format!("{{\"n\":{n}}}").repeat(usize::try_from(n).unwrap() % 900),
        };
        for n in 0..2_000 {
            parts.put(if n % 10 == 0 { &[0, 2] } else { &[2] }, &record(n)).unwrap();
        }
        parts.close().unwrap();
        for (part, step) in [(0, 10), (1, 5_000), (2, 1)] {
            let mut next = (0..2_000).step_by(step).filter(|_| part != 1);
            let all = |found: Record<&str>| {
                let wanted = record(next.next().unwrap());
                assert_eq!(Record { text: wanted.text.as_str(), ..found.clone() }, found);
                assert_eq!((found.device, found.seq, found.superseded), (wanted.device, wanted.seq, wanted.superseded));
            };
            parts.each(part, all).unwrap();
            assert_eq!(next.next(), None, "{part}");
        }
    }

    #[test]
    fn what_was_changed_in_between_is_not_taken() {
        let mut store = InMemory::default();
        let mut parts = Parts::new(&mut store, 1);
        parts.put(&[0], &Record { device: 1, seq: 2, superseded: false, text: "abc".to_owned() }).unwrap();
        parts.close().unwrap();
        let Parts { all, block, .. } = parts;
        let mut cut = InMemory(store.bytes().iter().skip(1).copied().collect());
        let parts = Parts { store: &mut cut, block, all };
        parts.each(0, |record| panic!("{record:?}")).unwrap_err();
    }
}
