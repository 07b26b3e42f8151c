//! The office's page: its parts, and files in with three outcomes in words.

use leptos::prelude::*;
use wasm_bindgen::JsCast as _;

use super::desk::{Desk, LANGUAGE, Part, count, tell, tell_with};
use super::figures::in_uneven_parts;
use crate::bundle::Limits;
use crate::office::hand::{Hand, Kept, Picked, RingFrom, Taking, What};
use crate::office::opening::Outcome;
use crate::office::report::report;
use crate::web::platform::PlatformError;
use crate::web::platform::clock::pause_ms;

/// The most bytes of a file of ours that is no archive: a bundle, a card, a key.
pub(super) fn of_ours_bytes() -> usize {
    Limits::default().file_bytes
}

const PARTS: [(Part, &str, &str); 9] = [
    (Part::Files, "files", "desk.nav.files"),
    (Part::Carcasses, "carcasses", "desk.nav.carcasses"),
    (Part::Decide, "decide", "desk.nav.decide"),
    (Part::Laboratory, "laboratory", "desk.nav.laboratory"),
    (Part::Season, "season", "desk.nav.season"),
    (Part::Exports, "exports", "desk.nav.exports"),
    (Part::Archive, "archive", "desk.nav.archive"),
    (Part::Phones, "phones", "desk.nav.phones"),
    (Part::Card, "card", "desk.nav.card"),
];

/// The page. It sends nothing; what it keeps lies in the archive that the person opened or saves.
pub fn page() -> AnyView {
    let desk = Desk::new();
    ask_before_leaving(desk);
    let part = desk.part;
    let tabs = PARTS
        .into_iter()
        .map(|(this, name, label)| {
            view! {
                <button type="button" class="act" data-nav=name aria-current=move || (part.get() == this).then_some("page")
                    on:click=move |_| desk.show(this)>{tell(label)}</button>
            }
        })
        .collect_view();
    // Parts stay as they are when another is looked at: a half-written card is not lost by a look at the phones.
    let shown = |this: Part, body: AnyView| {
        view! { <div class="office-part" hidden=move || part.get() != this>{body}</div> }
    };
    view! {
        <div class="page office-page">
            <header>
                <h1>{tell("desk.title")}</h1>
                <nav class="ways" aria-label=tell("desk.nav")>{tabs}</nav>
                {super::archive::state(desk)}
                {super::figures::progress(desk)}
            </header>
            <main>
                {shown(Part::Files, files_part(desk))}
                {shown(Part::Carcasses, super::carcasses::carcasses(desk))}
                {shown(Part::Decide, super::decide::decide(desk))}
                {shown(Part::Laboratory, super::laboratory::laboratory(desk))}
                {shown(Part::Season, super::season::season_part(desk))}
                {shown(Part::Exports, super::exports::exports(desk))}
                {shown(Part::Archive, super::archive::archive(desk))}
                {shown(Part::Phones, super::phones::phones(desk))}
                {shown(Part::Card, super::card::card(desk))}
            </main>
        </div>
    }
    .into_any()
}

/// The browser asks before the page is closed while something is not saved.
fn ask_before_leaving(desk: Desk) {
    let ask = wasm_bindgen::closure::Closure::<dyn FnMut(web_sys::Event)>::new(move |event: web_sys::Event| {
        if desk.hand.try_with_untracked(|hand| hand.held().unsaved().count() > 0) == Some(true) {
            event.prevent_default();
        }
    });
    if let Some(window) = web_sys::window() {
        window.set_onbeforeunload(Some(ask.as_ref().unchecked_ref()));
    }
    // As long as the page.
    ask.forget();
}

fn files_part(desk: Desk) -> AnyView {
    let hand = desk.hand;
    let ring_error = RwSignal::new(None::<String>);
    // One after the other, so that the page is not held; told at the end, for whatever is told has figures begin anew.
    let add = move |files: Vec<ReadFile>| {
        leptos::task::spawn_local(async move {
            let all = files.len();
            for (n, (name, read)) in files.into_iter().enumerate() {
                desk.opening.try_set(Some((n, all)));
                pause_ms(0).await;
                match read {
                    Some(Ok(bytes)) => take_in_parts(desk, name, bytes).await,
                    Some(Err(why)) => drop(hand.try_update_untracked(|hand| hand.take_unread(name, why))),
                    None => drop(hand.try_update_untracked(|hand| hand.take_too_large(name))),
                }
            }
            desk.opening.try_set(None);
            hand.try_update(|_| {});
        });
    };
    let take_ring = move |files: Vec<ReadFile>| {
        let Some((_, read)) = files.into_iter().next() else { return };
        let outcome = read.unwrap_or_else(|| Err(tell("desk.ring.too_large"))).and_then(|bytes| {
            let taken = hand.try_update(|hand| hand.take_keyring(&bytes)).unwrap_or(Ok(()));
            taken.map_err(|error| error.to_string())
        });
        ring_error.try_set(outcome.err());
    };
    let drop_files = move |event: web_sys::DragEvent| {
        event.prevent_default();
        if let Some(list) = event.data_transfer().and_then(|data| data.files()) {
            read_list(&list, add, || {});
        }
    };
    // Thousands of files are told of to whoever looks, and not anew with each tap elsewhere.
    let is_shown = Memo::new(move |_| desk.part.get() == Part::Files);
    let no_archive_ring = move || hand.with(|hand| !matches!(hand.ring_from, RingFrom::Archive(_)));
    view! {
        <p>{tell("desk.what")}</p>
        {super::demo::tile(desk)}
        <label
            class="tile file"
            data-pick="bundles"
            on:dragover=|event: web_sys::DragEvent| event.prevent_default()
            on:drop=drop_files
        >
            <span class="label">{tell("desk.pick")}</span>
            <input
                type="file"
                multiple
                class="file-input"
                on:change=move |event| read_files(&event, add)
            />
        </label>
        <label class="tile file aside" data-pick="keyring" hidden=move || !no_archive_ring()>
            <span class="label">{tell("desk.pick_ring")}</span>
            <input
                type="file"
                class="file-input"
                on:change=move |event| read_files(&event, take_ring)
            />
        </label>
        <p data-ring="">{move || hand.with(ring_words)}</p>
        <div role="alert">
            {move || ring_error.get().map(|why| view! {
                <p class="alert">{tell_with("desk.ring.refused", &[("reason", why.into())])}</p>
            })}
        </div>
        <p role="status" class="saved" data-sum="">{move || hand.with(sum)}</p>
        {move || next_steps(desk)}
        {move || is_shown.get().then(|| hand.with(files))}
        {move || hand.with(missing)}
        {super::winter::winter(desk)}
    }
    .into_any()
}

/// Opens and checks one file in short parts, then takes it in.
async fn take_in_parts(desk: Desk, name: String, bytes: Vec<u8>) {
    let taking = desk.hand.try_with_untracked(|hand| hand.taking(name, bytes)).flatten();
    let Some(mut taking) = taking else { return };
    in_uneven_parts(&mut taking, Taking::step, Taking::is_long).await;
    pause_ms(0).await;
    desk.hand.try_update_untracked(|hand| hand.taken(taking));
}

/// Where to go from here: phones that nobody enrolled, carcasses that the files tell of.
fn next_steps(desk: Desk) -> Option<AnyView> {
    let strangers = desk.hand.with(|hand| hand.unknown().len());
    let carcasses = desk.figures.get().map_or(0, |figures| figures.looked.carcasses.len());
    let way = |n: usize, id: &str, part: Part, act: &'static str| {
        (n > 0).then(|| {
            view! {
                <button type="button" class="act" data-act=act on:click=move |_| desk.show(part)>
                    {tell_with(id, &[("n", count(n))])}
                </button>
            }
        })
    };
    (strangers + carcasses > 0).then(|| {
        view! {
            <div class="ways">
                {way(strangers, "desk.to_phones", Part::Phones, "to-phones")}
                {way(carcasses, "desk.to_carcasses", Part::Carcasses, "to-carcasses")}
            </div>
        }
        .into_any()
    })
}

/// A file's name, and its bytes, or why there are none; `None` where it is larger than any file of ours.
pub(super) type ReadFile = (String, Option<Result<Vec<u8>, String>>);

/// Reads what was picked, one after the other, never more than a file of ours can have.
pub(super) fn read_files(event: &web_sys::Event, take: impl FnOnce(Vec<ReadFile>) + 'static) {
    let Some(input) = event.target().and_then(|t| t.dyn_into::<web_sys::HtmlInputElement>().ok()) else { return };
    let Some(list) = input.files() else { return };
    // So that the same file can be picked again after it was changed on disk.
    read_list(&list, take, move || input.set_value(""));
}

fn read_list(list: &web_sys::FileList, take: impl FnOnce(Vec<ReadFile>) + 'static, after: impl FnOnce() + 'static) {
    let files: Vec<web_sys::File> = (0..list.length()).filter_map(|n| list.get(n)).collect();
    leptos::task::spawn_local(async move {
        let mut read = Vec::new();
        for file in files {
            // Lengths come as floating point and are whole; a file of ours is far below where that matters.
            let fits = file.size() <= of_ours_bytes() as f64;
            read.push((file.name(), if fits { Some(whole(&file).await) } else { None }));
        }
        take(read);
        after();
    });
}

async fn whole(file: &web_sys::File) -> Result<Vec<u8>, String> {
    let read = wasm_bindgen_futures::JsFuture::from(file.array_buffer()).await;
    let read = read.map(|buffer| js_sys::Uint8Array::new(&buffer).to_vec());
    read.map_err(|error| PlatformError::of(&error).to_string())
}

/// Reads one file whole, of at most so many bytes: an archive, a key, a card.
pub(super) fn read_file(event: &web_sys::Event, most: usize, take: impl Fn(String, Result<Vec<u8>, String>) + 'static) {
    let input = event.target().and_then(|t| t.dyn_into::<web_sys::HtmlInputElement>().ok());
    let Some(input) = input else { return };
    let Some(file) = input.files().and_then(|files| files.get(0)) else { return };
    leptos::task::spawn_local(async move {
        let read = if file.size() > most as f64 {
            Err(tell_with("desk.too_large", &[("most", (most >> 20).to_string().into())]))
        } else {
            whole(&file).await
        };
        take(file.name(), read);
        input.set_value("");
    });
}

fn ring_words(hand: &Hand) -> String {
    let devices = ("n", count(hand.phones_in_use()));
    match hand.ring_from {
        RingFrom::Nowhere => tell("desk.ring.none"),
        RingFrom::KeyMissing(by) => tell_with("desk.ring.key_missing", &[("words", by.to_string().into())]),
        RingFrom::Plain => tell_with("desk.ring.plain", &[devices]),
        RingFrom::Archive(by) => tell_with("desk.ring.archive", &[devices, ("words", by.to_string().into())]),
        RingFrom::Signed(by) => tell_with("desk.ring.signed", &[devices, ("words", by.to_string().into())]),
    }
}

fn sum(hand: &Hand) -> String {
    if hand.files.is_empty() {
        return tell("desk.sum.none");
    }
    let of = |outcome| count(hand.count(outcome));
    let (good, stray) = hand.photos();
    let photos = if good + stray > 0 {
        format!(" {}", tell_with("desk.sum.photos", &[("good", count(good)), ("stray", count(stray))]))
    } else {
        String::new()
    };
    let args = [
        ("files", count(hand.files.len())),
        ("intact", of(Outcome::Intact)),
        ("unknown", of(Outcome::UnknownDevice)),
        ("damaged", of(Outcome::Damaged)),
        ("newer", of(Outcome::Newer)),
    ];
    format!("{}{photos}", tell_with("desk.sum", &args))
}

fn files(hand: &Hand) -> AnyView {
    hand.files.iter().map(|file| one_file(hand, file)).collect_view().into_any()
}

/// The outcome's sign and word: told by both, never by colour.
const fn sign(outcome: Outcome) -> (&'static str, &'static str) {
    match outcome {
        Outcome::Intact => ("\u{2713}", "desk.outcome.intact"),
        Outcome::UnknownDevice => ("?", "desk.outcome.unknown"),
        Outcome::Newer => ("\u{2192}", "desk.outcome.newer"),
        Outcome::Damaged => ("\u{2717}", "desk.outcome.damaged"),
    }
}

/// Photos that files of the archive name and that have not come.
fn missing(hand: &Hand) -> Option<AnyView> {
    let all = hand.missing_photos();
    if all.is_empty() {
        return None;
    }
    let lines = all
        .iter()
        .map(|(digest, label)| {
            let args = [("digest", digest.to_string().into()), ("label", label.as_str().into())];
            view! { <li class="digest">{tell_with("desk.missing.line", &args)}</li> }
        })
        .collect_view();
    Some(
        view! {
            <details class="why" data-missing=all.len()>
                <summary>{tell_with("desk.missing", &[("n", count(all.len()))])}</summary>
                <ul>{lines}</ul>
            </details>
        }
        .into_any(),
    )
}

fn kept(file: &Picked) -> AnyView {
    let (code, id) = match file.kept {
        Kept::New => ("new", "desk.kept.new"),
        Kept::Before => ("before", "desk.kept.before"),
        Kept::Not => ("not", "desk.kept.not"),
    };
    view! { <p data-kept=code>{tell(id)}</p> }.into_any()
}

fn one_file(hand: &Hand, file: &Picked) -> AnyView {
    let name = file.name.clone();
    match &file.what {
        What::Judged(judged) => {
            let (mark, word) = sign(judged.outcome());
            let told = report(judged, LANGUAGE, &|photo| hand.has(photo));
            let about = told.about.into_iter().map(|line| view! { <li>{line}</li> }).collect_view();
            view! {
                <article class="opened" data-outcome=judged.outcome().code()>
                    <h2>{name}</h2>
                    <p class="outcome"><span aria-hidden="true" class="outcome-mark">{mark}</span> <strong>{tell(word)}</strong></p>
                    <p>{told.outcome}</p>
                    {kept(file)}
                    <ul>{about}</ul>
                    {told.next.map(|next| view! { <p class="next">{tell_with("desk.next", &[("next", next.into())])}</p> })}
                </article>
            }
            .into_any()
        }
        What::Photo(digest) => {
            let (kind, words) = match hand.names(*digest) {
                Some(bundle) => ("photo", tell_with("office.open.photo", &[("bundle", bundle.into())])),
                None => ("stray_photo", tell("office.open.photo_stray")),
            };
            view! { <article class="opened" data-outcome=kind><h2>{name}</h2><p>{words}</p>{kept(file)}</article> }
                .into_any()
        }
        What::Unread(why) => {
            let words = tell_with("desk.unread", &[("reason", why.as_str().into())]);
            view! { <article class="opened" data-outcome="unread"><h2>{name}</h2><p>{words}</p></article> }.into_any()
        }
    }
}
