//! What the findings of one carcass say.

use leptos::prelude::*;
use uuid::Uuid;

use crate::reading;
use crate::web::form::Form;
use crate::web::parts::{Look, plain_head, tile};
use crate::web::readings::readings_view;
use crate::web::screen::Screen;
use crate::web::session::HeldCard;

pub(super) fn readings(form: Form, examination: Uuid) -> AnyView {
    let carcass = form.with(|s| s.bodies.fold_of_examination(examination).carcass_of(examination).cloned()).flatten();
    let card = form.with(|s| s.card.clone()).flatten();
    let given = HeldCard::given(card.as_ref());
    let body = carcass.map(|carcass| readings_view(form.language(), &carcass, &reading::all(&carcass, &given)));
    view! {
        <section class="ask">
            {plain_head(form.say("readings.head"))}
        </section>
        {body}
        <div class="tiles">
            {tile(form, "journal", form.say("steps.journal"), Look::Value, move || form.go(Screen::Journal(examination)))}
            {tile(form, "hand-over", form.say("readings.hand_over"), Look::Value, move || form.go(Screen::HandOver))}
            {tile(form, "start", form.say("visit.to_start"), Look::Aside, move || form.go(Screen::Start))}
        </div>
    }
    .into_any()
}
