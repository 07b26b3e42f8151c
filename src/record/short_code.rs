//! A short code by which a second phone joins a carcass: five letters and a check letter.

use uuid::Uuid;

use super::Digest;

/// Letters that are not taken for each other when called out or written with mittens on.
pub(super) const LETTERS: &[u8; 23] = b"ABCDEFGHJKLMNPRSTUVWXYZ";

/// The short code of an id: five letters made from its digest and one that checks them. One code
/// names about one id in six million: it joins phones of one crew on one day, nothing more.
pub fn short_code(id: Uuid) -> String {
    let digest = Digest::of(&[b"short code", id.as_bytes()]);
    let mut number = digest.0.iter().take(8).fold(0_u64, |n, b| (n << 8) | u64::from(*b));
    let mut places = [0_usize; 5];
    for place in &mut places {
        *place = usize::try_from(number % 23).unwrap_or(0);
        number /= 23;
    }
    places.iter().copied().chain([check(&places)]).map(letter).collect()
}

/// Whether a typed code is whole: case and blanks do not matter, a wrong or swapped letter does.
pub fn is_whole(typed: &str) -> bool {
    let places: Option<Vec<usize>> = typed
        .bytes()
        .filter(|b| !b.is_ascii_whitespace() && *b != b'-')
        .map(|b| LETTERS.iter().position(|l| *l == b.to_ascii_uppercase()))
        .collect();
    match places.as_deref() {
        Some([code @ .., last]) if code.len() == 5 => check(code) == *last,
        _ => false,
    }
}

/// Weighted sum modulo the prime 23: every single wrong letter and every swap of two shows.
fn check(places: &[usize]) -> usize {
    places.iter().enumerate().map(|(i, p)| (i + 2) * p).sum::<usize>() % 23
}

pub(super) fn letter(place: usize) -> char {
    LETTERS.get(place).map_or('?', |b| char::from(*b))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_single_slip_and_swap_shows() {
        let code = short_code(Uuid::from_u128(0x0190_1234_5678_7abc_8def_0123_4567_89ab));
        assert!(is_whole(&code), "{code}");
        assert!(is_whole(&code.to_lowercase()));
        let letters: Vec<char> = code.chars().collect();
        for place in 0..6 {
            for other in LETTERS.iter().map(|b| char::from(*b)).filter(|c| *c != letters[place]) {
                let mut wrong = letters.clone();
                wrong[place] = other;
                assert!(!is_whole(&wrong.iter().collect::<String>()), "{wrong:?}");
            }
            for second in place + 1..5 {
                let mut swapped = letters.clone();
                swapped.swap(place, second);
                let changed = swapped != letters;
                assert_eq!(!is_whole(&swapped.iter().collect::<String>()), changed);
            }
        }
    }
}
