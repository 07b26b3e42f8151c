//! A record as moving codes: this phone's own, without photos and without what only a person may hand on; or one that
//! was taken from another phone, as it was signed.

use leptos::prelude::*;

use crate::web::edge::Phone;
use crate::web::form::Form;
use crate::web::frames_view::frames_view;
use crate::web::parts::{Look, plain_head, tile};
use crate::web::screen::Screen;

/// Where the part lies from the form's page.
pub(super) const PART: &str = "parts/frames.js";

/// 0 is this phone's own, then what was taken, in its order.
pub(super) fn show(form: Form, which: usize) -> AnyView {
    form.stay_awake();
    let body = move || {
        form.load_received();
        let text = match which.checked_sub(1) {
            None => {
                form.with(|s| s.make_bundle(&form.settings.get_untracked(), false, &Phone)).map(|m| m.map(|m| m.text))
            }
            Some(at) => form.received.with(|held| held.as_ref().and_then(|h| h.all().get(at).cloned())).map(Ok),
        };
        match text {
            Some(Ok(text)) => frames_view(&text, PART, form.language()),
            Some(Err(reason)) => view! { <p class="alert">{reason}</p> }.into_any(),
            None => ().into_any(),
        }
    };
    view! {
        <section class="ask">
            {plain_head(form.say("frames.show"))}
            {body}
            <p>{form.say("frames.show_how")}</p>
        </section>
        <div class="tiles">
            {tile(form, "stop", form.say("frames.stop"), Look::Main, move || form.go(Screen::HandOver))}
        </div>
    }
    .into_any()
}
