//! Ageing drawn jaws at home. Nothing here goes into the journal.

use leptos::prelude::*;

use crate::guide::practice::{Drawn, Look as Seen, Practice, ScoreRow, drawn, told};
use crate::reading::message_ids::class;
use crate::record::{Side, Tooth};
use crate::science::age::ClassCall;
use crate::web::drawings::half_jaw::front_lies_right;
use crate::web::drawings::jaw_cell::{self, Place};
use crate::web::drawings::picture;
use crate::web::form::Form;
use crate::web::parts::{Look, act, plain_head, tile};
use crate::web::wording;
use crate::words::Arg;

/// Calls on offer: fawn to nine and more.
const CALLS: usize = 10;

pub(super) fn practice(form: Form) -> AnyView {
    form.load_practice();
    view! {
        <section class="ask">
            {plain_head(form.say("practice.head"))}
        </section>
        {move || match form.practice.get() {
            Some(practice) => jaw(form, &practice),
            None => view! { <p role="status">{form.say("practice.loading")}</p> }.into_any(),
        }}
    }
    .into_any()
}

fn jaw(form: Form, practice: &Practice) -> AnyView {
    let jaw = drawn(practice.seed);
    let half = form.say(if jaw.side == Side::Left { "jaw.left" } else { "jaw.right" });
    let half = [("half", Arg::Text(wording::capital(&half))), ("died", Arg::Text(wording::whole(&jaw.died)))];
    let more = jaw.more.iter().map(|seen| figure(form, seen)).collect_view();
    let more = (!jaw.more.is_empty()).then(|| {
        view! {
            <details class="why">
                <summary>{form.say("practice.more")}</summary>
                <div class="looks">{more}</div>
            </details>
        }
    });
    // Said at the top, where the page starts anew: the jaw stands below it to be looked at again.
    let said = practice.call.map(|call| verdict(form, practice.seed, call));
    let below = match practice.call {
        None => calls(form),
        Some(_) => tile(form, "next-jaw", form.say("practice.next"), Look::Main, move || form.next_jaw()),
    };
    view! {
        <div class="practice" data-practice=practice.seed.to_string()>
            {said}
            <p>{form.say("practice.what")}</p>
            <p>{form.say_with("practice.jaw", &half)}</p>
            {row(form, &jaw)}
            <div class="looks">{jaw.first.iter().map(|seen| figure(form, seen)).collect_view()}</div>
            {more}
            {below}
            {score(form, practice)}
        </div>
    }
    .into_any()
}

/// The row of six, each drawn as it stands; the same in words for those who do not see it.
fn row(form: Form, jaw: &Drawn) -> AnyView {
    let mirrored = front_lies_right(jaw.side);
    let mut teeth: Vec<Tooth> = Tooth::CHEEK.to_vec();
    if mirrored {
        teeth.reverse();
    }
    let of = |finding: &str, tooth| jaw.row.iter().find(|l| l.finding == finding && l.site.tooth == Some(tooth));
    let cell = |tooth: Tooth| {
        let state = of("tooth_state", tooth).map_or("not_there", |l| l.option);
        let crest = of("crest", tooth).map(|l| l.option);
        let words = [Some(("tooth_state", state)), crest.map(|c| ("crest", c))]
            .into_iter()
            .flatten()
            .map(|(finding, option)| wording::option(form.language(), finding, option))
            .collect::<Vec<_>>()
            .join(", ");
        let number = Tooth::CHEEK.iter().position(|t| *t == tooth).map_or(0, |n| n + 1);
        let place = Place::State { state: state.to_owned(), crest: crest.map(str::to_owned) };
        view! {
            <li>
                <b>{number}</b>" "{tooth.name()}
                <span class="unseen">{form.language().colon()}{words}</span>
                <span class="drawing" aria-hidden="true" inner_html=jaw_cell::svg(tooth, &place, mirrored)></span>
            </li>
        }
    };
    view! { <ol class="made-row">{teeth.into_iter().map(cell).collect_view()}</ol> }.into_any()
}

/// One look: the picture, and what it is of.
fn figure(form: Form, seen: &Seen) -> AnyView {
    let name = wording::finding(form.language(), seen.finding);
    let number = seen.site.tooth.and_then(|tooth| Tooth::CHEEK.iter().position(|t| *t == tooth));
    let caption = number.map_or(name.clone(), |n| format!("{name}, {}", n + 1));
    view! {
        <figure>
            {picture(form.language(), seen.finding, seen.option)}
            <figcaption>{caption}</figcaption>
        </figure>
    }
    .into_any()
}

fn calls(form: Form) -> AnyView {
    let key = |call: &ClassCall| {
        let call = *call;
        let label = form.say(class(u8::try_from(call.index()).unwrap_or(9)));
        view! {
            <button
                type="button"
                class="act"
                data-call=call.index().to_string()
                on:click=move |event| {
                    if form.is_meant(&event) {
                        form.call_age(call);
                    }
                }
            >
                {label}
            </button>
        }
    };
    view! {
        <div class="calls" role="group" aria-label=form.say("practice.call")>
            {ClassCall::ALL.iter().take(CALLS).map(key).collect_view()}
        </div>
    }
    .into_any()
}

/// What is said to a call, and the way on.
fn verdict(form: Form, seed: u32, call: ClassCall) -> AnyView {
    let mut all = told(seed, call).into_iter().map(|s| (s.id.clone(), s.say(form.language())));
    let head = all.next().map(|(id, text)| view! { <p class="reading-head" data-verdict=id>{text}</p> });
    let rest = all.map(|(_, text)| view! { <li>{text}</li> }).collect_view();
    view! {
        <div class="verdict" role="status">
            {head}
            <ul>{rest}</ul>
        </div>
    }
    .into_any()
}

/// The score of whoever holds the phone.
fn score(form: Form, practice: &Practice) -> AnyView {
    let reader = form.practice_reader();
    let title = if reader.is_empty() {
        form.say("practice.score_nobody")
    } else {
        form.say_with("practice.score", &[("who", Arg::Text(reader.clone()))])
    };
    let score = practice.score(&reader);
    if score.rows.is_empty() {
        return view! { <h2>{title}</h2> <p>{form.say("practice.score_none")}</p> }.into_any();
    }
    let line = |row: &ScoreRow| {
        let count = |n: u8| Arg::Text(n.to_string());
        let share = [("percent", count(row.percent)), ("low", count(row.low)), ("high", count(row.high))];
        view! {
            <tr>
                <th scope="row">{form.say(row.class)}</th>
                <td class="number">{row.jaws}</td>
                <td class="number">{form.say_with("practice.share_row", &share)}</td>
            </tr>
        }
    };
    let bias = score.bias_tenths.map(|tenths| {
        let id = match tenths {
            0 => "practice.bias_none",
            ..0 => "practice.bias_young",
            _ => "practice.bias_old",
        };
        let years = wording::number(form.language(), i64::from(tenths.abs()), 1);
        view! { <p>{form.say_with(id, &[("years", Arg::Text(years))])}</p> }
    });
    let clear = act(form, "clear-practice", form.say("practice.clear"), move || {
        form.practise(Practice::clear);
        form.tell(form.say("practice.cleared"));
    });
    view! {
        <h2>{title}</h2>
        <table class="figures" data-score="">
            <thead>
                <tr>
                    <th scope="col">{form.say("reading.view.class")}</th>
                    <th scope="col" class="number">{form.say("practice.jaws")}</th>
                    <th scope="col" class="number">{form.say("practice.share")}</th>
                </tr>
            </thead>
            <tbody>
                {score.rows.iter().map(line).collect_view()}
                {score.exact.as_ref().map(line)}
            </tbody>
        </table>
        {bias}
        <p>{form.say("practice.score_mark")}</p>
        {clear}
    }
    .into_any()
}
