//! Writes one copy of the library in which each of many mutants has a switch of its own.
//!
//!   switches JOB.json > PLACED.json
//!
//! A job names the clean tree, the copy to write, the mutants (as `cargo mutants --list --json` gives them, each with
//! a number) and the `const fn`s that must stay so. What it prints says for each mutant where in the copy its text
//! stands, so that a compiler's error finds its mutant, or why it has no switch.

mod file;
mod place;
mod render;

use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// What is to be done.
#[derive(Deserialize)]
struct Job {
    clean: String,
    copy: String,
    mutants: Vec<Mutant>,
    keep_const: BTreeSet<String>,
}

/// One mutant of the list.
#[derive(Deserialize, Clone)]
pub struct Mutant {
    pub id: u32,
    pub file: String,
    pub genre: String,
    pub replacement: String,
    pub span: Place,
}

#[derive(Deserialize, Clone, Copy)]
pub struct Place {
    pub start: Corner,
    pub end: Corner,
}

/// Both from 1.
#[derive(Deserialize, Clone, Copy)]
pub struct Corner {
    pub line: usize,
    pub column: usize,
}

/// What became of the job: where each mutant's text stands (file, from, to, in bytes), or why it stands nowhere.
#[derive(Serialize, Default)]
pub struct Placed {
    pub at: BTreeMap<u32, Vec<(String, usize, usize)>>,
    pub left_out: BTreeMap<u32, String>,
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let path = std::env::args().nth(1).ok_or("switches JOB.json: the job's file is missing")?;
    let job: Job = serde_json::from_str(&fs::read_to_string(path)?)?;
    let mut by_file: BTreeMap<String, Vec<Mutant>> = BTreeMap::new();
    for mutant in &job.mutants {
        by_file.entry(mutant.file.clone()).or_default().push(mutant.clone());
    }
    let mut placed = Placed::default();
    for (name, mutants) in by_file {
        let text = fs::read_to_string(Path::new(&job.clean).join(&name))?;
        let edits = file::edits(&text, &mutants, &job.keep_const, &mut placed)?;
        let written = render::written(&text, &edits, &name, &mut placed);
        let path = Path::new(&job.copy).join(&name);
        // What has a newer time is built anew.
        if fs::read_to_string(&path).ok().as_ref() != Some(&written) {
            fs::create_dir_all(path.parent().ok_or("a file without a folder")?)?;
            fs::write(path, written)?;
        }
    }
    println!("{}", serde_json::to_string(&placed)?);
    Ok(())
}
