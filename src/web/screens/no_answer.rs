//! The four other answers, with the likely reason preset.

use leptos::prelude::*;

use crate::guide::{Ask, Draft, Input, why_words};
use crate::record::{Answer, Site, Why};
use crate::web::form::Form;
use crate::web::inputs::area;
use crate::web::parts::{Look, main_tile, pages, plain_head, tile};
use crate::web::session::Now;
use crate::web::wording;
use crate::words::Arg;

/// Most characters of a reason in the crew's own words.
const WORDS_MAX: usize = 200;

pub(super) fn no_answer(form: Form, name: &str) -> AnyView {
    let Some(now) = form.now_once() else { return ().into_any() };
    let Some(ask) = now.ask(Some(name)) else { return ().into_any() };
    form.begin_input(&now, &ask);
    let likely = ask.likely_why(&now.view());
    let question = wording::ask(form.language(), &ask);
    let choosing = RwSignal::new(Choosing::State);
    let shown = move || match choosing.try_get().unwrap_or(Choosing::State) {
        Choosing::State => states(form, ask, likely.clone(), choosing),
        Choosing::Reason => reasons(form, ask, choosing),
        Choosing::Words => words(form, choosing),
    };
    view! {
        <section class="ask" data-ask=name.to_owned()>
            <p class="of">{question}</p>
            {plain_head(form.say("no_answer.head"))}
        </section>
        <div class="tiles">{shown}</div>
    }
    .into_any()
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Choosing {
    State,
    Reason,
    Words,
}

fn states(form: Form, ask: Ask, likely: Why, choosing: RwSignal<Choosing>) -> AnyView {
    let reason = form.reason.get().unwrap_or(likely);
    let not_given = reason == Why::NotGiven;
    let with_reason = |id: &str, why: &Why| {
        if *why == Why::NotGiven {
            form.say(id)
        } else {
            form.language().named(&form.say(id), &why_words(form.language(), why))
        }
    };
    let state = |tile_name: &'static str, label: String, answer: Answer| {
        tile(form, tile_name, label, Look::Value, move || give(form, ask, &answer))
    };
    let may_be_absent = form.now_once().is_some_and(|now| ask.may_be_absent(&now.view()));
    let absent = may_be_absent.then(|| {
        let label = wording::ask_part(form.language(), &ask, "none").unwrap_or_else(|| form.say("state.not_seen"));
        state("not-seen", label, Answer::NotSeen)
    });
    let why = || reason.clone();
    let gone = ask
        .about()
        .gone(&reason)
        .map(|why| state("part-gone", with_reason("state.part_gone", &why), Answer::PartGone { why }));
    view! {
        {absent}
        {state("cant-tell", with_reason("state.cant_tell", &reason), Answer::CantTell { why: why() })}
        {state("not-looked", with_reason("state.not_looked", &reason), Answer::NotLooked { why: why() })}
        {gone}
        {tile(form, "reason", form.say(if not_given { "no_answer.give_reason" } else { "no_answer.other_reason" }), Look::Aside, move || {
            choosing.try_set(Choosing::Reason);
            form.bounce_from_now();
        })}
    }
    .into_any()
}

fn reasons(form: Form, ask: Ask, choosing: RwSignal<Choosing>) -> AnyView {
    let (shown, page, count) = pages(&ask.about().reasons(), form.page.get());
    let tiles = shown.into_iter().map(|why| {
        let label = why_words(form.language(), &why);
        tile(form, why.code(), label, Look::Value, move || {
            form.reason.try_set(Some(why.clone()));
            choosing.try_set(Choosing::State);
            form.bounce_from_now();
        })
    });
    let number = |n: usize| Arg::Text(n.to_string());
    let more = form.say_with("tile.more", &[("page", number(page + 1)), ("pages", number(count))]);
    view! {
        {tiles.collect_view()}
        {tile(form, "more", more, Look::Aside, move || form.turn_page())}
        {tile(form, "own-words", form.say("no_answer.own_words"), Look::Aside, move || {
            choosing.try_set(Choosing::Words);
            form.bounce_from_now();
        })}
    }
    .into_any()
}

fn words(form: Form, choosing: RwSignal<Choosing>) -> AnyView {
    view! {
        {area(form, WORDS_MAX)}
        {main_tile(form, "take-words", move || form.say("no_answer.take_words"), move || {
            let typed = form.typed.try_get_untracked().unwrap_or_default();
            if typed.trim().is_empty() {
                form.tell(form.say("text.empty"));
            } else {
                form.reason.try_set(Some(Why::Other(typed.trim().to_owned())));
                choosing.try_set(Choosing::State);
                form.bounce_from_now();
            }
        })}
    }
    .into_any()
}

fn give(form: Form, ask: Ask, answer: &Answer) {
    form.undo_sweep(&ask);
    let Some(now) = form.now_once() else { return };
    let picked = form.picked.try_get_untracked().unwrap_or_default();
    let only = form.only.try_get_untracked().unwrap_or_default();
    let is_panel = matches!(ask, Ask::Step { step, .. } if matches!(step.input, Input::Panel(_)));
    let drafts = drafts(&now, ask, &only, answer).into_iter().map(|draft| {
        // What was tapped on the panel was seen all the same; the reason is for the rest.
        let seen = is_panel && picked.contains(draft.finding);
        if seen { Draft { answer: Answer::choice("there"), ..draft } } else { draft }
    });
    form.answer(&drafts.collect::<Vec<_>>());
}

/// The answer for every question that has none; for all of them where each has one already, because
/// then this is a correction.
fn drafts(now: &Now, ask: Ask, only: &[(&'static str, Site)], answer: &Answer) -> Vec<Draft> {
    let view = now.view();
    let open = ask.fill(&view, answer);
    if !open.is_empty() && only.is_empty() {
        return open;
    }
    let step = ask.id();
    let all = if only.is_empty() { ask.questions(&view) } else { only.to_vec() };
    all.into_iter().map(|(finding, site)| Draft { finding, site, answer: answer.clone(), step }).collect()
}
