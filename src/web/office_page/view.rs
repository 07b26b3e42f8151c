//! The office's page: files in, three outcomes in words, and the carcasses with their readings.

use leptos::prelude::*;
use wasm_bindgen::JsCast as _;

use super::hand::{Hand, Picked, RingFrom, What};
use crate::bundle::Limits;
use crate::office::compare::Because;
use crate::office::opening::Outcome;
use crate::office::recompute::{CarcassLine, Recomputed};
use crate::office::report::report;
use crate::record::Carcass;
use crate::record::short_code::short_code;
use crate::web::platform::PlatformError;
use crate::web::readings::readings_view;
use crate::words::{Arg, Language, say_office};

const LANGUAGE: Language = Language::English;

fn tell(id: &str) -> String {
    say_office(LANGUAGE, id, &[])
}

fn tell_with(id: &str, args: &[(&str, Arg)]) -> String {
    say_office(LANGUAGE, id, args)
}

fn count(n: usize) -> Arg {
    Arg::Count(i64::try_from(n).unwrap_or(i64::MAX))
}

/// The page. It sends nothing and keeps nothing: closed, it has forgotten what it was shown.
pub fn page() -> AnyView {
    let hand = RwSignal::new(Hand::default());
    let ring_error = RwSignal::new(None::<String>);
    let add = move |name: String, read: Result<Vec<u8>, String>| {
        hand.try_update(|hand| match read {
            Ok(bytes) => hand.take(name, bytes),
            Err(why) => hand.take_unread(name, why),
        });
    };
    let too_large = move |name: String| {
        hand.try_update(|hand| hand.take_too_large(name));
    };
    let take_ring = move |_: String, read: Result<Vec<u8>, String>| {
        let outcome = read.and_then(|bytes| hand.try_update(|hand| hand.take_keyring(&bytes)).unwrap_or(Ok(())));
        ring_error.try_set(outcome.err());
    };
    let ring_too_large = move |_: String| {
        ring_error.try_set(Some(tell("desk.ring.too_large")));
    };
    view! {
        <div class="page office-page">
            <main>
                <h1>{tell("desk.title")}</h1>
                <p>{tell("desk.what")}</p>
                {super::demo::tile(hand)}
                <label class="tile file" data-pick="bundles">
                    <span class="label">{tell("desk.pick")}</span>
                    <input
                        type="file"
                        multiple
                        class="file-input"
                        on:change=move |event| read_files(&event, add, too_large)
                    />
                </label>
                <label class="tile file aside" data-pick="keyring">
                    <span class="label">{tell("desk.pick_ring")}</span>
                    <input
                        type="file"
                        class="file-input"
                        on:change=move |event| read_files(&event, take_ring, ring_too_large)
                    />
                </label>
                <p data-ring="">{move || hand.with(ring_words)}</p>
                <div role="alert">
                    {move || ring_error.get().map(|why| view! {
                        <p class="alert">{tell_with("desk.ring.refused", &[("reason", why.into())])}</p>
                    })}
                </div>
                <p role="status" class="saved" data-sum="">{move || hand.with(sum)}</p>
                {move || hand.with(files)}
                {move || hand.with(|hand| carcasses(&hand.recompute(), hand.files.is_empty()))}
                {super::winter::winter(hand)}
            </main>
        </div>
    }
    .into_any()
}

/// Reads what was picked, one after the other, never more than a file of ours can have.
pub(super) fn read_files(
    event: &web_sys::Event,
    take: impl Fn(String, Result<Vec<u8>, String>) + Copy + 'static,
    too_large: impl Fn(String) + Copy + 'static,
) {
    let Some(input) = event.target().and_then(|t| t.dyn_into::<web_sys::HtmlInputElement>().ok()) else { return };
    let Some(list) = input.files() else { return };
    let files: Vec<web_sys::File> = (0..list.length()).filter_map(|n| list.get(n)).collect();
    leptos::task::spawn_local(async move {
        for file in files {
            // Lengths come as floating point and are whole; a file of ours is far below where that matters.
            if file.size() > Limits::default().file_bytes as f64 {
                too_large(file.name());
                continue;
            }
            let read = wasm_bindgen_futures::JsFuture::from(file.array_buffer()).await;
            let read = read.map(|buffer| js_sys::Uint8Array::new(&buffer).to_vec());
            take(file.name(), read.map_err(|error| PlatformError::of(&error).to_string()));
        }
        // So that the same file can be picked again after it was changed on disk.
        input.set_value("");
    });
}

fn ring_words(hand: &Hand) -> String {
    let devices = ("n", count(hand.keyring.devices().len()));
    match hand.ring_from {
        RingFrom::Nowhere => tell("desk.ring.none"),
        RingFrom::Plain => tell_with("desk.ring.plain", &[devices]),
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
            view! { <article class="opened" data-outcome=kind><h2>{name}</h2><p>{words}</p></article> }.into_any()
        }
        What::Unread(why) => {
            let words = tell_with("desk.unread", &[("reason", why.as_str().into())]);
            view! { <article class="opened" data-outcome="unread"><h2>{name}</h2><p>{words}</p></article> }.into_any()
        }
    }
}

fn carcasses(recomputed: &Recomputed, nothing_yet: bool) -> Option<AnyView> {
    if nothing_yet {
        return None;
    }
    let list = recomputed
        .carcasses
        .iter()
        .filter_map(|line| Some((line, recomputed.folded.carcasses.get(&line.carcass)?)))
        .map(|(line, carcass)| one_carcass(line, carcass))
        .collect_view();
    let n = recomputed.carcasses.len();
    let forks = recomputed
        .forks
        .iter()
        .map(
            |fork| view! { <p class="alert">{tell_with("desk.fork", &[("seq", Arg::Text(fork.seq.to_string()))])}</p> },
        )
        .collect_view();
    let adrift = recomputed.folded.adrift.len();
    let adrift =
        (adrift > 0).then(|| view! { <p class="alert">{tell_with("desk.adrift", &[("n", count(adrift))])}</p> });
    let set_aside = recomputed
        .folded
        .set_aside
        .iter()
        .map(|setback| {
            let args = [("seq", Arg::Text(setback.id.seq.to_string())), ("reason", Arg::Text(setback.reason.clone()))];
            view! { <p class="alert">{tell_with("desk.set_aside", &args)}</p> }
        })
        .collect_view();
    Some(
        view! {
            <section data-carcasses=n>
                <h2>{tell_with("desk.carcasses", &[("n", count(n))])}</h2>
                <p>{tell("desk.recomputed")}</p>
                {forks}
                {set_aside}
                {adrift}
                {list}
            </section>
        }
        .into_any(),
    )
}

fn one_carcass(line: &CarcassLine, carcass: &Carcass) -> AnyView {
    let head = [&line.readings.age, &line.readings.condition, &line.readings.sex]
        .into_iter()
        .filter_map(|reading| {
            let said = reading.statements.first()?.say(LANGUAGE);
            Some(view! { <li>{format!("{}: {said}", tell(&reading.title))}</li> })
        })
        .collect_view();
    let code = short_code(line.carcass);
    let title = tell_with("desk.carcass", &[("code", code.into()), ("n", count(carcass.examinations.len()))]);
    view! {
        <article class="carcass" data-carcass=line.carcass.to_string()>
            <h3>{title}</h3>
            <p class="carcass-id">{line.carcass.to_string()}</p>
            <ul>{head}</ul>
            {phones(line)}
            <details class="why">
                <summary>{tell("desk.all_readings")}</summary>
                {readings_view(LANGUAGE, carcass, &line.readings, "cause.not_yet")}
            </details>
        </article>
    }
    .into_any()
}

/// Whether the phones saw the same figures, and what explains it where they did not.
fn phones(line: &CarcassLine) -> AnyView {
    if line.phones.is_empty() {
        return view! { <p>{tell("desk.phone.none")}</p> }.into_any();
    }
    if line.phones.iter().all(|phone| phone.agrees) {
        return view! { <p data-phones="agree">{tell("desk.phone.agrees")}</p> }.into_any();
    }
    let because = |because| match because {
        Because::OtherEntries => "desk.phone.other_entries",
        Because::OtherScience => "desk.phone.other_science",
        Because::OtherCard => "desk.phone.other_card",
        Because::OtherTable => "desk.phone.other_table",
        Because::CardNotHere => "desk.phone.card_not_here",
        Because::Unexplained => "desk.phone.unexplained",
        Because::UnknownForm => "desk.phone.unknown_form",
    };
    let lines = line
        .phones
        .iter()
        .flat_map(|phone| &phone.differs)
        .map(|differs| {
            let why = tell(because(differs.because));
            view! { <li>{tell_with("desk.phone.differs", &[("method", differs.method.as_str().into()), ("why", why.into())])}</li> }
        })
        .collect_view();
    view! { <ul data-phones="differ">{lines}</ul> }.into_any()
}
