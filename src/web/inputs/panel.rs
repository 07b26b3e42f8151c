//! Signs that are there or not. The tile that ends the last page states that all were looked for; who cannot say
//! so takes `No answer`.

use leptos::prelude::*;

use crate::guide::Ask;
use crate::record::Answer;
use crate::web::form::Form;
use crate::web::parts::{Look, foot, main_tile, pages, tile, toggle};
use crate::web::wording;
use crate::words::Arg;

use super::choice::more_tile;
use super::{Question, no_answer};

pub(super) fn panel(q: &Question, signs: &'static [&'static str]) -> AnyView {
    let (form, ask) = (q.form, q.ask);
    let may_be_absent = q.ask.may_be_absent(&q.now.view());
    if let [sign] = signs {
        return yes_or_no(q, sign, may_be_absent);
    }
    let shown = move || {
        let (shown, page, count) = pages(signs, form.page.get());
        let tiles =
            shown.into_iter().map(|sign| toggle(form, sign, wording::finding(form.language(), sign))).collect_view();
        // Nobody says of a sign that it is not there before having read it.
        let on = if page + 1 == count { done_tile(form, ask, may_be_absent) } else { more_tile(form, page, count) };
        view! { {tiles} {foot(Some(on), no_answer(form, ask.name()))} }.into_any()
    };
    view! { <div class="tiles">{shown}</div> }.into_any()
}

/// Ends the panel: by the statement that each was looked for; where not all could be, the rest cannot be told.
fn done_tile(form: Form, ask: Ask, may_be_absent: bool) -> AnyView {
    let label = move || match (form.picked.with(std::collections::BTreeSet::len), may_be_absent) {
        (0, true) => form.say("tile.none_of_these"),
        (0, false) => form.say("tile.none_seen"),
        (n, false) => {
            form.say_with("tile.these_not_all_over", &[("n", Arg::Count(i64::try_from(n).unwrap_or_default()))])
        }
        (n, true) => form.say_with("tile.these_no_others", &[("n", Arg::Count(i64::try_from(n).unwrap_or_default()))]),
    };
    main_tile(form, "done", label, move || {
        let picked: Vec<&str> = form.picked.try_get_untracked().unwrap_or_default().into_iter().collect();
        give(form, ask, &picked);
    })
}

/// A single sign is there or not: one tap either way.
fn yes_or_no(q: &Question, sign: &'static str, may_be_absent: bool) -> AnyView {
    let (form, ask) = (q.form, q.ask);
    let language = form.language();
    let yes = language.named(&form.say("tile.yes"), &wording::finding(language, sign));
    let no = if may_be_absent { wording::ask_part(language, &ask, "none") } else { None };
    let no = no.unwrap_or_else(|| form.say(if may_be_absent { "tile.none_of_these" } else { "tile.none_seen" }));
    let given = q.given(sign);
    let chosen = |it_is: bool| if it_is { Look::Chosen } else { Look::Value };
    let there = chosen(given == Some(Answer::choice("there")));
    let absent = chosen(given == Some(Answer::NotSeen));
    view! {
        <div class="tiles">
            {tile(form, sign, yes, there, move || give(form, ask, &[sign]))}
            {tile(form, "done", no, absent, move || give(form, ask, &[]))}
            {q.no_answer()}
        </div>
    }
    .into_any()
}

fn give(form: Form, ask: Ask, picked: &[&str]) {
    if let Some(now) = form.now_once() {
        form.answer(&ask.panel(&now.view(), picked));
    }
}
