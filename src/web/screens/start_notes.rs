//! What the first screen says of the phone itself: storage, card, newer version, how long since the
//! last hand-over.

use leptos::prelude::*;

use crate::card::{CardState, card_state};
use crate::web::form::Form;
use crate::web::shell;
use crate::web::wording;
use crate::words::Arg;

use super::start::promise;

pub(super) fn notes(form: Form) -> AnyView {
    let Some(now) = form.now_once() else { return ().into_any() };
    let card = match (&now.card, card_state(now.card.as_deref(), now.at)) {
        (Some(card), CardState::InForce) => {
            let until = wording::date_and_time(card.valid_to);
            form.say_with("card.in_force", &[("office", Arg::Text(card.office.clone())), ("until", Arg::Text(until))])
        }
        (_, CardState::InForce) => form.say("card.state.in_force"),
        (_, CardState::None) => form.say("card.state.none"),
        (_, CardState::Expired) => form.say("card.state.expired"),
        (_, CardState::NotYet) => form.say("card.state.not_yet"),
    };
    let handed = form.with(crate::web::session::Session::handed);
    let handed = handed
        .and_then(|h| h.at)
        .map(|at| form.say_with("start.handed_at", &[("at", Arg::Text(wording::date_and_time(at)))]));
    let line = |name: &'static str, text: String| view! { <li data-fact=name>{text}</li> };
    view! {
        <ul class="facts">
            {line("storage", form.say(promise(form.promise())))}
            {move || form.persisted.get().map(|yes| {
                line("persisted", form.say(if yes { "promise.persisted" } else { "promise.not_persisted" }))
            })}
            {move || {
                let shell = form.shell.get();
                view! { {line("offline", form.say(shell.message()))} {shell::update_button(form, shell)} }
            }}
            {crate::web::platform::lacking().into_iter().map(|id| line("lacks", form.say(id))).collect_view()}
            {line("card", card)}
            {handed.map(|text| line("handed", text))}
            {crate::web::languages::unchecked(form).map(|text| line("language", text))}
            {crate::web::address::is_demo().then(|| line("demo", form.say("start.demo")))}
        </ul>
    }
    .into_any()
}
