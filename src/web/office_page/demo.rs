//! The invented season, where the page's address asks for it (`#demo`) and a `demo/` folder lies beside the page. What is
//! published has no such folder.

use leptos::prelude::*;
use serde::Deserialize;

use super::desk::{Desk, Lies};
use crate::office::hand::Hand;
use crate::office::zipped::Tree;
use crate::web::fetched::text as fetch;
use crate::words::{Arg, Language, say_office};

const LANGUAGE: Language = Language::English;
const FOLDER: &str = "../demo/out/season";

#[derive(Deserialize)]
struct List {
    passphrase: String,
    archive: Vec<String>,
    files: Vec<String>,
}

/// The tile that opens it; nothing where the address does not ask for it.
pub(super) fn tile(desk: Desk) -> Option<AnyView> {
    let hand = desk.hand;
    let asked = web_sys::window()?.location().hash().is_ok_and(|hash| hash == "#demo");
    let missing = RwSignal::new(false);
    let passphrase = RwSignal::new(None::<String>);
    let open = move |_| {
        leptos::task::spawn_local(async move {
            let opened = open(hand).await;
            if opened.is_some() {
                desk.lies.try_set(Lies::Demo);
            }
            missing.try_set(opened.is_none());
            passphrase.try_set(opened);
        });
    };
    // Nothing invented goes into an archive that somebody opened or began.
    let is_real = move || desk.lies.get() != Lies::Page || hand.with(|hand| hand.office_key().is_some());
    asked.then(|| {
        view! {
            <button type="button" class="tile" data-demo="" hidden=is_real on:click=open>
                {say_office(LANGUAGE, "desk.demo", &[])}
            </button>
            <div role="status">
                {move || passphrase.get().map(|words| view! { <p>{say_office(LANGUAGE, "desk.demo.passphrase", &[("passphrase", Arg::Text(words))])}</p> })}
            </div>
            <div role="alert">
                {move || missing.get().then(|| view! { <p class="alert">{say_office(LANGUAGE, "desk.demo.missing", &[])}</p> })}
            </div>
        }
        .into_any()
    })
}

/// Fetches the list and all that it names: the office's archive, then what crews handed in; taken in at once, so that the
/// readings are worked out once. The passphrase of the invented office.
async fn open(hand: RwSignal<Hand>) -> Option<String> {
    let list = fetch(&format!("{FOLDER}/files.json")).await?;
    let list: List = serde_json::from_str(&list).ok()?;
    let mut archive = Tree::new();
    for name in list.archive {
        let text = fetch(&format!("{FOLDER}/archive/{name}")).await?;
        archive.insert(name, text.into_bytes().into());
    }
    let mut files = Vec::new();
    for name in list.files {
        let text = fetch(&format!("{FOLDER}/{name}")).await?;
        files.push((name.rsplit('/').next().unwrap_or_default().to_owned(), text));
    }
    hand.try_update(|hand| {
        hand.take_archive(archive).ok()?;
        for (name, text) in files {
            hand.take(name, text.into_bytes());
        }
        Some(list.passphrase)
    })
    .flatten()
}
