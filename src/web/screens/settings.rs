//! Settings of this phone.

use leptos::prelude::*;

use crate::bundle::fingerprint::Fingerprint;
use crate::web::form::Form;
use crate::web::parts::{act, plain_head};
use crate::web::screen::Screen;

pub(super) fn settings(form: Form) -> AnyView {
    let device = form.with(|s| s.device);
    let switch = move |name: &'static str,
                       is_on: fn(&crate::web::settings::Settings) -> bool,
                       flip: fn(&mut crate::web::settings::Settings)| {
        let on = Memo::new(move |_| form.settings.with(is_on));
        view! {
            <button
                type="button"
                class="act switch"
                role="switch"
                data-act=name
                aria-checked=move || if on.get() { "true" } else { "false" }
                on:click=move |_| form.set_settings(flip)
            >
                <span>{form.say(&format!("settings.{name}"))}</span>
                <strong>{move || form.say(if on.get() { "settings.on" } else { "settings.off" })}</strong>
            </button>
        }
    };
    view! {
        <section class="ask">
            {plain_head(form.say("settings.head"))}
            {switch("dusk", |s| s.dusk, |s| s.dusk = !s.dusk)}
            {switch("left_hand", |s| s.left_hand, |s| s.left_hand = !s.left_hand)}
            {act(form, "who", form.say("settings.who"), move || form.go(Screen::Who))}
            <h2>{form.say("settings.device")}</h2>
            <p>{form.say("settings.device_how")}</p>
            {device.map(|device| view! { <p class="fingerprint" data-fingerprint="">{Fingerprint::of(device).to_string()}</p> })}
            {device.map(super::hand_over::qr)}
        </section>
        {super::card::card(form)}
    }
    .into_any()
}
