//! A stop to be read and stood back from, or a fact to be stated.

use leptos::prelude::*;

use crate::card::CallFor;
use crate::guide::{CANNOT_CALL, Draft, Grade, Hazard, NO_CARD_TO_CALL};
use crate::record::{Answer, Site};
use crate::web::form::Form;
use crate::web::parts::{HEAD, Look, plain_head, tile};
use crate::web::session::Now;
use crate::web::wording;
use crate::words::raw;

/// The screen of one hazard that asks for a statement.
pub(super) fn hazard(form: Form, now: &Now, row: &'static Hazard) -> AnyView {
    if row.grade >= Grade::Stop { stop(form, now, row) } else { confirm(form, row) }
}

fn say(form: Form, row: &Hazard, part: &str) -> Option<String> {
    let id = format!("hazard.{}.{part}", row.code);
    raw(form.language(), &id).map(|_| form.say(&id))
}

/// Two short lines, read at arm's length.
pub(super) fn lines(text: &str) -> AnyView {
    text.lines().map(|line| view! { <p>{line.to_owned()}</p> }).collect_view().into_any()
}

fn state(form: Form, row: &'static Hazard, code: &'static str) {
    let draft = Draft { finding: row.confirm, site: Site::NONE, answer: Answer::choice(code), step: row.id };
    form.answer(&[draft]);
}

fn stop(form: Form, now: &Now, row: &'static Hazard) -> AnyView {
    let read = say(form, row, "fact").unwrap_or_else(|| form.say("said.read"));
    view! {
        <section class="stop" data-ask=row.id data-grade="stop">
            <div class="stop-head">
                {octagon()}
                <h1 id=HEAD tabindex="-1">
                    <span class="stop-word">{form.say("grade.stop")}</span>
                    {say(form, row, "head")}
                </h1>
            </div>
            {say(form, row, "do").map(|text| lines(&text))}
            <p><strong>{form.say(&format!("closes.{}", row.closes.code()))}</strong></p>
            {whom_to_call(form, now, row)}
            {source(form, row)}
            <div class="tiles">
                {tile(form, "done", read, Look::Main, move || state(form, row, "done"))}
            </div>
        </section>
    }
    .into_any()
}

fn confirm(form: Form, row: &'static Hazard) -> AnyView {
    let fact = say(form, row, "fact").unwrap_or_else(|| form.say("said.done"));
    view! {
        <section class="ask confirm" data-ask=row.id data-grade="confirm">
            <p class="check">{form.say("grade.confirm")}</p>
            {plain_head(say(form, row, "head").unwrap_or_default())}
            {say(form, row, "do").map(|text| lines(&text))}
            {source(form, row)}
        </section>
        <div class="tiles">
            {tile(form, "done", fact, Look::Value, move || state(form, row, "done"))}
            {tile(form, "cannot", wording::option(form.language(), row.confirm, "cannot"), Look::Value, move || state(form, row, "cannot"))}
        </div>
    }
    .into_any()
}

/// What the rule rests on, with its marks.
fn source(form: Form, row: &Hazard) -> AnyView {
    let text = say(form, row, "source").unwrap_or_default();
    view! { <details class="why"><summary>{form.say("stop.rests_on")}</summary><p>{text}</p></details> }.into_any()
}

/// Whom the card names, as the office wrote it. The phone does not call and says so.
pub(super) fn whom_to_call(form: Form, now: &Now, row: &Hazard) -> AnyView {
    let Some(call_for) = row.call else { return view! { <p>{form.say(CANNOT_CALL)}</p> }.into_any() };
    let for_what = form.say(&format!("calls.for.{}", call_code(call_for)));
    let named = match &now.card {
        None => form.say(NO_CARD_TO_CALL),
        Some(card) => match card.call(call_for) {
            None => form.say("calls.not_on_card"),
            Some(call) => {
                let named = form.language().named(&call.name, &call.number);
                if card.holds_at(now.at) { named } else { format!("{named}. {}", form.say("calls.card_is_old")) }
            }
        },
    };
    view! {
        <div class="call">
            <p>{form.say("calls.head")}{form.language().colon()}<strong>{for_what}</strong></p>
            <p>{named}</p>
            <p>{form.say(CANNOT_CALL)}</p>
        </div>
    }
    .into_any()
}

/// The code of a kind of call, as in message ids.
pub(super) const fn call_code(call_for: CallFor) -> &'static str {
    match call_for {
        CallFor::Lead => "lead",
        CallFor::Contact => "contact",
        CallFor::Officer => "officer",
        CallFor::Vet => "vet",
        CallFor::Health => "health",
        CallFor::Road => "road",
        CallFor::Emergency => "emergency",
        CallFor::TagOwner => "tag_owner",
        CallFor::Land => "land",
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
