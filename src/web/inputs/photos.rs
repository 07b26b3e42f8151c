//! Several photos, one tile each: a tap opens the camera, the tile then counts what was taken. What is left out is
//! written as not looked for when the crew goes on.

use leptos::prelude::*;

use crate::guide::Ask;
use crate::guide::photos::{count_at, other_camera, photo_words};
use crate::record::{Answer, Site, Why};
use crate::web::form::Form;
use crate::web::parts::{Look, act, foot, main_tile, pages};
use crate::web::screen::Screen;
use crate::words::Arg;

use super::choice::more_tile;
use super::photo::file_tile;
use super::{Question, no_answer};

pub(super) fn photos(q: &Question, items: &'static [u16]) -> AnyView {
    let (form, ask) = (q.form, q.ask);
    let from_pictures = RwSignal::new(false);
    let shown = move || {
        let (shown, page, count) = pages(items, form.page.get());
        let tiles = shown.into_iter().map(|item| {
            let mark = move || {
                form.now.with(|now| match count_at(&now.view(), "photo", Site::item(item)) {
                    0 => None,
                    n => Some(format!("\u{2713} {n}")),
                })
            };
            let label = photo_words(form.language(), "photo", item);
            file_tile(
                form,
                &format!("photo-{item}"),
                label,
                Look::Value,
                (ask.name(), item),
                move || !from_pictures.get(),
                mark,
            )
        });
        let more = (page + 1 < count).then(|| more_tile(form, page, count));
        view! {
            {tiles.collect_view()}
            {foot(Some(view! { {on_tile(form, ask, items)} {more} }.into_any()), no_answer(form, ask.name()))}
        }
        .into_any()
    };
    let all = q
        .now
        .here
        .examination
        .map(|id| act(form, "photos", form.say("photo.all"), move || form.go(Screen::Photos(id))));
    let other = (q.step.id == "photos").then(|| {
        act(form, "other-camera", form.say("photo.other_camera"), move || {
            if let Some(now) = form.now_once() {
                form.answer(&other_camera(&now.view(), &ask));
            }
        })
    });
    view! {
        <div class="tiles list">{shown}</div>
        <div class="ways">
            <button
                type="button"
                class="act switch"
                role="switch"
                data-act="from-pictures"
                aria-checked=move || if from_pictures.get() { "true" } else { "false" }
                on:click=move |_| from_pictures.update(|on| *on = !*on)
            >
                <span>{form.say("photo.from_pictures")}</span>
                <strong>{move || form.say(if from_pictures.get() { "settings.on" } else { "settings.off" })}</strong>
            </button>
            {other}
            {all}
        </div>
    }
    .into_any()
}

/// Goes on; it says how many photos are left out by that.
fn on_tile(form: Form, ask: Ask, items: &'static [u16]) -> AnyView {
    let label = move || {
        let taken = form.now.with(|now| {
            let view = now.view();
            items.iter().filter(|n| count_at(&view, "photo", Site::item(**n)) > 0).count()
        });
        let left = items.len().saturating_sub(taken);
        match (taken, left) {
            (_, 0) => form.say("photo.go_on"),
            (0, _) => form.say("photo.go_on_none"),
            _ => form.say_with("photo.go_on_without", &[("n", Arg::Count(i64::try_from(left).unwrap_or_default()))]),
        }
    };
    main_tile(form, "done", label, move || {
        let Some(now) = form.now_once() else { return };
        let left = ask.fill(&now.view(), &Answer::NotLooked { why: Why::NotGiven });
        if left.is_empty() {
            form.end_input();
            form.go(Screen::Visit(None));
        } else {
            form.answer(&left);
        }
    })
}
