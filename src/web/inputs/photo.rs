//! A photo, from the camera or from the phone's own pictures.

use leptos::prelude::*;
use wasm_bindgen::JsCast as _;

use crate::guide::Draft;
use crate::record::{Answer, Value};
use crate::web::form::Form;
use crate::web::picture;

use super::Question;

pub(super) fn photo(q: &Question, finding: &'static str) -> AnyView {
    let (form, site, step) = (q.form, q.site, q.step.id);
    let give = move |photo| {
        form.answer(&[Draft { finding, site, answer: Answer::Seen { value: Value::Photo(photo) }, step }]);
    };
    let way = move |name: &'static str, camera: bool| {
        view! {
            <label class="tile file" data-tile=name>
                <span class="label">{form.say(&format!("photo.{name}"))}</span>
                <input
                    type="file"
                    accept="image/*"
                    capture=camera.then_some("environment")
                    class="file-input"
                    data-field=name
                    on:change=move |event| take(form, &event, give)
                />
            </label>
        }
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

/// The picture's bytes go into the store first; only then does an entry name them.
fn take(form: Form, event: &web_sys::Event, give: impl FnOnce(crate::record::Photo) + 'static) {
    let input = event.target().and_then(|t| t.dyn_into::<web_sys::HtmlInputElement>().ok());
    let Some(file) = input.and_then(|i| i.files()).and_then(|files| files.get(0)) else { return };
    form.tell(form.say("photo.keeping"));
    leptos::task::spawn_local(async move {
        if let Some(bytes) = picture::smaller(&file).await {
            return form.keep_photo(bytes, "image/jpeg".to_owned(), give);
        }
        match wasm_bindgen_futures::JsFuture::from(file.array_buffer()).await {
            Ok(buffer) => form.keep_photo(js_sys::Uint8Array::new(&buffer).to_vec(), file.type_(), give),
            Err(_) => form.tell(form.say("photo.not_read")),
        }
    });
}
