//! A field for a code: capitals, no spelling help, nothing filled in by the browser.

use leptos::prelude::*;

use crate::web::form::Form;

/// The field of what is being typed, under its label; `most` letters at the most.
pub(crate) fn code_field(form: Form, label: &str, field: &'static str, most: u16) -> AnyView {
    view! {
        <label class="field">
            {form.say(label)}
            <input
                type="text"
                autocomplete="off"
                autocapitalize="characters"
                spellcheck="false"
                maxlength=most.to_string()
                data-field=field
                prop:value=move || form.typed.get()
                on:input=move |event| form.type_in(event_target_value(&event))
            />
        </label>
    }
    .into_any()
}
