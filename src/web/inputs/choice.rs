//! One option: a tap answers, saves and goes on.

use leptos::prelude::*;

use crate::guide::Draft;
use crate::record::{Answer, find};
use crate::web::parts::{Look, pages, tile};
use crate::web::wording;
use crate::words::Arg;

use super::Question;

pub(super) fn choice(q: &Question, finding: &'static str) -> AnyView {
    let (form, site, step) = (q.form, q.site, q.step.id);
    let options = find(finding).map(crate::record::FindingDef::options).unwrap_or_default();
    let given = q.given(finding);
    let no_answer = q.no_answer();
    let shown = move || {
        let (shown, page, count) = pages(options, form.page.get());
        let tiles = shown.into_iter().map(|code| {
            let look = if given == Some(Answer::choice(code)) { Look::Chosen } else { Look::Value };
            let label = wording::option(form.language(), finding, code);
            tile(form, code, label, look, move || {
                form.answer(&[Draft { finding, site, answer: Answer::choice(code), step }]);
            })
        });
        let more = (count > 1).then(|| more_tile(form, page, count));
        view! { {tiles.collect_view()} {more} }
    };
    view! { <div class="tiles">{shown} {no_answer}</div> }.into_any()
}

/// The tile that turns to the next page of four.
pub(crate) fn more_tile(form: crate::web::form::Form, page: usize, count: usize) -> AnyView {
    let number = |n: usize| Arg::Text(n.to_string());
    let label = form.say_with("tile.more", &[("page", number(page + 1)), ("pages", number(count))]);
    tile(form, "more", label, Look::Aside, move || form.turn_page())
}
