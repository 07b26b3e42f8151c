//! The archive: opened, saved.

use leptos::prelude::*;

use super::desk::{Desk, Lies, Saving, count, tell, tell_with};
use super::figures::in_uneven_parts;
use super::key::key;
use super::view::read_file;
use crate::office::hand::ArchiveOpening;
use crate::office::zipped::{Tree, ZIP_BYTES, pack, unpack};
use crate::web::platform::PlatformError;
use crate::web::platform::clock::pause_ms;
use crate::web::platform::download::download;
use crate::web::platform::file::OutFile;
use crate::web::platform::folder::{self, Folder};

/// A page's memory is counted in 32 bits, and the most that a zip may have lies far below.
#[allow(clippy::cast_possible_truncation)]
const ZIP: usize = ZIP_BYTES as usize;

/// Whether there is something that would be lost with the page, and the way to save it.
pub(super) fn state(desk: Desk) -> AnyView {
    let words = move || {
        let unsaved = desk.unsaved();
        let lies = match desk.lies.get() {
            Lies::Page => tell("archive.page.in_page"),
            Lies::Demo => tell("archive.page.in_demo"),
            Lies::Zip(name) => tell_with("archive.page.in_zip", &[("name", name.into())]),
            Lies::Folder(name) => tell_with("archive.page.in_folder", &[("name", name.into())]),
        };
        let saved = match desk.saving.get() {
            Saving::Working => tell("archive.page.saving"),
            Saving::Handed if unsaved == 0 => tell("archive.page.handed"),
            // A zip beside a folder that could not be written.
            Saving::Handed if desk.has_folder() => tell_with("archive.page.handed_beside", &[("n", count(unsaved))]),
            _ if unsaved > 0 => tell_with("archive.page.unsaved", &[("n", count(unsaved))]),
            _ if matches!(desk.lies.get(), Lies::Page | Lies::Demo) => String::new(),
            _ => tell("archive.page.saved"),
        };
        format!("{lies} {saved}")
    };
    let failed = move || match desk.saving.get() {
        Saving::Failed(why) => {
            Some(view! { <p class="alert">{tell_with("archive.page.not_written", &[("reason", why.into())])}</p> })
        }
        _ => None,
    };
    let again = move || {
        let waits = matches!(desk.saving.get(), Saving::Failed(_) | Saving::Handed) && desk.unsaved() > 0;
        (waits && desk.has_folder()).then(|| {
            view! {
                <button type="button" class="act" data-act="write-again" on:click=move |_| desk.save_into_folder()>
                    {tell("archive.page.again")}
                </button>
            }
        })
    };
    let not_handed = move || {
        desk.not_handed.get().map(|why| {
            view! { <p class="alert">{tell_with("desk.not_handed", &[("reason", why.into())])}</p> }
        })
    };
    view! {
        <p role="status" class="saved" data-archive=move || desk.unsaved().to_string()>{words}</p>
        <div role="alert">{failed}{not_handed}</div>
        {again}
    }
    .into_any()
}

pub(super) fn archive(desk: Desk) -> AnyView {
    let refused = RwSignal::new(None::<String>);
    let take = move |opening: ArchiveOpening| {
        let taken = desk.hand.try_update(|hand| hand.take_opened(opening).map_err(|error| error.to_string()));
        let taken = taken.unwrap_or(Ok(()));
        if taken.is_ok() {
            // Another archive may have another key.
            let ours = desk.hand.with_untracked(|hand| hand.office_key().and_then(|file| file.public().ok()));
            if desk.key_now().map(|key| key.public()) != ours {
                desk.key.try_set(None);
            }
        }
        refused.try_set(taken.clone().err());
        taken.is_ok()
    };
    let open_folder = move |_| {
        leptos::task::spawn_local(async move {
            match open(desk, take).await {
                Ok(Some(folder)) => desk.in_folder(folder),
                Ok(None) | Err(PlatformError::Cancelled) => {}
                Err(error) => drop(refused.try_set(Some(error.to_string()))),
            }
            desk.opening.try_set(None);
        });
    };
    let take_zip = move |name: String, read: Result<Vec<u8>, String>| {
        leptos::task::spawn_local(async move {
            say_opening(desk).await;
            match read.and_then(|bytes| unpack(&bytes).map_err(|error| error.to_string())) {
                Ok(files) => {
                    if take(opened_in_parts(desk, files).await) {
                        desk.out_of_folder();
                        desk.lies.try_set(Lies::Zip(name));
                    }
                }
                Err(why) => drop(refused.try_set(Some(why))),
            }
            desk.opening.try_set(None);
        });
    };
    let folder = if folder::is_here() {
        view! {
            <button type="button" class="tile main" data-act="open-folder" on:click=open_folder>
                {tell("archive.page.folder")}
            </button>
        }
        .into_any()
    } else {
        view! { <p>{tell("archive.page.no_folder")}</p> }.into_any()
    };
    let holds = move || {
        desk.hand.with(|hand| {
            let files = hand.held().all();
            let of = |folder: &str| count(files.keys().filter(|path| path.starts_with(folder)).count());
            let args = [("files", of("received/")), ("photos", of("photos/")), ("cards", of("cards/"))];
            tell_with("archive.page.holds", &args)
        })
    };
    view! {
        <section data-part="archive">
            <h2>{tell("archive.page.head")}</h2>
            <p>{tell("archive.page.what")}</p>
            <p data-holds="">{holds}</p>
            {folder}
            <label class="tile file aside" data-pick="zip">
                <span class="label">{tell("archive.page.zip")}</span>
                <input type="file" accept=".zip" class="file-input" on:change=move |event| read_file(&event, ZIP, take_zip)/>
            </label>
            <button type="button" class="tile aside" data-act="save-zip" on:click=move |_| save_zip(desk)>
                {tell("archive.page.save_zip")}
            </button>
            <div role="alert">
                {move || refused.get().map(|why| view! {
                    <p class="alert">{tell_with("archive.page.not_opened", &[("reason", why.into())])}</p>
                })}
            </div>
            {key(desk)}
        </section>
    }
    .into_any()
}

/// Says that an archive is being opened, before the page is busy with it.
async fn say_opening(desk: Desk) {
    desk.opening.try_set(Some((0, 0)));
    pause_ms(60).await;
}

/// Opens the files of an archive in short parts; nothing of it is taken over yet.
async fn opened_in_parts(desk: Desk, files: Tree) -> ArchiveOpening {
    let mut opening = ArchiveOpening::of(files);
    let step = |opening: &mut ArchiveOpening| {
        let before = opening.so_far();
        let more = opening.step();
        if opening.so_far() != before {
            desk.opening.try_set(Some(opening.so_far()));
        }
        more
    };
    in_uneven_parts(&mut opening, step, ArchiveOpening::is_long).await;
    pause_ms(0).await;
    opening
}

async fn open(desk: Desk, take: impl Fn(ArchiveOpening) -> bool) -> Result<Option<Folder>, PlatformError> {
    let folder = Folder::pick().await?;
    say_opening(desk).await;
    let files = folder.read_archive().await?;
    Ok(take(opened_in_parts(desk, files).await).then_some(folder))
}

fn save_zip(desk: Desk) {
    let files = desk.hand.with_untracked(|hand| hand.held().all());
    let removed = desk.hand.with_untracked(|hand| hand.held().unsaved().removed);
    let packed = pack(&files).map_err(|error| error.to_string());
    let handed = packed.and_then(|bytes| {
        let file = OutFile { name: "archive.zip".to_owned(), media: "application/zip".to_owned(), bytes };
        download(&file).map_err(|error| error.to_string())
    });
    match handed {
        Ok(()) => {
            // A zip among the downloads is no folder: what is missing there is still told.
            if !desk.has_folder() {
                desk.saved(&files, &removed);
            }
            desk.saving.set(Saving::Handed);
        }
        Err(why) => desk.saving.set(Saving::Failed(why)),
    }
}
