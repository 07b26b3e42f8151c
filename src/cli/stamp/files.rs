//! What is in the folder, and what it digests to.

use std::path::Path;

use sha2::{Digest, Sha256};

use super::{StampError, io_at};

/// One file as it will be published.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct ListedFile {
    /// Path below the folder, with `/` between parts.
    pub(super) name: String,
    /// SHA-256 of the bytes, in lower-case hexadecimal.
    pub(super) sha256_hex: String,
}

/// Names of all files below `folder`, sorted by bytes so that no file system's order shows.
pub(super) fn names_in(folder: &Path) -> Result<Vec<String>, StampError> {
    let mut names = Vec::new();
    collect(folder, "", &mut names)?;
    names.sort_unstable();
    Ok(names)
}

fn collect(folder: &Path, below: &str, names: &mut Vec<String>) -> Result<(), StampError> {
    for item in std::fs::read_dir(folder).map_err(io_at(folder))? {
        let item = item.map_err(io_at(folder))?;
        let name = format!("{below}{}", item.file_name().to_string_lossy());
        if item.path().is_dir() {
            collect(&item.path(), &format!("{name}/"), names)?;
        } else {
            names.push(name);
        }
    }
    Ok(())
}

/// All files below `folder` with their digests, in the order of [`names_in`].
pub(super) fn list_files(folder: &Path) -> Result<Vec<ListedFile>, StampError> {
    names_in(folder)?
        .into_iter()
        .map(|name| {
            let plain = |c: char| c.is_ascii_alphanumeric() || "._-/".contains(c);
            if !name.chars().all(plain) {
                return Err(StampError::OddName { name });
            }
            let path = folder.join(&name);
            let bytes = std::fs::read(&path).map_err(io_at(&path))?;
            Ok(ListedFile { name, sha256_hex: hex(&Sha256::digest(&bytes)) })
        })
        .collect()
}

/// The version: 16 hexadecimal digits over the worker's own code and every kept file, so that a change
/// of either makes a new cache.
pub(super) fn version_of(template: &str, kept: &[ListedFile]) -> String {
    let mut digest = Sha256::new();
    digest.update(template.as_bytes());
    for file in kept {
        digest.update(format!("\n{} {}", file.sha256_hex, file.name).as_bytes());
    }
    let mut text = hex(&digest.finalize());
    text.truncate(16);
    text
}

fn hex(bytes: &[u8]) -> String {
    use std::fmt::Write;
    bytes.iter().fold(String::new(), |mut text, byte| {
        // Writing to a string cannot fail.
        let _ = write!(text, "{byte:02x}");
        text
    })
}
