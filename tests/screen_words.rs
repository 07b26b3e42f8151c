//! Every message id that the screens name has a text. A rule of the house: no outside source.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::path::Path;

use marrowbook::words::{Language, office_ids, raw};

/// Ids given as plain literals to `say`, `say_with`, or kept in a list of ids.
fn ids_in(text: &str) -> Vec<String> {
    let mut out = Vec::new();
    for (place, _) in text.match_indices('"') {
        let rest = &text[place + 1..];
        let Some(end) = rest.find('"') else { continue };
        let word = &rest[..end];
        let before = &text[..place];
        let called = ["say(", "say_with(", "language(), ", "language, "].iter().any(|call| before.ends_with(call));
        let shape = word.contains('.')
            && word.split('.').all(|part| {
                !part.is_empty() && part.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'_')
            });
        if called && shape {
            out.push(word.to_owned());
        }
    }
    out
}

fn walk(folder: &Path, each: &mut impl FnMut(&Path, &str)) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            walk(&path, each);
        } else if path.extension().is_some_and(|e| e == "rs") {
            each(&path, &std::fs::read_to_string(&path).unwrap());
        }
    }
}

#[test]
fn every_id_that_a_screen_names_has_a_text() {
    let mut missing = Vec::new();
    let mut count = 0;
    walk(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src/web"), &mut |path, text| {
        for id in ids_in(text) {
            count += 1;
            if raw(Language::English, &id).is_none() && !office_ids().any(|own| own == id) {
                missing.push(format!("{id} in {}", path.display()));
            }
        }
    });
    assert!(count > 100, "only {count} ids found: the search has gone blind");
    assert!(missing.is_empty(), "no text for:\n{}", missing.join("\n"));
}

#[test]
fn the_search_sees_an_id() {
    assert_eq!(ids_in(r#"form.say("no.such_text")"#), ["no.such_text"]);
    assert!(ids_in(r#"fetch("demo/card.txt")"#).is_empty());
}
