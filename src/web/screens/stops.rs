//! Stops in force, and the way to reopen one for a person whom the card names.

use leptos::prelude::*;

use crate::guide::{self, Fired, Hazard, may_reopen};
use crate::web::form::Form;
use crate::web::inputs::area;
use crate::web::parts::{Look, plain_head, tile};
use crate::web::screen::Screen;
use crate::web::session::Now;

use super::hazard::{lines, whom_to_call};

/// Most characters of a reason for reopening.
const REASON_MAX: usize = 200;

pub(super) fn stops(form: Form) -> AnyView {
    let Some(now) = form.now_once() else { return ().into_any() };
    let all: Vec<Fired> = now.situation.stops().copied().collect();
    let none = all.is_empty().then(|| view! { <p>{form.say("stops.none")}</p> });
    let may_any = all.iter().any(|f| may_reopen(&now.view(), f.hazard).is_ok());
    let field = may_any.then(|| {
        form.begin_field("reopen", String::new());
        view! { <p>{form.say("reopen.ask")}</p> {area(form, REASON_MAX)} }
    });
    let taken_back = now.situation.evidence_record.then(|| view! { <p>{form.say("evidence.stays_closed")}</p> });
    let list = all.into_iter().map(|f| one(form, &now, f)).collect_view();
    view! {
        <section class="ask">
            {plain_head(form.say("stops.head"))}
            {none}
            {taken_back}
            {field}
        </section>
        {list}
        <div class="tiles">
            {tile(form, "carry-on", form.say("visit.carry_on"), Look::Main, move || form.go(Screen::Visit(None)))}
        </div>
    }
    .into_any()
}

fn one(form: Form, now: &Now, fired: Fired) -> AnyView {
    let hazard = fired.hazard;
    let code = hazard.code;
    let reopen = match may_reopen(&now.view(), hazard) {
        Ok(()) => {
            tile(form, &format!("reopen-{code}"), form.say("stops.reopen"), Look::Value, move || reopen(form, hazard))
        }
        Err(no) => view! { <p>{form.say(no.message())}</p> }.into_any(),
    };
    view! {
        <section class="stop small" data-stop=hazard.id>
            <h2>{form.say(&format!("hazard.{code}.head"))}</h2>
            {lines(&form.say(&format!("hazard.{code}.do")))}
            <p><strong>{form.say(&format!("closes.{}", hazard.closes.code()))}</strong></p>
            {whom_to_call(form, now, hazard)}
            {reopen}
        </section>
    }
    .into_any()
}

/// Both what is reopened and why go into the journal in one tap.
fn reopen(form: Form, hazard: &'static Hazard) {
    let Some(now) = form.now_once() else { return };
    let reason = form.typed.try_get_untracked().unwrap_or_default();
    match guide::reopen(&now.view(), hazard, &reason) {
        Ok(drafts) => {
            if form.write_drafts(&drafts, form.say("saved.reopened")) {
                form.end_input();
                form.go(Screen::Visit(None));
            }
        }
        Err(no) => form.tell(form.say(no.message())),
    }
}
