//! Words that others typed, made fit for one line of a terminal or a table, a cell, a page.

use std::borrow::Cow;
use std::fmt::Write as _;

/// The text with a blank for each control character, line's end and mark that turns the direction of writing: a note
/// may not begin a line of its own, steer a terminal or show itself as another text.
pub fn on_one_line(text: &str) -> String {
    text.chars().map(|c| if steers(c) { ' ' } else { c }).collect()
}

/// One line of output with each such mark by its number, as JSON writes it: in a line of JSON it stays what it was.
pub fn by_number(text: &str) -> Cow<'_, str> {
    if !text.contains(steers) {
        return Cow::Borrowed(text);
    }
    let mut out = String::with_capacity(text.len() + 16);
    for c in text.chars() {
        if steers(c) {
            // Writing into a text cannot fail. All of them lie below U+FFFF.
            let _ = write!(out, "\\u{:04x}", u32::from(c));
        } else {
            out.push(c);
        }
    }
    Cow::Owned(out)
}

/// For a cell or a page: a blank for each such mark; ends of lines stay.
pub fn on_paper(text: &str) -> String {
    text.chars().map(|c| if steers(c) && c != '\n' { ' ' } else { c }).collect()
}

/// Control characters (Unicode category Cc), line and paragraph separator, and the marks of the bidirectional algorithm
/// that embed, override or isolate (Unicode Standard Annex 9, 2.1 to 2.4).
pub fn steers(c: char) -> bool {
    c.is_control() || matches!(c, '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

/// Marks without a width of their own, which may make one name look like another: soft hyphen, marks of the
/// bidirectional algorithm that stand for a letter (Unicode Standard Annex 9, 2.6), zero-width blanks and joiners.
pub fn hides(c: char) -> bool {
    matches!(c, '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{200b}'..='\u{200f}' | '\u{2060}'..='\u{2065}' | '\u{feff}')
}

#[cfg(test)]
mod tests {
    use super::{by_number, on_one_line, on_paper};

    /// A rule of the house.
    #[test]
    fn nothing_steers_and_nothing_is_lost_besides() {
        assert_eq!(on_one_line("a\r\nb\tc\u{1b}[2J\u{9b}d\u{202e}e\u{2028}f"), "a  b c [2J d e f");
        let plain = "Zo\u{eb}, 37.4\u{a0}%, \u{5d0}\u{5d1}";
        assert_eq!(on_one_line(plain), plain);
    }

    /// RFC 8259 section 7: `\u` and four hexadecimal digits stand for the character in any string.
    #[test]
    fn by_number_it_is_shown_and_json_is_the_same() {
        assert_eq!(by_number("a\u{1b}[2J\nb\u{202e}c\u{9b}"), "a\\u001b[2J\\u000ab\\u202ec\\u009b");
        assert_eq!(on_paper("a\u{1b}[2J\nb\u{202e}c\r"), "a [2J\nb c ");
        let json = serde_json::to_string("a\u{7f}\u{202e}\u{9b}\u{2028}").unwrap();
        assert_ne!(by_number(&json), json);
        assert_eq!(serde_json::from_str::<String>(&by_number(&json)).unwrap(), "a\u{7f}\u{202e}\u{9b}\u{2028}");
    }
}
