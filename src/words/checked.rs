//! The compiler's check of a translation against the English tables. A fault ends the build and names the id.
//!
//! Sixteen bytes a step: the compiler's own interpreter takes microseconds for each, and there are half a million bytes.
// Only the compiler walks these: a wrong place would end the build, and a fault has to.
#![allow(clippy::indexing_slicing, clippy::panic, clippy::manual_assert)]
#![cfg_attr(test, allow(dead_code))]

/// A table of ids and texts.
pub(super) type Table = &'static [(&'static str, &'static str)];
/// English files: name, and the tables in the order in which they stand in the file.
pub(super) type Files = &'static [(&'static str, &'static [Table])];

/// All files of a language. `english` is the catalogue as one text: `id`, an end mark, `text`, an end mark, and so on.
pub(super) const fn whole(english: &[u8], files: Files, texts: &[&str]) {
    let english = Bytes::of(english);
    let (mut begun, mut n) = (0, 0);
    while n < files.len() {
        begun = file(&english, begun, files[n].1, texts[n].as_bytes());
        n += 1;
    }
}

/// A text and the same in whole pieces.
struct Bytes<'a> {
    all: &'a [u8],
    pieces: &'a [[u8; 16]],
}

impl<'a> Bytes<'a> {
    const fn of(all: &'a [u8]) -> Self {
        Self { all, pieces: all.as_chunks().0 }
    }
}

/// A file against the tables of which the English one begins at `begun`; where the next begins.
const fn file(english: &Bytes, mut begun: usize, tables: &[Table], text: &[u8]) -> usize {
    let text = Bytes::of(text);
    let (mut at, mut n) = (0, 0);
    while n < tables.len() {
        let mut row = 0;
        while row < tables[n].len() {
            let (id, said) = tables[n][row];
            at = skip(&text, at);
            let words = at + id.len() + 3;
            let from = begun + id.len() + 1;
            let to = from + said.len();
            // What stands here instead is missing, too much or out of place.
            if !same(english.all, begun, from - 1, text.all, at) || !same(b" = ", 0, 3, text.all, words - 3) {
                panic!("{}", id);
            }
            let end = line(&text, words, english, from, to);
            // An empty text is missing too; no end tells of a value too many or too few.
            if words >= end || !names_in(english, from, to, &text, words, end) {
                panic!("{}", id);
            }
            (at, begun) = (end + 1, to + 1);
            row += 1;
        }
        n += 1;
    }
    assert!(skip(&text, at) >= text.all.len(), "a translation has a line more than the English file");
    begun
}

/// Past empty lines and remarks.
const fn skip(text: &Bytes, mut at: usize) -> usize {
    while at < text.all.len() && (text.all[at] == b'\n' || text.all[at] == b'#') {
        at = find(text, at, text.all.len(), b'\n', b'\n') + 1;
    }
    at
}

/// The end of a line; its beginning where it has a value that `english[from..to]` has not.
const fn line(text: &Bytes, words: usize, english: &Bytes, from: usize, to: usize) -> usize {
    let mut at = find(text, words, text.all.len(), b'\n', b'{');
    while at < text.all.len() && text.all[at] == b'{' {
        if !name_in(text, at, english, from, to) {
            return words;
        }
        at = find(text, at + 1, text.all.len(), b'\n', b'{');
    }
    at
}

/// Whether every `{name` of `a[from..to]` is in `b[low..high]` too.
const fn names_in(a: &Bytes, from: usize, to: usize, b: &Bytes, low: usize, high: usize) -> bool {
    let mut at = find(a, from, to, b'{', b'{');
    while at < to {
        if !name_in(a, at, b, low, high) {
            return false;
        }
        at = find(a, at + 1, to, b'{', b'{');
    }
    true
}

/// Whether the `{name` that begins at a place of `a` is in `b[low..high]`.
const fn name_in(a: &Bytes, at: usize, b: &Bytes, low: usize, high: usize) -> bool {
    let mut end = at;
    while end < a.all.len() && a.all[end] != b'}' && a.all[end] != b'?' {
        end += 1;
    }
    let mut other = find(b, low, high, b'{', b'{');
    while other < high && !(same(a.all, at, end, b.all, other) && ends_name(b.all, other + (end - at), high)) {
        other = find(b, other + 1, high, b'{', b'{');
    }
    other < high
}

const fn ends_name(text: &[u8], at: usize, high: usize) -> bool {
    at < high && (text[at] == b'}' || text[at] == b'?')
}

/// Whether `b` has the bytes `a[from..to]` at a place.
const fn same(a: &[u8], mut from: usize, to: usize, b: &[u8], mut at: usize) -> bool {
    if at + (to - from) > b.len() {
        return false;
    }
    while from < to {
        if a[from] != b[at] {
            return false;
        }
        from += 1;
        at += 1;
    }
    true
}

/// Where one of two bytes next stands in `text[at..end]`; `end` where neither does.
const fn find(text: &Bytes, at: usize, end: usize, one: u8, other: u8) -> usize {
    const ONES: u128 = u128::MAX / 255;
    let (ones, others) = (ONES * one as u128, ONES * other as u128);
    let mut n = at / 16;
    // What stands before `at` in its piece is none.
    let mut of_piece = u128::MAX << (at % 16 * 8);
    while n * 16 < end && n < text.pieces.len() {
        let piece = u128::from_le_bytes(text.pieces[n]);
        let hit = (zero_bytes(piece ^ ones) | zero_bytes(piece ^ others)) & of_piece;
        if hit != 0 {
            let found = n * 16 + hit.trailing_zeros() as usize / 8;
            return if found < end { found } else { end };
        }
        of_piece = u128::MAX;
        n += 1;
    }
    let mut at = if n * 16 > at { n * 16 } else { at };
    while at < end && text.all[at] != one && text.all[at] != other {
        at += 1;
    }
    if at < end { at } else { end }
}

/// The top bit of every byte that is zero (H. S. Warren, Hacker's Delight, section 6-1).
const fn zero_bytes(piece: u128) -> u128 {
    const LOW: u128 = u128::MAX / 255 * 0x7f;
    !(((piece & LOW) + LOW) | piece | LOW)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_byte_is_found_where_it_stands() {
        let text: Vec<u8> = (0..90_u8).cycle().take(400).collect();
        for (from, to) in [(0, 400), (3, 95), (89, 90), (90, 90), (385, 400), (399, 400)] {
            for byte in [0, 1, 15, 16, 88, 89, 200] {
                let plain = text[from..to].iter().position(|b| *b == byte).map_or(to, |n| from + n);
                assert_eq!(find(&Bytes::of(&text), from, to, byte, byte), plain, "{byte} in {from}..{to}");
            }
        }
    }

    /// The tables as one text.
    const ENGLISH: &[u8] = b"step.a_long_id_of_a_question.ask\0Snow {n} {n?day|days}\0b\0Two\0";
    const FILES: Files = &[("x", &[&[("step.a_long_id_of_a_question.ask", "Snow {n} {n?day|days}"), ("b", "Two")]])];

    #[test]
    fn what_fits_passes() {
        whole(
            ENGLISH,
            FILES,
            &["# French.\nstep.a_long_id_of_a_question.ask = Neige {n} {n?jour|jours}\n\nb = Deux\n"],
        );
        whole(ENGLISH, FILES, &["step.a_long_id_of_a_question.ask = Neige {n}\nb = Deux"]);
    }

    #[test]
    fn what_does_not_fit_ends_the_build() {
        let ends = |text: &str| std::panic::catch_unwind(|| whole(ENGLISH, FILES, &[text])).is_err();
        let long = "step.a_long_id_of_a_question.ask";
        assert!(ends("# French.\nb = Deux\n"), "missing");
        for text in [
            format!("{long} = Neige {{n}}\n"),
            format!("{long} = Neige\nb = Deux\n"),
            format!("{long} = Neige {{n}} {{m}}\nb = Deux\n"),
            format!("{long} = Neige {{nn}}\nb = Deux\n"),
            format!("{long} = \nb = Deux\n"),
            format!("{long}x = Neige {{n}}\nb = Deux\n"),
            format!("b = Deux\n{long} = Neige {{n}}\n"),
            format!("{long} = Neige {{n}}\nb = Deux\nc = Trois\n"),
        ] {
            assert!(ends(&text), "{text}");
        }
    }
}
