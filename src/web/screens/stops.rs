//! Stops in force, and the way to reopen one for a person whom the card names.

use leptos::prelude::*;

use crate::guide::{Draft, Fired, Grade};
use crate::record::{Answer, Site, Value};
use crate::web::form::Form;
use crate::web::inputs::area;
use crate::web::parts::{Look, plain_head, tile};
use crate::web::screen::Screen;
use crate::web::session::Now;

use super::hazard::{closes, whom_to_call};

/// Most characters of a reason for reopening.
const REASON_MAX: usize = 200;

pub(super) fn stops(form: Form) -> AnyView {
    let Some(now) = form.now_once() else { return ().into_any() };
    let all: Vec<Fired> = now.situation.stops().copied().collect();
    let none = all.is_empty().then(|| view! { <p>{form.say("stops.none")}</p> });
    let may = now.view().person_on_card().is_some_and(|p| p.may_reopen_stops);
    let reopenable = all.iter().any(|f| f.hazard.grade == Grade::Stop);
    let field = (may && reopenable).then(|| {
        form.begin_field("reopen", String::new());
        view! { <p id="head-reason">{form.say("stops.reason")}</p> {area(form, REASON_MAX)} }
    });
    let list = all.into_iter().map(|f| one(form, &now, f, may)).collect_view();
    view! {
        <section class="ask">
            {plain_head(form.say("stops.head"))}
            {none}
            {(!may && reopenable).then(|| view! { <p>{form.say("stops.who_may")}</p> })}
            {field}
        </section>
        {list}
        <div class="tiles">
            {tile(form, "carry-on", form.say("visit.carry_on"), Look::Main, move || form.go(Screen::Visit(None)))}
        </div>
    }
    .into_any()
}

fn one(form: Form, now: &Now, fired: Fired, may: bool) -> AnyView {
    let id = fired.hazard.id.to_ascii_lowercase();
    let reopen = (may && fired.hazard.grade == Grade::Stop).then(|| {
        let code = id.clone();
        tile(form, &format!("reopen-{id}"), form.say("stops.reopen"), Look::Value, move || reopen(form, &code))
    });
    let fixed = (fired.hazard.grade == Grade::StopFixed).then(|| view! { <p>{form.say("stops.fixed")}</p> });
    view! {
        <section class="stop small" data-stop=fired.hazard.id>
            <h2>{form.say(&format!("hazard.{id}.head"))}</h2>
            <p>{form.say(&format!("hazard.{id}.do"))}</p>
            <p><strong>{form.say(closes(fired.hazard.closes))}</strong></p>
            {whom_to_call(form, now, fired.hazard)}
            {fixed}
            {reopen}
        </section>
    }
    .into_any()
}

/// Both what is reopened and why go into the journal in one tap.
fn reopen(form: Form, code: &str) {
    let reason = form.typed.try_get_untracked().unwrap_or_default();
    if reason.trim().is_empty() {
        return form.tell(form.say("stops.reason_first"));
    }
    let Some(now) = form.now_once() else { return };
    let mut all: Vec<String> = match now.view().answer("reopened").value() {
        Some(Value::Choices(before)) => before.clone(),
        _ => Vec::new(),
    };
    all.push(code.to_owned());
    let why = format!("{}: {}: {}", now.here.person, code.to_ascii_uppercase(), reason.trim());
    let why: String = why.chars().take(REASON_MAX).collect();
    let draft = |finding, value| Draft { finding, site: Site::NONE, answer: Answer::Seen { value }, step: "reopen" };
    let drafts = [draft("reopened", Value::choices(all)), draft("reopened_by", Value::Text(why))];
    if form.write_drafts(&drafts, form.say("saved.reopened")) {
        form.end_input();
        form.go(Screen::Visit(None));
    }
}
