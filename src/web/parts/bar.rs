//! The bar on every screen: Back, Leave now, Hurt; then the phase and when the crew is due back.

use leptos::prelude::*;

use crate::web::form::Form;
use crate::web::screen::Screen;
use crate::web::wording;
use crate::words::Arg;

/// The bar. It stands at the top, away from the tiles that the thumb is at.
pub(crate) fn bar(form: Form) -> AnyView {
    let in_visit = Memo::new(move |_| form.now.with(|now| now.here.examination.is_some() && !now.is_closed()));
    let at_start = Memo::new(move |_| form.screen.get() == Screen::Start);
    let button = move |name: &'static str, act: fn(Form)| {
        view! {
            <button
                type="button"
                class="bar-button"
                data-act=name
                on:click=move |event| {
                    if form.is_meant(&event) {
                        act(form);
                    }
                }
            >
                {form.say(&format!("bar.{name}"))}
            </button>
        }
    };
    view! {
        <header class="bar">
            <nav class="bar-buttons" aria-label=form.say("bar.label")>
                {move || (!at_start.get()).then(|| button("back", Form::back))}
                {move || in_visit.get().then(|| button("leave_now", |form| form.go(Screen::LeaveNow)))}
                {button("hurt", |form| form.go(Screen::Hurt))}
            </nav>
            {where_we_are(form)}
        </header>
    }
    .into_any()
}

fn where_we_are(form: Form) -> AnyView {
    let phase = Memo::new(move |_| {
        let screen = form.screen.get();
        form.now.with(|now| match &screen {
            Screen::Visit(Some(name)) | Screen::NoAnswer(name) => {
                now.ask(Some(name)).map(|a| a.phase()).or(now.phase())
            }
            of_visit if of_visit.is_of_the_visit() => now.phase(),
            _ => None,
        })
    });
    let code = Memo::new(move |_| {
        let of_visit = form.screen.with(Screen::is_of_the_visit);
        form.now.with(|now| now.carcass().filter(|_| of_visit).map(|c| crate::record::short_code::short_code(c.id)))
    });
    let due = Memo::new(move |_| form.now.with(|now| now.due_back().map(wording::time)));
    view! {
        <p class="where" data-phase=move || phase.get().map(crate::guide::Phase::code)>
            {move || phase.get().map(|p| view! { <strong>{form.say(&format!("phase.{}", p.code()))}</strong> })}
            {move || code.get().map(|c| view! { <span class="code">{form.say_with("bar.carcass", &[("code", Arg::Text(c))])}</span> })}
        </p>
        {move || due.get().map(|time| view! {
            <p class="due">
                <strong>{form.say_with("bar.due_back", &[("time", Arg::Text(time))])}</strong>
                " "
                {form.say(crate::guide::CANNOT_CALL)}
            </p>
        })}
    }
    .into_any()
}
