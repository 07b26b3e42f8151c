//! A photo.

use leptos::prelude::*;

use super::Question;

pub(super) fn photo(q: &Question, finding: &'static str) -> AnyView {
    let _ = finding;
    view! { <div class="tiles"><p>{q.form.say("photo.not_here")}</p>{q.no_answer()}</div> }.into_any()
}
