//! Every fault of the translations by id, and what they owe the screen: rules of the project's own, no outside source.

use std::collections::BTreeSet;

use super::{Arg, Language, en, fill, raw, translated};

/// Tiles may be longer than in English by this share: both languages need more letters for the same.
const LONGER_PERCENT: usize = 145;

/// Names of the values in a text.
fn values(text: &str) -> BTreeSet<&str> {
    text.split('{').skip(1).filter_map(|rest| rest.split(['}', '?']).next()).collect()
}

/// What is wrong with one file.
fn faults(path: &str, tables: &[&[(&str, &str)]], text: &str) -> Vec<String> {
    let mut all = Vec::new();
    let said: Vec<&str> = text.lines().filter(|line| !line.is_empty() && !line.starts_with('#')).collect();
    let rows: Vec<(&str, &str)> = said.iter().filter_map(|line| line.split_once(" = ")).collect();
    for line in said.iter().filter(|line| !line.contains(" = ")) {
        all.push(format!("{path}: no `id = text`: {line}"));
    }
    let wanted: Vec<(&str, &str)> = tables.iter().flat_map(|table| table.iter().copied()).collect();
    for (id, english) in &wanted {
        match rows.iter().filter(|(own, _)| own == id).collect::<Vec<_>>()[..] {
            [] => all.push(format!("{path}: {id} is missing")),
            [(_, own)] => {
                if values(own) != values(english) {
                    all.push(format!("{path}: {id} has values {:?}, English {:?}", values(own), values(english)));
                }
                if own.matches("\\n").count() != english.matches('\n').count() {
                    all.push(format!("{path}: {id} has other line ends than the English"));
                }
                if own.trim().is_empty() {
                    all.push(format!("{path}: {id} is empty"));
                }
            }
            _ => all.push(format!("{path}: {id} stands twice")),
        }
    }
    for (id, _) in rows.iter().filter(|(id, _)| !wanted.iter().any(|(known, _)| known == id)) {
        all.push(format!("{path}: {id} is not in the English file"));
    }
    let known = |(id, _): &&(&str, &str)| wanted.iter().any(|(w, _)| w == id);
    let placed = rows.iter().filter(known).zip(wanted.iter().filter(|(w, _)| rows.iter().any(|(id, _)| id == w)));
    if let Some(((own, _), (theirs, _))) = placed.into_iter().find(|(a, b)| a.0 != b.0) {
        all.push(format!("{path}: {own} stands where {theirs} should"));
    }
    all
}

fn languages() -> impl Iterator<Item = Language> {
    Language::ALL.into_iter().filter(|language| *language != Language::English)
}

#[test]
fn translations_are_whole() {
    let mut all = Vec::new();
    for language in languages() {
        for ((path, tables), text) in en::FILES.iter().zip(translated::texts(language)) {
            all.extend(faults(&format!("{}/{path}", language.code()), tables, text));
            if !text.starts_with('#') || !text.lines().next().unwrap_or_default().contains("native reader's check") {
                all.push(format!("{path}: the first line does not say that it wants a native reader's check"));
            }
        }
    }
    assert!(all.is_empty(), "{} faults:\n{}", all.len(), all.join("\n"));
}

#[test]
fn a_fault_is_seen() {
    let english: &[(&str, &str)] = &[("a.b", "Snow {n} {n?day|days}"), ("a.c", "Two\nlines")];
    let told = |text: &str| faults("x", &[english], text).len();
    assert_eq!(told("# remark\na.b = Neige {n} {n?jour|jours}\n\na.c = Deux\\nlignes\n"), 0);
    assert_eq!(told("a.b = Neige {n}\na.c = Deux\\nlignes\n"), 0, "another language may need no form of its own");
    assert_eq!(told("a.b = Neige {n}\n"), 1, "missing");
    assert_eq!(told("a.b = Neige\na.c = Deux\\nlignes\n"), 1, "a value too few");
    assert_eq!(told("a.b = Neige {n} {m}\na.c = Deux\\nlignes\n"), 1, "a value too many");
    assert_eq!(told("a.b = Neige {n}\na.c = Deux lignes\n"), 1, "a line end lost");
    assert_eq!(told("a.c = Deux\\nlignes\na.b = Neige {n}\n"), 1, "out of order");
    assert_eq!(told("a.b = Neige {n}\na.c = Deux\\nlignes\na.d = Trois\n"), 1, "too much");
}

#[test]
fn counts_take_the_form_of_their_language() {
    // Unicode CLDR 45, plural rules: en and es `one` is 1, fr `one` is 0 and 1.
    let said = |language, n| fill(language, "{n} {n?one|many}", &[("n", Arg::Count(n))]);
    for (language, zero) in [(Language::English, "0 many"), (Language::French, "0 one"), (Language::Spanish, "0 many")]
    {
        assert_eq!([0, 1, 2].map(|n| said(language, n)), [zero, "1 one", "2 many"], "{language:?}");
    }
}

#[test]
fn a_form_for_one_and_for_many_goes_by_a_count() {
    // A text put in stands as it is: only where the English has forms is the value known to be a count.
    let forms = |text: &'static str| -> BTreeSet<&'static str> {
        text.split('{')
            .skip(1)
            .filter_map(|rest| rest.split_once('?').filter(|(n, _)| !n.contains('}')))
            .map(|(n, _)| n)
            .collect()
    };
    let counted: BTreeSet<&str> = super::ids().flat_map(|id| forms(raw(Language::English, id).unwrap())).collect();
    for language in languages() {
        for id in super::ids() {
            for name in forms(raw(language, id).unwrap()) {
                assert!(counted.contains(name), "{}: {id} counts by {name}", language.code());
            }
        }
    }
}

#[test]
fn tiles_are_short_in_every_language() {
    let limit = 36 * LONGER_PERCENT / 100;
    let tiles = super::ids().filter(|id| {
        ["option.", "finding."].iter().any(|p| id.starts_with(p))
            || matches!(id.rsplit_once('.'), Some((step, "none")) if step.starts_with("step."))
    });
    let mut long = Vec::new();
    for id in tiles {
        for language in languages() {
            let text = raw(language, id).unwrap();
            if text.chars().count() > limit || text.split_whitespace().any(|word| word.chars().count() > 20) {
                long.push(format!("{} {id}: {text}", language.code()));
            }
        }
    }
    assert!(long.is_empty(), "above {limit} letters, or a word above 20:\n{}", long.join("\n"));
}

#[test]
fn questions_are_short_in_every_language() {
    let mut long = Vec::new();
    for id in super::ids().filter(|id| id.starts_with("step.")) {
        for language in languages() {
            let text = raw(language, id).unwrap();
            let words = text.split_whitespace().count();
            let fits = match id.rsplit_once('.') {
                Some((_, "ask")) => words <= 10 * LONGER_PERCENT / 100 && text.ends_with(['.', '?']),
                _ => text.chars().count() <= 80 * LONGER_PERCENT / 100,
            };
            if !fits {
                long.push(format!("{} {id}: {text}", language.code()));
            }
        }
    }
    assert!(long.is_empty(), "{}", long.join("\n"));
}

#[test]
fn no_question_and_no_reading_names_a_cause_of_death() {
    // As in English: condition is not cause (Mech and DelGiudice 1985), and the form does not steer the eye.
    let stems: [(Language, &[&str]); 2] = [
        (Language::French, &["tué", "tuer", "mort de faim", "inanition", "abattu", "braconn", "prédat", "proie"]),
        (Language::Spanish, &["matado", "matar", "de hambre", "inanición", "furtiv", "depreda", "presa"]),
    ];
    let mut all = Vec::new();
    for (language, stems) in stems {
        for id in super::ids().filter(|id| id.starts_with("reading.")) {
            let text = raw(language, id).unwrap().to_lowercase();
            for stem in stems.iter().filter(|stem| text.contains(**stem)) {
                all.push(format!("{} {id} says `{stem}`: {text}", language.code()));
            }
        }
    }
    assert!(all.is_empty(), "{}", all.join("\n"));
}

/// What the part for codes says: the same rules, and every text is said there and nothing else.
#[test]
fn the_part_for_codes_has_its_texts_in_every_language() {
    for language in [Language::French, Language::Spanish] {
        assert_eq!(faults(language.code(), &[en::PART], translated::part_file(language)), [""; 0]);
    }
    let script = include_str!("../../public/parts/frames.js");
    for (id, _) in en::PART {
        assert!(script.contains(&format!("\"{id}\"")), "{id} is said nowhere");
    }
    let known: BTreeSet<&str> = en::PART.iter().map(|(id, _)| *id).collect();
    let said = script.split("say(\"").skip(1).filter_map(|rest| rest.split('"').next());
    let unknown: Vec<&str> = said.filter(|id| !known.contains(id)).collect();
    assert!(unknown.is_empty(), "{unknown:?}");
    assert!(translated::part_texts(Language::French).lines().count() == en::PART.len());
}
