//! One question at a time.

use leptos::prelude::*;

use crate::guide::{Ask, ExamKind, Input, Phase, next_looks};
use crate::web::form::Form;
use crate::web::inputs::{Question, input};
use crate::web::parts::{Look, act, advice, head, plain_head, tile};
use crate::web::screen::Screen;
use crate::web::session::Now;
use crate::web::wording;
use crate::words::Arg;

use super::hazard::hazard;

pub(super) fn visit(form: Form, named: Option<&str>) -> AnyView {
    let Some(now) = form.now_once() else { return ().into_any() };
    let report = now.here.report.filter(|_| now.kind == ExamKind::Report);
    if now.here.examination.is_none() && report.is_none() {
        return nothing_in_hand(form);
    }
    // While the second person looks, the list of what is left stands where the next question would.
    // A stop is read by whoever holds the phone, and leaving is nobody's second look.
    let at_once = matches!(now.situation.next, Some(Ask::Hazard { .. })) || now.is_left();
    if named.is_none() && !at_once && form.second_look().is_some() {
        return super::pair::pair(form);
    }
    match (now.ask(named), named) {
        (Some(Ask::Hazard { hazard: row, .. }), _) => hazard(form, &now, row),
        (Some(ask), _) => question(form, &now, ask),
        (None, Some(_)) => no_longer_asked(form),
        (None, None) => match report {
            Some(id) => super::report::taken(form, id),
            None => all_asked(form, &now),
        },
    }
}

fn question(form: Form, now: &Now, ask: Ask) -> AnyView {
    let Ask::Step { step, site } = ask else { return ().into_any() };
    form.begin_input(now, &ask);
    form.stay_awake();
    // Looked for once the crew is on its way, for the first position may take minutes, and no longer than it is wanted,
    // for a receiver that runs empties the battery. The question of a place looks for it by itself.
    if ask.phase() == Phase::Approach {
        form.start_position();
    } else {
        form.end_position();
    }
    let language = form.language();
    let part = |name| wording::ask_part(language, &ask, name);
    let view = now.view();
    let given = ask.is_answered(&view).then(|| given(form, now, ask));
    let to_all = act(form, "steps", form.say("visit.all_questions"), move || form.go(Screen::Steps));
    let q = Question { form, now, ask, step, site };
    view! {
        <section class="ask" data-ask=ask.name() data-input=input_name(&step.input)>
            {head(wording::place(language, &ask), wording::bare(language, &ask), part("how"), part("why"), form.say("visit.why"), to_all)}
            {super::calls::standing_rules(form, step)}
            {(step.id == "samples_worth").then(|| super::samples::worth(form, now))}
            {advice(form, now, &ask)}
            {given}
        </section>
        {input(&q)}
        {form.second_look().is_none().then(|| worth_most(form, now, &ask))}
    }
    .into_any()
}

/// One quiet line below the answers: what else is worth most for its time, where it is not this question.
fn worth_most(form: Form, now: &Now, ask: &Ask) -> Option<AnyView> {
    let looks = next_looks(&now.view(), &now.situation);
    let best = looks.into_iter().next().filter(|look| look.ask != *ask)?;
    let name = best.ask.name();
    let to = name.clone();
    let minutes = Arg::Count(i64::from(best.minutes));
    let text = form.say_with("next.line", &[("look", Arg::Text(form.say(&best.look))), ("n", minutes)]);
    Some(
        view! {
            <div class="next-look" data-next-look=name>
                {act(form, "next-look", text, move || form.go(Screen::Visit(Some(to.clone()))))}
            </div>
        }
        .into_any(),
    )
}

/// What was answered, and the way to take it back.
fn given(form: Form, now: &Now, ask: Ask) -> AnyView {
    let view = now.view();
    let language = form.language();
    let questions = ask.questions(&view);
    let alone = questions.len() == 1;
    let lines = questions
        .into_iter()
        .filter(|(finding, site)| view.is_answered(finding, *site))
        .map(|(finding, site)| {
            let answer = wording::answer(language, finding, &view.question(finding, site).answer());
            let name =
                if alone { String::new() } else { [&wording::finding(language, finding), language.colon()].concat() };
            view! { <li>{name}<strong>{answer}</strong></li> }
        })
        .collect_view();
    view! {
        <div class="given" data-given="">
            <p>{form.say("visit.answered")}</p>
            <ul>{lines}</ul>
            {act(form, "take-back", form.say("visit.take_back"), move || form.take_back(&ask))}
            {tile(form, "carry-on", form.say("visit.carry_on"), Look::Main, move || form.go(Screen::Visit(None)))}
        </div>
    }
    .into_any()
}

fn no_longer_asked(form: Form) -> AnyView {
    view! {
        <section class="ask">
            {plain_head(form.say("visit.not_asked"))}
            <p>{form.say("visit.not_asked.why")}</p>
        </section>
        <div class="tiles">
            {tile(form, "carry-on", form.say("visit.carry_on"), Look::Main, move || form.go(Screen::Visit(None)))}
            {tile(form, "steps", form.say("visit.all_questions"), Look::Aside, move || form.go(Screen::Steps))}
        </div>
    }
    .into_any()
}

fn nothing_in_hand(form: Form) -> AnyView {
    view! {
        <section class="ask">
            {plain_head(form.say("visit.nothing_in_hand"))}
        </section>
        <div class="tiles">
            {tile(form, "start", form.say("visit.to_start"), Look::Main, move || form.go(Screen::Start))}
        </div>
    }
    .into_any()
}

/// Nothing is open any more: close the record, or look it over first.
fn all_asked(form: Form, now: &Now) -> AnyView {
    let closed = now.is_closed();
    let answered = i64::try_from(now.situation.asks.len()).unwrap_or_default();
    let id = now.here.examination;
    let close = (!closed).then(|| tile(form, "close", form.say("visit.close"), Look::Main, move || form.close()));
    let beside = closed.then(|| {
        tile(form, "carcass-beside", form.say("visit.carcass_beside"), Look::Value, move || {
            form.begin(|session| session.carcass_beside(&crate::web::edge::Phone));
        })
    });
    let another = closed.then(|| {
        tile(form, "new-carcass", form.say("start.new_carcass"), Look::Value, move || {
            form.begin(|session| session.new_carcass(&crate::web::edge::Phone));
        })
    });
    let readings = id.filter(|_| closed).map(|id| {
        tile(form, "readings", form.say("visit.readings"), Look::Main, move || form.go(Screen::Readings(id)))
    });
    view! {
        <section class="ask" data-ask="none">
            {plain_head(form.say(if closed { "visit.closed" } else { "visit.all_asked" }))}
            <p>{form.say_with(if closed { "visit.closed.how" } else { "visit.all_asked.how" }, &[("n", Arg::Count(answered))])}</p>
        </section>
        <div class="tiles">
            {close}
            {readings}
            {beside}
            {another}
            {tile(form, "steps", form.say("visit.look_over"), Look::Aside, move || form.go(Screen::Steps))}
            {tile(form, "start", form.say("visit.to_start"), Look::Aside, move || form.go(Screen::Start))}
        </div>
    }
    .into_any()
}

/// The way of answering, for tests.
const fn input_name(input: &Input) -> &'static str {
    match input {
        Input::Choice(_) => "choice",
        Input::Choices(_) => "choices",
        Input::Panel(_) => "panel",
        Input::Sweep { .. } => "sweep",
        Input::Number(_) => "number",
        Input::Text(_) => "text",
        Input::Instant(_) => "instant",
        Input::Place(_) => "place",
        Input::ReadDo(_) => "read-do",
        Input::Photo(_) => "photo",
        Input::Photos { .. } => "photos",
        Input::Jaw => "jaw",
        Input::Points { .. } => "points",
        Input::Volumes { .. } => "volumes",
    }
}
