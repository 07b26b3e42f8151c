//! Words that others typed, made fit for one line of a terminal or a table.

/// The text with a blank for each control character, line's end and mark that turns the direction of writing: a note
/// may not begin a line of its own, steer a terminal or show itself as another text.
pub fn on_one_line(text: &str) -> String {
    text.chars().map(|c| if steers(c) { ' ' } else { c }).collect()
}

/// Control characters (Unicode category Cc), line and paragraph separator, and the marks of the bidirectional algorithm
/// that embed, override or isolate (Unicode Standard Annex 9, 2.1 to 2.4).
fn steers(c: char) -> bool {
    c.is_control() || matches!(c, '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}')
}

#[cfg(test)]
mod tests {
    use super::on_one_line;

    /// A rule of the house.
    #[test]
    fn nothing_steers_and_nothing_is_lost_besides() {
        assert_eq!(on_one_line("a\r\nb\tc\u{1b}[2J\u{9b}d\u{202e}e\u{2028}f"), "a  b c [2J d e f");
        let plain = "Zo\u{eb}, 37.4\u{a0}%, \u{5d0}\u{5d1}";
        assert_eq!(on_one_line(plain), plain);
    }
}
