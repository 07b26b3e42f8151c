//! The label of every sample: lines to copy by hand, and the same as a code.

use leptos::prelude::*;

use super::show::PART;
use crate::guide::Label;
use crate::web::form::Form;
use crate::web::frames_view::draw_codes;
use crate::web::parts::{label_lines, plain_head};

pub(super) fn labels(form: Form) -> AnyView {
    let all = form.with(|s| s.labels(form.language())).unwrap_or_default();
    let how = form.say(if all.is_empty() { "label.none" } else { "label.all_how" });
    draw(form);
    view! {
        <section class="ask">
            {plain_head(form.say("label.all"))}
            <p class="how">{how}</p>
        </section>
        {all.iter().map(|label| one(form, label)).collect_view()}
    }
    .into_any()
}

/// Draws what [`room`] was left for.
pub(super) fn draw(form: Form) {
    draw_codes(PART, form.language(), move |why| form.tell(why));
}

/// Room for a code.
pub(super) fn room(text: String, label: String) -> AnyView {
    view! { <div class="qr" data-code=text data-label=label></div> }.into_any()
}

fn one(form: Form, label: &Label) -> AnyView {
    let open = (!label.is_written).then(|| view! { <p class="alert">{form.say("label.no_number")}</p> });
    view! {
        <section class="phase" data-sample-label=label.number.clone()>
            <h2>{label.number.clone()}</h2>
            {open}
            {label_lines(form.language(), label)}
            {room(label.code_text(), form.say("label.code"))}
        </section>
    }
    .into_any()
}
