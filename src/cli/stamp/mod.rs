//! The build's last step, run by Trunk over the folder that is about to be published.
//!
//! It takes comments out of styles and scripts, writes the content security policy into every page, lets its program
//! begin before the page was read to its end, lists every file
//! with its SHA-256, and fills the service worker's template with that list, so that the worker changes exactly when a
//! file does.
//! The same folder always gives the same bytes: nothing of the clock or the machine goes in.

mod begin;
mod files;
mod lean;
mod policy;

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use files::{ListedFile, list_files, version_of};
use policy::with_policy;

use crate::words::{Language, carried, part_texts};

/// The template's name in the folder; a folder without it gets no worker (the office's page).
const TEMPLATE: &str = "sw.template.js";
/// The name that the worker is published under.
const WORKER: &str = "sw.js";
const VERSION_MARK: &str = "STAMP:VERSION";
const FILES_MARK: &str = "/*STAMP:FILES*/[]";
/// Files that a phone keeps only once it has asked for them.
const LATER_MARK: &str = "/*STAMP:LATER*/[]";
/// The folder of those: languages other than the form's own.
const LATER: &str = "words/";
/// The variable that names the folder with the parts, where there are any.
const PARTS_VARIABLE: &str = "MARROWBOOK_PARTS";

/// Why a folder could not be stamped. Trunk then keeps the site that was there before.
#[derive(Debug, thiserror::Error)]
pub enum StampError {
    /// Neither an argument nor Trunk's environment names a folder.
    #[error("no folder given: run this through `trunk build`, or as `stamp FOLDER`")]
    NoFolder,
    /// A file could not be read, written or removed.
    #[error("{path}: {source}", path = path.display())]
    Io {
        /// The file or folder.
        path: PathBuf,
        /// What the system said.
        source: std::io::Error,
    },
    /// A page is not UTF-8, or uses carriage returns, which a browser drops before it hashes a script.
    #[error("{path}: a page must be UTF-8 text with plain line feeds", path = path.display())]
    NotPlainText {
        /// The page.
        path: PathBuf,
    },
    /// A page has no plain `<head>` line to put the policy after.
    #[error("{path}: no `<head>` to put the policy into", path = path.display())]
    NoHead {
        /// The page.
        path: PathBuf,
    },
    /// A page already carries a policy: the folder was stamped before.
    #[error("{path}: already has a content security policy", path = path.display())]
    AlreadyStamped {
        /// The page.
        path: PathBuf,
    },
    /// A file's name would need escaping in an address.
    #[error("{name}: only letters, digits, `.`, `-`, `_` and `/` may be in a published name")]
    OddName {
        /// The name, relative to the folder.
        name: String,
    },
    /// The worker's template does not hold a mark exactly once.
    #[error("{TEMPLATE}: `{mark}` must be there exactly once")]
    BadTemplate {
        /// The mark.
        mark: &'static str,
    },
}

/// What was done, for the build's log.
#[derive(Debug, PartialEq, Eq)]
pub struct Stamped {
    /// Pages that got a policy.
    pub pages: usize,
    /// Files that the worker keeps; none without a worker.
    pub kept_files: usize,
    /// The version written into the worker, 16 hexadecimal digits; none without a worker.
    pub version: Option<String>,
}

/// Runs over the folder named by the first argument, or else by Trunk's environment.
pub fn main() -> ExitCode {
    let folder = std::env::args_os().nth(1).or_else(|| std::env::var_os("TRUNK_STAGING_DIR"));
    let outcome = folder.ok_or(StampError::NoFolder).and_then(|folder| stamp(Path::new(&folder)));
    match outcome {
        Ok(done) => {
            let version = done.version.as_deref().unwrap_or("no worker");
            eprintln!("stamp: {} pages, {} kept files, {version}", done.pages, done.kept_files);
            ExitCode::SUCCESS
        }
        Err(error) => {
            eprintln!("stamp: {error}");
            ExitCode::FAILURE
        }
    }
}

/// Stamps one folder.
pub fn stamp(folder: &Path) -> Result<Stamped, StampError> {
    lean::lean(folder)?;
    let mut pages = 0;
    for name in files::names_in(folder)? {
        if Path::new(&name).extension().is_some_and(|end| end == "html") {
            let path = folder.join(&name);
            let page = begin::at_once(&with_policy(&path, &read_text(&path)?)?);
            write(&path, &page)?;
            pages += 1;
        }
    }
    let template_path = folder.join(TEMPLATE);
    if !template_path.exists() {
        return Ok(Stamped { pages, kept_files: 0, version: None });
    }
    write_languages(folder)?;
    if let Some(parts) = std::env::var_os(PARTS_VARIABLE) {
        let below = folder.join("parts");
        take_parts(Path::new(&parts), &below)?;
        for language in Language::ALL {
            write(&below.join(format!("{}.txt", language.code())), &part_texts(language))?;
        }
    }
    let template = read_text(&template_path)?;
    std::fs::remove_file(&template_path).map_err(io_at(&template_path))?;
    let kept: Vec<ListedFile> = list_files(folder)?.into_iter().filter(|file| file.name != WORKER).collect();
    let version = version_of(&template, &kept);
    write(&folder.join(WORKER), &lean::script(&fill(&template, &version, &kept)?))?;
    Ok(Stamped { pages, kept_files: kept.len(), version: Some(version) })
}

/// Parts that were built before: wasm of their own, loaded when used and kept with the rest.
fn take_parts(from: &Path, into: &Path) -> Result<(), StampError> {
    std::fs::create_dir_all(into).map_err(io_at(into))?;
    for name in files::names_in(from)? {
        let path = into.join(&name);
        std::fs::copy(from.join(&name), &path).map_err(io_at(&path))?;
    }
    Ok(())
}

/// The texts of each language that the form itself does not carry.
fn write_languages(folder: &Path) -> Result<(), StampError> {
    let below = folder.join("words");
    std::fs::create_dir_all(&below).map_err(io_at(&below))?;
    for language in Language::ALL {
        if let Some(texts) = carried(language) {
            write(&below.join(format!("{}.txt", language.code())), &texts)?;
        }
    }
    Ok(())
}

fn fill(template: &str, version: &str, kept: &[ListedFile]) -> Result<String, StampError> {
    for mark in [VERSION_MARK, FILES_MARK, LATER_MARK] {
        if template.matches(mark).count() != 1 {
            return Err(StampError::BadTemplate { mark });
        }
    }
    // Names and digests hold nothing that would need escaping; `list_files` refuses the rest.
    let list = |later: bool| {
        let rows: Vec<String> = (kept.iter().filter(|file| file.name.starts_with(LATER) == later))
            .map(|file| format!("\n  [\"{}\", \"{}\"]", file.name, file.sha256_hex))
            .collect();
        format!("[{}\n]", rows.join(","))
    };
    Ok(template.replace(VERSION_MARK, version).replace(FILES_MARK, &list(false)).replace(LATER_MARK, &list(true)))
}

fn read_text(path: &Path) -> Result<String, StampError> {
    let bytes = std::fs::read(path).map_err(io_at(path))?;
    match String::from_utf8(bytes) {
        Ok(text) if !text.contains('\r') => Ok(text),
        _ => Err(StampError::NotPlainText { path: path.to_owned() }),
    }
}

fn write(path: &Path, text: &str) -> Result<(), StampError> {
    std::fs::write(path, text).map_err(io_at(path))
}

fn io_at(path: &Path) -> impl FnOnce(std::io::Error) -> StampError + use<> {
    let path = path.to_owned();
    move |source| StampError::Io { path, source }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PAGE: &str = "<!DOCTYPE html>\n<html>\n<head>\n<title>x</title></head><body></body></html>\n";
    const SMALL_TEMPLATE: &str =
        "const VERSION = \"STAMP:VERSION\";\nconst FILES = /*STAMP:FILES*/[];\nconst LATER = /*STAMP:LATER*/[];\n";

    /// A folder of its own for one test, removed when dropped.
    struct Folder(PathBuf);

    impl Folder {
        fn with(name: &str, files: &[(&str, &str)]) -> Self {
            let path = std::env::temp_dir().join(format!("marrowbook-stamp-{name}-{}", std::process::id()));
            let _ = std::fs::remove_dir_all(&path);
            for (file, text) in files {
                let at = path.join(file);
                std::fs::create_dir_all(at.parent().unwrap()).unwrap();
                std::fs::write(at, text).unwrap();
            }
            Self(path)
        }
        fn read(&self, name: &str) -> String {
            std::fs::read_to_string(self.0.join(name)).unwrap()
        }
    }

    impl Drop for Folder {
        fn drop(&mut self) {
            let _ = std::fs::remove_dir_all(&self.0);
        }
    }

    #[test]
    fn worker_lists_final_bytes_of_every_file_but_itself() {
        let folder = Folder::with("lists", &[("index.html", PAGE), ("icons/a.png", "abc"), (TEMPLATE, SMALL_TEMPLATE)]);
        let done = stamp(&folder.0).unwrap();
        let worker = folder.read(WORKER);
        assert_eq!((done.pages, done.kept_files), (1, 1 + Language::ALL.len()));
        // SHA-256 of "abc": FIPS 180-4 example, also RFC 6234 section 8.5 TEST1.
        assert!(
            worker.contains("[\"icons/a.png\", \"ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad\"]")
        );
        assert!(worker.contains("\"index.html\"") && !worker.contains(TEMPLATE));
        assert!(worker.contains(&done.version.unwrap()));
        let (files, later) = worker.split_once("const LATER").unwrap();
        assert!(later.contains("\"words/fr.txt\"") && later.contains("\"words/es.txt\""), "to be had once asked for");
        assert!(!files.contains("words/"), "and not kept before");
        assert!(!folder.0.join(TEMPLATE).exists());
        assert!(folder.read("index.html").contains("Content-Security-Policy"));
    }

    #[test]
    fn same_files_give_the_same_worker_and_any_change_another_version() {
        let files = [("index.html", PAGE), ("a.js", "1"), (TEMPLATE, SMALL_TEMPLATE)];
        let (one, two) = (Folder::with("same-1", &files), Folder::with("same-2", &files));
        let version = stamp(&one.0).unwrap().version;
        assert_eq!(version, stamp(&two.0).unwrap().version);
        assert_eq!(one.read(WORKER), two.read(WORKER));
        let changed = Folder::with("same-3", &[("index.html", PAGE), ("a.js", "2"), (TEMPLATE, SMALL_TEMPLATE)]);
        assert_ne!(version, stamp(&changed.0).unwrap().version);
        let renamed = Folder::with("same-4", &[("index.html", PAGE), ("b.js", "1"), (TEMPLATE, SMALL_TEMPLATE)]);
        assert_ne!(version, stamp(&renamed.0).unwrap().version);
        let other_worker = format!("{SMALL_TEMPLATE}// changed\n");
        let code = Folder::with("same-5", &[("index.html", PAGE), ("a.js", "1"), (TEMPLATE, &other_worker)]);
        assert_ne!(version, stamp(&code.0).unwrap().version);
    }

    #[test]
    fn a_folder_without_template_gets_a_policy_and_no_worker() {
        let folder = Folder::with("office", &[("index.html", PAGE)]);
        assert_eq!(stamp(&folder.0).unwrap(), Stamped { pages: 1, kept_files: 0, version: None });
        assert!(!folder.0.join(WORKER).exists());
    }

    #[test]
    fn what_cannot_be_stamped_is_named() {
        let twice = Folder::with("twice", &[("index.html", PAGE)]);
        stamp(&twice.0).unwrap();
        assert!(matches!(stamp(&twice.0), Err(StampError::AlreadyStamped { .. })));
        let odd = Folder::with("odd", &[("a b.js", "1"), (TEMPLATE, SMALL_TEMPLATE)]);
        assert!(matches!(stamp(&odd.0), Err(StampError::OddName { .. })));
        let unmarked = Folder::with("unmarked", &[(TEMPLATE, "const FILES = [];\n")]);
        assert!(matches!(stamp(&unmarked.0), Err(StampError::BadTemplate { .. })));
        let returns = Folder::with("returns", &[("index.html", "<head>\r\n</head>")]);
        assert!(matches!(stamp(&returns.0), Err(StampError::NotPlainText { .. })));
        let headless = Folder::with("headless", &[("index.html", "<p>no head</p>")]);
        assert!(matches!(stamp(&headless.0), Err(StampError::NoHead { .. })));
    }
}
