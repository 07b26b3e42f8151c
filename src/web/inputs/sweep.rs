//! Several panels looked over in one, at the next carcass of the day: what they hold is read out as lines.

use leptos::prelude::*;

use crate::guide::steps::step;
use crate::guide::{Draft, Input, Step};
use crate::record::Answer;
use crate::web::parts::{Look, foot, main_tile, tile};
use crate::web::wording;

use super::Question;

pub(super) fn sweep(q: &Question, steps: &'static [&'static str]) -> AnyView {
    let (form, ask, site, id) = (q.form, q.ask, q.site, q.step.id);
    let Input::Sweep { finding, .. } = q.step.input else { return ().into_any() };
    let language = form.language();
    let done = wording::ask_part(language, &ask, "done").unwrap_or_else(|| form.say("tile.none_of_these"));
    let stands = |covered: &&Step| (covered.when)(&q.now.view());
    let lines = steps.iter().filter_map(|id| step(id)).filter(stands).map(|covered| {
        let head = form.say(&format!("step.{}.ask", covered.id));
        let signs = match covered.input {
            Input::Panel(signs) => {
                signs.iter().map(|sign| wording::finding(language, sign)).collect::<Vec<_>>().join("; ")
            }
            _ => form.say(&format!("step.{}.how", covered.id)),
        };
        view! { <li><strong>{head}</strong>" "{signs}</li> }
    });
    let each = tile(form, "ask-each", form.say("sweep.ask_each"), Look::Value, move || {
        form.undo_sweep(&ask);
        form.answer(&[Draft { finding, site, answer: Answer::choice("ask_each"), step: id }]);
    });
    let none = main_tile(
        form,
        "none-of-these",
        move || done.clone(),
        move || {
            if let Some(now) = form.now_once() {
                form.answer(&ask.sweep(&now.view()));
            }
        },
    );
    view! {
        <ul class="lines">{lines.collect_view()}</ul>
        <div class="tiles">{each} {foot(Some(none), q.no_answer())}</div>
    }
    .into_any()
}
