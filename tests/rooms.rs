//! Arrows between rooms run down the table only, and no browser crate is used outside the browser's rooms.
//!
//! The check reads the source text: it sees every `crate::room` and every `super::` that climbs out of a
//! room, grouped or not, in code that any feature or platform would compile.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::path::Path;

/// Each room with the rooms that it may use, besides itself. The table of the design, section 3.
const TABLE: [(&str, &[&str]); 13] = [
    ("order", &[]),
    ("record", &["order"]),
    ("science", &["order"]),
    ("words", &["order"]),
    ("card", &["order", "record"]),
    ("reading", &["order", "record", "science", "card", "words"]),
    ("guide", &["order", "record", "science", "reading", "card", "words"]),
    ("bundle", &["order", "record"]),
    ("keep", &["order", "record"]),
    ("frames", &["record"]),
    ("office", &["order", "record", "science", "words", "card", "reading", "guide", "bundle", "keep"]),
    ("web", &["order", "record", "science", "words", "card", "reading", "guide", "bundle", "keep", "frames", "office"]),
    ("cli", &["order", "record", "science", "words", "card", "reading", "guide", "bundle", "keep", "frames", "office"]),
];

/// Crates that only make sense in a browser; `gloo_*` besides.
const BROWSER_CRATES: [&str; 7] =
    ["web_sys", "js_sys", "wasm_bindgen", "wasm_bindgen_futures", "serde_wasm_bindgen", "leptos", "idb"];

#[derive(Debug, Clone, PartialEq, Eq)]
enum Token {
    Word(String),
    Mark(char),
}

/// Words and marks of Rust source without comments, strings and character literals.
fn tokens(source: &str) -> Vec<Token> {
    let text: Vec<char> = source.chars().collect();
    let at = |i: usize| text.get(i).copied().unwrap_or('\0');
    let mut found = Vec::new();
    let mut i = 0;
    while i < text.len() {
        let c = at(i);
        if c == '/' && at(i + 1) == '/' {
            while i < text.len() && at(i) != '\n' {
                i += 1;
            }
        } else if c == '/' && at(i + 1) == '*' {
            let mut depth = 1;
            i += 2;
            while i < text.len() && depth > 0 {
                match (at(i), at(i + 1)) {
                    ('/', '*') => (depth, i) = (depth + 1, i + 2),
                    ('*', '/') => (depth, i) = (depth - 1, i + 2),
                    _ => i += 1,
                }
            }
        } else if c == '"' {
            i = end_of_string(&text, i, None);
        } else if c == '\'' {
            // A character literal closes within a few characters; anything else is a lifetime.
            if at(i + 1) == '\\' {
                i += 3;
                while i < text.len() && at(i) != '\'' {
                    i += 1;
                }
                i += 1;
            } else if at(i + 2) == '\'' {
                i += 3;
            } else {
                i += 1;
            }
        } else if c.is_alphanumeric() || c == '_' {
            let start = i;
            while at(i).is_alphanumeric() || at(i) == '_' {
                i += 1;
            }
            let word: String = text[start..i].iter().collect();
            let raw = matches!(word.as_str(), "r" | "br" | "cr");
            if raw && (at(i) == '"' || at(i) == '#') {
                let hashes = text[i..].iter().take_while(|c| **c == '#').count();
                if at(i + hashes) == '"' {
                    i = end_of_string(&text, i + hashes, Some(hashes));
                    continue;
                }
            }
            found.push(Token::Word(word));
        } else {
            if !c.is_whitespace() {
                found.push(Token::Mark(c));
            }
            i += 1;
        }
    }
    found
}

/// The index after a string that opens at `start`; `hashes` for a raw one.
fn end_of_string(text: &[char], start: usize, hashes: Option<usize>) -> usize {
    let mut i = start + 1;
    while i < text.len() {
        match (text[i], hashes) {
            ('\\', None) => i += 2,
            ('"', None) => return i + 1,
            ('"', Some(n)) if text[i + 1..].iter().take(n).filter(|c| **c == '#').count() == n => {
                return i + 1 + n;
            }
            _ => i += 1,
        }
    }
    i
}

fn is_path_mark(tokens: &[Token], i: usize) -> bool {
    tokens.get(i) == Some(&Token::Mark(':')) && tokens.get(i + 1) == Some(&Token::Mark(':'))
}

/// First names after a path that ends before `i`: one, or each member of a group in braces.
fn names_after(tokens: &[Token], i: usize) -> Vec<String> {
    match tokens.get(i) {
        Some(Token::Word(word)) => vec![word.clone()],
        Some(Token::Mark('*')) => vec!["*".to_owned()],
        Some(Token::Mark('{')) => {
            let (mut names, mut depth, mut first) = (Vec::new(), 1, true);
            for token in &tokens[i + 1..] {
                match token {
                    Token::Mark('{') => depth += 1,
                    Token::Mark('}') => depth -= 1,
                    Token::Mark(',') if depth == 1 => first = true,
                    Token::Word(word) if depth == 1 && first => {
                        names.push(word.clone());
                        first = false;
                    }
                    _ => {}
                }
                if depth == 0 {
                    break;
                }
            }
            names
        }
        _ => Vec::new(),
    }
}

/// Names of top-level modules that a file uses. `depth` is how many modules deep the file is.
fn rooms_used(tokens: &[Token], depth: usize) -> Vec<String> {
    let word = |i: usize, text: &str| tokens.get(i) == Some(&Token::Word(text.to_owned()));
    let mut used = Vec::new();
    for i in 0..tokens.len() {
        if word(i, "crate") && is_path_mark(tokens, i + 1) {
            used.extend(names_after(tokens, i + 3));
        }
        let chain_starts = word(i, "super") && !(i >= 3 && word(i - 3, "super") && is_path_mark(tokens, i - 2));
        if chain_starts {
            let (mut steps, mut end) = (0, i);
            while word(end, "super") && is_path_mark(tokens, end + 1) {
                steps += 1;
                end += 3;
            }
            // A module written inside the file adds steps, so a longer climb counts as well; only
            // names of rooms matter then.
            if steps >= depth {
                let known = |name: &String| TABLE.iter().any(|(room, _)| room == name);
                used.extend(names_after(tokens, end).into_iter().filter(known));
            }
        }
    }
    used
}

/// What is wrong with one file, given by its path below `src`.
fn complaints(path: &str, source: &str) -> Vec<String> {
    let tokens = tokens(source);
    let mut wrong = Vec::new();
    let parts: Vec<&str> = path.split('/').collect();
    let room = parts[0];
    if let Some((_, may_use)) = TABLE.iter().find(|(name, _)| *name == room) {
        // record/mod.rs is one module deep, record/fold.rs two.
        let depth = parts.len() - usize::from(path.ends_with("/mod.rs"));
        for name in rooms_used(&tokens, depth) {
            if name != room && !may_use.contains(&name.as_str()) {
                wrong.push(format!("src/{path}: `{room}` must not use `crate::{name}`"));
            }
        }
    } else if room == "bin" {
        let part = match path {
            "bin/web.rs" | "bin/desk.rs" => "web",
            "bin/frames.rs" => "frames",
            _ => "cli",
        };
        for i in 0..tokens.len() {
            if tokens[i] == Token::Word("marrowbook".to_owned()) && is_path_mark(&tokens, i + 1) {
                for name in names_after(&tokens, i + 3).iter().filter(|name| *name != part) {
                    wrong.push(format!("src/{path}: a thin binary uses only `{part}`, not `{name}`"));
                }
            }
        }
    } else if path != "lib.rs" {
        wrong.push(format!("src/{path}: belongs to no room"));
    }
    let browser_side = path.starts_with("web/") || path.starts_with("keep/browser") || path == "bin/frames.rs";
    if !browser_side {
        for (i, token) in tokens.iter().enumerate() {
            let Token::Word(word) = token else { continue };
            let is_browser = BROWSER_CRATES.contains(&word.as_str()) || word.starts_with("gloo_");
            let imported = i > 0 && tokens[i - 1] == Token::Word("use".to_owned());
            if is_browser && (imported || is_path_mark(&tokens, i + 1)) {
                wrong.push(format!("src/{path}: `{word}` is a browser crate"));
            }
        }
    }
    wrong
}

fn source_files(folder: &Path, below: &str, found: &mut Vec<(String, String)>) {
    for item in std::fs::read_dir(folder).unwrap() {
        let item = item.unwrap();
        let name = format!("{below}{}", item.file_name().to_string_lossy());
        if item.path().is_dir() {
            source_files(&item.path(), &format!("{name}/"), found);
        } else if Path::new(&name).extension().is_some_and(|end| end == "rs") {
            found.push((name, std::fs::read_to_string(item.path()).unwrap()));
        }
    }
}

#[test]
fn arrows_run_down_the_table_only() {
    let mut files = Vec::new();
    source_files(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), "", &mut files);
    for (room, _) in TABLE {
        assert!(files.iter().any(|(path, _)| path.starts_with(&format!("{room}/"))), "room `{room}` is gone");
    }
    let wrong: Vec<String> = files.iter().flat_map(|(path, text)| complaints(path, text)).collect();
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn a_wrong_arrow_is_caught_however_it_is_written() {
    let caught = |path: &str, source: &str| !complaints(path, source).is_empty();
    assert!(caught("record/fold.rs", "use crate::science::wear;"));
    assert!(caught("record/mod.rs", "fn f() { crate::words::say() }"));
    assert!(caught("card/mod.rs", "use crate::{record::Entry, reading::{self, Age}};"));
    assert!(caught("science/age.rs", "use super::super::record::Entry;"));
    assert!(caught("science/mod.rs", "use super::record::Entry;"));
    assert!(caught("science/age/wear.rs", "mod tests { use super::super::super::super::record; }"));
    assert!(caught("bundle/mod.rs", "use crate::*;"));
    assert!(caught("bundle/mod.rs", "use crate\n    ::guide::Step;"));
    assert!(caught("reading/mod.rs", "macro_rules! m { () => { $crate::guide::f() } }"));
    assert!(caught("office/mod.rs", "use crate::cli::stamp;"));
    assert!(caught("cli/mod.rs", "use crate::web;"));
    assert!(caught("web/mod.rs", "use crate::cli;"));
    assert!(caught("spare/mod.rs", ""));
    assert!(caught("bin/office.rs", "fn main() { marrowbook::office::run() }"));
}

#[test]
fn a_browser_crate_is_caught_outside_the_browser_side() {
    let caught = |path: &str, source: &str| !complaints(path, source).is_empty();
    assert!(caught("keep/memory.rs", "use idb::Database;"));
    assert!(caught("guide/mod.rs", "fn f() { web_sys::window(); }"));
    assert!(caught("record/mod.rs", "use gloo_storage::LocalStorage;"));
    assert!(caught("words/mod.rs", "use leptos::prelude::*;"));
    assert!(!caught("keep/browser/idb.rs", "use idb::Database;"));
    assert!(!caught("keep/browser.rs", "use idb::Database;"));
    assert!(!caught("web/mod.rs", "use leptos::prelude::*;"));
}

#[test]
fn what_is_allowed_or_only_text_is_left_alone() {
    let none = |path: &str, source: &str| assert_eq!(complaints(path, source), Vec::<String>::new());
    none("guide/step.rs", "use crate::{record::Key, words::Message};\nuse super::gate;");
    none("record/entry.rs", "// see crate::science\n/* crate::web /* nested */ crate::cli */ use super::fold;");
    none("record/entry.rs", "const A: &str = \"crate::science \\\" crate::web\"; const B: &str = r#\"crate::\"web\"#;");
    none("record/entry.rs", "fn f<'a>(x: &'a str) -> char { '\"' } // crate::web\npub(crate) fn g() {}");
    none("record/fold/merge.rs", "use super::super::entry::Entry;");
    none("record/fold.rs", "mod tests { use super::super::entry::Entry; }");
    none("bin/web.rs", "fn main() { marrowbook::web::start(); }");
}
