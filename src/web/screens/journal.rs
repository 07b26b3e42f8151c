//! Every answer about one examination, with what became of it: nothing is ever overwritten.

use leptos::prelude::*;
use uuid::Uuid;

use crate::guide::photos::photo_words;
use crate::guide::site_words;
use crate::record::{Subject, Value};
use crate::web::form::Form;
use crate::web::parts::{act, plain_head};
use crate::web::screen::Screen;
use crate::web::session::{Answered, Correction};
use crate::web::wording;
use crate::words::Arg;

pub(super) fn journal(form: Form, examination: Uuid) -> AnyView {
    let code = form.with(|s| s.bodies.carcass_of(examination)).flatten().map(crate::record::short_code::short_code);
    let outing = form.with(|s| s.bodies.outing_of(examination)).flatten();
    let about = |subject| form.with(|s| s.answers_about(subject)).unwrap_or_default();
    let of_exam = about(Subject::Examination(examination));
    let of_outing = outing.map(|id| about(Subject::Outing(id))).unwrap_or_default();
    view! {
        <section class="ask">
            {plain_head(form.say_with("journal.head", &[("code", Arg::Text(code.unwrap_or_default()))]))}
            <p class="how">{form.say("journal.how")}</p>
            <p class="ways">
                {act(form, "photos", form.say("photo.all"), move || form.go(Screen::Photos(examination)))}
                {act(form, "readings", form.say("steps.readings"), move || form.go(Screen::Readings(examination)))}
                {act(form, "custody", form.say("custody.head"), move || form.go(Screen::Custody))}
            </p>
        </section>
        {list(form, "journal.of_exam", of_exam)}
        {list(form, "journal.of_outing", of_outing)}
    }
    .into_any()
}

fn list(form: Form, head: &str, answers: Vec<Answered>) -> AnyView {
    if answers.is_empty() {
        return ().into_any();
    }
    view! {
        <section class="phase">
            <h2>{form.say(head)}</h2>
            <ol class="rows entries">{answers.into_iter().map(|a| row(form, &a)).collect_view()}</ol>
        </section>
    }
    .into_any()
}

fn row(form: Form, a: &Answered) -> AnyView {
    let code = a.finding.as_str();
    let of_photo = matches!(a.answer.value(), Some(Value::Photo(_))).then_some(a.site.item).flatten();
    let place = of_photo.map(|n| photo_words(form.language(), code, n)).filter(|words| !words.is_empty());
    let place = place.unwrap_or_else(|| site_words(form.language(), a.site));
    let what = if place.is_empty() {
        wording::finding(form.language(), code)
    } else {
        format!("{} ({place})", wording::finding(form.language(), code))
    };
    let (class, became) = match a.correction {
        Correction::Stands => ("entry", None),
        Correction::Replaced => ("entry past", Some(form.say("journal.replaced"))),
        Correction::TakenBack => ("entry past", Some(form.say("journal.taken_back"))),
    };
    let by = form.say_with(
        "journal.by",
        &[
            ("who", Arg::Text(a.observer.to_string())),
            ("at", Arg::Text(wording::date_and_time(a.at))),
            ("seq", Arg::Text(a.id.seq.to_string())),
        ],
    );
    view! {
        <li class=class data-entry=a.id.seq.to_string() data-finding=code.to_owned() data-state=a.answer.state()>
            <span class="entry-what">{what}{form.language().colon()}<strong>{wording::answer(form.language(), code, &a.answer)}</strong></span>
            {became.map(|text| view! { <span class="entry-past">{text}</span> })}
            <span class="entry-by">{by}{(!a.by_hand()).then(|| format!(" {}", form.say("journal.by_phone")))}</span>
        </li>
    }
    .into_any()
}
