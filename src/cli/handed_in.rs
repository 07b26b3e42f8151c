//! The files that a person names, folders walked through: what crews send lies in folders of mail attachments and of
//! phones' downloads.

use std::fs;
use std::path::{Path, PathBuf};

use super::error::CliError;
use super::input;
use crate::office::opening::is_picture;

/// A file to be opened.
pub(super) struct HandedIn {
    /// Where it lies.
    pub path: PathBuf,
    /// Found in a folder, not named.
    pub found: bool,
}

/// The files named, and those below the folders named, in order of their names.
///
/// # Errors
/// A folder that cannot be read.
pub(super) fn all(named: &[PathBuf]) -> Result<Vec<HandedIn>, CliError> {
    let mut out = Vec::new();
    for path in named {
        if path.is_dir() {
            walk(path, &mut out)?;
        } else {
            out.push(HandedIn { path: path.clone(), found: false });
        }
    }
    Ok(out)
}

fn walk(folder: &Path, out: &mut Vec<HandedIn>) -> Result<(), CliError> {
    let failed = |error| CliError::File { file: input::name(folder), error };
    let mut inside = Vec::new();
    for entry in fs::read_dir(folder).map_err(failed)? {
        inside.push(entry.map_err(failed)?);
    }
    inside.sort_by_key(fs::DirEntry::file_name);
    for entry in inside {
        // A link is not followed: it may lead back up.
        let kind = entry.file_type().map_err(failed)?;
        if kind.is_dir() {
            walk(&entry.path(), out)?;
        } else {
            out.push(HandedIn { path: entry.path(), found: true });
        }
    }
    Ok(())
}

/// Whether a file found in a folder is one of those that crews hand over: a picture, a text file, or what begins as a
/// signed file does. Other files of the folder are named and passed over.
pub(super) fn is_ours(path: &Path, bytes: &[u8]) -> bool {
    let start = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let begins = start.iter().find(|byte| !byte.is_ascii_whitespace()) == Some(&b'{');
    is_picture(bytes) || begins || path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("txt"))
}
