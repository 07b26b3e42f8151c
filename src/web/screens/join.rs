//! A second phone at a carcass that another phone began: by its code.

use leptos::prelude::*;

use crate::record::short_code::is_whole;
use crate::web::edge::Phone;
use crate::web::form::Form;
use crate::web::parts::{code_field, main_tile, plain_head};
use crate::words::Arg;

pub(super) fn join(form: Form) -> AnyView {
    form.begin_field("join", String::new());
    let typed = move || form.typed.get().trim().to_uppercase();
    let label = move || form.say_with("join.go", &[("code", Arg::Text(typed()))]);
    view! {
        <section class="ask">
            {plain_head(form.say("join.head"))}
            <p class="how">{form.say("join.how")}</p>
        </section>
        <div class="tiles">
            {code_field(form, "join.code", "join", 6)}
            {main_tile(form, "join", label, move || {
                let code = form.typed.try_get_untracked().unwrap_or_default().trim().to_uppercase();
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
