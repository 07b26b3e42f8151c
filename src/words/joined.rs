//! A catalogue as one text: `id`, an end mark, `text`, an end mark, and so on.
//!
//! As a table of its own, every message would cost two addresses and two lengths beside its words; on the
//! phone they were a sixth of all data. The tables stay what people write; the compiler joins them.
#![allow(clippy::indexing_slicing)] // only the compiler walks these tables; a wrong place would end the build

/// Stands in no message: the tables hold printed words.
pub(super) const END: u8 = 0;

/// Bytes of all parts joined.
pub(super) const fn length(parts: &[&[(&str, &str)]]) -> usize {
    let (mut all, mut n) = (0, 0);
    while n < parts.len() {
        let mut row = 0;
        while row < parts[n].len() {
            all += parts[n][row].0.len() + parts[n][row].1.len() + 2;
            row += 1;
        }
        n += 1;
    }
    all
}

/// All parts joined; `N` is their [`length`].
pub(super) const fn joined<const N: usize>(parts: &[&[(&str, &str)]]) -> [u8; N] {
    let mut all = [END; N];
    let (mut at, mut n) = (0, 0);
    while n < parts.len() {
        let mut row = 0;
        while row < parts[n].len() {
            at = put(&mut all, at, parts[n][row].0) + 1;
            at = put(&mut all, at, parts[n][row].1) + 1;
            row += 1;
        }
        n += 1;
    }
    all
}

const fn put(into: &mut [u8], at: usize, text: &str) -> usize {
    let (_, rest) = into.split_at_mut(at);
    let (here, _) = rest.split_at_mut(text.len());
    here.copy_from_slice(text.as_bytes());
    at + text.len()
}

/// Ids and texts, in turn.
pub(super) fn parts(joined: &'static [u8]) -> std::str::Split<'static, char> {
    // Made of whole texts only.
    std::str::from_utf8(joined).unwrap_or_default().split(char::from(END))
}

/// Ids and texts by id, to be searched by halves: a map would only add code.
pub(super) fn sorted(joined: &'static [u8]) -> Vec<(&'static str, &'static str)> {
    let mut parts = parts(joined);
    let mut all = Vec::new();
    while let (Some(id), Some(text)) = (parts.next(), parts.next()) {
        all.push((id, text));
    }
    all.sort_unstable_by_key(|(id, _)| *id);
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_joined_comes_apart_again() {
        const PARTS: &[&[(&str, &str)]] = &[&[("b", "Zw\u{f6}lf"), ("a", "")], &[], &[("c", "x {n}")]];
        static JOINED: &[u8] = &joined::<{ length(PARTS) }>(PARTS);
        assert_eq!(sorted(JOINED), [("a", ""), ("b", "Zw\u{f6}lf"), ("c", "x {n}")]);
    }

    #[test]
    fn every_message_of_the_tables_is_found_with_its_text() {
        use crate::words::{Language, en, raw};
        for (id, text) in en::CATALOGUE.iter().flat_map(|part| part.iter()) {
            assert!(!id.contains('\0') && !text.contains('\0'), "{id}");
            assert_eq!(raw(Language::English, id), Some(*text), "{id}");
        }
    }
}
