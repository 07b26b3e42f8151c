//! A photo, from the camera or from the phone's own pictures.

use leptos::prelude::*;
use wasm_bindgen::JsCast as _;

use crate::web::form::Form;
use crate::web::parts::Look;

use super::Question;

pub(super) fn photo(q: &Question, _finding: &'static str) -> AnyView {
    let form = q.form;
    let (ask, item) = (q.ask.name(), q.site.item.unwrap_or(1));
    let way = |name: &'static str, camera: bool| {
        let look = if camera { Look::Main } else { Look::Aside };
        file_tile(form, name, form.say(&format!("photo.{name}")), look, (ask.clone(), item), move || camera, || None)
    };
    view! {
        <div class="tiles">
            <p>{form.say("photo.how")}</p>
            {way("camera", true)}
            {way("pictures", false)}
            {q.no_answer()}
        </div>
    }
    .into_any()
}

/// A tile that opens the camera, or the phone's pictures. Which photo it is for is noted before it opens: the page
/// may be gone when the camera comes back.
pub(super) fn file_tile(
    form: Form,
    name: &str,
    label: String,
    look: Look,
    (ask, item): (String, u16),
    camera: impl Fn() -> bool + Send + 'static,
    mark: impl Fn() -> Option<String> + Copy + Send + 'static,
) -> AnyView {
    view! {
        <label
            class=move || [if mark().is_some() { Look::Chosen } else { look }.class(), " file"].concat()
            data-tile=name.to_owned()
        >
            <span class="label">{label}</span>
            <span class="tick">{mark}</span>
            <input
                type="file"
                accept="image/*"
                capture=move || camera().then_some("environment")
                class="file-input"
                data-field=name.to_owned()
                disabled=move || form.taking.get().is_some()
                on:click=move |_| form.note_slot(ask.clone(), item)
                on:cancel=move |_: web_sys::Event| form.forget_slot()
                on:change=move |event| take(form, &event)
            />
        </label>
    }
    .into_any()
}

fn take(form: Form, event: &web_sys::Event) {
    let Some(input) = event.target().and_then(|t| t.dyn_into::<web_sys::HtmlInputElement>().ok()) else { return };
    let Some(file) = input.files().and_then(|files| files.get(0)) else { return form.forget_slot() };
    form.take_photo(file);
    // The same file may be picked again: after room was made, say.
    input.set_value("");
}
