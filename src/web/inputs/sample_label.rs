//! The number of a sample: the lines for its label, the number that it bears, or one that is printed. Nothing is
//! left without: where no label can be written yet, the form gives the number and the way home asks for the label.

use leptos::prelude::*;

use crate::guide::{Draft, UNLABELLED, is_number_mistyped, label_of, proposed_number};
use crate::record::{Answer, Value};
use crate::web::parts::{Look, code_field, foot, label_lines, tile};
use crate::web::wording;
use crate::words::Arg;

use super::Question;

pub(super) fn sample_label(q: &Question) -> AnyView {
    let (form, site, step) = (q.form, q.site, q.step.id);
    let Some(examination) = q.now.here.examination else { return ().into_any() };
    let item = site.item.unwrap_or_default();
    let label = q.now.carcass().and_then(|carcass| label_of(form.language(), carcass, examination, item));
    let lines = label.map(|label| {
        view! { <p>{form.say("label.item")}{form.language().colon()}<strong>{label.number.clone()}</strong></p> {label_lines(form.language(), &label)} }
    });
    let give = move |number: String, step| {
        let answer = Answer::Seen { value: Value::Text(number) };
        form.answer(&[Draft { finding: "sample_number", site, answer, step }]);
    };
    let ours = proposed_number(examination, site);
    let [label, not_yet] = ["label.take_number", "label.not_yet"]
        .map(|id| form.say_with(id, &[("number", Arg::Text(wording::whole(&ours)))]));
    let unlabelled = ours.clone();
    let save = tile(form, "save", form.say("tile.save_text"), Look::Value, move || {
        let typed = form.typed.try_get_untracked().unwrap_or_default();
        let typed = typed.trim();
        if typed.is_empty() {
            form.tell(form.say("text.empty"));
        } else if is_number_mistyped(typed) {
            form.tell(form.say("label.mistyped"));
        } else {
            give(typed.to_owned(), step);
        }
    });
    view! {
        <section class="phase" data-label="">
            <h2>{form.say("label.head")}</h2>
            {lines}
        </section>
        <div class="tiles">
            {tile(form, "number", label, Look::Main, move || give(ours.clone(), step))}
            {code_field(form, "label.own_number", "text", 40)}
            {foot(Some(save), tile(form, "not-yet", not_yet, Look::Aside, move || give(unlabelled.clone(), UNLABELLED)))}
        </div>
    }
    .into_any()
}
