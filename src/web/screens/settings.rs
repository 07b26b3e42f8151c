//! Settings of this phone.

use leptos::prelude::*;

use crate::bundle::fingerprint::Fingerprint;
use crate::record::Shown;
use crate::web::form::Form;
use crate::web::parts::{act, plain_head};
use crate::web::screen::Screen;
use crate::web::settings::Settings;

pub(super) fn settings(form: Form) -> AnyView {
    let device = form.with(|s| s.device);
    let switch = move |name: &'static str, is_on: fn(&Settings) -> bool, flip: fn(&mut Settings)| {
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
            <h2>{form.say("language.head")}</h2>
            {crate::web::languages::tiles(form)}
            {crate::web::languages::unchecked(form).map(|text| view! { <p data-fact="language">{text}</p> })}
            {switch("dusk", |s| s.dusk, |s| s.dusk = !s.dusk)}
            {switch("left_hand", |s| s.left_hand, |s| s.left_hand = !s.left_hand)}
            {units(form)}
            {act(form, "who", form.say("settings.who"), move || form.go(Screen::Who))}
            {name_field(form, "crew", |s| s.crew.clone(), |s, text| s.crew = text)}
            {name_field(form, "label", |s| s.label.clone(), |s, text| s.label = text)}
            <h2>{form.say("settings.device")}</h2>
            <p>{form.say("settings.device_how")}</p>
            {device.map(|device| view! { <p class="fingerprint" data-fingerprint="">{Fingerprint::of(device).to_string()}</p> })}
            {device.map(|device| super::hand_over::qr(form, device))}
        </section>
        {super::card::card(form)}
    }
    .into_any()
}

/// Units of the readings: as the card has them until somebody flips it.
fn units(form: Form) -> AnyView {
    // Follows the setting; what the card says is behind `shown`.
    let on = Memo::new(move |_| {
        form.settings.track();
        form.shown() == Shown::Us
    });
    view! {
        <button
            type="button"
            class="act switch"
            role="switch"
            data-act="us_units"
            aria-checked=move || if on.get() { "true" } else { "false" }
            on:click=move |_| {
                let flipped = form.shown() != Shown::Us;
                form.set_settings(|s| s.us_units = Some(flipped));
            }
        >
            <span>{form.say("settings.us_units")}</span>
            <strong>{move || form.say(if on.get() { "settings.on" } else { "settings.off" })}</strong>
        </button>
    }
    .into_any()
}

/// A name that goes onto the bundle.
fn name_field(form: Form, name: &'static str, get: fn(&Settings) -> String, set: fn(&mut Settings, String)) -> AnyView {
    view! {
        <label class="field">
            {form.say(&format!("settings.{name}"))}
            <input
                type="text"
                autocomplete="off"
                maxlength="40"
                data-field=name
                prop:value=form.settings.with_untracked(get)
                on:change=move |event| {
                    let text = event_target_value(&event);
                    form.set_settings(|s| set(s, text.trim().to_owned()));
                }
            />
        </label>
    }
    .into_any()
}
