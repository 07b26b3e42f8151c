//! Plain decimal numbers from text.

/// A plain decimal number of at most 15 digits. Two whole numbers below 2^53 are divided, so it is rounded once,
/// as the standard library would; that one's tables for all numbers are 10 kB that nothing else on the phone needs.
pub(crate) fn read(text: &str) -> Option<f64> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let places = u32::try_from(part.len()).ok()?;
    if whole.len() + part.len() > 15 || !(whole.bytes().chain(part.bytes())).all(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let scaled: u64 = format!("{whole}{part}").parse().ok()?;
    Some(scaled as f64 / 10_u64.pow(places) as f64)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        // Against the standard library's reader of all decimal numbers.
        #[test]
        fn a_short_decimal_is_the_double_nearest_to_it(whole in "[0-9]{0,7}", part in "[0-9]{0,8}") {
            for text in [format!("{whole}.{part}"), whole.clone()] {
                prop_assert_eq!(read(&text), text.parse::<f64>().ok(), "{}", text);
            }
        }
    }

    #[test]
    fn other_numbers_are_refused() {
        for text in ["", ".", "-1", "+1", "1e3", "inf", "nan", "1.2.3", " 1", "1234567890123456"] {
            assert_eq!(read(text), None, "{text}");
        }
    }
}
