//! The photos of one carcass: to look at, to delete with a trace; and what room is left.

use leptos::prelude::*;
use uuid::Uuid;
use web_sys::Url;

use crate::guide::answer_words::kilobytes;
use crate::guide::photos::{ROOM_LOW, may_delete, photo_words, room_for};
use crate::web::edge::Phone;
use crate::web::form::Form;
use crate::web::parts::{Look, act, pages, plain_head, tile};
use crate::web::platform::file::OutFile;
use crate::web::platform::storage::{self, Estimate};
use crate::web::session::{Picture, Source as _};
use crate::web::wording;
use crate::words::Arg;

/// The addresses of pictures on the screen, given back when it goes.
type Shown = StoredValue<Vec<String>, LocalStorage>;

pub(super) fn photos(form: Form, examination: Uuid) -> AnyView {
    let all = form.with(|s| s.pictures(examination)).unwrap_or_default();
    let may = form.with(|s| may_delete(s.is_evidence(examination, &Phone.when()))).is_some_and(|may| may.is_ok());
    let shown: Shown = StoredValue::new_local(Vec::new());
    on_cleanup(move || {
        shown.try_with_value(|urls| urls.iter().for_each(|url| drop(Url::revoke_object_url(url))));
    });
    let asked: RwSignal<Option<Picture>> = RwSignal::new(None);
    let none = all.is_empty().then(|| view! { <p>{form.say("photos.none")}</p> });
    let evidence =
        (!may && !all.is_empty()).then(|| view! { <p class="how"><strong>{form.say("photos.evidence")}</strong></p> });
    let list = move || {
        if let Some(picture) = asked.get() {
            return sure(form, examination, &picture, asked);
        }
        let (on_page, page, count) = pages(&all, form.page.get());
        let rows = on_page.into_iter().map(|picture| row(form, picture, may, shown, asked)).collect_view();
        let more = (count > 1).then(|| {
            let args = [("page", Arg::Text((page + 1).to_string())), ("pages", Arg::Text(count.to_string()))];
            tile(form, "more", form.say_with("photos.page", &args), Look::Aside, move || form.turn_page())
        });
        view! { <ul class="rows photos">{rows}</ul> {more} }.into_any()
    };
    form.begin_field("photos", String::new());
    view! {
        <section class="ask">
            {plain_head(form.say("photos.head"))}
            {none}
            {evidence}
        </section>
        {list}
        {room(form)}
    }
    .into_any()
}

fn row(form: Form, picture: Picture, may: bool, shown: Shown, asked: RwSignal<Option<Picture>>) -> AnyView {
    let what = what(form, &picture);
    let url: RwSignal<Option<Result<String, ()>>> = RwSignal::new(None);
    if !picture.deleted {
        form.photos(vec![picture.photo.clone()], move |read| {
            let made = read.into_iter().find_map(|(photo, bytes)| address(&photo.media, &bytes?));
            if let Some(made) = &made {
                shown.try_update_value(|urls| urls.push(made.clone()));
            }
            url.try_set(Some(made.ok_or(())));
        });
    }
    let by = form.say_with(
        "photos.of",
        &[
            ("kb", Arg::Text(kilobytes(picture.photo.bytes))),
            ("who", Arg::Text(picture.observer.to_string())),
            ("at", Arg::Text(wording::date_and_time(picture.at))),
        ],
    );
    let became = match (picture.deleted, picture.stands) {
        (true, _) => Some("photos.deleted"),
        (_, false) => Some("photos.taken_back"),
        _ => None,
    };
    let alt = what.clone();
    let digest = picture.photo.sha256.to_string();
    let number = form.say_with("photos.number", &[("digest", Arg::Text(digest.clone()))]);
    let delete = (may && !picture.deleted)
        .then(|| act(form, "delete", form.say("photos.delete"), move || asked.set(Some(picture.clone()))));
    view! {
        <li data-photo=digest>
            <strong>{what}</strong>
            {move || match url.get() {
                Some(Ok(url)) => view! { <img class="photo" src=url alt=alt.clone()/> }.into_any(),
                Some(Err(())) => view! { <p>{form.say("photos.not_here")}</p> }.into_any(),
                None => ().into_any(),
            }}
            {became.map(|id| view! { <p>{form.say(id)}</p> })}
            <p class="entry-by">{by}</p>
            <p class="entry-by digest">{number}</p>
            {delete}
        </li>
    }
    .into_any()
}

fn what(form: Form, picture: &Picture) -> String {
    picture.site.item.map(|n| photo_words(form.language(), &picture.finding, n)).unwrap_or_default()
}

/// An address under which the page can show these bytes.
fn address(media: &str, bytes: &[u8]) -> Option<String> {
    let file = OutFile { name: "photo".to_owned(), media: media.to_owned(), bytes: bytes.to_vec() };
    let made = file.make().ok()?;
    Url::create_object_url_with_blob(&made).ok()
}

/// Asked once more: the bytes do not come back.
fn sure(form: Form, examination: Uuid, picture: &Picture, asked: RwSignal<Option<Picture>>) -> AnyView {
    let what = what(form, picture);
    let picture = picture.clone();
    form.bounce_from_now();
    view! {
        <p class="statement">{form.say_with("photos.delete_sure", &[("what", Arg::Text(what))])}</p>
        <div class="tiles">
            {tile(form, "keep", form.say("photos.delete_no"), Look::Main, move || asked.set(None))}
            {tile(form, "delete-it", form.say("photos.delete_yes"), Look::Aside, move || form.delete_picture(examination, &picture))}
        </div>
    }
    .into_any()
}

/// What the photos take, and what is left.
fn room(form: Form) -> AnyView {
    let told: RwSignal<Option<(usize, Option<Estimate>)>> = RwSignal::new(None);
    let count = form.desk.try_with_value(super::super::desk::Desk::photo_count);
    leptos::task::spawn_local(async move {
        let n = match count {
            Some(count) => count.await,
            None => 0,
        };
        told.try_set(Some((n, storage::estimate().await.ok())));
    });
    let megabytes = |bytes: u64| Arg::Text(bytes.div_ceil(1_000_000).to_string());
    let lines = move || {
        let (count, estimate) = told.get()?;
        let n = Arg::Count(i64::try_from(count).unwrap_or_default());
        let (mb, left) = match estimate {
            Some(Estimate { used_bytes, quota_bytes }) => {
                let more = room_for(used_bytes, quota_bytes);
                let id = if more < ROOM_LOW { "photos.room_low" } else { "photos.room" };
                let n = Arg::Count(i64::try_from(more).unwrap_or_default());
                let args = [("n", n), ("used", megabytes(used_bytes)), ("quota", megabytes(quota_bytes))];
                (megabytes(used_bytes), form.say_with(id, &args))
            }
            None => (Arg::Text("?".to_owned()), form.say("photos.room_unknown")),
        };
        let kept = form.persisted.get() == Some(true);
        let kept = form.say(if kept { "photos.persisted" } else { "photos.not_persisted" });
        Some(view! {
            <p>{form.say_with("photos.here", &[("n", n), ("mb", mb)])}</p>
            <p data-room="">{left}</p>
            <p>{kept}</p>
        })
    };
    view! { <section class="ask" data-storage="">{lines}</section> }.into_any()
}
