//! A stop to be read and stood back from, or a fact to be stated.

use leptos::prelude::*;

use crate::guide::{Closes, Draft, Grade, Hazard};
use crate::record::{Answer, Site};
use crate::web::form::Form;
use crate::web::parts::{HEAD, Look, plain_head, tile};
use crate::web::session::Now;
use crate::words::{Arg, raw};

/// The screen of one hazard that asks for a statement.
pub(super) fn hazard(form: Form, now: &Now, row: &'static Hazard) -> AnyView {
    if row.grade >= Grade::Stop { stop(form, now, row) } else { confirm(form, row) }
}

fn say(form: Form, row: &Hazard, part: &str) -> Option<String> {
    let id = format!("hazard.{}.{part}", row.id.to_ascii_lowercase());
    raw(form.language(), &id).map(|_| form.say(&id))
}

fn state(form: Form, row: &'static Hazard, code: &'static str) {
    let draft = Draft { finding: row.confirm, site: Site::NONE, answer: Answer::choice(code), step: row.id };
    form.answer(&[draft]);
}

fn stop(form: Form, now: &Now, row: &'static Hazard) -> AnyView {
    let read = say(form, row, "fact").unwrap_or_else(|| form.say("stop.read"));
    view! {
        <section class="stop" data-ask=row.id data-grade="stop">
            <div class="stop-head">
                {octagon()}
                <h1 id=HEAD tabindex="-1">
                    <span class="stop-word">{form.say("stop.word")}</span>
                    {say(form, row, "head")}
                </h1>
            </div>
            {say(form, row, "do").map(|text| view! { <p>{text}</p> })}
            <p><strong>{form.say(closes(row.closes))}</strong></p>
            {whom_to_call(form, now, row)}
            {say(form, row, "source").map(|text| view! { <p class="source">{text}</p> })}
            <div class="tiles">
                {tile(form, "done", read, Look::Main, move || state(form, row, "done"))}
            </div>
        </section>
    }
    .into_any()
}

fn confirm(form: Form, row: &'static Hazard) -> AnyView {
    let fact = say(form, row, "fact").unwrap_or_else(|| form.say("confirm.done"));
    let cannot = say(form, row, "cannot").unwrap_or_else(|| form.say("confirm.cannot"));
    view! {
        <section class="ask confirm" data-ask=row.id data-grade="confirm">
            <p class="check">{form.say("grade.check")}</p>
            {plain_head(say(form, row, "head").unwrap_or_default())}
            {say(form, row, "do").map(|text| view! { <p>{text}</p> })}
            {say(form, row, "source").map(|text| view! { <p class="source">{text}</p> })}
        </section>
        <div class="tiles">
            {tile(form, "done", fact, Look::Value, move || state(form, row, "done"))}
            {tile(form, "cannot", cannot, Look::Value, move || state(form, row, "cannot"))}
        </div>
    }
    .into_any()
}

/// Whom the card names, as the office wrote it. The phone does not call and says so.
pub(super) fn whom_to_call(form: Form, now: &Now, row: &Hazard) -> AnyView {
    let Some(call_for) = row.call else { return ().into_any() };
    let named = now.card.as_ref().and_then(|card| card.call(call_for).cloned());
    let text = match named {
        Some(call) => {
            form.say_with("stop.call", &[("name", Arg::Text(call.name)), ("number", Arg::Text(call.number))])
        }
        None => form.say("stop.call_unnamed"),
    };
    view! { <p class="call">{text}" "{form.say("stop.phone_does_not_call")}</p> }.into_any()
}

/// What is closed, in words.
pub(super) const fn closes(closes: Closes) -> &'static str {
    match closes {
        Closes::Nothing => "closes.nothing",
        Closes::Head => "closes.head",
        Closes::Cutting => "closes.cutting",
        Closes::HandsOn => "closes.hands_on",
        Closes::Place => "closes.place",
    }
}

/// The shape of a stop sign, told by its outline alone.
fn octagon() -> AnyView {
    view! {
        <svg class="octagon" viewBox="0 0 24 24" aria-hidden="true">
            <path d="M7.6 1.5h8.8l6.1 6.1v8.8l-6.1 6.1H7.6l-6.1-6.1V7.6z" fill="none" stroke="currentColor" stroke-width="2"/>
            <path d="M12 6v7M12 16.5v1.5" stroke="currentColor" stroke-width="2.6"/>
        </svg>
    }
    .into_any()
}
