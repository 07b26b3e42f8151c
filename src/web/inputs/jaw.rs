//! The lower jaw: a tooth at a time, each question as tiles.

use leptos::prelude::*;

use crate::guide::Draft;
use crate::record::{Answer, find};
use crate::web::parts::{Look, pages, tile};
use crate::web::wording;

use super::Question;
use super::choice::more_tile;

pub(super) fn jaw(q: &Question) -> AnyView {
    let (form, step) = (q.form, q.step.id);
    let view = q.now.view();
    let open = q.ask.questions(&view).into_iter().find(|(f, s)| !view.is_answered(f, *s));
    let Some((finding, site)) = open else {
        return view! { <div class="tiles">{q.no_answer()}</div> }.into_any();
    };
    let options = find(finding).map(crate::record::FindingDef::options).unwrap_or_default();
    let shown = move || {
        let (shown, page, count) = pages(options, form.page.get());
        let tiles = shown.into_iter().map(|code| {
            tile(form, code, wording::option(form.language(), finding, code), Look::Value, move || {
                form.answer(&[Draft { finding, site, answer: Answer::choice(code), step }]);
            })
        });
        view! { {tiles.collect_view()} {(count > 1).then(|| more_tile(form, page, count))} }
    };
    let part = format!("{}: {}", wording::site(form.language(), site), wording::finding(form.language(), finding));
    view! { <div class="tiles"><p class="part">{part}</p>{shown} {q.no_answer()}</div> }.into_any()
}
