//! What the findings of one carcass say.

use leptos::prelude::*;
use uuid::Uuid;

use crate::web::form::Form;
use crate::web::parts::{Look, plain_head, tile};
use crate::web::screen::Screen;

pub(super) fn readings(form: Form, examination: Uuid) -> AnyView {
    view! {
        <section class="ask">
            {plain_head(form.say("readings.head"))}
            <p>{form.say("readings.not_yet")}</p>
        </section>
        <div class="tiles">
            {tile(form, "journal", form.say("steps.journal"), Look::Value, move || form.go(Screen::Journal(examination)))}
            {tile(form, "hand-over", form.say("readings.hand_over"), Look::Value, move || form.go(Screen::HandOver))}
            {tile(form, "start", form.say("visit.to_start"), Look::Aside, move || form.go(Screen::Start))}
        </div>
    }
    .into_any()
}
