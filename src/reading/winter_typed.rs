//! A log's readings as they are typed and shown: degrees and depths in the units of the setting, kept so
//! that what was typed is found again exactly.

use crate::record::{FindingDef, Shape};
use crate::record::{Shown, Unit, find};
use crate::science::winter::measure::{Depth, Temperature};

/// The unit of a measured finding; `None` for any other.
fn unit(finding: &str) -> Option<Unit> {
    match find(finding).map(|def: &FindingDef| def.shape) {
        Some(Shape::Number { unit, .. }) => Some(unit),
        _ => None,
    }
}

/// The symbol beside the number.
pub fn symbol(finding: &str, shown: Shown) -> &'static str {
    match (unit(finding), shown) {
        (Some(Unit::DegreeCelsius), Shown::Us) => "\u{b0}F",
        (Some(Unit::Centimetre), Shown::Us) => "in",
        (Some(unit), _) => unit.symbol(),
        (None, _) => "",
    }
}

/// True for a temperature: it may be below zero.
pub fn is_temperature(finding: &str) -> bool {
    unit(finding) == Some(Unit::DegreeCelsius)
}

/// The stored integer of a number as typed, to the tenth; `None` for what is no such number.
pub fn typed(finding: &str, text: &str, shown: Shown) -> Option<i64> {
    let tenths = tenths(text)?;
    Some(match (unit(finding)?, shown) {
        (Unit::DegreeCelsius, Shown::Metric) => Temperature::from_hundredths_c(tenths * 10).to_record(),
        (Unit::DegreeCelsius, Shown::Us) => Temperature::from_hundredths_f(tenths * 10).to_record(),
        (_, Shown::Metric) => tenths * 100,
        (_, Shown::Us) => Depth::from_hundredths_in(tenths * 10).thousandths_cm(),
    })
}

fn tenths(text: &str) -> Option<i64> {
    let (negative, digits) = match text.trim().strip_prefix(['-', '\u{2212}']) {
        Some(rest) => (true, rest),
        None => (false, text.trim()),
    };
    let (whole, part) = digits.split_once(['.', ',']).unwrap_or((digits, "0"));
    let plain = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    // The point may be the last key pressed.
    let part = if part.is_empty() { "0" } else { part };
    if !plain(whole) || !plain(part) || part.len() != 1 || whole.len() > 4 {
        return None;
    }
    let tenths = whole.parse::<i64>().ok()? * 10 + part.parse::<i64>().ok()?;
    Some(if negative { -tenths } else { tenths })
}

/// A stored number to the tenth, with its unit.
pub fn printed(finding: &str, stored: i64, shown: Shown) -> String {
    let (metric, us) = if is_temperature(finding) {
        Temperature::from_record(stored).tenths()
    } else {
        Depth::from_thousandths_cm(stored).tenths()
    };
    let tenths = if shown == Shown::Us { us } else { metric };
    let sign = if tenths < 0 { "\u{2212}" } else { "" };
    let (whole, part) = (tenths.abs() / 10, tenths.abs() % 10);
    let number = if part == 0 { format!("{sign}{whole}") } else { format!("{sign}{whole}.{part}") };
    format!("{number}\u{a0}{}", symbol(finding, shown))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_typed_is_found_again_in_either_unit() {
        // 0 F = -17.777... C, 18 in = 45.72 cm: NIST SP 811 (2008), appendix B.8.
        assert_eq!(typed("day_minimum_c", "0", Shown::Us), Some(-1_778));
        assert_eq!(printed("day_minimum_c", -1_778, Shown::Us), "0\u{a0}\u{b0}F");
        assert_eq!(printed("day_minimum_c", -1_778, Shown::Metric), "\u{2212}17.8\u{a0}\u{b0}C");
        assert_eq!(typed("day_minimum_c", "\u{2212}17.8", Shown::Metric), Some(-1_780));
        assert_eq!(typed("day_snow_depth_cm", "18", Shown::Us), Some(45_720));
        assert_eq!(printed("day_snow_depth_cm", 45_720, Shown::Us), "18\u{a0}in");
        for tenths in -600..600_i64 {
            let text = format!("{}{}.{}", if tenths < 0 { "-" } else { "" }, tenths.abs() / 10, tenths.abs() % 10);
            for shown in [Shown::Us, Shown::Metric] {
                let stored = typed("day_maximum_c", &text, shown).unwrap();
                let back = printed("day_maximum_c", stored, shown).replace('\u{2212}', "-");
                assert_eq!(
                    back.split('\u{a0}').next().unwrap(),
                    text.trim_end_matches(".0").replace("-0", if tenths == 0 { "0" } else { "-0" })
                );
            }
        }
    }

    #[test]
    fn nonsense_is_not_taken() {
        for text in ["", "-", ".", "1.25", "12345", "1.2.3", "a"] {
            assert_eq!(typed("day_minimum_c", text, Shown::Metric), None, "{text}");
        }
        assert_eq!(typed("day_minimum_c", "3.", Shown::Metric), Some(300), "the point may be the last key");
        assert_eq!(typed("day_crust", "3", Shown::Metric), None);
    }
}
