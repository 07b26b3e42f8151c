//! Condition by age group: the words that the readings came to, counted.

use super::kept::Kept;
use super::rows::AgeGroup;
use super::share;
use super::table::ConditionLine;
use crate::science::season::COVERAGE;
use crate::science::special::wilson;

/// One line an age group.
pub fn table(rows: &[&Kept]) -> Vec<ConditionLine> {
    AgeGroup::ALL.map(|group| line(group, rows)).into()
}

fn line(group: AgeGroup, rows: &[&Kept]) -> ConditionLine {
    let of_group: Vec<&str> = rows.iter().filter(|row| row.age_group == group).map(|row| &*row.condition).collect();
    let count = |word: &str| u32::try_from(of_group.iter().filter(|own| **own == word).count()).unwrap_or(u32::MAX);
    let (exhausted, depleted, partly_used) = (count("exhausted"), count("depleted"), count("partly_used"));
    let (low, with_word) = (exhausted + depleted, exhausted + depleted + partly_used);
    let interval = wilson(low, with_word, COVERAGE);
    ConditionLine {
        age: group.code().to_owned(),
        carcasses: u32::try_from(of_group.len()).unwrap_or(u32::MAX),
        exhausted,
        depleted,
        partly_used,
        cannot_say: count("cannot_say"),
        not_looked: count("not_looked"),
        of: with_word,
        low_share: (with_word > 0).then(|| share(f64::from(low) / f64::from(with_word))),
        low: interval.map(|ends| share(ends.low)),
        high: interval.map(|ends| share(ends.high)),
    }
}
