//! Words, with the phone's own keyboard.

use leptos::prelude::*;

use crate::guide::Draft;
use crate::record::{Answer, Shape, Value, find};
use crate::web::parts::{foot, main_tile};

use super::Question;

pub(super) fn text(q: &Question, finding: &'static str) -> AnyView {
    let (form, site, step) = (q.form, q.site, q.step.id);
    let most = match find(finding).map(|def| def.shape) {
        Some(Shape::Text(most)) => most,
        _ => 0,
    };
    let save = main_tile(
        form,
        "save",
        move || form.say("tile.save_text"),
        move || {
            let typed = form.typed.try_get_untracked().unwrap_or_default();
            let typed = typed.trim();
            if typed.is_empty() {
                form.tell(form.say("text.empty"));
            } else {
                let answer = Answer::Seen { value: Value::Text(typed.to_owned()) };
                form.answer(&[Draft { finding, site, answer, step }]);
            }
        },
    );
    let none = q.none(finding).map(|none| none.tile(form));
    view! {
        <div class="tiles">
            {area(form, most)}
            {none}
            {foot(Some(save), q.no_answer())}
        </div>
    }
    .into_any()
}

/// The field. What is typed lives in the form, so that it outlives the screen.
pub(crate) fn area(form: crate::web::form::Form, most: usize) -> AnyView {
    view! {
        <textarea
            class="words"
            rows="4"
            data-field="text"
            aria-labelledby="head"
            maxlength=most.to_string()
            prop:value=move || form.typed.get()
            on:input=move |event| form.type_in(event_target_value(&event))
        ></textarea>
    }
    .into_any()
}
