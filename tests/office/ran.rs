//! Running the office's command line inside the test process, on a folder of its own.
#![allow(dead_code)]

use marrowbook::cli::{Streams, run_with};
use marrowbook::record::Moment;
use std::fs;
use std::path::{Path, PathBuf};

/// A fresh folder for one test.
pub(crate) fn folder(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).unwrap();
    folder
}

/// An office with its archive in a folder.
pub(crate) struct Office {
    pub(crate) folder: PathBuf,
    /// What stands in the variable for the passphrase.
    pub(crate) passphrase: Option<String>,
}

/// What one run gave.
#[derive(Debug)]
pub(crate) struct Ran {
    pub(crate) code: i32,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Ran {
    /// The output read as one JSON object.
    #[track_caller]
    pub(crate) fn json(&self) -> serde_json::Value {
        serde_json::from_str(&self.out).unwrap_or_else(|error| panic!("{error}: {self:?}"))
    }
}

impl Office {
    pub(crate) fn new(folder: PathBuf) -> Self {
        Self { folder, passphrase: None }
    }

    pub(crate) fn put(&self, name: &str, bytes: &[u8]) -> String {
        let path = self.folder.join(name);
        fs::write(&path, bytes).unwrap();
        path.to_str().unwrap().to_owned()
    }

    pub(crate) fn run(&self, args: &[&str]) -> Ran {
        self.run_with(args, b"", false)
    }

    /// Runs with something on standard input; `person` says whether somebody can be asked.
    pub(crate) fn run_with(&self, args: &[&str], input: &[u8], person: bool) -> Ran {
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let mut streams = Streams {
            input: Box::new(input),
            out: Box::new(&mut out),
            err: Box::new(&mut err),
            asks_person: person,
            passphrase: self.passphrase.clone(),
            now: Moment::parse("2027-02-20T09:00:00-05:00").unwrap(),
        };
        let archive = self.folder.to_str().unwrap();
        let all = ["office", "--archive", archive].into_iter().chain(args.iter().copied()).map(Into::into);
        let code = run_with(all, &mut streams);
        drop(streams);
        Ran { code, out: String::from_utf8(out).unwrap(), err: String::from_utf8(err).unwrap() }
    }
}
