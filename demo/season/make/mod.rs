//! The invented season: seeded, so that it comes out the same to the byte each time.
//!
//! | file | holds |
//! |---|---|
//! | [`dice`] | the numbers that stand for chance |
//! | [`people`] | the crews, and what the card lets each of them do |
//! | [`herd`] | what became of each deer |
//! | [`look`] | what a crew saw of it |
//! | [`bench`] | what was looked at on the bench |
//! | [`samples`] | what left with a crew, and who had it |
//! | [`phone`] | what a crew taps, its chain in order of time, and the bundles that it hands over |
//! | [`crews`] | five crews, their outings, a stranger |
//! | [`winter`] | the winter's daily log |
//! | [`office`] | the archive |

mod bench;
mod crews;
pub(crate) mod dice;
mod herd;
mod look;
mod office;
mod people;
mod phone;
mod samples;
mod winter;

use std::error::Error;
use std::fs;
use std::path::Path;

/// Made with so many carcasses, or why not.
pub(crate) type Made<T> = Result<T, Box<dyn Error>>;

/// What the archive holds, by path in it.
fn held(folder: &Path) -> Made<Vec<String>> {
    let mut all = Vec::new();
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        if entry.file_type()?.is_dir() {
            all.extend(held(&entry.path())?.into_iter().map(|inner| format!("{name}/{inner}")));
        } else {
            all.push(name);
        }
    }
    all.sort();
    Ok(all)
}

/// Writes `files/` as crews handed them in, `archive/` as the office keeps them, `sheets/`, a
/// laboratory's sheet that nobody has entered yet, and `files.json`, the list for the office's page. How many carcasses there are.
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
    fs::create_dir_all(folder.join("sheets"))?;
    fs::write(folder.join("sheets").join(office::SECOND_SHEET), office::second_sheet(&winter))?;
    let names: Vec<String> = winter.handed.iter().map(|(name, _)| format!("files/{name}")).collect();
    let kept: Vec<String> = held(&folder.join("archive"))?;
    let list = serde_json::json!({ "passphrase": office::PASSPHRASE, "archive": kept, "files": names });
    fs::write(folder.join("files.json"), serde_json::to_string_pretty(&list)? + "\n")?;
    Ok(winter.carcasses)
}
