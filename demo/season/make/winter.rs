//! The winter's daily log, as a weather station near the reserve's gate might write it.

use std::fmt::Write as _;

use super::dice::Dice;

/// Days of each month from November to April.
const MONTHS: [(i32, u32, u32, i64); 6] = [
    (2026, 11, 30, 26),
    (2026, 12, 31, 10),
    (2027, 1, 31, -4),
    (2027, 2, 28, -1),
    (2027, 3, 31, 14),
    (2027, 4, 15, 28),
];

/// The file: degrees F and inches.
pub(crate) fn log() -> String {
    let mut dice = Dice::new(7);
    let mut text = "date,tmin,tmax,snow depth\n".to_owned();
    let mut depth = 0_i64;
    for (year, month, days, mean) in MONTHS {
        for day in 1..=days {
            let low = mean + dice.between(-14, 12);
            let high = low + dice.between(8, 22);
            if high < 34 && dice.chance(18) {
                depth += dice.between(1, 4);
            } else if high > 36 {
                depth = (depth - dice.between(1, 3)).max(0);
            } else if dice.chance(30) {
                depth = (depth - 1).max(0);
            }
            // On three days nobody read the stake.
            let read = if month == 2 && (11..14).contains(&day) { String::new() } else { depth.to_string() };
            let _ = writeln!(text, "{year}-{month:02}-{day:02},{low},{high},{read}");
        }
    }
    text
}
