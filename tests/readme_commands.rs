//! What the README tells an office to type is there.
#![cfg(feature = "cli")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "office/ran.rs"]
mod ran;

use marrowbook::office::lab_row::rows;
use ran::{Office, folder};

const README: &str = include_str!("../README.md");

/// What the README has of one command: the line that begins with it, and those that go on below.
fn entries() -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for line in README.lines() {
        match (line.strip_prefix("    office "), line.strip_prefix("                             ")) {
            (Some(begins), _) => out.push(begins.to_owned()),
            (None, Some(goes_on)) => out.last_mut().unwrap().extend([" ", goes_on]),
            (None, None) => {}
        }
    }
    out
}

/// The help of a command, which names it: a word that is none would be taken for an argument of the one before.
fn help(office: &Office, command: &[&str]) -> String {
    let ran = office.run(&[command, &["--help"]].concat());
    let usage = format!("Usage: office {} ", command.join(" "));
    assert!(ran.code == 0 && ran.out.contains(&usage), "{command:?}: {ran:?}");
    ran.out
}

/// Every argument of a command is in its help: places by their names, options with what follows them.
fn arguments(help: &str, words: &[&str]) {
    let usage = help.lines().find(|line| line.starts_with("Usage:")).unwrap();
    let mut words = words.iter().map(|word| word.trim_end_matches("..."));
    while let Some(word) = words.next() {
        if word.starts_with("--") {
            let value = words.next().unwrap();
            assert!(help.contains(&format!("{word} <{value}>")), "{word} {value}: {help}");
        } else if !word.is_empty() {
            assert!([format!("<{word}>"), format!("[{word}]")].iter().any(|one| usage.contains(one)), "{word}: {help}");
        }
    }
}

#[test]
fn every_command_of_the_readme_is_one_of_the_programs() {
    let office = Office::new(folder("readme"));
    let (mut tried, mut options) = (0, 0);
    for entry in entries() {
        let (typed, about) = entry.split_once("  ").unwrap();
        let words: Vec<&str> = typed.split_whitespace().collect();
        // The command is what stands in small letters before the first argument.
        let of_command =
            |words: &[&str]| words.iter().take_while(|w| w.bytes().all(|b| b.is_ascii_lowercase())).count();
        let (command, rest) = words.split_at(of_command(&words));
        let told = help(&office, command);
        arguments(&told, rest);
        tried += 1;
        let mut all_help = told;
        // What stands for several names them in brackets.
        if rest == ["..."] {
            let (_, named) = about.rsplit_once('(').unwrap();
            for one in named.trim_end_matches(')').split(',') {
                let words: Vec<&str> = one.split_whitespace().collect();
                let (sub, rest) = words.split_at(of_command(&words));
                let told = help(&office, &[command, sub].concat());
                arguments(&told, rest);
                all_help += &told;
                tried += 1;
            }
        }
        let apart = |c: char| !(c.is_ascii_alphanumeric() || c == '-');
        for option in about.split(apart).filter(|word| word.starts_with("--")) {
            assert!(all_help.split(apart).any(|word| word == option), "{command:?} has no {option}: {all_help}");
            options += 1;
        }
    }
    assert!(tried > 25 && options > 5, "only {tried} commands and {options} options were found");
}

#[test]
fn the_readmes_sheet_of_a_laboratory_is_one() {
    let lines: Vec<&str> = README.lines().map(str::trim).skip_while(|line| !line.starts_with("sample,test,")).collect();
    let sheet: Vec<&str> = lines.into_iter().take_while(|line| !line.is_empty()).collect();
    assert_eq!(rows(sheet.join("\n").as_bytes()).unwrap().len(), 4);
}
