//! The archive as one zip file, for browsers that cannot open a folder: written with stored entries, read with stored
//! or deflated ones, as the systems' own tools make them.

use std::collections::BTreeMap;
use std::io::{Cursor, Read, Write};
use std::sync::Arc;

use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

use super::archive::{FOLDERS, SHARED};
use crate::bundle::deflate::inflate;

/// The most bytes that a zip may have, and all of it together may unpack to. A page has four billion at most, for the
/// zip, what is unpacked, and the zip that is packed again.
pub const ZIP_BYTES: u64 = 512 << 20;

/// More than a zip spends on one file's two headers beside its path.
const HEADERS_BYTES: usize = 256;

/// Files by path below the archive's folder.
pub type Tree = BTreeMap<String, Arc<[u8]>>;

/// Why a zip was not read.
#[derive(Debug, thiserror::Error)]
pub enum ZippedError {
    /// Not a zip, or a damaged one.
    #[error("it is no zip file, or one that was cut on its way; save or copy it again")]
    Zip(#[from] zip::result::ZipError),
    /// A file in it cannot be unpacked.
    #[error("{name}: {reason}")]
    File {
        /// Which.
        name: String,
        /// Why, as a clause.
        reason: String,
    },
    /// It would fill the page's memory.
    #[error("it unpacks to more than {} MB; open the folder instead", ZIP_BYTES >> 20)]
    TooLarge,
    /// Nothing of an archive in it.
    #[error("it holds no archive: no received, cards, keyring or office key in it")]
    NoArchive,
}

/// Packs an archive: the same files give the same bytes.
///
/// # Errors
/// More files or bytes than a zip can have.
pub fn pack(files: &Tree) -> Result<Vec<u8>, ZippedError> {
    // Taken at once: a vector that grows holds its content twice for a while.
    let bytes: usize = files.iter().map(|(path, bytes)| bytes.len() + 2 * path.len() + HEADERS_BYTES).sum();
    let mut out = Vec::new();
    out.try_reserve_exact(bytes).map_err(|_| ZippedError::TooLarge)?;
    let mut writer = ZipWriter::new(Cursor::new(out));
    let options = SimpleFileOptions::default().compression_method(CompressionMethod::Stored);
    for (path, bytes) in files {
        writer.start_file(path.as_str(), options)?;
        writer.write_all(bytes).map_err(zip::result::ZipError::Io)?;
    }
    Ok(writer.finish()?.into_inner())
}

/// Unpacks an archive. A folder round it, as tools put one there, is taken off; files of other programs stay in it and
/// go back into the next zip.
///
/// # Errors
/// See [`ZippedError`]. Nothing is taken then: half an archive would give other figures without a word.
pub fn unpack(bytes: &[u8]) -> Result<Tree, ZippedError> {
    unpack_within(bytes, ZIP_BYTES)
}

fn unpack_within(bytes: &[u8], limit: u64) -> Result<Tree, ZippedError> {
    if u64::try_from(bytes.len()).is_ok_and(|length| length > limit) {
        return Err(ZippedError::TooLarge);
    }
    let mut zip = ZipArchive::new(Cursor::new(bytes))?;
    let mut files = Tree::new();
    let mut left = limit;
    for place in 0..zip.len() {
        let mut entry = zip.by_index_raw(place)?;
        if entry.is_dir() {
            continue;
        }
        let shown = entry.name().map(std::borrow::Cow::into_owned).unwrap_or_default();
        let refuse = |reason: &str| ZippedError::File { name: shown.clone(), reason: reason.to_owned() };
        let path = entry.enclosed_name().ok_or_else(|| refuse("its path leads out of the folder"))?;
        let path = path.to_string_lossy().replace('\\', "/");
        if path.starts_with("__MACOSX/") || path.ends_with(".DS_Store") {
            continue;
        }
        if entry.encrypted() {
            return Err(refuse("it is locked by a password; make the zip without one"));
        }
        let size = entry.size();
        if size > left {
            return Err(ZippedError::TooLarge);
        }
        left -= size;
        let limit = usize::try_from(size).unwrap_or(usize::MAX);
        let (method, crc) = (entry.compression(), entry.crc32());
        let mut packed = Vec::new();
        entry.read_to_end(&mut packed).map_err(zip::result::ZipError::Io)?;
        let plain = if method == CompressionMethod::Stored {
            packed
        } else if method == CompressionMethod::DEFLATE {
            inflate(&packed, limit).map_err(|error| refuse(&format!("its content {error}")))?
        } else {
            return Err(refuse("it is packed in a way that this page does not know; make the zip with another tool"));
        };
        if plain.len() != limit || crc32fast::hash(&plain) != crc {
            return Err(refuse("it was changed or cut on its way; copy the zip again"));
        }
        if files.insert(path, plain.into()).is_some() {
            return Err(refuse("it stands twice in the zip"));
        }
    }
    without_folder(files)
}

fn without_folder(files: Tree) -> Result<Tree, ZippedError> {
    let first = |path: &str| path.split('/').next().unwrap_or_default().to_owned();
    // The names at the top of an archive, by which it is told from a folder round it.
    let is_top = |path: &str| SHARED.iter().chain(&FOLDERS).any(|name| *name == first(path));
    if files.keys().any(|path| is_top(path)) {
        return Ok(files);
    }
    let round = files.keys().next().map(|path| first(path) + "/").unwrap_or_default();
    let inner: Option<Tree> =
        files.iter().map(|(path, bytes)| Some((path.strip_prefix(&round)?.to_owned(), bytes.clone()))).collect();
    inner.filter(|inner| inner.keys().any(|path| is_top(path))).ok_or(ZippedError::NoArchive)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tree() -> Tree {
        let long = vec![b'x'; 5_000];
        [("keyring.txt", &b"ring"[..]), ("received/ab.txt", &long), ("notes/own.txt", b"a note of the office's own")]
            .map(|(path, bytes)| (path.to_owned(), Arc::from(bytes)))
            .into()
    }

    #[test]
    fn packed_and_unpacked_is_the_same_and_the_same_bytes_each_time() {
        let packed = pack(&tree()).unwrap();
        assert_eq!(unpack(&packed).unwrap(), tree());
        assert_eq!(packed, pack(&tree()).unwrap());
    }

    // Made by another program: python3 -c with zipfile of Python 3.11, ZIP_DEFLATED, the three files above below
    // the folder `archive`.
    #[test]
    fn a_deflated_zip_of_another_program_with_a_folder_round_it_is_read() {
        assert_eq!(unpack(include_bytes!("../../tests/reference/zipped_by_python.zip")).unwrap(), tree());
    }

    #[test]
    fn what_would_fill_the_page_is_refused_before_it_is_unpacked() {
        let python = include_bytes!("../../tests/reference/zipped_by_python.zip");
        let plain: u64 = tree().values().map(|bytes| bytes.len() as u64).sum();
        assert!(unpack_within(python, plain).is_ok(), "as much as fits");
        assert!(matches!(unpack_within(python, plain - 1), Err(ZippedError::TooLarge)));
        let packed = pack(&tree()).unwrap();
        assert!(matches!(unpack_within(&packed, packed.len() as u64 - 1), Err(ZippedError::TooLarge)));
    }

    #[test]
    fn what_is_damaged_or_no_archive_is_refused_by_name() {
        assert!(matches!(unpack(b"no zip"), Err(ZippedError::Zip(_))));
        assert!(matches!(unpack(&pack(&Tree::new()).unwrap()), Err(ZippedError::NoArchive)));
        let other: Tree = [("letters/a.txt".to_owned(), Arc::from(&b"x"[..]))].into();
        assert!(matches!(unpack(&pack(&other).unwrap()), Err(ZippedError::NoArchive)));
        let mut packed = pack(&tree()).unwrap();
        let at = packed.windows(4).position(|part| part == b"xxxx").unwrap();
        packed[at + 9] = b'y';
        let told = unpack(&packed).unwrap_err().to_string();
        assert!(told.contains("received/ab.txt: it was changed or cut"), "{told}");
        let up: Tree = [("received/../../a".to_owned(), Arc::from(&b"x"[..]))].into();
        assert!(matches!(unpack(&pack(&up).unwrap()), Err(ZippedError::File { .. })));
    }
}
