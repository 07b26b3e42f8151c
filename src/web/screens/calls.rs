//! Whom to call once there is a signal, and what always holds.

use leptos::prelude::*;

use crate::guide::{BASELINE, CANNOT_CALL, NO_CARD_TO_CALL, Phase, Step, Touch, calls as guide_calls};
use crate::web::form::Form;

use super::hazard::call_code;

/// Everybody whom the hazards that fire ask to call; nothing where none does.
pub(super) fn calls(form: Form) -> AnyView {
    let Some(now) = form.now_once() else { return ().into_any() };
    let all = guide_calls(&now.view(), &now.situation);
    if all.is_empty() {
        return ().into_any();
    }
    let rows = all.into_iter().map(|(call_for, named)| {
        let for_what = form.say(&format!("calls.for.{}", call_code(call_for)));
        let whom = match named {
            Some(call) => form.language().named(&call.name, &call.number),
            None if now.card.is_some() => form.say("calls.not_on_card"),
            None => form.say(NO_CARD_TO_CALL),
        };
        view! { <li><strong>{for_what}</strong>{form.language().colon()}{whom}</li> }
    });
    let old = now.card.as_ref().is_some_and(|card| !card.holds_at(now.at));
    view! {
        <section class="phase" data-calls="">
            <h2>{form.say("calls.head")}</h2>
            <ul>{rows.collect_view()}</ul>
            {old.then(|| view! { <p>{form.say("calls.card_is_old")}</p> })}
            <p>{form.say(CANNOT_CALL)}</p>
        </section>
    }
    .into_any()
}

/// What always holds, where the crew is about to touch; how to clean, where it cleans.
pub(super) fn standing_rules(form: Form, step: &Step) -> AnyView {
    let folded = |head: &str, ids: &[&str]| {
        let lines = ids.iter().map(|id| view! { <li>{form.say(id)}</li> }).collect_view();
        view! { <details class="why rules"><summary>{form.say(head)}</summary><ul>{lines}</ul></details> }.into_any()
    };
    if step.touch > Touch::Look && step.phase != Phase::Bench {
        folded("visit.baseline", &BASELINE)
    } else if step.phase == Phase::CleanUp {
        folded("visit.cleaning", &["clean.blades_in_field", "clean.hands", "clean.bleach"])
    } else {
        ().into_any()
    }
}
