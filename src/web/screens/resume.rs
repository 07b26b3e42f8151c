//! After a break: where we were. The first step after an interruption is where errors cluster, and
//! people repeat more often than they skip; so the last answers are shown before anything is asked.

use leptos::prelude::*;

use crate::guide::{daylight, site_words};
use crate::record::Moment;
use crate::web::form::Form;
use crate::web::parts::{Look, opening_report, plain_head, tile};
use crate::web::screen::Screen;
use crate::web::session::Now;
use crate::web::wording;
use crate::words::Arg;

/// Answers shown.
const LAST: usize = 3;

pub(super) fn resume(form: Form) -> AnyView {
    let Some(now) = form.now_once() else { return ().into_any() };
    let card = now.situation.resume(&now.view(), LAST);
    let away = match (&card.away_s, card.last.is_empty()) {
        (_, true) => None,
        (Some(seconds), _) => Some(form.say_with("resume.away", &[("time", Arg::Text(away_words(form, *seconds)))])),
        (None, _) => Some(form.say("resume.clock_back")),
    };
    let last_asked = form.with(|s| s.before(&now, None)).flatten();
    let rows = card.last.iter().map(|a| {
        let place = site_words(form.language(), a.site);
        let name = wording::finding(form.language(), &a.finding);
        let name = if place.is_empty() { name } else { format!("{name} ({place})") };
        let answer = wording::answer(form.language(), &a.finding, &a.answer);
        view! { <li>{name}{form.language().colon()}<strong>{answer}</strong>" ("{wording::time(a.at)}")"</li> }
    });
    let show_last = last_asked.map(|name| {
        tile(form, "last-answer", form.say("resume.show_last"), Look::Aside, move || {
            form.go(Screen::Visit(Some(name.clone())));
        })
    });
    view! {
        <section class="ask">
            {plain_head(form.say("resume.head"))}
            {opening_report(form)}
            {away.map(|text| view! { <p>{text}</p> })}
            <p>{form.say_with("resume.open", &[("n", Arg::Count(i64::try_from(card.open_count).unwrap_or_default()))])}</p>
            <p>{form.say("resume.last")}</p>
            <ul class="last">{rows.collect_view()}</ul>
            {turn(form, &now)}
            {hands(form, &now)}
            {stops(form, &now)}
        </section>
        <div class="tiles">
            {show_last}
            {tile(form, "carry-on", carry_on(form, &now), Look::Main, move || form.go(Screen::Visit(None)))}
        </div>
    }
    .into_any()
}

fn carry_on(form: Form, now: &Now) -> String {
    match now.situation.next {
        Some(ask) => {
            let phase = form.say(&format!("phase.{}", ask.phase().code()));
            form.say_with("resume.carry_on_at", &[("phase", Arg::Text(phase))])
        }
        None => form.say("visit.carry_on"),
    }
}

/// Time away, in words.
fn away_words(form: Form, seconds: u64) -> String {
    let count = |n: u64| [("n", Arg::Count(i64::try_from(n).unwrap_or_default()))];
    match seconds / 60 {
        0 => form.say("resume.a_moment"),
        minutes @ 1..=119 => form.say_with("resume.minutes", &count(minutes)),
        minutes => form.say_with("resume.hours", &count(minutes / 60)),
    }
}

/// When to turn for home, by the guide's reckoning.
fn turn(form: Form, now: &Now) -> AnyView {
    let at = daylight::turn_unix(&now.view()).and_then(|s| Moment::from_unix(s, now.at.offset_minutes()).ok());
    at.map(|at| view! { <p>{form.say_with("resume.turn", &[("time", Arg::Text(wording::time(at)))])}</p> }).into_any()
}

fn hands(form: Form, now: &Now) -> AnyView {
    let id = match now.view().choice("hands").as_deref() {
        Some("clean") => "resume.hands_clean",
        Some("dirty") => "resume.hands_dirty",
        _ => "resume.hands_unknown",
    };
    view! { <p>{form.say(id)}</p> }.into_any()
}

fn stops(form: Form, now: &Now) -> AnyView {
    let all: Vec<&'static str> = now.situation.stops().map(|f| f.hazard.id).collect();
    if all.is_empty() {
        return view! { <p>{form.say("stops.none")}</p> }.into_any();
    }
    let heads =
        all.into_iter().map(|id| view! { <li>{form.say(&format!("hazard.{}.head", id.to_ascii_lowercase()))}</li> });
    view! {
        <div class="stop small">
            <p><strong>{form.say("stops.head")}</strong></p>
            <ul>{heads.collect_view()}</ul>
        </div>
    }
    .into_any()
}
