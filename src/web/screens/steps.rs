//! All questions by phase, with where each stands.

use leptos::prelude::*;

use crate::guide::{AskState, ExamKind, Phase, Status};
use crate::web::form::Form;
use crate::web::parts::{Look, act, plain_head, tile};
use crate::web::screen::Screen;
use crate::web::session::Now;
use crate::web::wording;
use crate::words::Arg;

pub(super) fn steps(form: Form) -> AnyView {
    let Some(now) = form.now_once() else { return ().into_any() };
    let phases: &[Phase] = match now.kind {
        ExamKind::Report => &Phase::REPORT,
        ExamKind::Field => &Phase::FIELD,
        ExamKind::Bench => &[Phase::Bench, Phase::HandOver],
    };
    let id = now.here.examination;
    let stops = now.situation.stops().count();
    let to_stops = (stops > 0).then(|| {
        let n = Arg::Count(i64::try_from(stops).unwrap_or_default());
        act(form, "stops", form.say_with("steps.stops", &[("n", n)]), move || form.go(Screen::Stops))
    });
    let to_journal = id.map(|id| act(form, "journal", form.say("steps.journal"), move || form.go(Screen::Journal(id))));
    let to_readings =
        id.map(|id| act(form, "readings", form.say("steps.readings"), move || form.go(Screen::Readings(id))));
    let to_photos = id.map(|id| {
        let n = form.with(|s| s.pictures(id).iter().filter(|p| p.stands).count()).unwrap_or_default();
        let text = form.say_with("photo.all_count", &[("n", Arg::Count(i64::try_from(n).unwrap_or_default()))]);
        act(form, "photos", text, move || form.go(Screen::Photos(id)))
    });
    let to_sketch = (now.kind == ExamKind::Field)
        .then(|| act(form, "sketch", form.say("sketch.head"), move || form.go(Screen::Sketch)));
    let to_pair = id.map(|_| act(form, "pair", form.say("pair.head"), move || form.go(Screen::Pair)));
    view! {
        <section class="ask">
            {plain_head(form.say("steps.head"))}
            <p class="ways">{to_stops} {to_pair} {to_journal} {to_photos} {to_sketch} {to_readings}</p>
        </section>
        {phases.iter().map(|phase| of_phase(form, &now, *phase)).collect_view()}
        <div class="tiles">
            {tile(form, "carry-on", form.say("visit.carry_on"), Look::Main, move || form.go(Screen::Visit(None)))}
        </div>
    }
    .into_any()
}

fn of_phase(form: Form, now: &Now, phase: Phase) -> AnyView {
    let asks: Vec<&AskState> = now.situation.asks.iter().filter(|a| a.ask.phase() == phase).collect();
    if asks.is_empty() {
        return ().into_any();
    }
    let [done, closed, all] = now.situation.progress(phase);
    let number = |n: usize| Arg::Text(n.to_string());
    let head = form.say_with(
        if closed == 0 { "steps.phase" } else { "steps.phase_closed" },
        &[
            ("phase", Arg::Text(form.say(&format!("phase.{}", phase.code())))),
            ("done", number(done)),
            ("closed", number(closed)),
            ("all", number(all)),
        ],
    );
    view! {
        <section class="phase">
            <h2>{head}</h2>
            <ul class="rows">{asks.into_iter().map(|a| row(form, now, a)).collect_view()}</ul>
        </section>
    }
    .into_any()
}

fn row(form: Form, now: &Now, state: &AskState) -> AnyView {
    let name = state.ask.name();
    let (mark, words) = match &state.status {
        Status::Answered => ("\u{2713}", answered(form, now, state)),
        Status::Open => ("\u{25cb}", form.say("status.open")),
        Status::Closed(by) => {
            let heads = by.iter().map(|id| form.say(&format!("hazard.{}.head", id.to_ascii_lowercase())));
            let heads = heads.collect::<Vec<_>>().join("; ");
            ("\u{2715}", form.say_with("status.closed", &[("by", Arg::Text(heads))]))
        }
    };
    let code = match &state.status {
        Status::Answered => "answered",
        Status::Open => "open",
        Status::Closed(_) => "closed",
    };
    let to = name.clone();
    view! {
        <li>
            <button
                type="button"
                class="row"
                data-step=name
                data-status=code
                on:click=move |event| {
                    if form.is_meant(&event) {
                        form.go(Screen::Visit(Some(to.clone())));
                    }
                }
            >
                <span class="mark" aria-hidden="true">{mark}</span>
                <span class="row-text">{wording::ask(form.language(), &state.ask)}<strong class="row-answer">{words}</strong></span>
            </button>
        </li>
    }
    .into_any()
}

fn answered(form: Form, now: &Now, state: &AskState) -> String {
    let view = now.view();
    match state.ask.questions(&view).as_slice() {
        [(finding, site)] => wording::answer(form.language(), finding, &view.question(finding, *site).answer()),
        several => {
            let n = Arg::Count(i64::try_from(several.len()).unwrap_or_default());
            form.say_with("status.answers", &[("n", n)])
        }
    }
}
