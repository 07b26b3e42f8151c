//! Signs that are there or not. The last page asks for the statement that they were looked for.

use leptos::prelude::*;

use crate::guide::Ask;
use crate::web::form::Form;
use crate::web::parts::{Look, foot, main_tile, pages, tile, toggle};
use crate::web::screen::Screen;
use crate::web::wording;
use crate::words::Arg;

use super::choice::more_tile;
use super::{Question, no_answer};

pub(super) fn panel(q: &Question, signs: &'static [&'static str]) -> AnyView {
    let (form, ask) = (q.form, q.ask);
    let looked = wording::ask_part(form.language(), &q.ask, "looked").unwrap_or_else(|| form.say("panel.looked"));
    let may_be_absent = q.ask.may_be_absent(&q.now.view());
    let shown = move || {
        if form.stating.get() {
            return statement(form, ask, looked.clone());
        }
        let (shown, page, count) = pages(signs, form.page.get());
        let tiles =
            shown.into_iter().map(|sign| toggle(form, sign, wording::finding(form.language(), sign))).collect_view();
        // Nobody says of a sign that it is not there before having read it.
        let on = if page + 1 == count { done_tile(form, ask, may_be_absent) } else { more_tile(form, page, count) };
        view! { {tiles} {foot(Some(on), no_answer(form, ask.name()))} }.into_any()
    };
    view! { <div class="tiles">{shown}</div> }.into_any()
}

/// Ends the panel: by a statement where all was looked over; else the rest cannot be told.
fn done_tile(form: Form, ask: Ask, may_be_absent: bool) -> AnyView {
    let label = move || match (form.picked.with(std::collections::BTreeSet::len), may_be_absent) {
        (0, true) => form.say("tile.none_of_these"),
        (0, false) => form.say("tile.none_seen"),
        (n, _) => form.say_with("tile.these_no_others", &[("n", Arg::Count(i64::try_from(n).unwrap_or_default()))]),
    };
    main_tile(form, "done", label, move || if may_be_absent { form.state(true) } else { give(form, ask) })
}

fn give(form: Form, ask: Ask) {
    let picked: Vec<&str> = form.picked.try_get_untracked().unwrap_or_default().into_iter().collect();
    if let Some(now) = form.now_once() {
        form.answer(&ask.panel(&now.view(), &picked));
    }
}

/// The statement that makes `not there` of what was not tapped.
fn statement(form: Form, ask: Ask, looked: String) -> AnyView {
    let name = ask.name();
    view! {
        <p class="statement">{form.say("panel.question")}</p>
        {tile(form, "looked", looked, Look::Main, move || give(form, ask))}
        {tile(form, "not-everywhere", form.say("panel.not_everywhere"), Look::Value, move || {
            form.go(Screen::NoAnswer(name.clone()));
        })}
        {tile(form, "back-to-signs", form.say("panel.back"), Look::Aside, move || form.state(false))}
    }
    .into_any()
}
