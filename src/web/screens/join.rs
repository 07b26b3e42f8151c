//! A second phone at a carcass that another phone began: by its code.

use leptos::prelude::*;

use crate::record::PersonCode;
use crate::record::short_code::is_whole;
use crate::web::edge::Phone;
use crate::web::form::Form;
use crate::web::parts::{code_field, main_tile, plain_head};
use crate::words::Arg;

use super::who::{of_card, people_tiles};

pub(super) fn join(form: Form) -> AnyView {
    // A record needs somebody who made it.
    if form.with(|session| session.here.person == PersonCode::unnamed()).unwrap_or(true) {
        return person(form);
    }
    form.begin_field("join", String::new());
    let typed = move || form.typed.get().trim().to_ascii_uppercase();
    let label = move || match typed() {
        none if none.is_empty() => form.say("join.type_first"),
        code => form.say_with("join.go", &[("code", Arg::Text(code))]),
    };
    view! {
        <section class="ask">
            {plain_head(form.say("join.head"))}
            <p class="how">{form.say("join.how")}</p>
        </section>
        <div class="tiles">
            {code_field(form, "join.code", "join", 6)}
            {main_tile(form, "join", label, move || {
                let code = form.typed.try_get_untracked().unwrap_or_default().trim().to_ascii_uppercase();
                if is_whole(&code) {
                    form.end_input();
                    form.begin(|session| session.join_by_code(&code, &Phone));
                } else {
                    form.tell(form.say("join.not_a_code"));
                }
            })}
        </div>
    }
    .into_any()
}

/// Who holds this phone, before anything is begun.
fn person(form: Form) -> AnyView {
    form.begin_field("who", String::new());
    let people = form.now_once().map(|now| of_card(&now)).unwrap_or_default();
    let take = move |code: PersonCode| {
        form.end_input();
        form.set_person(code);
        form.redraw();
    };
    view! {
        <section class="ask">
            {plain_head(form.say("who.head"))}
            <p class="how">{form.say("who.how")}</p>
        </section>
        <div class="tiles">
            {people_tiles(form, people, take)}
            {code_field(form, "who.code", "who", 12)}
            {main_tile(form, "who-joins", move || form.say("tile.save_text"), move || {
                match PersonCode::new(form.typed.try_get_untracked().unwrap_or_default().trim()) {
                    Ok(code) => take(code),
                    Err(_) => form.tell(form.say("who.not_a_code")),
                }
            })}
        </div>
    }
    .into_any()
}
