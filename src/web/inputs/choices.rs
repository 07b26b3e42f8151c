//! One or more options: taps pick and unpick, the main tile saves them.

use std::collections::BTreeSet;

use leptos::prelude::*;

use crate::guide::Draft;
use crate::record::{Answer, Value, find};
use crate::web::drawings::{DRAWN, picture};
use crate::web::form::Form;
use crate::web::parts::{main_tile, pages, toggle_with};
use crate::web::wording;
use crate::words::Arg;

use super::Question;
use super::choice::more_tile;

pub(super) fn choices(q: &Question, finding: &'static str) -> AnyView {
    let (form, site, step) = (q.form, q.site, q.step.id);
    let options = find(finding).map(crate::record::FindingDef::options).unwrap_or_default();
    let drawn = DRAWN.contains(&finding);
    let none = none_label(q);
    let no_answer = q.no_answer();
    let page_of = move || pages(options, form.page.get());
    let shown = move || {
        let tiles = page_of().0.into_iter();
        let tiles = tiles.map(|code| {
            toggle_with(
                form,
                code,
                wording::option(form.language(), finding, code),
                picture(form.language(), finding, code),
            )
        });
        let tiles = tiles.collect_view();
        if drawn { view! { <div class="pictures">{tiles}</div> }.into_any() } else { tiles.into_any() }
    };
    let more = move || {
        let (_, page, count) = page_of();
        (count > 1).then(|| more_tile(form, page, count))
    };
    let may_be_none = none.is_some();
    let give = move || {
        let picked = form.picked.try_get_untracked().unwrap_or_default();
        let answer = if !picked.is_empty() {
            Answer::Seen { value: Value::choices(picked) }
        } else if may_be_none {
            Answer::NotSeen
        } else {
            return;
        };
        form.answer(&[Draft { finding, site, answer, step }]);
    };
    // What has nothing to save yet is words and no tile.
    let waits = Memo::new(move |_| !may_be_none && form.picked.with(BTreeSet::is_empty));
    let save = move || {
        if waits.get() {
            return view! { <p class="pick-first">{form.say("choices.pick_first")}</p> }.into_any();
        }
        let none = none.clone().unwrap_or_default();
        let label = move || match form.picked.with(BTreeSet::len) {
            0 => none.clone(),
            n => that_is_all(form, n),
        };
        main_tile(form, "save", label, give)
    };
    view! { <div class="tiles">{shown} <div class="foot">{save}{more}{no_answer}</div></div> }.into_any()
}

/// The words for `looked, and there is none`, where the step allows that.
fn none_label(q: &Question) -> Option<String> {
    q.ask.may_be_absent(&q.now.view()).then(|| wording::ask_part(q.form.language(), &q.ask, "none")).flatten()
}

fn that_is_all(form: Form, picked: usize) -> String {
    form.say_with("tile.that_is_all", &[("n", Arg::Count(i64::try_from(picked).unwrap_or_default()))])
}
