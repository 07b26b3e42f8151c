//! The ways out of the phone: the share sheet, a file, the text. In this order, because the first
//! works from the home screen of every phone that has it.

use leptos::prelude::*;

use crate::record::Photo;
use crate::web::form::Form;
use crate::web::parts::{Look, tile};
use crate::web::platform::file::OutFile;
use crate::web::platform::{PlatformError, clipboard, download, share};
use crate::web::session::Made;
use crate::words::Arg;

/// Photos in one sheet. Chromium shares at most ten files at a time (`kMaxSharedFileCount` in its source, ten from
/// memory), and the bundle is one.
const A_SHEET: usize = 9;

/// The file of a photo, named by its digest so that a person can compare it. The office goes by the bytes alone.
fn photo_file(photo: &Photo, bytes: Vec<u8>) -> OutFile {
    let ending = if photo.media == "image/png" { "png" } else { "jpg" };
    OutFile { name: format!("marrowbook-photo-{}.{ending}", photo.sha256), media: photo.media.clone(), bytes }
}

fn count(n: usize) -> Arg {
    Arg::Count(i64::try_from(n).unwrap_or_default())
}

/// `others` are other phones' bundles: files of their own beside this phone's, in the first sheet with it.
pub(super) fn ways(form: Form, made: Made, others: Vec<OutFile>) -> AnyView {
    let all = made.photos.len();
    let mut texts = vec![OutFile::text(&made.file, &made.text)];
    texts.extend(others);
    // Photos that the sheet has room for; `keep::received::MOST` leaves one.
    let room =
        move |first: usize, texts: usize| if first == 0 { A_SHEET.saturating_sub(texts - 1).max(1) } else { A_SHEET };
    let beside = texts.len();
    // Which photo the next sheet begins with, and the files of that sheet: read before the tap, for the tap counts
    // for some seconds only, and a sheet at a time, for a day's photos together would fill the phone's memory.
    let from = RwSignal::new(0_usize);
    let sheet: RwSignal<Option<Vec<OutFile>>> = RwSignal::new(None);
    let photos = StoredValue::new(made.photos);
    let load = move || {
        sheet.try_set(None);
        let first = from.try_get_untracked().unwrap_or_default();
        let part = photos.try_with_value(|all| all.iter().skip(first).take(room(first, beside)).cloned().collect());
        form.photos(part.unwrap_or_default(), move |read| {
            let files = read.into_iter().filter_map(|(photo, bytes)| bytes.map(|b| photo_file(&photo, b)));
            sheet.try_set(Some(files.collect()));
        });
    };
    load();
    let first_files = texts.clone();
    let share = move || {
        let Some(files) = sheet.get() else {
            return view! { <p role="status">{form.say("hand_over.photos_loading")}</p> }.into_any();
        };
        let first = from.get();
        let last = (first + room(first, beside)).min(all);
        let missing = (last - first).saturating_sub(files.len());
        let note = (missing > 0)
            .then(|| view! { <p>{form.say_with("hand_over.photos_missing", &[("n", count(missing))])}</p> });
        let n = ("n", count(files.len()));
        let label = match (first, files.len()) {
            (0, 0) => form.say("hand_over.share"),
            (0, _) => form.say_with("hand_over.share_with", &[n]),
            _ => form.say_with(
                "hand_over.share_more",
                &[n, ("from", count(first + 1)), ("to", count(last)), ("all", count(all))],
            ),
        };
        let texts = if first == 0 { first_files.clone() } else { Vec::new() };
        let files: Vec<OutFile> = texts.into_iter().chain(files).collect();
        let title = first_files.first().map(|file| file.name.clone()).unwrap_or_default();
        let sheet_tile = match share::ready(&files, &title) {
            Ok(ready) => tile(form, "share", label, Look::Main, move || {
                let ready = ready.clone();
                leptos::task::spawn_local(async move {
                    let outcome = ready.share().await;
                    let left = all.saturating_sub(last);
                    if outcome.is_ok() && left > 0 {
                        from.try_set(last);
                        load();
                        return form.tell(form.say_with("hand_over.shared_part", &[("n", count(left))]));
                    }
                    told(form, outcome, "hand_over.shared");
                });
            }),
            Err(_) => view! { <p>{form.say("hand_over.no_share")}</p> }.into_any(),
        };
        view! { {note} {sheet_tile} }.into_any()
    };
    let label = match all {
        0 => form.say("hand_over.download"),
        n => form.say_with("hand_over.download_with", &[("n", count(n))]),
    };
    // One act stands out: the share sheet, or the file where this browser has none.
    let look = if share::ready(&texts, &made.file).is_ok() { Look::Value } else { Look::Main };
    let download = tile(form, "download", label, look, move || save(form, &texts, photos));
    let text = made.text.clone();
    let copy = tile(form, "copy", form.say("hand_over.copy"), Look::Value, move || {
        let text = text.clone();
        leptos::task::spawn_local(async move {
            let done = clipboard::copy(&text).await;
            let id = if all == 0 { "hand_over.copied" } else { "hand_over.copied_no_photos" };
            told(form, done, id);
        });
    });
    view! {
        {share}
        {download}
        {copy}
        <label class="field">
            {form.say("hand_over.text")}
            <textarea class="words" rows="3" readonly data-field="bundle" prop:value=made.text></textarea>
        </label>
    }
    .into_any()
}

/// Files that go as they are, with nothing of this phone beside them. `shared` says that they went.
pub(super) fn of_files(form: Form, files: Vec<OutFile>, shared: &'static str) -> AnyView {
    let title = files.first().map(|file| file.name.clone()).unwrap_or_default();
    let sheet = match share::ready(&files, &title) {
        Ok(ready) => tile(form, "share", form.say("hand_over.share"), Look::Value, move || {
            let ready = ready.clone();
            leptos::task::spawn_local(async move { told(form, ready.share().await, shared) });
        }),
        Err(_) => view! { <p>{form.say("hand_over.no_share")}</p> }.into_any(),
    };
    let download = tile(form, "download", form.say("hand_over.download"), Look::Value, move || {
        told(form, files.iter().try_for_each(download::download), "hand_over.saved");
    });
    view! { {sheet} {download} }.into_any()
}

/// Saves the bundles and, one after the other, the photos that are here.
fn save(form: Form, texts: &[OutFile], photos: StoredValue<Vec<Photo>>) {
    if let Err(reason) = texts.iter().try_for_each(download::download) {
        return told(form, Err(reason), "hand_over.saved");
    }
    form.each_photo(
        photos.try_get_value().unwrap_or_default(),
        move |photo, bytes| download::download(&photo_file(photo, bytes)),
        move |outcome, missing| {
            told(form, outcome, "hand_over.saved");
            if missing > 0 {
                form.tell(form.say_with("hand_over.photos_missing", &[("n", count(missing))]));
            }
        },
    );
}

/// What came of it. A closed share sheet needs no word.
fn told(form: Form, outcome: Result<(), PlatformError>, done: &str) {
    match outcome {
        Ok(()) => form.tell(form.say(done)),
        Err(PlatformError::Cancelled) => {}
        Err(reason) => form.tell(form.say_with("hand_over.failed", &[("reason", Arg::Text(reason.to_string()))])),
    }
}
