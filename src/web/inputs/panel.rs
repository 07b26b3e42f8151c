//! Signs that are there or not. The tile that ends the last page states that all were looked for; who cannot say
//! so takes `No answer`.

use leptos::prelude::*;

use crate::guide::Ask;
use crate::web::form::Form;
use crate::web::parts::{foot, main_tile, pages, toggle};
use crate::web::wording;
use crate::words::Arg;

use super::choice::more_tile;
use super::{Question, no_answer};

pub(super) fn panel(q: &Question, signs: &'static [&'static str]) -> AnyView {
    let (form, ask) = (q.form, q.ask);
    let may_be_absent = q.ask.may_be_absent(&q.now.view());
    let shown = move || {
        let (shown, page, count) = pages(signs, form.page.get());
        let tiles =
            shown.into_iter().map(|sign| toggle(form, sign, wording::finding(form.language(), sign))).collect_view();
        // Nobody says of a sign that it is not there before having read it.
        let on = if page + 1 == count {
            done_tile(form, ask, may_be_absent, signs.len() == 1)
        } else {
            more_tile(form, page, count)
        };
        view! { {tiles} {foot(Some(on), no_answer(form, ask.name()))} }.into_any()
    };
    view! { <div class="tiles">{shown}</div> }.into_any()
}

/// Ends the panel: by the statement that each was looked for; where not all could be, the rest cannot be told.
fn done_tile(form: Form, ask: Ask, may_be_absent: bool, only: bool) -> AnyView {
    // Of a single sign the step has its own words, and there are no others.
    let none = only.then(|| wording::ask_part(form.language(), &ask, "none")).flatten();
    let label = move || match (form.picked.with(std::collections::BTreeSet::len), may_be_absent) {
        (0, true) => none.clone().unwrap_or_else(|| form.say("tile.none_of_these")),
        (0, false) => form.say("tile.none_seen"),
        (n, false) => {
            form.say_with("tile.these_not_all_over", &[("n", Arg::Count(i64::try_from(n).unwrap_or_default()))])
        }
        (n, true) if only => {
            form.say_with("tile.that_is_all", &[("n", Arg::Count(i64::try_from(n).unwrap_or_default()))])
        }
        (n, true) => form.say_with("tile.these_no_others", &[("n", Arg::Count(i64::try_from(n).unwrap_or_default()))]),
    };
    main_tile(form, "done", label, move || give(form, ask))
}

fn give(form: Form, ask: Ask) {
    let picked: Vec<&str> = form.picked.try_get_untracked().unwrap_or_default().into_iter().collect();
    if let Some(now) = form.now_once() {
        form.answer(&ask.panel(&now.view(), &picked));
    }
}
