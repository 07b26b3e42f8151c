//! One option: a tap answers, saves and goes on. Where a picture decides, it stands on the tile.

use leptos::prelude::*;

use crate::guide::Draft;
use crate::record::{Answer, FindingDef, find};
use crate::web::drawings::DRAWN;
use crate::web::form::Form;
use crate::web::parts::{A_PAGE, Look, foot, pages, pictured_tile, tile};
use crate::web::wording;
use crate::words::Arg;

use super::{Question, no_answer};

pub(super) fn choice(q: &Question, finding: &'static str) -> AnyView {
    let (form, ask, site, step) = (q.form, q.ask, q.site, q.step.id);
    let options = find(finding).map(FindingDef::options).unwrap_or_default();
    let drawn = DRAWN.contains(&finding);
    let given = q.given(finding);
    let none = q.none(finding);
    let shown = move || {
        let (shown, page, count) = pages(options, form.page.get());
        // Nobody says that none is so before having read them all.
        let none = none.clone().filter(|_| page + 1 == count).map(|none| none.tile(form));
        let (below, beside) = if shown.len() < A_PAGE { (none, None) } else { (None, none) };
        let tiles = shown
            .into_iter()
            .map(|code| {
                let look = if given == Some(Answer::choice(code)) { Look::Chosen } else { Look::Value };
                let label = wording::option(form.language(), finding, code);
                let act = move || {
                    form.answer(&[Draft { finding, site, answer: Answer::choice(code), step }]);
                };
                if drawn {
                    pictured_tile(form, finding, code, label, look, act)
                } else {
                    tile(form, code, label, look, act)
                }
            })
            .collect_view();
        let tiles = if drawn { view! { <div class="pictures">{tiles}</div> }.into_any() } else { tiles.into_any() };
        let more = (count > 1).then(|| more_tile(form, page, count));
        let on = view! { {beside} {more} }.into_any();
        view! { {tiles} {below} {foot(Some(on), no_answer(form, ask.name()))} }
    };
    view! { <div class="tiles">{shown}</div> }.into_any()
}

/// The tile that turns to the next page of four.
pub(crate) fn more_tile(form: Form, page: usize, count: usize) -> AnyView {
    let number = |n: usize| Arg::Text(n.to_string());
    let label = form.say_with("tile.more", &[("page", number(page + 1)), ("pages", number(count))]);
    tile(form, "more", label, Look::Aside, move || form.turn_page())
}
