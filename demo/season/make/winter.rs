//! The winter's daily log, as a weather station near the reserve's gate might write it.

use std::fmt::Write as _;

use marrowbook::record::Moment;

use super::dice::Dice;

/// Days of each month from November to April.
const MONTHS: [(i32, u32, u32, i64); 6] =
    [(2026, 11, 30, 21), (2026, 12, 31, 7), (2027, 1, 31, -4), (2027, 2, 28, -1), (2027, 3, 31, 14), (2027, 4, 15, 28)];

/// A day as it was: degrees F, and inches of snow at the stake.
struct Day {
    date: (i32, u32, u32),
    low: i64,
    high: i64,
    depth: i64,
}

fn days() -> Vec<Day> {
    let mut dice = Dice::new(7);
    let mut all = Vec::new();
    let mut depth = 0_i64;
    for (year, month, length, mean) in MONTHS {
        for day in 1..=length {
            let low = mean + dice.between(-14, 12);
            let high = low + dice.between(8, 22);
            if high < 34 && dice.chance(25) {
                depth += dice.between(1, 4);
            } else if high > 36 {
                depth = (depth - dice.between(1, 3)).max(0);
            } else if dice.chance(38) {
                depth = (depth - 1).max(0);
            }
            all.push(Day { date: (year, month, day), low, high, depth });
        }
    }
    all
}

fn day_of(at: Moment) -> Option<Day> {
    let (year, month, day) = at.date();
    days().into_iter().find(|one| one.date == (year, u32::from(month), u32::from(day)))
}

/// Snow at the stake on that day, cm.
pub(crate) fn snow_cm(at: Moment) -> i64 {
    day_of(at).map_or(0, |day| day.depth * 254 / 100)
}

/// When crews leave it is little warmer than the night was, degrees C.
pub(crate) fn morning_c(at: Moment) -> i64 {
    day_of(at).map_or(0, |day| (day.low - 32) * 5 / 9 + 2)
}

/// The file: degrees F and inches.
pub(crate) fn log() -> String {
    let mut text = "date,tmin,tmax,snow depth\n".to_owned();
    for Day { date: (year, month, day), low, high, depth } in days() {
        // On three days nobody read the stake.
        let read = if month == 2 && (11..14).contains(&day) { String::new() } else { depth.to_string() };
        let _ = writeln!(text, "{year}-{month:02}-{day:02},{low},{high},{read}");
    }
    text
}
