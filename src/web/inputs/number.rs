//! A number on the form's own pad, with its unit. Comma and point are one key.

use leptos::prelude::*;

use crate::guide::{Draft, Measured};
use crate::record::Answer;
use crate::web::drawings::{drawing, ruler};
use crate::web::form::Form;
use crate::web::parts::{foot, main_tile};
use crate::web::wording;
use crate::words::Arg;

use super::Question;

pub(super) fn number(q: &Question, finding: &'static str) -> AnyView {
    let (form, site, step) = (q.form, q.site, q.step.id);
    let Some(measured) = Measured::of(finding, form.shown()) else {
        return view! { <div class="tiles">{q.no_answer()}</div> }.into_any();
    };
    let (language, symbol) = (form.language(), measured.symbol());
    let earlier = q.given(finding).map(|given| wording::answer(language, finding, &given));
    let earlier = earlier.map(|text| form.say_with("number.earlier", &[("answer", Arg::Text(text))]));
    let label = move || match form.typed.get() {
        typed if typed.is_empty() => form.say("number.type_first"),
        typed => {
            let mut what = wording::with_unit(&language.number(typed.clone()), symbol);
            // What goes into the record is said before it does.
            if measured.is_turned()
                && let Some(kept) = measured.kept(&typed)
            {
                what += " = ";
                what += &measured.say_metric(language, kept);
            }
            form.say_with("tile.save", &[("what", Arg::Text(what))])
        }
    };
    let save = main_tile(form, "save", label, move || {
        match measured.kept(&form.typed.try_get_untracked().unwrap_or_default()) {
            Some(scaled) => {
                form.answer(&[Draft { finding, site, answer: Answer::number(scaled), step }]);
            }
            None => form.tell(form.say("number.not_yet")),
        }
    });
    let largest = measured.say(language, measured.max);
    view! {
        <div class="tiles">
            {display_over(form, symbol, earlier)}
            {ruler(form, finding)}
            {pad(form, measured.has_point(), measured.min < 0, largest)}
            {foot(Some(save), q.no_answer())}
        </div>
    }
    .into_any()
}

/// What has been typed, drawn beside a ruler to its scale; only for the eye, the number says the same.
fn ruler(form: Form, finding: &'static str) -> Option<AnyView> {
    ruler::svg(finding, None)?;
    // Measures with a ruler are kept in whole millimetres.
    let drawn = move || {
        let typed = wording::scaled(&form.typed.get(), 0).map(|mm| mm as f64);
        ruler::svg(finding, typed).map(|svg| drawing(svg, String::new()))
    };
    Some(view! { <div class="ruler" data-ruler=finding>{drawn}</div> }.into_any())
}

/// What has been typed, with the unit.
pub(crate) fn display(form: Form, symbol: &'static str) -> AnyView {
    display_over(form, symbol, None)
}

/// The same; until something is typed, what was answered before stands there: a line of its own would push what saves
/// off a small phone's first screen.
fn display_over(form: Form, symbol: &'static str, earlier: Option<String>) -> AnyView {
    let shown = move || match (form.typed.get(), &earlier) {
        (typed, Some(earlier)) if typed.is_empty() => {
            view! { <span class="earlier">{earlier.clone()}</span> }.into_any()
        }
        (typed, _) => view! {
            <span class="typed">{form.language().number(typed)}</span>
            <span class="unit">{symbol}</span>
        }
        .into_any(),
    };
    view! {
        <p class="display" role="status" aria-label=form.say("number.typed") data-typed=move || form.typed.get()>{shown}</p>
    }
    .into_any()
}

/// The 3 x 4 pad. The lower left key is the point, the minus or nothing.
pub(crate) fn pad(form: Form, point: bool, minus: bool, largest: String) -> AnyView {
    let key = move |name: &'static str, shown: String, label: Option<String>| {
        view! {
            <button
                type="button"
                class="key"
                data-key=name
                aria-label=label
                on:click=move |event| {
                    if form.is_meant(&event) {
                        form.press(name);
                    }
                }
            >
                {shown}
            </button>
        }
        .into_any()
    };
    let digit = move |name: &'static str| key(name, name.to_owned(), None);
    let corner = if point {
        key("point", form.language().decimal_mark().to_string(), Some(form.say("pad.point")))
    } else if minus {
        key("minus", "\u{2212}".to_owned(), Some(form.say("pad.minus")))
    } else {
        view! { <span class="key-gap"></span> }.into_any()
    };
    view! {
        <div class="pad" role="group" aria-label=form.say_with("pad.label", &[("largest", Arg::Text(largest))])>
            {["1", "2", "3", "4", "5", "6", "7", "8", "9"].map(digit).collect_view()}
            {corner}
            {digit("0")}
            {key("rub", "\u{232b}".to_owned(), Some(form.say("pad.rub")))}
        </div>
    }
    .into_any()
}
