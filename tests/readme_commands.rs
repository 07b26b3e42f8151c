//! What the README tells an office to type is there.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/ran.rs"]
mod ran;

use marrowbook::office::lab_row::rows;
use ran::{Office, folder};

const README: &str = include_str!("../README.md");

#[test]
fn every_command_of_the_readme_is_one_of_the_programs() {
    let office = Office::new(folder("readme"));
    let mut tried = 0;
    for line in README.lines().filter_map(|line| line.strip_prefix("    office ")) {
        // The command is what stands in small letters before the first argument.
        let words = line.split_whitespace().take_while(|word| word.bytes().all(|b| b.is_ascii_lowercase()));
        let described = line.find("  ").unwrap_or(line.len());
        let command: Vec<&str> = words.take_while(|word| line.find(word).is_some_and(|at| at < described)).collect();
        let mut args = command.clone();
        args.push("--help");
        let ran = office.run(&args);
        assert!(ran.code == 0 && ran.out.contains("Usage: office"), "{line}: {ran:?}");
        tried += 1;
    }
    assert!(tried > 15, "only {tried} commands were found");
}

#[test]
fn the_readmes_sheet_of_a_laboratory_is_one() {
    let lines: Vec<&str> = README.lines().map(str::trim).skip_while(|line| !line.starts_with("sample,test,")).collect();
    let sheet: Vec<&str> = lines.into_iter().take_while(|line| !line.is_empty()).collect();
    assert_eq!(rows(sheet.join("\n").as_bytes()).unwrap().len(), 4);
}
