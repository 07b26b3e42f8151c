//! Other phones' bundles on this phone: listed, handed on as files of their own, deleted once they have arrived.

use leptos::prelude::*;

use crate::web::form::Form;
use crate::web::parts::{Look, act, tile};
use crate::web::platform::file::OutFile;
use crate::web::screen::Screen;
use crate::web::session::{Carried, Envelope};
use crate::web::wording;
use crate::words::Arg;

/// A bundle in one line: whose, what, when.
pub(super) fn row_words(form: Form, envelope: &Envelope, bytes: usize) -> String {
    let args = [
        ("phone", Arg::Text(envelope.phone.clone())),
        ("n", Arg::Count(i64::try_from(envelope.carcasses).unwrap_or_default())),
        ("at", Arg::Text(wording::date_and_time(envelope.made_at))),
        ("kb", Arg::Text(wording::kilobytes(bytes as u64))),
    ];
    form.say_with("frames.row", &args)
}

/// The files, byte for byte as they were signed.
pub(super) fn files(form: Form) -> Vec<OutFile> {
    let name = |(n, one): (usize, &Carried)| {
        let file = one.read.as_ref().map_or_else(|_| format!("marrowbook-other-phone-{n}.txt"), |e| e.file.clone());
        OutFile::text(&file, &one.text)
    };
    form.received.with(|held| (1..).zip(held.iter().flatten()).map(name).collect())
}

/// The list.
pub(super) fn received(form: Form) -> AnyView {
    let asked: RwSignal<Option<String>> = RwSignal::new(None);
    let rows = move || {
        form.load_received();
        let held = form.received.get().unwrap_or_default();
        if held.is_empty() {
            return ().into_any();
        }
        if let Some(text) = asked.get() {
            return sure(form, text, asked);
        }
        let rows = (1..).zip(held).map(|(n, Carried { read, text })| {
            let words = match &read {
                Ok(envelope) => row_words(form, envelope, text.len()),
                Err(why) => form.say_with("frames.row_unread", &[("reason", Arg::Text(form.say(why.message())))]),
            };
            let from = read.map(|e| e.signer.to_string()).unwrap_or_default();
            view! {
                <li data-received=from>
                    <p>{words}</p>
                    {act(form, "show-received", form.say("frames.show"), move || form.go(Screen::Show(n)))}
                    {act(form, "delete-received", form.say("frames.delete"), move || asked.set(Some(text.clone())))}
                </li>
            }
        });
        view! {
            <section class="phase">
                <h2>{form.say("frames.others")}</h2>
                <ul class="rows">{rows.collect_view()}</ul>
            </section>
        }
        .into_any()
    };
    view! { {rows} }.into_any()
}

/// Asked once more: it does not come back.
fn sure(form: Form, text: String, asked: RwSignal<Option<String>>) -> AnyView {
    form.bounce_from_now();
    view! {
        <p class="statement">{form.say("frames.delete_sure")}</p>
        <div class="tiles">
            {tile(form, "keep", form.say("frames.delete_no"), Look::Main, move || asked.set(None))}
            {tile(form, "delete-it", form.say("frames.delete_yes"), Look::Aside, move || {
                asked.set(None);
                form.drop_received(text.clone());
            })}
        </div>
    }
    .into_any()
}
