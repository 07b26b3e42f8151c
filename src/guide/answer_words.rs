//! Answers, places, numbers and times in words, as screens and reports show them.

use super::{finding_label, option_label, site_words, why_words};
use crate::record::{Answer, CustodyLine, CustodyLineStep, Moment, Place, Shape, Site, Value, Why, find};
use crate::words::{Arg, Language, raw, say};

/// A message, where the catalogue has it.
pub(crate) fn known(language: Language, id: &str, args: &[(&str, Arg)]) -> Option<String> {
    raw(language, id).map(|_| say(language, id, args))
}

/// A code as it stands, readable at least: for findings and options of a newer phone.
fn bare(code: &str) -> String {
    code.replace('_', " ")
}

/// The name of a finding.
pub fn finding(language: Language, code: &str) -> String {
    known(language, &finding_label(code), &[]).unwrap_or_else(|| bare(code))
}

/// Who has a thing from a line of its custody on, by code; of a report who saw the carcass first, in words.
pub fn holder(language: Language, line: &CustodyLine) -> String {
    match line.step {
        CustodyLineStep::Reported => option(language, "report_seen_by", &line.to),
        _ => line.to.clone(),
    }
}

/// The name of an option of a finding.
pub fn option(language: Language, code: &str, option: &str) -> String {
    known(language, &option_label(language, code, option), &[]).unwrap_or_else(|| bare(option))
}

/// A place in words; empty where there is none.
pub fn site(language: Language, at: Site) -> String {
    site_words(language, at)
}

/// An answer in words, with its unit.
pub fn answer(language: Language, code: &str, given: &Answer) -> String {
    let state = |id: &str, reason: &Why| {
        // What nobody decided was not a thing to be looked at.
        let said = known(language, &format!("{id}.{code}"), &[]).unwrap_or_else(|| say(language, id, &[]));
        if *reason == Why::NotGiven { said } else { format!("{said} ({})", why_words(language, reason)) }
    };
    match given {
        Answer::Seen { value: found } => value(language, code, found),
        // A line or question of its own name has its own word for it: not told, not with us.
        Answer::NotSeen => {
            known(language, &format!("step.{code}.none"), &[]).unwrap_or_else(|| say(language, "state.not_seen", &[]))
        }
        Answer::CantTell { why } => state("state.cant_tell", why),
        Answer::NotLooked { why } => state("state.not_looked", why),
        Answer::PartGone { why } => state("state.part_gone", why),
    }
}

fn value(language: Language, code: &str, found: &Value) -> String {
    match found {
        Value::Choice(one) => option(language, code, one),
        Value::Choices(all) => all.iter().map(|one| option(language, code, one)).collect::<Vec<_>>().join(", "),
        Value::Number(scaled) => match find(code).map(|def| def.shape) {
            Some(Shape::Number { unit, decimals, .. }) => {
                with_unit(&number(language, *scaled, decimals), unit.symbol())
            }
            _ => scaled.to_string(),
        },
        Value::Text(text) => match find(code).map(|def| def.shape) {
            Some(Shape::Plants(_)) => tapped(language, text),
            _ => text.clone(),
        },
        Value::Instant(at) => date_and_time(*at),
        Value::Place(at) => place(at),
        Value::Photo(photo) => say(language, "value.photo", &[("kb", Arg::Text(kilobytes(photo.bytes)))]),
        Value::Ref(id) => crate::record::short_code::short_code(*id),
    }
}

/// Bytes as kilobytes of 1,000, as phones count them, rounded up.
pub fn kilobytes(bytes: u64) -> String {
    bytes.div_ceil(1_000).to_string()
}

/// The name of a plant; of one that is not known here, its code as it stands.
pub fn plant(language: Language, code: &str) -> String {
    known(language, &format!("plant.{code}"), &[])
        .unwrap_or_else(|| say(language, "plants.unknown", &[("code", bare(code).into())]))
}

/// Plants of one row with their points.
fn tapped(language: Language, text: &str) -> String {
    let mut row = crate::science::diet::points::Tally::default();
    // What is no row is shown as it stands.
    if row.add(text).is_err() {
        return text.to_owned();
    }
    let one = |(code, n): (&str, u32)| format!("{n} {}", plant(language, code));
    row.ranked().into_iter().map(one).collect::<Vec<_>>().join(", ")
}

/// A place in degrees.
pub fn place(at: &Place) -> String {
    degrees(at).join(", ")
}

/// Latitude and longitude in degrees, to about a metre: two digits fewer than are kept.
pub fn degrees(at: &Place) -> [String; 2] {
    [at.lat_e7, at.lon_e7].map(|e7| {
        let text = printed(e7, 7);
        text.get(..text.len().saturating_sub(2)).unwrap_or_default().to_owned()
    })
}

/// A scaled integer as a decimal number: `512` at two decimals is `5.12`.
fn printed(scaled: i64, decimals: u8) -> String {
    let digits = scaled.unsigned_abs().to_string();
    let places = usize::from(decimals);
    let sign = if scaled < 0 { "\u{2212}" } else { "" };
    if places == 0 {
        return format!("{sign}{digits}");
    }
    let padded = format!("{digits:0>width$}", width = places + 1);
    let (whole, part) = padded.split_at(padded.len() - places);
    format!("{sign}{whole}.{part}")
}

/// A typed number as a scaled integer; `None` where it is none or finer than is kept.
pub fn scaled(typed: &str, decimals: u8) -> Option<i64> {
    let typed = typed.trim().replace('\u{2212}', "-").replace(',', ".");
    let (whole, part) = typed.split_once('.').unwrap_or((&typed, ""));
    let places = usize::from(decimals);
    if part.len() > places || whole.trim_start_matches('-').is_empty() && part.is_empty() {
        return None;
    }
    format!("{whole}{part:0<places$}").parse().ok()
}

/// The same as this language writes it.
pub fn number(language: Language, scaled: i64, decimals: u8) -> String {
    language.number(printed(scaled, decimals))
}

/// A number with its unit.
pub fn with_unit(number: &str, unit: &str) -> String {
    if unit.is_empty() || unit == "\u{b0}" { format!("{number}{unit}") } else { format!("{number}\u{a0}{unit}") }
}

/// Hours and minutes.
pub fn time(at: Moment) -> String {
    let (hour, minute) = at.hour_minute();
    format!("{hour:02}:{minute:02}")
}

/// Date and time, as they stand in the record.
pub fn date_and_time(at: Moment) -> String {
    let (year, month, day) = at.date();
    format!("{year:04}-{month:02}-{day:02} {}", time(at))
}

/// The day that a date begins with, as `13 Nov`: where there is room for no more.
pub fn day_and_month(language: Language, date: &str) -> String {
    let mut parts = date.splitn(3, '-').skip(1);
    let month = parts.next().and_then(|month| month.parse::<usize>().ok()).unwrap_or_default();
    let day: String = parts.next().unwrap_or_default().chars().take(2).collect();
    let months = say(language, "reading.view.months", &[]);
    let name = months.split(' ').nth(month.wrapping_sub(1)).unwrap_or_default();
    format!("{} {name}", day.trim_start_matches('0'))
}

#[cfg(test)]
mod tests {
    use super::{day_and_month, printed};
    use crate::words::Language;

    /// The abbreviations of the Chicago Manual of Style (from memory).
    #[test]
    fn a_day_and_its_month() {
        assert_eq!(day_and_month(Language::English, "2026-11-03 00:00"), "3 Nov");
        assert_eq!(day_and_month(Language::English, "2027-01-30 06:15"), "30 Jan");
        assert_eq!(day_and_month(Language::English, "2027-12-10"), "10 Dec");
    }

    #[test]
    fn numbers_print_at_their_resolution() {
        assert_eq!(printed(512, 2), "5.12");
        assert_eq!(printed(5, 2), "0.05");
        assert_eq!(printed(-11, 0), "\u{2212}11");
    }
}
