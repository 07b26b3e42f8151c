//! From ids and values to the words on the screen. All texts are the catalogue's; here they are
//! only looked up and put together.

use crate::guide::{Ask, Draft, Input};
use crate::record::{Answer, Flaw, Moment, Shape, Side, Site, Value, Why, find};
use crate::words::{Arg, Language, raw, say};

use super::session::Now;

/// The first of these messages that the catalogue has.
fn first(language: Language, ids: &[String], args: &[(&str, Arg)]) -> Option<String> {
    ids.iter().find(|id| raw(language, id).is_some()).map(|id| say(language, id, args))
}

/// A code as it stands, readable at least: shown only where the catalogue has a gap.
fn bare(code: &str) -> String {
    code.replace('_', " ")
}

/// The name of a finding.
pub(crate) fn finding(language: Language, code: &str) -> String {
    first(language, &[format!("finding.{code}")], &[]).unwrap_or_else(|| bare(code))
}

/// The name of an option of a finding.
pub(crate) fn option(language: Language, code: &str, option: &str) -> String {
    let ids = [format!("option.{code}.{option}"), format!("finding.{code}.{option}"), format!("option.{option}")];
    first(language, &ids, &[]).unwrap_or_else(|| bare(option))
}

/// The name of a reason.
pub(crate) fn why(language: Language, why: &Why) -> String {
    match why {
        Why::Other(words) => words.clone(),
        _ => say(language, &format!("why.{}", why_code(why)), &[]),
    }
}

/// The code of a reason.
pub(crate) const fn why_code(why: &Why) -> &'static str {
    match why {
        Why::Frozen => "frozen",
        Why::Buried => "buried",
        Why::Scavenged => "scavenged",
        Why::Decayed => "decayed",
        Why::UnderBody => "under_body",
        Why::Dark => "dark",
        Why::Cold => "cold",
        Why::Time => "time",
        Why::Unsafe => "unsafe",
        Why::StopInForce => "stop_in_force",
        Why::NotTrained => "not_trained",
        Why::Removed => "removed",
        Why::NotGiven => "not_given",
        Why::NotOpened => "not_opened",
        Why::Other(_) => "other",
    }
}

/// Where a question is asked, in words; empty where it has no place.
pub(crate) fn site(language: Language, site: Site) -> String {
    let side = site.side.map(|s| say(language, if s == Side::Left { "site.left" } else { "site.right" }, &[]));
    let tooth = site.tooth.map(|t| {
        let code = t.name().to_ascii_lowercase();
        first(language, &[format!("site.tooth.{code}"), format!("tooth.{code}")], &[]).unwrap_or_else(|| t.name().to_owned())
    });
    let bone = site.bone.map(|b| {
        first(language, &[format!("site.bone.{}", b.code()), format!("bone.{}", b.code())], &[])
            .unwrap_or_else(|| bare(b.code()))
    });
    let item = site.item.map(|n| say(language, "site.item", &[("n", Arg::Count(i64::from(n)))]));
    [side, tooth, bone, item].into_iter().flatten().collect::<Vec<_>>().join(", ")
}

/// What an ask asks.
pub(crate) fn ask(language: Language, ask: &Ask) -> String {
    match ask {
        Ask::Hazard { hazard, .. } => say(language, &format!("hazard.{}.head", hazard.id.to_ascii_lowercase()), &[]),
        Ask::Step { step, site: at } => {
            let id = format!("step.{}.ask", step.id);
            let place = site(language, *at);
            let text = first(language, &[id], &site_args(language, *at)).unwrap_or_else(|| bare(step.id));
            let says_it = raw(language, &format!("step.{}.ask", step.id)).is_some_and(|t| t.contains('{'));
            if place.is_empty() || says_it { text } else { format!("{text} ({place})") }
        }
    }
}

/// A text of an ask's step: `why`, `how`, `none`, `looked`; `None` where it has none.
pub(crate) fn ask_part(language: Language, ask: &Ask, part: &str) -> Option<String> {
    match ask {
        Ask::Step { step, site } => {
            first(language, &[format!("step.{}.{part}", step.id)], &site_args(language, *site))
        }
        Ask::Hazard { hazard, .. } => {
            first(language, &[format!("hazard.{}.{part}", hazard.id.to_ascii_lowercase())], &[])
        }
    }
}

fn site_args(language: Language, at: Site) -> Vec<(&'static str, Arg)> {
    let mut args = Vec::new();
    if at.side.is_some() {
        args.push(("side", Arg::Text(site(language, Site { side: at.side, ..Site::NONE }))));
    }
    if at.tooth.is_some() {
        args.push(("tooth", Arg::Text(site(language, Site { tooth: at.tooth, ..Site::NONE }))));
    }
    if at.bone.is_some() {
        args.push(("bone", Arg::Text(site(language, Site { bone: at.bone, ..Site::NONE }))));
    }
    if let Some(n) = at.item {
        args.push(("item", Arg::Count(i64::from(n))));
        args.push(("n", Arg::Count(i64::from(n))));
    }
    args
}

/// An answer in words, with its unit.
pub(crate) fn answer(language: Language, code: &str, given: &Answer) -> String {
    let state = |id: &str, reason: &Why| match reason {
        Why::NotGiven => say(language, id, &[]),
        _ => format!("{} ({})", say(language, id, &[]), why(language, reason)),
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
        Value::Choice(one) if one == "there" => say(language, "state.there", &[]),
        Value::Choice(one) => option(language, code, one),
        Value::Choices(all) => all.iter().map(|one| option(language, code, one)).collect::<Vec<_>>().join(", "),
        Value::Number(scaled) => match find(code).map(|def| def.shape) {
            Some(Shape::Number { unit, decimals, .. }) => with_unit(&printed(*scaled, decimals), unit.symbol()),
            _ => scaled.to_string(),
        },
        Value::Text(text) => text.clone(),
        Value::Instant(at) => date_and_time(*at),
        Value::Place(place) => {
            let degrees = |e7: i64| printed(e7 / 100, 5);
            format!("{}, {}", degrees(place.lat_e7), degrees(place.lon_e7))
        }
        Value::Photo(photo) => say(language, "value.photo", &[("kb", Arg::Text(photo.bytes.div_ceil(1024).to_string()))]),
        Value::Ref(id) => crate::record::short_code::short_code(*id),
    }
}

/// Answers about to be written, in one line: the first few, and how many more.
pub(crate) fn drafts(language: Language, now: &Now, all: &[Draft]) -> String {
    let of = |d: &Draft| format!("{}: {}", finding(language, d.finding), answer(language, d.finding, &d.answer));
    let _ = now;
    match all {
        [] => String::new(),
        [one] => of(one),
        [one, rest @ ..] => {
            let seen = all.iter().find(|d| d.answer.value().is_some()).unwrap_or(one);
            let more = i64::try_from(rest.len()).unwrap_or_default();
            say(language, "saved.and_more", &[("first", Arg::Text(of(seen))), ("n", Arg::Count(more))])
        }
    }
}

/// A scaled integer as a decimal number: `512` at two decimals is `5.12`.
pub(crate) fn printed(scaled: i64, decimals: u8) -> String {
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
pub(crate) fn scaled(typed: &str, decimals: u8) -> Option<i64> {
    let typed = typed.trim().replace('\u{2212}', "-").replace(',', ".");
    let (whole, part) = typed.split_once('.').unwrap_or((&typed, ""));
    let places = usize::from(decimals);
    if part.len() > places || whole.trim_start_matches('-').is_empty() && part.is_empty() {
        return None;
    }
    format!("{whole}{part:0<places$}").parse().ok()
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
            let print = |n: i64| Arg::Text(with_unit(&printed(n, decimals), unit));
            say(language, "flaw.range", &[("value", print(*value)), ("min", print(*min)), ("max", print(*max))])
        }
        Flaw::TooLong { max, .. } => say(language, "flaw.too_long", &[("max", Arg::Text(max.to_string()))]),
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
        Input::Panel(_) | Input::Jaw => None,
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
