//! A moment: now, or typed as four digits on the pad, today or on another day.

use leptos::prelude::*;

use crate::guide::Draft;
use crate::record::{Answer, HAPPENS_NOW, Moment, Value, may_be_now, may_lie_ahead};
use crate::web::form::Form;
use crate::web::parts::{Look, act, foot, main_tile, tile};
use crate::web::session::at_clock;
use crate::web::wording;
use crate::words::Arg;

use super::number::pad;
use super::{Question, no_answer};

pub(super) fn instant(q: &Question, finding: &'static str) -> AnyView {
    let (form, site, step, at) = (q.form, q.site, q.step.id, q.now.at);
    let give = move |moment: Moment| {
        let answer = Answer::Seen { value: Value::Instant(moment) };
        form.answer(&[Draft { finding, site, answer, step }]);
    };
    let shown = move || {
        let digits = form.typed.get();
        let mut places = digits.chars().chain(std::iter::repeat('_'));
        let mut next = || places.next().unwrap_or('_');
        format!("{}{}:{}{}", next(), next(), next(), next())
    };
    // Where now may be the answer, the pad waits behind a tile. What lies in the past as a rule does not get the present
    // time at the tile that stands out.
    let (now_too, ahead) = (may_be_now(finding), may_lie_ahead(finding));
    let (of_now, of_other) =
        if HAPPENS_NOW.contains(&finding) { (Look::Main, Look::Value) } else { (Look::Value, Look::Main) };
    let (ask, none) = (q.ask, q.none(finding));
    let typing = move || {
        view! {
            {days(form, at, ahead)}
            <p class="display" role="status" aria-label=form.say("number.typed") data-typed=move || form.typed.get()>
                <span class="typed">{shown}</span>
            </p>
            {pad(form, false, false, "23:59".to_owned())}
            {none.clone().map(|none| none.tile(form))}
            {foot(Some(save(form, at, give)), no_answer(form, ask.name()))}
        }
        .into_any()
    };
    let first = move || {
        let now = form.say_with("instant.now", &[("time", Arg::Text(wording::time(at)))]);
        view! {
            {tile(form, "now", now, of_now, move || give(at))}
            {tile(form, "other-time", form.say("instant.other"), of_other, move || form.type_other_time())}
            {no_answer(form, ask.name())}
        }
        .into_any()
    };
    let body = move || if now_too && !form.other_time.get() { first() } else { typing() };
    view! { <div class="tiles">{body}</div> }.into_any()
}

/// The main tile of the pad: what would be saved.
fn save(form: Form, at: Moment, give: impl Fn(Moment) + 'static) -> AnyView {
    let label = move || match at_clock(at, form.day.get(), &form.typed.get()) {
        Some(moment) => form.say_with("tile.save", &[("what", Arg::Text(wording::date_and_time(moment)))]),
        None => form.say("instant.type_first"),
    };
    main_tile(form, "save", label, move || {
        let day = form.day.try_get_untracked().unwrap_or_default();
        match at_clock(at, day, &form.typed.try_get_untracked().unwrap_or_default()) {
            Some(moment) => give(moment),
            None => form.tell(form.say("instant.not_a_time")),
        }
    })
}

/// Which day: today unless somebody says otherwise.
fn days(form: Form, at: Moment, ahead: bool) -> AnyView {
    let name = move || match form.day.get() {
        0 => form.say("instant.today"),
        1 => form.say("instant.tomorrow"),
        -1 => form.say("instant.yesterday"),
        days => {
            at_clock(at, days, "1200").map(|m| wording::date_and_time(m).chars().take(12).collect()).unwrap_or_default()
        }
    };
    let after = move || {
        (ahead || form.day.get() < 0)
            .then(|| act(form, "day-after", form.say("instant.day_after"), move || form.shift_day(1)))
    };
    view! {
        <div class="days">
            {act(form, "day-before", form.say("instant.day_before"), move || form.shift_day(-1))}
            <p class="day" role="status">{name}</p>
            {after}
        </div>
    }
    .into_any()
}
