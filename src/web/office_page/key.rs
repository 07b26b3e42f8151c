//! The office key: made, loaded, opened.

use std::sync::Arc;

use leptos::prelude::*;

use super::desk::{Desk, now, tell, tell_with};
use super::picked_ring::OfPicked;
use super::view::{of_ours_bytes, read_file};
use crate::bundle::{DeviceKey, Fingerprint};
use crate::office::key_file::{KeyFile, KeyFileError, Randomness};
use crate::web::platform::clock::pause_ms;
use crate::web::platform::file::OutFile;
use crate::web::platform::random::fill;

/// The office key: made, loaded, opened.
pub(super) fn key(desk: Desk) -> AnyView {
    let said = RwSignal::new(None::<String>);
    let file = Memo::new(move |_| desk.hand.with(crate::office::hand::Hand::office_key));
    // A key file that was picked and is not in the archive yet: whoever puts it there can open it.
    let picked = RwSignal::new(None::<KeyFile>);
    // It was picked for the archive that was open then.
    Effect::new(move || {
        desk.lies.track();
        picked.set(None);
    });
    let body = move || match (desk.key.get(), file.get(), picked.get()) {
        (Some(key), Some(_), _) => opened(desk, &key),
        (_, Some(file), _) => locked(desk, file, None, said),
        (_, None, Some(file)) => locked(desk, file, Some(picked), said),
        (_, None, None) => none(desk, picked, said),
    };
    view! {
        <section data-part="key">
            <h2>{tell("key.page.head")}</h2>
            <p>{tell("key.page.what")}</p>
            {body}
            <div role="alert" data-key-said="">{move || said.get().map(|why| view! { <p class="alert">{why}</p> })}</div>
        </section>
    }
    .into_any()
}

fn copy_of_key(desk: Desk) -> AnyView {
    let act = move |_| {
        let text = desk.hand.with_untracked(|hand| hand.held().get("office-key.json"));
        if let Some(bytes) = text {
            let media = "application/json".to_owned();
            desk.hand_out(&OutFile { name: "office-key.json".to_owned(), media, bytes: bytes.to_vec() });
        }
    };
    view! { <button type="button" class="act" data-act="copy-key" on:click=act>{tell("key.page.download")}</button> }
        .into_any()
}

fn opened(desk: Desk, key: &DeviceKey) -> AnyView {
    let words = Fingerprint::of(key.public().id()).to_string();
    view! {
        <p data-key="open">{tell("key.page.opened")}</p>
        <p class="fingerprint">{tell_with("key.page.words", &[("words", words.into())])}</p>
        <div class="ways">
            {copy_of_key(desk)}
            <button type="button" class="act" data-act="close-key" on:click=move |_| desk.key.set(None)>
                {tell("key.page.close")}
            </button>
        </div>
    }
    .into_any()
}

/// Keeps the key open, and puts it on the archive's keyring: the first tap that signs is as quick as the next then. It
/// is open where the ring refuses it too: what is in the way is mended under Phones, with this key.
fn open_here(desk: Desk, key: DeviceKey, said: RwSignal<Option<String>>) {
    let enrolled = desk.hand.try_update(|hand| hand.enrol_office(&key, now()));
    said.try_set(enrolled.and_then(Result::err).map(|why| failed(&why)));
    desk.key.try_set(Some(Arc::new(key)));
}

fn failed(why: &impl ToString) -> String {
    tell_with("key.page.failed", &[("reason", why.to_string().into())])
}

fn passphrase(id: &'static str, into: RwSignal<String>, auto: &'static str) -> AnyView {
    view! {
        <label class="field">
            {tell(id)}
            <input type="password" autocomplete=auto data-field=id prop:value=move || into.get()
                on:input=move |event| into.set(event_target_value(&event))/>
        </label>
    }
    .into_any()
}

fn wrong(error: &KeyFileError) -> String {
    let id = if *error == KeyFileError::WrongPassphrase { "key.page.wrong" } else { "key.page.failed" };
    tell_with(id, &[("reason", error.to_string().into())])
}

/// `picked` where the file is not in the archive yet: another can be chosen.
fn locked(
    desk: Desk,
    file: KeyFile,
    picked: Option<RwSignal<Option<KeyFile>>>,
    said: RwSignal<Option<String>>,
) -> AnyView {
    let typed = RwSignal::new(String::new());
    let working = RwSignal::new(false);
    // A key that lies in the archive has its keyring there.
    let of_picked = if picked.is_some() { OfPicked::new() } else { OfPicked::settled() };
    let file = Arc::new(file);
    let act = move |event: web_sys::SubmitEvent| {
        event.prevent_default();
        if working.get_untracked() {
            return;
        }
        let Some(more) = of_picked.ring(desk) else { return said.set(Some(tell("key.page.ring.choose"))) };
        let file = file.clone();
        working.set(true);
        said.set(Some(tell("key.page.working")));
        leptos::task::spawn_local(async move {
            pause_ms(60).await;
            working.try_set(false);
            let unlocked = file.unlock(&typed.try_get_untracked().unwrap_or_default());
            typed.try_set(String::new());
            let key = match unlocked {
                Ok(key) => key,
                Err(error) => return drop(said.try_set(Some(wrong(&error)))),
            };
            let taken = desk.hand.try_update(|hand| match hand.office_key() {
                Some(_) => Ok(()),
                None => hand.take_office_key(&file, &key, &more),
            });
            match taken.unwrap_or(Ok(())) {
                Ok(()) => open_here(desk, key, said),
                Err(error) => drop(said.try_set(Some(failed(&error)))),
            }
        });
    };
    view! {
        <form data-key="locked" on:submit=act>
            <p>{tell(if picked.is_some() { "key.page.locked_picked" } else { "key.page.locked" })}</p>
            {picked.is_some().then(|| of_picked.asked(desk))}
            {passphrase("key.page.passphrase", typed, "current-password")}
            <button type="submit" class="tile main" data-act="open-key" disabled=move || working.get()>
                {tell("key.page.open")}
            </button>
        </form>
        {match picked {
            Some(picked) => view! {
                <button type="button" class="act" data-act="other-key" on:click=move |_| picked.set(None)>
                    {tell("key.page.other")}
                </button>
            }
            .into_any(),
            None => copy_of_key(desk),
        }}
    }
    .into_any()
}

fn none(desk: Desk, picked: RwSignal<Option<KeyFile>>, said: RwSignal<Option<String>>) -> AnyView {
    let (first, second) = (RwSignal::new(String::new()), RwSignal::new(String::new()));
    let of_picked = OfPicked::new();
    let working = RwSignal::new(false);
    let act = move |event: web_sys::SubmitEvent| {
        event.prevent_default();
        let passphrase = first.get_untracked();
        if working.get_untracked() {
            return;
        }
        if let Err(error) = KeyFile::fits(&passphrase) {
            return said.set(Some(wrong(&error)));
        }
        if passphrase != second.get_untracked() {
            return said.set(Some(tell("key.page.differ")));
        }
        let Some(more) = of_picked.ring(desk) else { return said.set(Some(tell("key.page.ring.choose"))) };
        working.set(true);
        said.set(Some(tell("key.page.working")));
        leptos::task::spawn_local(async move {
            pause_ms(60).await;
            working.try_set(false);
            let made = make(&passphrase).and_then(|(file, key)| {
                let taken = desk.hand.try_update(|hand| hand.take_office_key(&file, &key, &more));
                taken.unwrap_or(Ok(())).map_err(|error| error.to_string())?;
                Ok(key)
            });
            match made {
                Ok(key) => open_here(desk, key, said),
                Err(why) => drop(said.try_set(Some(failed(&why)))),
            }
        });
    };
    let load = move |_: String, read: Result<Vec<u8>, String>| {
        let taken = read.and_then(|bytes| {
            let text = String::from_utf8(bytes).map_err(|error| error.to_string())?;
            let file = KeyFile::read(&text).map_err(|error| error.to_string())?;
            file.public().map_err(|error| error.to_string())?;
            picked.try_set(Some(file));
            Ok(())
        });
        said.try_set(taken.err().map(|why| failed(&why)));
    };
    view! {
        <p data-key="none">{tell("key.page.none")}</p>
        <form on:submit=act>
            {of_picked.asked(desk)}
            {passphrase("key.page.passphrase_new", first, "new-password")}
            {passphrase("key.page.again", second, "new-password")}
            <button type="submit" class="tile main" data-act="make-key" disabled=move || working.get()>
                {tell("key.page.make")}
            </button>
        </form>
        <label class="tile file aside" data-pick="key">
            <span class="label">{tell("key.page.load")}</span>
            <input type="file" class="file-input" on:change=move |event| read_file(&event, of_ours_bytes(), load)/>
        </label>
    }
    .into_any()
}

fn make(passphrase: &str) -> Result<(KeyFile, DeviceKey), String> {
    let mut random = Randomness { seed: [0; 32], salt: [0; 16], nonce: [0; 12] };
    for part in [&mut random.seed[..], &mut random.salt[..], &mut random.nonce[..]] {
        fill(part).map_err(|error| error.to_string())?;
    }
    let file = KeyFile::make(passphrase, random).map_err(|error| error.to_string())?;
    let key = file.unlock(passphrase).map_err(|error| error.to_string())?;
    Ok((file, key))
}
