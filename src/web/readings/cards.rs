//! A reading in short: a card that opens the whole. Everything on it comes from the reading.

use leptos::prelude::*;

use crate::reading::{Outcome, Reading, short};
use crate::record::Shown;
use crate::web::form::Form;
use crate::words::Arg;

/// The card. The button is its title; the whole card takes the tap.
pub(crate) fn card(form: Form, reading: &Reading, shown: Shown, open: impl Fn() + 'static) -> AnyView {
    let language = form.language();
    let short = short(reading);
    let title = form.say(&reading.title);
    let label = form.say_with("reading.short.open", &[("title", Arg::Text(title.clone()))]);
    let lines = short.lines.iter().map(|s| view! { <p>{s.say_in(language, shown)}</p> }).collect_view();
    let flags = short
        .flags
        .iter()
        .map(|s| view! { <p class="card-flag"><span aria-hidden="true">"! "</span>{s.say_in(language, shown)}</p> })
        .collect_view();
    let mark = short.mark.map(|s| {
        view! { <p class="card-mark"><span aria-hidden="true">"\u{2020} "</span>{s.say_in(language, shown)}</p> }
    });
    let read = reading.outcome == Outcome::Read;
    view! {
        <section class="card" data-card=reading.method.clone() data-read=read.then_some("")>
            <h2>
                <button
                    type="button"
                    aria-label=label
                    on:click=move |event| {
                        if form.is_meant(&event) {
                            open();
                        }
                    }
                >
                    <span>{title}</span>
                    <span class="card-more" aria-hidden="true">"\u{203a}"</span>
                </button>
            </h2>
            <p class="card-best">{short.best.say_in(language, shown)}</p>
            {lines}
            {flags}
            {mark}
        </section>
    }
    .into_any()
}
