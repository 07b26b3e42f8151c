//! Handing over: the bundle is made when the screen opens, so that the tap on `share` is fresh.

use leptos::prelude::*;

use crate::bundle::fingerprint::Fingerprint;
use crate::bundle::qr::device_text;
use crate::guide::Draft;
use crate::record::{Answer, CustodyGap, DeviceId, Site, Value};
use crate::web::edge::Phone;
use crate::web::form::Form;
use crate::web::parts::{Look, act, plain_head, tile};
use crate::web::platform::file::OutFile;
use crate::web::screen::Screen;
use crate::web::session::{Made, handed_text};
use crate::web::wording;
use crate::words::Arg;

pub(super) fn hand_over(form: Form) -> AnyView {
    let with_notes = RwSignal::new(false);
    let made = Memo::new(move |_| {
        let settings = form.settings.get();
        let notes = with_notes.get();
        form.with(|s| s.make_bundle(&settings, notes, &Phone))
    });
    let others = move || super::received::files(form);
    let body = move || match made.get() {
        Some(Ok(made)) => ways(form, made, others()),
        // Nothing of this phone's own; what it carries for others is handed on all the same.
        Some(Err(_)) if !others().is_empty() => {
            view! { <div class="tiles">{super::hand_over_ways::of_files(form, others(), "hand_over.shared")}</div> }
                .into_any()
        }
        Some(Err(reason)) => view! { <p class="alert" data-bundle="none">{why_none(form, reason)}</p> }.into_any(),
        None => ().into_any(),
    };
    let notes = form.with(crate::web::session::Session::has_private_notes).unwrap_or_default();
    let note_switch = notes.then(|| {
        view! {
            <button
                type="button"
                class="act switch"
                role="switch"
                data-act="with-notes"
                aria-checked=move || if with_notes.get() { "true" } else { "false" }
                on:click=move |_| with_notes.set(!with_notes.get_untracked())
            >
                <span>{form.say("hand_over.with_notes")}</span>
                <strong>{move || form.say(if with_notes.get() { "settings.on" } else { "settings.off" })}</strong>
            </button>
        }
    });
    view! {
        <section class="ask">
            {plain_head(form.say("hand_over.head"))}
            <p class="how"><strong>{form.say("hand_over.not_secret")}</strong></p>
            {note_switch}
            {unlabelled(form)}
            {act(form, "custody", form.say("custody.head"), move || form.go(Screen::Custody))}
            {act(form, "labels", form.say("label.all"), move || form.go(Screen::Labels))}
            {act(form, "take", form.say("frames.take"), move || form.go(Screen::Take))}
        </section>
        {super::received::received(form)}
        {super::calls::calls(form)}
        {body}
    }
    .into_any()
}

/// Why there is no bundle, in the crew's words where it has any.
pub(super) fn why_none(form: Form, reason: String) -> String {
    let (no_key, no_entry) = form.with(|s| (s.seed.is_none(), s.bodies.all().is_empty())).unwrap_or_default();
    match (no_key, no_entry) {
        (true, _) => form.say("reason.only_shows"),
        (_, true) => form.say("hand_over.nothing"),
        _ => reason,
    }
}

/// What left its carcass without a label is told before it leaves this crew.
fn unlabelled(form: Form) -> Option<AnyView> {
    let lists = form.with(crate::web::session::Session::custody).unwrap_or_default();
    let bare = lists.iter().flat_map(|(_, items)| items).any(|item| item.gaps.contains(&CustodyGap::NoNumber));
    bare.then(|| view! { <p class="alert" data-unlabelled="">{form.say("label.some_bare")}</p> }.into_any())
}

fn ways(form: Form, made: Made, others: Vec<OutFile>) -> AnyView {
    let count = i64::try_from(made.entries).unwrap_or_default();
    let kb = wording::kilobytes(made.text.len() as u64);
    let what = form.say_with(
        "hand_over.what",
        &[("n", Arg::Count(count)), ("kb", Arg::Text(kb)), ("file", Arg::Text(made.file.clone()))],
    );
    let handed = form.with(crate::web::session::Session::handed);
    let before = handed.filter(|h| h.through > 0).map(|h| {
        let at = h.at.map(wording::date_and_time).unwrap_or_default();
        let args = [("n", Arg::Text(h.through.to_string())), ("at", Arg::Text(at))];
        form.say_with("hand_over.before", &args)
    });
    let (through, bundle, device) = (made.through, made.id, made.device);
    view! {
        <section class="ask" data-bundle="made">
            <p>{what}</p>
            {before.map(|text| view! { <p data-handed="">{text}</p> })}
        </section>
        <div class="tiles">
            {super::hand_over_ways::ways(form, made, others)}
            {tile(form, "show", form.say("frames.show"), Look::Value, move || form.go(Screen::Show(0)))}
            {tile(form, "handed-over", form.say("hand_over.confirm"), Look::Value, move || {
                confirm(form, through, bundle);
            })}
        </div>
        <section class="ask">
            <p>{form.say("hand_over.stays")}</p>
            <h2>{form.say("settings.device")}</h2>
            <p>{form.say("settings.device_how")}</p>
            <p class="fingerprint" data-fingerprint="">{Fingerprint::of(device).to_string()}</p>
            {qr(form, device)}
            {act(form, "settings", form.say("start.settings"), move || form.go(Screen::Settings))}
        </section>
    }
    .into_any()
}

/// Only a person knows whether it has arrived.
fn confirm(form: Form, through: u64, bundle: uuid::Uuid) {
    let answer = Answer::Seen { value: Value::Text(handed_text(through, bundle)) };
    let draft = Draft { finding: "handed_over", site: Site::NONE, answer, step: "hand_over" };
    if form.write_drafts(&[draft], form.say("saved.handed_over")) {
        let more = form.now_once().is_some_and(|now| now.situation.next.is_some());
        form.go(if more { Screen::Visit(None) } else { Screen::Start });
    }
}

/// Room for the device id as a QR code.
pub(super) fn qr(form: Form, device: DeviceId) -> AnyView {
    super::labels::draw(form);
    super::labels::room(device_text(&device), form.say("hand_over.qr"))
}
