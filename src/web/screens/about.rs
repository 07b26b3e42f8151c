//! What this is, and its cautions.

use leptos::prelude::*;

use crate::web::form::Form;
use crate::web::parts::plain_head;
use crate::words::Arg;

const LINES: [&str; 7] = ["about.1", "about.2", "about.3", "about.4", "about.5", "about.6", "about.7"];

pub(super) fn about(form: Form) -> AnyView {
    view! {
        <section class="ask">
            {plain_head(form.say("about.head"))}
            {LINES.map(|id| view! { <p>{form.say(id)}</p> }).collect_view()}
            <p><a href="rescue.html">{form.say("about.rescue")}</a></p>
            <p>{form.say_with("about.version", &[("version", Arg::from(env!("CARGO_PKG_VERSION")))])}</p>
        </section>
    }
    .into_any()
}
