//! The ways by which a bundle leaves the phone: share sheet, download, copied text.

use leptos::prelude::*;

use crate::web::form::Form;
use crate::web::parts::{Look, tile};
use crate::web::platform::{PlatformError, clipboard, download, file::OutFile, share};
use crate::web::session::Made;
use crate::words::Arg;

pub(super) fn ways(form: Form, made: &Made) -> AnyView {
    let file = OutFile::text(&made.file, &made.text);
    // The file is made before the tap: the tap lets the sheet open for some seconds only.
    let share = match share::ready(std::slice::from_ref(&file), &made.file) {
        Ok(ready) => tile(form, "share", form.say("hand_over.share"), Look::Value, move || {
            let ready = ready.clone();
            leptos::task::spawn_local(async move { told(form, ready.share().await, "hand_over.shared") });
        }),
        Err(_) => view! { <p>{form.say("hand_over.no_share")}</p> }.into_any(),
    };
    let text = made.text.clone();
    view! {
        {share}
        {tile(form, "download", form.say("hand_over.download"), Look::Value, move || {
            told(form, download::download(&file), "hand_over.saved");
        })}
        {tile(form, "copy", form.say("hand_over.copy"), Look::Value, move || {
            let text = text.clone();
            leptos::task::spawn_local(async move { told(form, clipboard::copy(&text).await, "hand_over.copied") });
        })}
        <label class="field">
            {form.say("hand_over.text")}
            <textarea class="words" rows="3" readonly data-field="bundle" prop:value=made.text.clone()></textarea>
        </label>
    }
    .into_any()
}

/// Say what came of it. A closed sheet needs no word.
fn told(form: Form, came: Result<(), PlatformError>, well: &str) {
    match came {
        Ok(()) => form.tell(form.say(well)),
        Err(PlatformError::Cancelled) => {}
        Err(error) => form.tell(form.say_with("hand_over.failed", &[("reason", Arg::Text(error.to_string()))])),
    }
}
