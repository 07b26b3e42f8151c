//! The invented season: seeded, so that it comes out the same to the byte each time.
//!
//! | file | holds |
//! |---|---|
//! | [`dice`] | the numbers that stand for chance |
//! | [`herd`] | what became of each deer |
//! | [`look`] | what a crew saw of it |
//! | [`bench`] | what was looked at on the bench |
//! | [`phone`] | a phone's chain, and the bundles that it hands over |
//! | [`crews`] | five crews, their outings, a stranger |
//! | [`winter`] | the winter's daily log |
//! | [`office`] | the archive |

mod bench;
mod crews;
mod dice;
mod herd;
mod look;
mod office;
mod phone;
mod winter;

use std::error::Error;
use std::fs;
use std::path::Path;

/// Made with so many carcasses, or why not.
pub(crate) type Made<T> = Result<T, Box<dyn Error>>;

/// Writes `files/` as crews handed them in, `archive/` as the office keeps them, and `files.json`, the list for the
/// office's page. How many carcasses there are.
pub(crate) fn season(folder: &Path) -> Made<usize> {
    if folder.exists() {
        fs::remove_dir_all(folder)?;
    }
    let winter = crews::all()?;
    fs::create_dir_all(folder.join("files"))?;
    for (name, bytes) in &winter.handed {
        fs::write(folder.join("files").join(name), bytes)?;
    }
    office::archive(&folder.join("archive"), &winter)?;
    let names: Vec<String> = winter.handed.iter().map(|(name, _)| format!("files/{name}")).collect();
    let list = serde_json::json!({ "keyring": "archive/keyring.txt", "files": names });
    fs::write(folder.join("files.json"), serde_json::to_string_pretty(&list)? + "\n")?;
    Ok(winter.carcasses)
}
