//! Chain of custody: who had each thing, and handing things on.

use std::collections::BTreeSet;

use leptos::prelude::*;

use crate::guide::Handing;
use crate::record::{CustodyItem, CustodyLine, CustodyStep, PersonCode};
use crate::web::edge::Phone;
use crate::web::form::Form;
use crate::web::parts::{Look, act, plain_head, tile};
use crate::web::screen::Screen;
use crate::web::session::Source as _;
use crate::web::wording;
use crate::words::Arg;

pub(super) fn custody(form: Form) -> AnyView {
    let lists = form.with(crate::web::session::Session::custody).unwrap_or_default();
    let numbers: Vec<String> = lists.iter().flat_map(|(_, items)| items).map(|item| item.number.clone()).collect();
    let shown = lists.into_iter().map(|(code, items)| {
        view! { <section class="phase"><h2>{format!("{} {code}", form.say("label.case"))}</h2>{items.iter().map(|item| thing(form, item)).collect_view()}</section> }
    });
    let none = numbers.is_empty().then(|| view! { <p>{form.say("custody.none")}</p> });
    let give = (!numbers.is_empty() && form.read_only().is_none()).then(|| hand_on(form, numbers));
    view! {
        <section class="ask">
            {plain_head(form.say("custody.head"))}
            <p class="how">{form.say("custody.how")}</p>
            {act(form, "labels", form.say("label.all"), move || form.go(Screen::Labels))}
            {none}
        </section>
        {shown.collect_view()}
        {give}
    }
    .into_any()
}

/// One thing with everybody who had it.
fn thing(form: Form, item: &CustodyItem) -> AnyView {
    let what =
        if item.what.is_empty() { String::new() } else { wording::option(form.language(), "sample_what", &item.what) };
    let head = form.say_with("custody.item", &[("number", Arg::Text(item.number.clone())), ("what", Arg::Text(what))]);
    let gaps = item.gaps.iter().map(|gap| view! { <li>{form.say(&format!("custody.gap.{}", gap.code()))}</li> });
    view! {
        <h3 data-custody=item.number.clone()>{head}</h3>
        <ol class="rows entries">{item.lines.iter().map(|l| line(form, l)).collect_view()}</ol>
        {(!item.gaps.is_empty()).then(|| view! { <p><strong>{form.say("custody.gaps")}</strong></p><ul>{gaps.collect_view()}</ul> })}
    }
    .into_any()
}

fn line(form: Form, l: &CustodyLine) -> AnyView {
    let to = wording::holder(form.language(), l);
    let who = match &l.from {
        Some(from) => form.say_with("custody.from_to", &[("from", Arg::Text(from.clone())), ("to", Arg::Text(to))]),
        None => to,
    };
    let seal = (!l.seal.is_empty()).then(|| form.say_with("custody.seal", &[("seal", Arg::Text(l.seal.clone()))]));
    let whole = l.seal_intact.map(|whole| form.say(if whole { "custody.seal_whole" } else { "custody.seal_broken" }));
    let at = l.at.map(wording::date_and_time).unwrap_or_default();
    let more: Vec<String> =
        [Some(at), Some(l.place.clone()), seal, whole, Some(l.condition.clone()), Some(l.note.clone())]
            .into_iter()
            .flatten()
            .filter(|part| !part.is_empty())
            .collect();
    view! {
        <li class="entry" data-step=l.step.code()>
            <span class="entry-what">{form.say(&format!("custody.step.{}", l.step.code()))}{form.language().colon()}<strong>{who}</strong></span>
            <span class="entry-by">{more.join(", ")}</span>
        </li>
    }
    .into_any()
}

fn field(form: Form, name: &'static str, held: RwSignal<String>) -> AnyView {
    view! {
        <label class="field">
            {form.say(&format!("custody.{name}"))}
            <input
                type="text"
                autocomplete="off"
                maxlength="120"
                data-field=name
                prop:value=move || held.get()
                on:input=move |event| held.set(event_target_value(&event))
            />
        </label>
    }
    .into_any()
}

/// One of a few, picked in place.
fn pick(form: Form, group: &'static str, codes: &'static [&'static str], held: RwSignal<&'static str>) -> AnyView {
    let tiles = codes.iter().map(|code| {
        view! {
            <button
                type="button"
                class=move || if held.get() == *code { "tile chosen" } else { "tile" }
                data-tile=*code
                aria-pressed=move || if held.get() == *code { "true" } else { "false" }
                on:click=move |_| held.set(code)
            >
                <span class="label">{form.say(&format!("custody.{group}.{code}"))}</span>
                <span class="tick" aria-hidden="true">{move || (held.get() == *code).then_some("\u{2713}")}</span>
            </button>
        }
    });
    view! { <h3>{form.say(&format!("custody.{group}"))}</h3> {tiles.collect_view()} }.into_any()
}

fn hand_on(form: Form, numbers: Vec<String>) -> AnyView {
    let picked: RwSignal<BTreeSet<String>> = RwSignal::new(BTreeSet::new());
    let (to, place, note) = (RwSignal::new(String::new()), RwSignal::new(String::new()), RwSignal::new(String::new()));
    let (condition, seals) = (RwSignal::new(""), RwSignal::new(""));
    let things = numbers.into_iter().map(|number| {
        let (is, tap) = (number.clone(), number.clone());
        let on = move || picked.with(|all| all.contains(&is));
        let (class, pressed, tick) = (on.clone(), on.clone(), on);
        view! {
            <button
                type="button"
                class=move || if class() { "tile chosen" } else { "tile" }
                data-tile=number.clone()
                aria-pressed=move || if pressed() { "true" } else { "false" }
                on:click=move |_| picked.update(|all| if !all.remove(&tap) { all.insert(tap.clone()); })
            >
                <span class="label">{number.clone()}</span>
                <span class="tick" aria-hidden="true">{move || tick().then_some("\u{2713}")}</span>
            </button>
        }
    });
    let save = move |step: CustodyStep| {
        let Ok(code) = PersonCode::new(to.get_untracked().trim()) else {
            return form.tell(form.say("custody.who_first"));
        };
        let all = picked.get_untracked();
        let handing = Handing {
            place: place.get_untracked().trim().to_owned(),
            seal: String::new(),
            seal_intact: match seals.get_untracked() {
                "whole" => Some(true),
                "broken" => Some(false),
                _ => None,
            },
            condition: condition.get_untracked().to_owned(),
            note: note.get_untracked().trim().to_owned(),
        };
        if all.is_empty() {
            return form.tell(form.say("custody.pick_first"));
        }
        if handing.place.is_empty() || handing.condition.is_empty() {
            return form.tell(form.say("custody.describe_first"));
        }
        let n = Arg::Count(i64::try_from(all.len()).unwrap_or_default());
        let bodies = form.with(|s| s.hand_on(&all, step, &code, &handing, &Phone.when())).unwrap_or_default();
        if form.write(bodies, form.say_with("custody.saved", &[("n", n)])) {
            form.go(Screen::Custody);
        }
    };
    view! {
        <section class="phase" data-hand-on="">
            <h2>{form.say("custody.give")}</h2>
            <p>{form.say("custody.give.how")}</p>
        </section>
        <div class="tiles">
            {things.collect_view()}
            {field(form, "to", to)}
            {field(form, "place", place)}
            {pick(form, "condition", &["frozen", "cool", "thawed", "dry"], condition)}
            {pick(form, "seal_now", &["whole", "broken", "not_looked"], seals)}
            {field(form, "note", note)}
            {tile(form, "handed", form.say("custody.save_handed"), Look::Main, move || save(CustodyStep::Handed))}
            {tile(form, "received", form.say("custody.save_received"), Look::Value, move || save(CustodyStep::Received))}
        </div>
    }
    .into_any()
}
