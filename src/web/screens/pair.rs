//! Two people at one carcass: how to call answers out, a second look without knowing the first, a second phone.

use leptos::prelude::*;

use crate::guide::{Ask, second_look, site_words};
use crate::record::short_code::short_code;
use crate::record::{Answer, PersonCode};
use crate::web::form::Form;
use crate::web::parts::{Look, code_field, main_tile, plain_head, tile};
use crate::web::screen::Screen;
use crate::web::wording;
use crate::words::Arg;

use super::who::{of_card, people_tiles};

/// The other one looks, or the list of what is left to look at.
pub(super) fn pair(form: Form) -> AnyView {
    match form.second_look() {
        Some(first) => looking(form, &first),
        None => both(form),
    }
}

fn text(code: &PersonCode) -> Arg {
    Arg::Text(code.as_str().to_owned())
}

fn both(form: Form) -> AnyView {
    let Some(now) = form.now_once() else { return ().into_any() };
    form.begin_field("second", String::new());
    let me = now.here.person.clone();
    let mut people = of_card(&now);
    people.retain(|(code, _)| *code != me);
    let other = main_tile(
        form,
        "second",
        move || form.say("pair.go"),
        move || match PersonCode::new(form.typed.try_get_untracked().unwrap_or_default().trim()) {
            Ok(code) if code != me => form.look_second(code),
            _ => form.tell(form.say("pair.not_a_code")),
        },
    );
    let second = if second_look::answered(&now.view(), &now.situation).next().is_some() {
        view! {
            <p>{form.say("pair.second.how")}</p>
            <div class="tiles">
                {people_tiles(form, people, move |code| form.look_second(code))}
                {code_field(form, "who.code", "second", 12)}
                {other}
            </div>
        }
        .into_any()
    } else {
        view! { <p>{form.say("pair.nothing_yet")}</p> }.into_any()
    };
    view! {
        <section class="ask" data-pair="">
            {plain_head(form.say("pair.head"))}
            <h2>{form.say("pair.call")}</h2>
            <p>{form.say("pair.call.how")}</p>
            <h2>{form.say("pair.second")}</h2>
            {second}
            {compared(form)}
            {phone(form)}
        </section>
        <div class="tiles">
            {tile(form, "carry-on", form.say("visit.carry_on"), Look::Aside, move || form.go(Screen::Visit(None)))}
        </div>
    }
    .into_any()
}

/// What the second person has still to look at. Nothing of the first one's is on the screen.
fn looking(form: Form, first: &PersonCode) -> AnyView {
    let Some(now) = form.now_once() else { return ().into_any() };
    let view = now.view();
    let words = |ask: &Ask| wording::ask(form.language(), ask);
    let done = second_look::answered(&view, &now.situation).map(|ask| {
        view! { <p class="how">{form.say_with("pair.done", &[("what", Arg::Text(words(&ask)))])}</p> }
    });
    let left = second_look::open(&view, &now.situation).map(|ask| {
        let name = ask.name();
        tile(form, &format!("look-{name}"), words(&ask), Look::Value, move || {
            form.go(Screen::Visit(Some(name.clone())));
        })
    });
    let back = form.say_with("pair.hand_back", &[("code", text(first))]);
    view! {
        <section class="ask" data-pair="looking">
            {plain_head(form.say_with("pair.looking", &[("code", text(&now.here.person))]))}
            <p class="how">{form.say("pair.looking.how")}</p>
            {done.collect_view()}
        </section>
        <div class="tiles">
            {left.collect_view()}
            {tile(form, "hand-back", back, Look::Main, move || form.end_second_look())}
        </div>
    }
    .into_any()
}

fn compared(form: Form) -> Option<AnyView> {
    let now = form.now_once()?;
    let all = second_look::compared(&now.view());
    if all.is_empty() {
        return None;
    }
    let language = form.language();
    let said = |finding: &'static str, (person, answer): &(PersonCode, Answer)| {
        language.named(person.as_str(), &wording::answer(language, finding, answer))
    };
    let rows = all.iter().map(|one| {
        let name = [wording::finding(language, one.finding), site_words(language, one.site)].join(" ");
        let word = form.say(if one.agree { "pair.agree" } else { "pair.differ" });
        let said = one.said.iter().map(|s| said(one.finding, s)).collect::<Vec<_>>().join("; ");
        view! { <li data-agree=one.agree.to_string()>{name}" \u{2013} "<strong>{word}</strong>" "{said}</li> }
    });
    Some(
        view! {
            <h2>{form.say("pair.compared")}</h2>
            <p class="how">{form.say("pair.compared.how")}</p>
            <ul data-compared="">{rows.collect_view()}</ul>
        }
        .into_any(),
    )
}

/// The code by which a second phone says that it is at the same carcass.
fn phone(form: Form) -> Option<AnyView> {
    let code = short_code(form.now_once()?.carcass()?.id);
    Some(
        view! {
            <h2>{form.say("pair.phone")}</h2>
            <p>{form.say("pair.phone.how")}</p>
            <p class="fingerprint" data-carcass-code="">{code}</p>
        }
        .into_any(),
    )
}
