//! The local card: a form over the draft, what is missing beside each field, and the signed file.

use leptos::prelude::*;

use super::card_fields::{Form, boxes, list, one, part, table_and_readers};
use super::desk::{Desk, count, now, tell, tell_with};
use super::view::{of_ours_bytes, read_file};
use crate::bundle::Fingerprint;
use crate::office::card_made::{Draft, fields, notes, sign};
use crate::office::hand::Hand;
use crate::web::frames_view::frames_view;
use crate::web::platform::clipboard::copy;
use crate::web::platform::file::OutFile;
use crate::words::Language;

/// Where the part that draws codes lies from the office's page.
const PART: &str = "../parts/frames.js";

/// A signed card, ready to go out.
#[derive(Clone, PartialEq)]
struct Signed {
    serial: u64,
    text: String,
    words: String,
    /// The draft as it stood then: once it is changed, the file is no longer what the form shows.
    of: Draft,
}

pub(super) fn card(desk: Desk) -> AnyView {
    let newest =
        Memo::new(move |_| desk.hand.with(|hand| hand.newest_card().map(|(card, bytes)| (card.serial, bytes))));
    let serial = Memo::new(move |_| newest.with(|newest| newest.as_ref().map(|(serial, _)| *serial)));
    let next = move || serial.get_untracked().map_or(1, |serial| serial.saturating_add(1));
    let form = Form::new(Draft::empty(next()), serial);
    // Another archive, or a card signed: the one in the form comes after its newest.
    Effect::new(move || {
        serial.track();
        form.number_at_least(next());
    });
    let said = RwSignal::new(None::<String>);
    let signed = RwSignal::new(None::<Signed>);
    let begin = move |draft: Result<Draft, String>| match draft {
        Ok(draft) => {
            form.begin(draft);
            said.try_set(None);
            signed.try_set(None);
        }
        Err(why) => drop(said.try_set(Some(tell_with("card.page.not_loaded", &[("reason", why.into())])))),
    };
    let load = move |_: String, read: Result<Vec<u8>, String>| {
        begin(read.and_then(|bytes| Draft::from_file(&bytes, next(), desk.office())));
    };
    let newest_tile = move || {
        newest.get().map(|(serial, bytes)| {
            let label = tell_with("card.page.newest", &[("serial", serial.to_string().into())]);
            view! {
                <button type="button" class="tile aside" data-act="newest-card"
                    on:click=move |_| begin(Draft::from_file(&bytes, next(), desk.office()))>{label}</button>
            }
        })
    };
    let act = move |_| {
        let value = form.draft.with_untracked(Draft::json);
        if form.draft.with_untracked(|draft| draft.checked(serial.get_untracked()).is_err()) {
            signed.set(None);
            return said.set(Some(tell("card.page.refused")));
        }
        let Some(key) = desk.key_now() else {
            signed.set(None);
            return said.set(Some(tell("card.page.no_key")));
        };
        let made = sign(&value, &key).and_then(|text| {
            desk.hand
                .try_update(|hand: &mut Hand| hand.archive().keep_card(text.as_bytes()).map(drop))
                .unwrap_or(Ok(()))
                .map_err(|error| error.to_string())?;
            Ok(text)
        });
        match made {
            Ok(text) => {
                let serial = value.get("serial").and_then(serde_json::Value::as_u64).unwrap_or_default();
                form.number_at_least(serial.saturating_add(1));
                let of = form.draft.get_untracked();
                let words = Fingerprint::of(key.public().id()).to_string();
                said.set(None);
                signed.set(Some(Signed { serial, text, words, of }));
            }
            Err(why) => said.set(Some(tell_with("key.page.failed", &[("reason", why.into())]))),
        }
    };
    let offered = Memo::new(move |_| signed.get().filter(|signed| form.draft.with(|draft| *draft == signed.of)));
    let body = move || {
        form.shape.track();
        view! {
            {part("card.page.part.office", form.fields(fields::OFFICE))}
            {part("card.page.part.calls", list(form, fields::CALLS))}
            {part("card.page.part.permits", list(form, fields::PERMITS))}
            {part("card.page.part.people", list(form, fields::PEOPLE))}
            {part("card.page.part.laboratories", super::card_laboratories::laboratories(form))}
            {part("card.page.part.diseases", form.fields(fields::DISEASES))}
            {part("card.page.part.predators", boxes(form, fields::PREDATORS, "tracks_by"))}
            {part("card.page.part.limits", view! {
                <p>{tell("card.page.limits.what")}</p>
                {form.fields(fields::LIMITS)}
            }.into_any())}
            {part("card.page.part.cause", form.fields(fields::CAUSE))}
            {part("card.page.part.words", form.fields(fields::WORDS))}
            {part("card.page.part.figures", table_and_readers(desk, form))}
        }
    };
    view! {
        <section data-part="card">
            <h2>{tell("card.page.head")}</h2>
            <p>{tell("card.page.what")}</p>
            <h3>{tell("card.page.start")}</h3>
            <div class="ways">
                <button type="button" class="tile aside" data-act="empty-card" on:click=move |_| begin(Ok(Draft::empty(next())))>
                    {tell("card.page.empty")}
                </button>
                {newest_tile}
                <label class="tile file aside" data-pick="card">
                    <span class="label">{tell("card.page.load")}</span>
                    <input type="file" class="file-input" on:change=move |event| read_file(&event, of_ours_bytes(), load)/>
                </label>
            </div>
            {body}
            {faults(form, serial)}
            <button type="button" class="tile main" data-act="sign-card" on:click=act>{tell("card.page.sign")}</button>
            <div role="alert" data-card-said="">{move || said.get().map(|why| view! { <p class="alert">{why}</p> })}</div>
            {move || offered.get().map(|signed| out(desk, signed))}
        </section>
    }
    .into_any()
}

/// All that keeps it from being signed, or what is worth knowing where nothing does.
fn faults(form: Form, newest: Memo<Option<u64>>) -> AnyView {
    let body = move || {
        let all = form.faults.get();
        if all.is_empty() {
            let card = form.draft.with(|draft| draft.checked(newest.get()).ok());
            let notes = card.map(|card| notes(&card, now())).unwrap_or_default();
            let notes = notes.into_iter().map(|note| view! { <li>{note}</li> }).collect_view();
            return view! { <p>{tell("card.page.faults.none")}</p><ul>{notes}</ul> }.into_any();
        }
        let head = tell_with("card.page.faults", &[("n", count(all.len()))]);
        let lines = all
            .into_iter()
            .map(|fault| {
                let place = one(&fault.at);
                let line = format!("{place}: {}", super::card_fields::words(&fault));
                view! { <li>{line}</li> }
            })
            .collect_view();
        view! { <p>{head}</p><ul>{lines}</ul> }.into_any()
    };
    view! { <div class="report-line" data-faults=move || form.faults.get().len().to_string()>{body}</div> }.into_any()
}

/// The signed card on its way out.
fn out(desk: Desk, signed: Signed) -> AnyView {
    let copied = RwSignal::new(None::<bool>);
    let (for_copy, for_file, for_camera) = (signed.text.clone(), signed.text.clone(), signed.text.clone());
    let shown = RwSignal::new(false);
    let codes = move || {
        shown.get().then(|| {
            view! {
                <p>{tell("card.page.shown")}</p>
                {frames_view(&for_camera, PART, Language::English)}
            }
        })
    };
    let serial = signed.serial;
    let download_act = move |_| {
        desk.hand_out(&OutFile::text(&format!("card-{serial}.txt"), &for_file));
    };
    let copy_act = move |_| {
        let text = for_copy.clone();
        leptos::task::spawn_local(async move {
            copied.try_set(Some(copy(&text).await.is_ok()));
        });
    };
    let told = tell_with("card.page.signed", &[("serial", serial.to_string().into()), ("words", signed.words.into())]);
    view! {
        <div data-signed=serial.to_string()>
            <p class="report-line" role="status">{told}</p>
            <div class="ways">
                <button type="button" class="act" data-act="download-card" on:click=download_act>
                    {tell_with("card.page.download", &[("serial", serial.to_string().into())])}
                </button>
                <button type="button" class="act" data-act="copy-card" on:click=copy_act>{tell("card.page.copy")}</button>
                <button type="button" class="act" data-act="show-card" on:click=move |_| shown.update(|is| *is = !*is)>
                    {move || tell(if shown.get() { "card.page.show_no_more" } else { "card.page.show" })}
                </button>
            </div>
            <p role="status">{move || copied.get().map(|good| {
                tell(if good { "card.page.copied" } else { "card.page.not_copied" })
            })}</p>
            {codes}
            <label class="field">
                {tell("card.page.text")}
                <textarea class="words" rows="4" readonly data-field="signed-card" prop:value=signed.text.clone()></textarea>
            </label>
        </div>
    }
    .into_any()
}
