//! From ids and values to the words on the screen. All texts are the catalogue's; here they are
//! only looked up and put together.

use crate::guide::answer_words::known;
pub(crate) use crate::guide::answer_words::{
    answer, date_and_time, degrees, finding, number, option, plant, site, time, with_unit,
};
use crate::guide::{Ask, Draft, Input, site_words};
use crate::record::{Flaw, Shape, Shown, Unit, find};
use crate::words::{Arg, Language, say};

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

/// A text of an ask: `why`, `how`, `none`, `done`; `None` where it has none.
pub(crate) fn ask_part(language: Language, ask: &Ask, part: &str) -> Option<String> {
    match ask {
        Ask::Step { step, .. } => known(language, &format!("step.{}.{part}", step.id), &[]),
        Ask::Hazard { hazard, .. } => known(language, &format!("hazard.{}.{part}", hazard.code), &[]),
    }
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

/// A number typed in `system` as a scaled integer of the unit's own; `None` where it is none, or in metric finer than is
/// kept.
pub(crate) fn kept(typed: &str, unit: Unit, decimals: u8, system: Shown) -> Option<i64> {
    if system == Shown::Metric {
        return scaled(typed, decimals);
    }
    // A hundredth of an inch or a pound is finer than anybody reads one in the snow.
    Some(unit.kept(scaled(typed, 2)? as f64 / 100.0, decimals, system))
}

/// A kept number with its unit, as `system` shows it.
pub(crate) fn in_system(language: Language, scaled: i64, unit: Unit, decimals: u8, system: Shown) -> String {
    match system {
        Shown::Metric => with_unit(&number(language, scaled, decimals), unit.symbol()),
        Shown::Us => {
            let value = scaled as f64 / libm::pow(10.0, f64::from(decimals));
            language.number(unit.shown(value, decimals, system).print())
        }
    }
}

/// The same with a capital at its head.
pub(crate) fn capital(text: &str) -> String {
    crate::record::letters::capital(text)
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
        | Input::Sweep { finding: f, .. }
        | Input::Photo(f) => Some(f),
        Input::Panel(_) | Input::Photos { .. } | Input::Jaw | Input::Points { .. } | Input::Volumes { .. } => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn typed_numbers_are_read_at_the_resolution_of_the_finding() {
        assert_eq!(scaled("5,1", 2), Some(510));
        assert_eq!(scaled("5.12", 2), Some(512));
        assert_eq!(scaled("-11", 0), Some(-11));
        assert_eq!(scaled(".5", 1), Some(5));
        assert_eq!(scaled("5.123", 2), None, "finer than is kept is not cut silently");
        assert_eq!(scaled("", 0), None);
        assert_eq!(scaled("-", 0), None);
    }
}
