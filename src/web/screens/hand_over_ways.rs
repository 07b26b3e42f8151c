//! The ways out of the phone: the text to copy.

use leptos::prelude::*;

use crate::web::form::Form;
use crate::web::session::Made;

pub(super) fn ways(form: Form, made: &Made) -> AnyView {
    view! {
        <label class="field">
            {form.say("hand_over.text")}
            <textarea class="words" rows="3" readonly data-field="bundle" prop:value=made.text.clone()></textarea>
        </label>
    }
    .into_any()
}
