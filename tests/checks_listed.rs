//! The tables that say which test holds what name tests that are there.

#![allow(clippy::unwrap_used, clippy::panic, clippy::case_sensitive_file_extension_comparisons)]

use std::fs;
use std::path::Path;

/// Every `file::test` between backticks.
fn named(text: &str) -> Vec<(&str, &str)> {
    text.split('`').filter_map(|part| part.split_once("::")).filter(|(file, _)| file.ends_with(".rs")).collect()
}

/// Whether the text has a test of that name.
fn has_test(text: &str, name: &str) -> bool {
    let lines: Vec<&str> = text.lines().collect();
    let head = format!("fn {name}(");
    let at = lines.iter().position(|line| line.trim_start().starts_with(&head));
    let is_test = |line: &&str| line.contains("test");
    at.is_some_and(|at| {
        let before = lines.iter().take(at).rev();
        before.take_while(|line| line.trim_start().starts_with(['#', '/'])).any(is_test)
    })
}

#[test]
fn every_test_that_a_table_names_is_there() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut missing = Vec::new();
    let mut found = 0;
    for table in ["DEVELOPERS.md", "tests/reference/CHECKS.md"] {
        let text = fs::read_to_string(root.join(table)).unwrap();
        for (file, test) in named(&text) {
            found += 1;
            let source = fs::read_to_string(root.join(file)).unwrap_or_default();
            if !has_test(&source, test) {
                missing.push(format!("{table}: {file}::{test}"));
            }
        }
    }
    assert!(found > 80, "only {found} were found");
    assert!(missing.is_empty(), "{missing:#?}");
}

#[test]
fn a_name_without_a_test_is_seen() {
    assert_eq!(named("| 1 | `a/b.rs::c` | no |"), [("a/b.rs", "c")]);
    assert!(has_test("/// Words.\n#[test]\nfn c() {}", "c"));
    assert!(!has_test("fn c() {}", "c") && !has_test("#[test]\nfn d() {}", "c"));
}
