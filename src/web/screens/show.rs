//! A record as moving codes: this phone's own, without photos and without what only a person may hand on; or one that
//! was taken from another phone, as it was signed.

use leptos::prelude::*;

use crate::web::edge::Phone;
use crate::web::form::Form;
use crate::web::frames_view::frames_view;
use crate::web::parts::{Look, plain_head, tile};
use crate::web::screen::Screen;
use crate::web::session::Carried;

use super::hand_over::why_none;

/// Where the part lies from the form's page.
pub(super) const PART: &str = "parts/frames.js";

/// 0 is this phone's own, then what was taken, in its order.
pub(super) fn show(form: Form, which: usize) -> AnyView {
    form.stay_awake();
    let body = move || {
        form.load_received();
        let own = || form.with(|s| s.make_bundle(&form.settings.get_untracked(), false, &Phone));
        let text = match which.checked_sub(1) {
            None => own().map(|made| made.map(|made| made.text).map_err(|why| why_none(form, why))),
            Some(at) => form.received.with(|held| {
                let one = |all: &Vec<Carried>| all.get(at).map(|one| one.text.clone());
                held.as_ref().map(|all| one(all).ok_or_else(|| form.say("frames.gone")))
            }),
        };
        match text {
            Some(Ok(text)) => frames_view(&text, PART, form.language()),
            Some(Err(reason)) => view! { <p class="alert">{reason}</p> }.into_any(),
            None => view! { <p role="status">{form.say("frames.loading")}</p> }.into_any(),
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
