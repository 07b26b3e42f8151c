//! Small and capital letters of the languages that the form speaks. The standard library's know every script,
//! in 25 kB of tables.

/// Small letters throughout.
pub fn lower(text: &str) -> String {
    text.chars().map(small).collect()
}

/// With a capital at its head.
pub fn capital(text: &str) -> String {
    let mut rest = text.chars();
    rest.next().map(|first| std::iter::once(large(first)).chain(rest).collect()).unwrap_or_default()
}

/// From U+00C0 to U+00DE small letters lie 32 places higher; the sign of multiplication lies among them.
fn small(letter: char) -> char {
    match letter {
        '\u{d7}' => letter,
        '\u{c0}'..='\u{de}' => char::from_u32(u32::from(letter) + 32).unwrap_or(letter),
        '\u{152}' => '\u{153}',
        '\u{178}' => '\u{ff}',
        _ => letter.to_ascii_lowercase(),
    }
}

/// The capital of one letter.
pub fn large(letter: char) -> char {
    match letter {
        '\u{f7}' => letter,
        '\u{e0}'..='\u{fe}' => char::from_u32(u32::from(letter) - 32).unwrap_or(letter),
        '\u{153}' => '\u{152}',
        '\u{ff}' => '\u{178}',
        _ => letter.to_ascii_uppercase(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // Against the standard library's tables (Unicode), for all letters of English, French and Spanish.
    #[test]
    fn as_the_standard_library_for_latin_letters() {
        for letter in ('\0'..='\u{ff}').chain(['\u{152}', '\u{153}', '\u{178}']) {
            // Two small letters have no capital among these.
            let alone = ['\u{df}', '\u{b5}'].contains(&letter);
            let text = format!("{letter}x");
            assert_eq!(lower(&text), text.to_lowercase(), "{letter}");
            let expected: String = if alone { text.clone() } else { letter.to_uppercase().chain(['x']).collect() };
            assert_eq!(capital(&text), expected, "{letter}");
        }
        assert_eq!(capital(""), "");
        assert_eq!(capital("\u{e9}pinette"), "\u{c9}pinette");
    }
}
