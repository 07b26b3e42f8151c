//! The number of a sample: the six lines for its label, the number that it bears, or one that is printed.

use leptos::prelude::*;

use crate::guide::{Draft, is_number_mistyped, label_lines, proposed_number};
use crate::record::{Answer, Value};
use crate::web::parts::{Look, code_field, foot, tile};
use crate::words::{Arg, raw};

use super::Question;

pub(super) fn sample_label(q: &Question) -> AnyView {
    let (form, site, step) = (q.form, q.site, q.step.id);
    let Some(examination) = q.now.here.examination else { return ().into_any() };
    let word = |value: &String| raw(form.language(), value).map_or_else(|| value.clone(), |_| form.say(value));
    let lines = label_lines(&q.now.view(), examination, site).map(|(id, values)| {
        let value = values.iter().map(word).collect::<Vec<_>>().join(", ");
        view! { <li>{form.say(id)}": "<strong>{value}</strong></li> }
    });
    let give = move |number: String| {
        form.answer(&[Draft {
            finding: "sample_number",
            site,
            answer: Answer::Seen { value: Value::Text(number) },
            step,
        }]);
    };
    let ours = proposed_number(examination, site);
    let label = form.say_with("label.take_number", &[("number", Arg::Text(ours.clone()))]);
    let save = tile(form, "save", form.say("tile.save_text"), Look::Value, move || {
        let typed = form.typed.try_get_untracked().unwrap_or_default();
        let typed = typed.trim();
        if typed.is_empty() {
            form.tell(form.say("text.empty"));
        } else if is_number_mistyped(typed) {
            form.tell(form.say("label.mistyped"));
        } else {
            give(typed.to_owned());
        }
    });
    view! {
        <section class="phase" data-label="">
            <h2>{form.say("label.head")}</h2>
            <ul>{lines.into_iter().collect_view()}</ul>
        </section>
        <div class="tiles">
            {tile(form, "number", label, Look::Main, move || give(ours.clone()))}
            {code_field(form, "label.own_number", "text", 40)}
            {foot(Some(save), q.no_answer())}
        </div>
    }
    .into_any()
}
