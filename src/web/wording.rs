//! From ids and values to the words on the screen. All texts are the catalogue's; here they are
//! only looked up and put together.

use crate::guide::answer_words::known;
pub(crate) use crate::guide::answer_words::{
    answer, degrees, finding, holder, kilobytes, number, option, plant, scaled, site, time, with_unit,
};
use crate::guide::{Ask, Draft, Input, Measured, site_words};
use crate::record::{Flaw, Moment, Shown};
use crate::words::{Arg, Language, say};

/// Date and time; no line ends within the date.
pub(crate) fn date_and_time(at: Moment) -> String {
    whole(&crate::guide::answer_words::date_and_time(at))
}

/// A number with hyphens that stays on one line: a browser would end the line after any of them.
pub(crate) fn whole(text: &str) -> String {
    text.replace('-', "-\u{2060}")
}

/// What an ask asks, after its place where it has one.
pub(crate) fn ask(language: Language, ask: &Ask) -> String {
    let text = bare(language, ask);
    match place(language, ask) {
        Some(place) => language.named(&place, &text),
        None => text,
    }
}

/// What an ask asks, without its place.
pub(crate) fn bare(language: Language, ask: &Ask) -> String {
    let id = match ask {
        Ask::Hazard { hazard, .. } => format!("hazard.{}.head", hazard.code),
        Ask::Step { step, .. } => format!("step.{}.ask", step.id),
    };
    say(language, &id, &[])
}

/// Of which tooth, bone, side or wound an ask asks.
pub(crate) fn place(language: Language, ask: &Ask) -> Option<String> {
    match ask {
        // A photo's number keeps it apart in the record; each photo asked for is told by its own words.
        Ask::Step { step, site } if !matches!(step.input, Input::Photo(_)) => {
            Some(capital(&site_words(language, *site))).filter(|place| !place.is_empty())
        }
        _ => None,
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
        language.named(&[name.trim_end_matches('?'), &place].concat(), &answer(language, d.finding, &d.answer))
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

/// The same with a capital at its head.
pub(crate) fn capital(text: &str) -> String {
    crate::record::letters::capital(text)
}

/// What is wrong with an answer and what would be taken.
pub(crate) fn flaw(language: Language, shown: Shown, flaw: &Flaw) -> String {
    match flaw {
        Flaw::OutOfRange { finding: code, value, min, max } => {
            let measured = Measured::of(code, shown);
            let print = |n: i64| Arg::Text(measured.map_or_else(|| n.to_string(), |m| m.say(language, n)));
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
