//! A line that is read and done.

use leptos::prelude::*;

use crate::guide::Draft;
use crate::record::Answer;
use crate::web::parts::{Look, tile};
use crate::web::wording;

use super::Question;

pub(super) fn read_do(q: &Question, finding: &'static str) -> AnyView {
    let (form, site, step) = (q.form, q.site, q.step.id);
    let label = wording::ask_part(form.language(), &q.ask, "done").unwrap_or_else(|| form.say("tile.done"));
    let look = if q.given(finding) == Some(Answer::choice("there")) { Look::Chosen } else { Look::Main };
    let done = tile(form, "done", label, look, move || {
        form.answer(&[Draft { finding, site, answer: Answer::choice("there"), step }]);
    });
    view! { <div class="tiles">{done} {q.no_answer()}</div> }.into_any()
}
