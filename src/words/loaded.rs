//! A language's texts as the phone fetched them.

use std::sync::OnceLock;

use super::joined::END;
use super::{Language, en, joined};

/// Ids and texts, by id.
pub(super) type Texts = Vec<(&'static str, &'static str)>;

/// Why a file of texts was not taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotTaken {
    /// It was made for another version of the form, or is damaged.
    OtherVersion,
    /// English needs no file.
    Carried,
}

/// What was fetched, kept for as long as the page lives.
static FETCHED: [OnceLock<Texts>; 2] = [OnceLock::new(), OnceLock::new()];

fn place(language: Language) -> Option<&'static OnceLock<Texts>> {
    match language {
        Language::English => None,
        Language::French => FETCHED.first(),
        Language::Spanish => FETCHED.last(),
    }
}

/// Take a language's file. Taken twice it is the same.
///
/// # Errors
/// Where it does not belong to this version of the form; the language then has no texts.
pub fn take(language: Language, file: String) -> Result<(), NotTaken> {
    let place = place(language).ok_or(NotTaken::Carried)?;
    if place.get().is_none() {
        // A page has three languages at most; their texts are let go with it.
        let texts = read(String::leak(file)).ok_or(NotTaken::OtherVersion)?;
        // Somebody was quicker: with the same texts.
        let _ = place.set(texts);
    }
    Ok(())
}

/// Whether a language's texts are at hand.
pub fn is_at_hand(language: Language) -> bool {
    texts(language).is_some() || language == Language::English
}

/// A language's texts, where they are at hand.
pub(super) fn texts(language: Language) -> Option<&'static Texts> {
    let place = place(language)?;
    // Outside a browser they are carried along: a test, the office's command line.
    #[cfg(not(target_arch = "wasm32"))]
    if place.get().is_none() {
        let _ = take(language, super::translated::carried(language)?);
    }
    place.get()
}

fn read(file: &'static str) -> Option<Texts> {
    let (said, rest) = file.split_at_checked(file.find(char::from(END))?)?;
    if said != digest(en::JOINED, rest) {
        return None;
    }
    let ids = joined::parts(en::JOINED).step_by(2);
    let mut all: Texts = ids.zip(rest.split(char::from(END)).skip(1)).collect();
    all.sort_unstable_by_key(|(id, _)| *id);
    Some(all)
}

/// 16 hexadecimal digits over the English catalogue and a translation of it (FNV-1a, 64 bits: offset basis and prime
/// as in draft-eastlake-fnv): it tells damage and another version, not an enemy, whom the page's own host would be.
pub(super) fn digest(english: &[u8], translation: &str) -> String {
    let mut all: u64 = 0xcbf2_9ce4_8422_2325;
    for byte in english.iter().chain(translation.as_bytes()) {
        all = (all ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3);
    }
    format!("{all:016x}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_digest_is_the_published_one() {
        // Test vectors of FNV-1a 64: `a` and `foobar` (draft-eastlake-fnv, appendix C; from memory).
        assert_eq!(digest(b"a", ""), "af63dc4c8601ec8c");
        assert_eq!(digest(b"foo", "bar"), "85944171f73967e8");
    }

    #[test]
    fn a_file_of_another_version_or_damaged_is_refused() {
        let file = super::super::translated::carried(Language::French).unwrap();
        assert_eq!(read(String::leak(file.clone())).map(|all| all.len()), Some(super::super::ids().count()));
        let last = file.len() - 2;
        assert!(file.is_char_boundary(last), "the test would cut a letter");
        let damaged = [
            file[..last].to_owned(),
            file.replacen(' ', "_", 1),
            format!("{}{}", "0".repeat(16), &file[16..]),
            file[16..].to_owned(),
            "<!DOCTYPE html>".to_owned(),
            String::new(),
        ];
        for text in damaged {
            assert_eq!(read(String::leak(text)), None);
        }
        assert_eq!(take(Language::English, String::new()), Err(NotTaken::Carried));
    }
}
