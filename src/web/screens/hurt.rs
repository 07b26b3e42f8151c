//! Somebody is hurt: what to do first, then the exposure note.

use leptos::prelude::*;

use crate::card::CallFor;
use crate::guide::{CANNOT_CALL, Draft, NO_CARD_TO_CALL};
use crate::record::{Answer, Site, Value};
use crate::web::form::Form;
use crate::web::inputs::area;
use crate::web::parts::{Look, plain_head, tile};
use crate::web::screen::Screen;

/// First aid, line by line, from `safety-and-field-use` 4.7 (its sources: NIOSH 2012-123, WHO).
const LINES: [&str; 5] = ["hurt.stop", "hurt.wash", "hurt.wash_rabies", "hurt.cover", "hurt.leave"];
/// Most characters of an exposure note.
const NOTE_MAX: usize = 2_000;

pub(super) fn hurt(form: Form) -> AnyView {
    let Some(now) = form.now_once() else { return ().into_any() };
    let may_write = now.here.outing.is_some();
    if may_write {
        form.begin_field("exposure", form.say("hurt.note_form"));
    }
    let calls = [CallFor::Emergency, CallFor::Lead, CallFor::Health]
        .into_iter()
        .filter_map(|call_for| now.card.as_ref().and_then(|c| c.call(call_for).cloned()))
        .map(|call| view! { <li><strong>{call.name}</strong>": "{call.number}</li> })
        .collect_view();
    let no_card = now.card.is_none().then(|| view! { <p>{form.say(NO_CARD_TO_CALL)}</p> });
    let note = may_write.then(|| {
        view! {
            <h2>{form.say("hurt.note")}</h2>
            <p>{form.say("hurt.note_how")}</p>
            <p>{form.say("hurt.private")}</p>
            <div class="tiles">
                {area(form, NOTE_MAX)}
                {tile(form, "save-note", form.say("hurt.save_note"), Look::Main, move || save(form))}
            </div>
        }
    });
    view! {
        <section class="ask">
            {plain_head(form.say("hurt.head"))}
            <ol class="first-aid">{LINES.map(|id| view! { <li>{form.say(id)}</li> }).collect_view()}</ol>
            <p><strong>{form.say(CANNOT_CALL)}</strong></p>
            <ul class="calls">{calls}</ul>
            {no_card}
            {note}
        </section>
    }
    .into_any()
}

fn save(form: Form) {
    let typed = form.typed.try_get_untracked().unwrap_or_default();
    if typed.trim().is_empty() {
        return form.tell(form.say("text.empty"));
    }
    let answer = Answer::Seen { value: Value::Text(typed.trim().to_owned()) };
    let draft = Draft { finding: "exposure_note", site: Site::NONE, answer, step: "hurt" };
    if form.write_drafts(&[draft], form.say("saved.exposure_note")) {
        form.end_input();
        form.go(Screen::Visit(None));
    }
}
