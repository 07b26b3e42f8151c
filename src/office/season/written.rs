//! All that a season run writes, the same from the command line and from the page.

use super::gather::Files;
use super::manifest::Manifest;
use super::table::Season;
use super::{Asked, plots, tables};
use crate::bundle::DeviceKey;
use crate::office::keyring::Keyring;

/// Files, each with its name.
pub type Named = Vec<(String, Vec<u8>)>;

/// The season as JSON, its tables and plots, and the manifest of all of them, each with its file's name. The manifest
/// is signed where there is a key, and plain without.
///
/// # Errors
/// A table or the manifest cannot be written, in words.
pub fn files(
    from: &Files,
    keyring: &Keyring,
    asked: Asked,
    found: &Season,
    key: Option<&DeviceKey>,
) -> Result<Named, String> {
    let (mut files, manifest) = unsigned(from, keyring, asked, found)?;
    files.push(manifest_file(&manifest, key)?);
    Ok(files)
}

/// The season as JSON, its tables and plots in the order of their names; and their manifest, for who signs later.
///
/// # Errors
/// A table cannot be written, in words.
pub fn unsigned(from: &Files, keyring: &Keyring, asked: Asked, found: &Season) -> Result<(Named, Manifest), String> {
    let text = serde_json::to_string_pretty(found).map_err(|error| error.to_string())? + "\n";
    let mut files: Named = vec![("season.json".to_owned(), text.into_bytes())];
    for (name, table) in tables::all(found) {
        files.push((name.to_owned(), table.write().map_err(|error| error.to_string())?));
    }
    files.extend(plots::all(found).into_iter().map(|(name, plot)| (name.to_owned(), plot.into_bytes())));
    files.sort();
    // The winter that was found is asked for by name, so that a later carcass does not move a run from the manifest.
    let winter = found.winter.split('-').next().and_then(|year| year.parse().ok());
    let manifest = Manifest::of(from, keyring, Asked { winter, ..asked }, &files);
    Ok((files, manifest))
}

/// The manifest as a file: signed where there is a key, and plain without.
///
/// # Errors
/// It cannot be written, in words.
pub fn manifest_file(manifest: &Manifest, key: Option<&DeviceKey>) -> Result<(String, Vec<u8>), String> {
    let written = manifest.write(key).map_err(|error| error.to_string())? + "\n";
    let name = if key.is_some() { "manifest.txt" } else { "manifest.json" };
    Ok((name.to_owned(), written.into_bytes()))
}
