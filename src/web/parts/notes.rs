//! Notes in place: advice that fires, a message about what was just tried, the report of the start.

use leptos::prelude::*;

use crate::guide::Ask;
use crate::web::form::Form;
use crate::web::session::Now;

/// Advice that is told at this ask: told once, where it first fired.
pub(crate) fn advice(form: Form, now: &Now, ask: &Ask) -> AnyView {
    let told = form.told_at(now, ask);
    told.into_iter()
        .map(|id| {
            let id = id.to_ascii_lowercase();
            let (head, to_do) = (form.say(&format!("hazard.{id}.head")), form.say(&format!("hazard.{id}.do")));
            let (note, name) = (form.say("grade.advise"), head.clone());
            view! {
                <aside class="note" data-advice=id aria-label=name>
                    <p class="note-head"><span class="note-mark">{note}</span>" "{head}</p>
                    <p class="lines">{to_do}</p>
                </aside>
            }
        })
        .collect_view()
        .into_any()
}

/// What was just tried and did not work.
pub(crate) fn notice(form: Form) -> AnyView {
    view! {
        <div role="alert" class="alert-place">
            {move || form.notice.get().map(|text| view! { <p class="alert" data-notice="shown">{text}</p> })}
        </div>
    }
    .into_any()
}

/// What the start found: recovered answers, refused storage, another tab.
pub(crate) fn opening_report(form: Form) -> AnyView {
    view! {
        <div class="report">
            {move || form.opening.get().into_iter().map(|line| view! { <p class="report-line">{line}</p> }).collect_view()}
        </div>
    }
    .into_any()
}
