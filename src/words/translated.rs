//! Translations as text files, one beside each English file, held against the English tables.
//!
//! `src/words/fr/steps/scene.txt` follows `src/words/en/steps/scene.rs`: a line is `id = text`, ids in the order of
//! the English table; empty lines and lines that begin with `#` say nothing; `\n` is a new line. What is missing, too
//! much, out of place or has other values than the English ends the build. A phone carries none of this: it fetches
//! one file a language, see `loaded`.

use super::Language;
use super::joined::END;

macro_rules! french {
    ($($path:literal $($table:path),+;)*) => {
        const FRENCH: &[&str] = &[$(include_str!(concat!("fr/", $path, ".txt"))),*];
    };
}
super::en::each_file!(french);

macro_rules! spanish {
    ($($path:literal $($table:path),+;)*) => {
        const SPANISH: &[&str] = &[$(include_str!(concat!("es/", $path, ".txt"))),*];
    };
}
super::en::each_file!(spanish);

/// What the files of a language say; empty for English.
pub(super) const fn texts(language: Language) -> &'static [&'static str] {
    match language {
        Language::English => &[],
        Language::French => FRENCH,
        Language::Spanish => SPANISH,
    }
}

// Not in tests, which tell every fault where this stops at the first.
#[cfg(not(test))]
#[allow(long_running_const_eval)]
const _: () = {
    super::checked::whole(super::en::JOINED, super::en::FILES, FRENCH);
    super::checked::whole(super::en::JOINED, super::en::FILES, SPANISH);
};

const PART_FRENCH: &str = include_str!("fr/frames_part.txt");
const PART_SPANISH: &str = include_str!("es/frames_part.txt");

#[cfg(not(test))]
#[allow(long_running_const_eval)]
const _: () = {
    const TABLES: &[&[(&str, &str)]] = &[super::en::PART];
    const ENGLISH: &[u8] = &super::joined::joined::<{ super::joined::length(TABLES) }>(TABLES);
    super::checked::whole(ENGLISH, &[("frames_part", TABLES)], &[PART_FRENCH]);
    super::checked::whole(ENGLISH, &[("frames_part", TABLES)], &[PART_SPANISH]);
};

/// The file of what the part for codes says by itself in a language: lines of id, tab, text.
pub fn part_texts(language: Language) -> String {
    let line = |(id, text)| format!("{id}\t{text}\n");
    match language {
        Language::English => super::en::PART.iter().copied().map(line).collect(),
        _ => part_file(language).lines().filter_map(row).map(line).collect(),
    }
}

/// The same as it is written here; empty for English.
pub(super) const fn part_file(language: Language) -> &'static str {
    match language {
        Language::English => "",
        Language::French => PART_FRENCH,
        Language::Spanish => PART_SPANISH,
    }
}

/// Id and text of a line; `None` for a line that says nothing.
fn row(line: &str) -> Option<(&str, &str)> {
    if line.is_empty() || line.starts_with('#') { None } else { line.split_once(" = ") }
}

/// The file that phones fetch for a language; `None` for English, which they carry. The texts stand in the order of
/// the English ones, without ids, behind a digest of both.
pub fn carried(language: Language) -> Option<String> {
    let files = texts(language);
    if files.is_empty() {
        return None;
    }
    let mut all = String::new();
    for (_, text) in files.iter().flat_map(|file| file.lines()).filter_map(row) {
        all.push(char::from(END));
        all.push_str(&text.replace("\\n", "\n"));
    }
    Some(format!("{}{all}", super::loaded::digest(super::en::JOINED, &all)))
}
