//! From ids and values to the words on the screen. All texts are the catalogue's; here they are
//! only looked up and put together.

use crate::guide::{self, Ask, Draft, Input, site_words, why_words};
use crate::record::{Answer, Flaw, Moment, Place, Shape, Site, Value, Why, find};
use crate::words::{Arg, Language, raw, say};

/// A message, where the catalogue has it.
fn known(language: Language, id: &str, args: &[(&str, Arg)]) -> Option<String> {
    raw(language, id).map(|_| say(language, id, args))
}

/// A code as it stands, readable at least: for findings and options of a newer phone.
fn bare(code: &str) -> String {
    code.replace('_', " ")
}

/// The name of a finding.
pub(crate) fn finding(language: Language, code: &str) -> String {
    known(language, &guide::finding_label(code), &[]).unwrap_or_else(|| bare(code))
}

/// The name of an option of a finding.
pub(crate) fn option(language: Language, code: &str, option: &str) -> String {
    known(language, &guide::option_label(language, code, option), &[]).unwrap_or_else(|| bare(option))
}

/// A place in words; empty where there is none.
pub(crate) fn site(language: Language, at: Site) -> String {
    site_words(language, at)
}

/// What an ask asks, with its place where it has one.
pub(crate) fn ask(language: Language, ask: &Ask) -> String {
    match ask {
        Ask::Hazard { hazard, .. } => say(language, &format!("hazard.{}.head", hazard.code), &[]),
        Ask::Step { step, site } => {
            let text = say(language, &format!("step.{}.ask", step.id), &[]);
            // A photo's number keeps it apart in the record; each photo asked for is told by its own words.
            let place = if matches!(step.input, Input::Photo(_)) { String::new() } else { site_words(language, *site) };
            if place.is_empty() { text } else { format!("{text} {place}") }
        }
    }
}

/// A text of an ask: `why`, `how`, `none`, `looked`; `None` where it has none.
pub(crate) fn ask_part(language: Language, ask: &Ask, part: &str) -> Option<String> {
    match ask {
        Ask::Step { step, .. } => known(language, &format!("step.{}.{part}", step.id), &[]),
        Ask::Hazard { hazard, .. } => known(language, &format!("hazard.{}.{part}", hazard.code), &[]),
    }
}

/// An answer in words, with its unit.
pub(crate) fn answer(language: Language, code: &str, given: &Answer) -> String {
    let state = |id: &str, reason: &Why| match reason {
        Why::NotGiven => say(language, id, &[]),
        _ => format!("{} ({})", say(language, id, &[]), why_words(language, reason)),
    };
    match given {
        Answer::Seen { value: found } => value(language, code, found),
        Answer::NotSeen => say(language, "state.not_seen", &[]),
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
        Value::Photo(photo) => {
            say(language, "value.photo", &[("kb", Arg::Text(photo.bytes.div_ceil(1024).to_string()))])
        }
        Value::Ref(id) => crate::record::short_code::short_code(*id),
    }
}

/// The name of a plant; of one that is not known here, its code as it stands.
pub(crate) fn plant(language: Language, code: &str) -> String {
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
pub(crate) fn place(at: &Place) -> String {
    degrees(at).join(", ")
}

/// Latitude and longitude in degrees, to about a metre: two digits fewer than are kept.
pub(crate) fn degrees(at: &Place) -> [String; 2] {
    [at.lat_e7, at.lon_e7].map(|e7| {
        let text = printed(e7, 7);
        text.get(..text.len().saturating_sub(2)).unwrap_or_default().to_owned()
    })
}

/// Answers about to be written, in one line: one with its name, several as what was seen or, where
/// nothing was, the state that they share.
pub(crate) fn drafts(language: Language, all: &[Draft]) -> String {
    let of = |d: &Draft| {
        let name = finding(language, d.finding);
        let place = site(language, d.site);
        let place = if place.is_empty() { place } else { format!(" ({place})") };
        format!("{}{place}: {}", name.trim_end_matches('?'), answer(language, d.finding, &d.answer))
    };
    let count = |n: usize| ("n", Arg::Count(i64::try_from(n).unwrap_or_default()));
    match all {
        [] => String::new(),
        [one] => of(one),
        [first, ..] => {
            if let Some(seen) = all.iter().find(|d| d.answer.value().is_some()) {
                say(language, "saved.and_more", &[("first", Arg::Text(of(seen))), count(all.len() - 1)])
            } else {
                let state = Arg::Text(answer(language, first.finding, &first.answer));
                say(language, "saved.all_the_same", &[("state", state), count(all.len())])
            }
        }
    }
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

/// The same as this language writes it.
pub(crate) fn number(language: Language, scaled: i64, decimals: u8) -> String {
    language.number(printed(scaled, decimals))
}

/// A typed number as a scaled integer; `None` where it is none or finer than is kept.
pub(crate) fn scaled(typed: &str, decimals: u8) -> Option<i64> {
    let typed = typed.trim().replace('\u{2212}', "-").replace(',', ".");
    let (whole, part) = typed.split_once('.').unwrap_or((&typed, ""));
    let places = usize::from(decimals);
    if part.len() > places || whole.trim_start_matches('-').is_empty() && part.is_empty() {
        return None;
    }
    format!("{whole}{part:0<places$}").parse().ok()
}

/// The same with a capital at its head.
pub(crate) fn capital(text: &str) -> String {
    crate::record::letters::capital(text)
}

/// A number with its unit.
pub(crate) fn with_unit(number: &str, unit: &str) -> String {
    if unit.is_empty() || unit == "\u{b0}" { format!("{number}{unit}") } else { format!("{number}\u{a0}{unit}") }
}

/// Hours and minutes.
pub(crate) fn time(at: Moment) -> String {
    let (hour, minute) = at.hour_minute();
    format!("{hour:02}:{minute:02}")
}

/// Date and time, as they stand in the record.
pub(crate) fn date_and_time(at: Moment) -> String {
    let (year, month, day) = at.date();
    format!("{year:04}-{month:02}-{day:02} {}", time(at))
}

/// What is wrong with an answer and what would be taken.
pub(crate) fn flaw(language: Language, flaw: &Flaw) -> String {
    match flaw {
        Flaw::OutOfRange { finding: code, value, min, max } => {
            let (unit, decimals) = match find(code).map(|def| def.shape) {
                Some(Shape::Number { unit, decimals, .. }) => (unit.symbol(), decimals),
                _ => ("", 0),
            };
            let print = |n: i64| Arg::Text(with_unit(&number(language, n, decimals), unit));
            say(language, "flaw.range", &[("value", print(*value)), ("min", print(*min)), ("max", print(*max))])
        }
        Flaw::TooLong { max, .. } => say(language, "flaw.too_long", &[("max", Arg::Text(max.to_string()))]),
        Flaw::NoPlants { max, .. } => say(language, "flaw.no_plants", &[("max", Arg::Text(max.to_string()))]),
        Flaw::OffTheGlobe { .. } => say(language, "flaw.off_the_globe", &[]),
        other => say(language, "flaw.other", &[("reason", Arg::Text(other.to_string()))]),
    }
}

/// The one finding that an input asks; `None` for panels and the jaw.
pub(crate) const fn only_finding(input: &Input) -> Option<&'static str> {
    match input {
        Input::Choice(f)
        | Input::Choices(f)
        | Input::Number(f)
        | Input::Text(f)
        | Input::Instant(f)
        | Input::Place(f)
        | Input::ReadDo(f)
        | Input::Photo(f) => Some(f),
        Input::Panel(_) | Input::Photos { .. } | Input::Jaw | Input::Points { .. } | Input::Volumes { .. } => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_print_and_read_back_at_their_resolution() {
        assert_eq!(printed(512, 2), "5.12");
        assert_eq!(printed(5, 2), "0.05");
        assert_eq!(printed(-11, 0), "\u{2212}11");
        assert_eq!(scaled("5,1", 2), Some(510));
        assert_eq!(scaled("5.12", 2), Some(512));
        assert_eq!(scaled("-11", 0), Some(-11));
        assert_eq!(scaled(".5", 1), Some(5));
        assert_eq!(scaled("5.123", 2), None, "finer than is kept is not cut silently");
        assert_eq!(scaled("", 0), None);
        assert_eq!(scaled("-", 0), None);
    }
}
