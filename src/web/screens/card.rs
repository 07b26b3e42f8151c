//! Loading the local card: by file or by paste; the first time the office's words are compared.

use leptos::prelude::*;
use wasm_bindgen::JsCast as _;

use crate::bundle::fingerprint::Fingerprint;
use crate::web::form::Form;
use crate::web::parts::{Look, act, tile};
use crate::web::screen::Screen;
use crate::web::session::{ReceivedCard, read_card};
use crate::words::Arg;

pub(super) fn card(form: Form) -> AnyView {
    form.begin_field("card", String::new());
    let received: RwSignal<Option<ReceivedCard>> = RwSignal::new(None);
    let take = move |text: String| match read_card(&text) {
        Err(why) => form.tell(form.say_with("card.refused", &[("reason", Arg::Text(form.say(why.message())))])),
        Ok(card) => match take_known(form, card) {
            Taken::Unknown(card) => drop(received.try_set(Some(*card))),
            Taken::Older => form.tell(form.say("card.older")),
            Taken::Held => {}
        },
    };
    let body = move || match received.get() {
        Some(card) => compare(form, card),
        None => load(form, take),
    };
    view! { <section class="ask"><h2>{form.say("card.head")}</h2><p>{form.say("card.how")}</p></section> {body} }
        .into_any()
}

/// What became of a card.
pub(super) enum Taken {
    /// It is in force, and the form has gone on.
    Held,
    /// The one in force is newer; nothing changed.
    Older,
    /// It is of an office that this phone does not know: its words want comparing first.
    Unknown(Box<ReceivedCard>),
}

/// Hold a card of the office that this phone knows.
pub(super) fn take_known(form: Form, card: ReceivedCard) -> Taken {
    if form.settings.try_get_untracked().and_then(|s| s.office) != Some(card.signer) {
        return Taken::Unknown(Box::new(card));
    }
    let held = form.now_once().and_then(|now| now.card.as_ref().map(|c| c.serial));
    if held.is_some_and(|held| held > card.held.card.serial) {
        return Taken::Older;
    }
    form.hold_card(card);
    Taken::Held
}

fn load(form: Form, take: impl Fn(String) + Copy + 'static) -> AnyView {
    view! {
        <div class="tiles">
            <label class="field">
                {form.say("card.file")}
                <input type="file" data-field="card-file" on:change=move |event| read_file(&event, take)/>
            </label>
            <label class="field">
                {form.say("card.paste")}
                <textarea
                    class="words"
                    rows="3"
                    data-field="card"
                    prop:value=move || form.typed.get()
                    on:input=move |event| form.type_in(event_target_value(&event))
                ></textarea>
            </label>
            {tile(form, "card-by-camera", form.say("frames.take"), Look::Value, move || form.go(Screen::Take))}
            {tile(form, "take-card", form.say("card.take"), Look::Value, move || {
                take(form.typed.try_get_untracked().unwrap_or_default());
            })}
        </div>
    }
    .into_any()
}

/// The file's text, once the browser has read it.
fn read_file(event: &web_sys::Event, take: impl Fn(String) + 'static) {
    let input = event.target().and_then(|t| t.dyn_into::<web_sys::HtmlInputElement>().ok());
    let Some(file) = input.and_then(|i| i.files()).and_then(|files| files.get(0)) else { return };
    leptos::task::spawn_local(async move {
        if let Ok(text) = wasm_bindgen_futures::JsFuture::from(file.text()).await {
            take(text.as_string().unwrap_or_default());
        }
    });
}

/// A first card: these words must be the office's own.
pub(super) fn compare(form: Form, card: ReceivedCard) -> AnyView {
    let words = Fingerprint::of(card.signer).to_string();
    let office = card.held.card.office.clone();
    view! {
        <section class="ask">
            <p>{form.say_with("card.compare", &[("office", Arg::Text(office))])}</p>
            <p class="fingerprint" data-fingerprint="office">{words}</p>
        </section>
        <div class="tiles">
            {tile(form, "same-words", form.say("card.same_words"), Look::Main, move || form.hold_card(card.clone()))}
        </div>
        {act(form, "other-words", form.say("card.other_words"), move || {
            form.end_input();
            form.go(Screen::Settings);
            form.tell(form.say("card.not_taken"));
        })}
    }
    .into_any()
}
