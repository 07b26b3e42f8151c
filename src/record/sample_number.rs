//! The number on a sample's label: the short code of the examination, the number of the thing, and a
//! letter that checks both.

use uuid::Uuid;

use super::short_code::{LETTERS, letter, short_code};

/// Stands for the step in an answer that gives a thing its number before anybody has written it on a label.
pub const UNLABELLED: &str = "unlabelled";

/// The number of one thing taken at one examination, such as `KDRMWA-3T`. One code names about one
/// examination in six million: with date and carcass on the label nothing is confused in a season.
pub fn sample_number(examination: Uuid, item: u16) -> String {
    let code = short_code(examination);
    let check = check(&places(&code).unwrap_or_default(), item);
    format!("{code}-{item}{}", letter(check))
}

/// Whether a typed number is one of ours, and if so whether it was typed right: a single wrong letter or
/// digit, or two swapped, does not pass. `None` for a number of another form.
pub fn is_typed_right(typed: &str) -> Option<bool> {
    let typed: String = typed.chars().filter(|c| !c.is_whitespace()).map(super::letters::large).collect();
    let (code, rest) = typed.split_once('-')?;
    let (digits, last) = rest.split_at_checked(rest.len().checked_sub(1)?)?;
    let places = places(code).filter(|all| all.len() == 6)?;
    let item: u16 = digits.parse().ok()?;
    let last = places_of(last)?;
    Some(check(&places, item) == last && super::short_code::is_whole(code))
}

fn places_of(one: &str) -> Option<usize> {
    let byte = *one.as_bytes().first()?;
    LETTERS.iter().position(|l| *l == byte)
}

fn places(code: &str) -> Option<Vec<usize>> {
    code.bytes().map(|b| LETTERS.iter().position(|l| *l == b)).collect()
}

/// Weighted sum modulo the prime 23; tens and ones of the item have weights of their own.
fn check(places: &[usize], item: u16) -> usize {
    let letters: usize = places.iter().enumerate().map(|(i, p)| (i + 2) * p).sum();
    (letters + 9 * usize::from(item / 10) + 11 * usize::from(item % 10)) % 23
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every single wrong letter or digit shows, as the weights are not 0 modulo the prime 23: elementary
    /// number theory, no other source.
    #[test]
    fn a_wrong_or_swapped_letter_shows() {
        for (id, item) in [(7, 1), (8, 3), (1_u128 << 90, 7), (99, 12)] {
            let right = sample_number(Uuid::from_u128(id), item);
            assert_eq!(is_typed_right(&right), Some(true), "{right}");
            assert_eq!(is_typed_right(&right.to_lowercase()), Some(true));
            for (place, old) in right.char_indices() {
                let others = if old.is_ascii_digit() { "0123456789" } else { "ABCDEFGHJKLMNPRSTUVWXYZ" };
                for other in others.chars().filter(|c| *c != old && old != '-') {
                    let mut wrong = right.clone();
                    wrong.replace_range(place..=place, &other.to_string());
                    assert_eq!(is_typed_right(&wrong), Some(false), "{wrong} for {right}");
                }
            }
        }
        assert_ne!(sample_number(Uuid::from_u128(7), 1), sample_number(Uuid::from_u128(7), 2));
    }

    #[test]
    fn a_number_printed_on_a_label_of_another_form_is_not_judged() {
        for other in ["QR-26-014", "12", "", "-", "ABC-1"] {
            assert_eq!(is_typed_right(other), None, "{other}");
        }
    }
}
