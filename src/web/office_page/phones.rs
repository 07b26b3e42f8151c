//! The keyring: phones enrolled by their words, retired with a date.

use std::collections::BTreeMap;

use leptos::prelude::*;

use super::desk::{Desk, count, now, tell, tell_with};
use super::fields::{Takes, typed};
use super::signed::{Said, said_line};
use crate::bundle::Fingerprint;
use crate::office::card_made::day_begins;
use crate::office::hand::Stranger;
use crate::office::keyring::Enrolment;
use crate::record::{DeviceId, Moment};
use crate::web::platform::clock::offset_on;

pub(super) fn phones(desk: Desk) -> AnyView {
    let said: Said = RwSignal::new(None);
    let unknown = Memo::new(move |_| desk.hand.with(crate::office::hand::Hand::unknown));
    let ring = Memo::new(move |_| desk.hand.with(|hand| (hand.keyring.devices().to_vec(), hand.phones_in_use())));
    let strangers = move || {
        let none = unknown.with(BTreeMap::is_empty).then(|| view! { <p>{tell("phones.page.none")}</p> });
        // By its device: where one goes, what was typed for the next must not move into its place.
        view! {
            {none}
            <For each=move || unknown.get() key=|(device, _)| *device
                children=move |(device, one)| stranger(desk, device, one, said)/>
        }
    };
    let known = move || {
        let (all, phones) = ring.get();
        let none = (phones == 0).then(|| view! { <p>{tell("phones.page.ring_empty")}</p> });
        let rows = (!all.is_empty()).then(|| {
            let rows = all.into_iter().map(|one| enrolled(desk, one, said)).collect_view();
            view! { <ul class="rows">{rows}</ul> }
        });
        view! { {none}{rows} }.into_any()
    };
    view! {
        <section data-part="phones">
            <h2>{tell("phones.page.head")}</h2>
            <p>{tell("phones.page.what")}</p>
            <div role="alert">{said_line(said)}</div>
            {strangers}
            <h3>{tell("phones.page.on_ring")}</h3>
            {known}
        </section>
    }
    .into_any()
}

fn refused(said: Said, why: &impl ToString) {
    said.set(Some((false, tell_with("phones.page.refused", &[("reason", why.to_string().into())]))));
}

fn stranger(desk: Desk, device: DeviceId, one: Stranger, said: Said) -> AnyView {
    let print = Fingerprint::of(device);
    let label = ("label", one.label.as_str().into());
    let head = match &one.retired {
        Some((ours, since)) => tell_with(
            "phones.page.unknown_retired",
            &[label, ("name", ours.as_str().into()), ("since", date(*since).into())],
        ),
        None => tell_with("phones.page.unknown", &[label]),
    };
    let is_retired = one.retired.is_some().then_some("");
    let (name, same) = (RwSignal::new(one.proposed_name()), RwSignal::new(false));
    let act = move |event: web_sys::SubmitEvent| {
        event.prevent_default();
        if !same.get_untracked() {
            return said.set(Some((false, tell("phones.page.not_compared"))));
        }
        let key = desk.key_now();
        let done = desk.hand.try_update(|hand| hand.enrol(&name.get_untracked(), device, key.as_deref(), now()));
        match done {
            Some(Ok(one)) => said.set(Some((true, tell_with("phones.page.enrolled", &[("name", one.label.into())])))),
            Some(Err(error)) => refused(said, &error),
            None => {}
        }
    };
    let words = tell_with("phones.page.words", &[("words", print.to_string().into())]);
    view! {
        <form class="opened" data-unknown=device.to_string() data-retired=is_retired on:submit=act>
            <h3>{head}</h3>
            <p class="fingerprint">{words}</p>
            <p>{tell_with("phones.page.digits", &[("digits", print.digits().into())])}</p>
            {typed(name, "phone-name", tell("phones.page.name"), Takes::words(40))}
            <label class="check-line">
                // Bound: the row of one phone may be drawn where another's was, and its tick must not stay.
                <input type="checkbox" data-field="compared" prop:checked=move || same.get()
                    on:change=move |event| same.set(event_target_checked(&event))/>
                {tell("phones.page.same")}
            </label>
            <button type="submit" class="act" data-act="enrol">{tell("phones.page.enrol")}</button>
        </form>
    }
    .into_any()
}

fn date(at: Moment) -> String {
    at.to_string().chars().take(10).collect()
}

fn enrolled(desk: Desk, one: Enrolment, said: Said) -> AnyView {
    let words = Fingerprint::to_string(&one.fingerprint);
    let name = ("name", one.label.as_str().into());
    let enrolled = ("date", date(one.enrolled_at).into());
    if let Some(since) = one.retired_at {
        let told = tell_with("phones.page.retired", &[name, enrolled, ("since", date(since).into())]);
        return view! { <li><p>{told}</p><p>{words}</p></li> }.into_any();
    }
    if desk.hand.with_untracked(|hand| hand.is_own(&one)) {
        let own = tell("phones.page.own");
        return view! {
            <li data-enrolled=one.label.clone()>
                <p><strong>{tell_with("phones.page.in_use", &[name, enrolled])}</strong></p>
                <p>{words}</p>
                <p>{own}</p>
            </li>
        }
        .into_any();
    }
    let day = RwSignal::new(String::new());
    // The day of which it was told what would count no longer.
    let told = RwSignal::new(None::<String>);
    let (label, print) = (one.label.clone(), one.fingerprint);
    let act = move |event: web_sys::SubmitEvent| {
        event.prevent_default();
        // Midnight of the office's own zone: what it made on the day before still counts.
        let since = day_begins(&day.get_untracked(), &offset_on);
        let Some(since) = since else { return said.set(Some((false, tell("phones.page.no_day")))) };
        if told.get_untracked() != Some(day.get_untracked()) {
            said.set(None);
            return told.set(Some(day.get_untracked()));
        }
        let key = desk.key_now();
        match desk.hand.try_update(|hand| hand.retire(&label, since, key.as_deref(), now())) {
            Some(Ok(())) => {
                said.set(Some((true, tell_with("phones.page.now_retired", &[("name", label.as_str().into())]))));
            }
            Some(Err(error)) => refused(said, &error),
            None => {}
        }
    };
    let called = one.label.clone();
    let asked = move || told.get().filter(|told| *told == day.get());
    let warning = move || {
        let since = day_begins(&asked()?, &offset_on)?;
        let files = desk.hand.with(|hand| hand.made_after(print, since));
        let args = [("date", date(since).into()), ("n", count(files)), ("name", called.as_str().into())];
        Some(view! { <p data-stops=files><strong>{tell_with("phones.page.stops", &args)}</strong></p> })
    };
    let called = one.label.clone();
    let retire = move || {
        let id = if asked().is_some() { "phones.page.retire_now" } else { "phones.page.retire" };
        tell_with(id, &[("name", called.as_str().into())])
    };
    view! {
        <li data-enrolled=one.label.clone()>
            <p><strong>{tell_with("phones.page.in_use", &[name, enrolled])}</strong></p>
            <p>{words}</p>
            <form class="ways" on:submit=act>
                <label class="field">
                    {tell("phones.page.since")}
                    <input type="date" data-field="since" prop:value=move || day.get()
                        on:input=move |event| day.set(event_target_value(&event))/>
                </label>
                <div role="status">{warning}</div>
                <button type="submit" class="act" data-act="retire">{retire}</button>
            </form>
        </li>
    }
    .into_any()
}
