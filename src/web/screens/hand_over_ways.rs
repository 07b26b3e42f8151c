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

/// The files of a hand-over: the bundle, then the photos that it names.
#[derive(Clone)]
pub(super) struct Files {
    pub(super) bundle: OutFile,
    pub(super) photos: Vec<OutFile>,
}

/// The file of a photo, named by its digest so that the office finds which entry names it.
pub(super) fn photo_file(photo: &Photo, bytes: Vec<u8>) -> OutFile {
    let ending = if photo.media == "image/png" { "png" } else { "jpg" };
    let start = photo.sha256.0.iter().take(8).fold(0_u64, |sum, byte| (sum << 8) | u64::from(*byte));
    let digest = format!("{start:016x}");
    OutFile { name: format!("marrowbook-photo-{digest}.{ending}"), media: photo.media.clone(), bytes }
}

pub(super) fn ways(form: Form, made: &Made, photos: Vec<OutFile>) -> AnyView {
    let files = Files { bundle: OutFile::text(&made.file, &made.text), photos };
    let text = made.text.clone();
    let all: Vec<OutFile> = std::iter::once(files.bundle.clone()).chain(files.photos.clone()).collect();
    let share = match share::ready(&all, &made.file) {
        Ok(ready) => tile(form, "share", form.say("hand_over.share"), Look::Value, move || {
            let ready = ready.clone();
            leptos::task::spawn_local(async move { told(form, ready.share().await, "hand_over.shared") });
        }),
        Err(_) => view! { <p>{form.say("hand_over.no_share")}</p> }.into_any(),
    };
    let photo_count = files.photos.len();
    let download = tile(form, "download", form.say("hand_over.download"), Look::Value, move || {
        let outcome = all.iter().try_for_each(download::download);
        told(form, outcome, "hand_over.saved");
    });
    let copy = tile(form, "copy", form.say("hand_over.copy"), Look::Value, move || {
        let text = text.clone();
        leptos::task::spawn_local(async move {
            let done = clipboard::copy(&text).await;
            let id = if photo_count == 0 { "hand_over.copied" } else { "hand_over.copied_no_photos" };
            told(form, done, id);
        });
    });
    view! {
        {share}
        {download}
        {copy}
        <label class="field">
            {form.say("hand_over.text")}
            <textarea class="words" rows="3" readonly data-field="bundle" prop:value=made.text.clone()></textarea>
        </label>
    }
    .into_any()
}

/// What came of it. A closed share sheet needs no word.
fn told(form: Form, outcome: Result<(), PlatformError>, done: &str) {
    match outcome {
        Ok(()) => form.tell(form.say(done)),
        Err(PlatformError::Cancelled) => {}
        Err(reason) => form.tell(form.say_with("hand_over.failed", &[("reason", Arg::Text(reason.to_string()))])),
    }
}
