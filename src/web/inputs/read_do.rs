//! A line that is read and done, or is not so.

use leptos::prelude::*;

use crate::guide::Draft;
use crate::record::Answer;
use crate::web::parts::{Look, tile};
use crate::web::wording;

use super::Question;

pub(super) fn read_do(q: &Question, finding: &'static str) -> AnyView {
    let (form, site, step) = (q.form, q.site, q.step.id);
    // What the record will say: told, with us, done.
    let label = wording::option(form.language(), finding, "there");
    let look = if q.given(finding) == Some(Answer::choice("there")) { Look::Chosen } else { Look::Main };
    let done = tile(form, "done", label, look, move || {
        form.answer(&[Draft { finding, site, answer: Answer::choice("there"), step }]);
    });
    let none = q.none(finding).map(|none| none.tile(form));
    view! { <div class="tiles">{done} {none} {q.no_answer()}</div> }.into_any()
}
