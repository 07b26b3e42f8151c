//! One day of a winter log, and one reading of it on the pad.

use leptos::prelude::*;
use uuid::Uuid;

use crate::guide::Draft;
use crate::reading::winter_log::OF_A_DAY;
use crate::reading::winter_typed;
use crate::record::{Answer, Day, Shape, Site, Value, Why, find};
use crate::web::form::Form;
use crate::web::inputs::pad;
use crate::web::parts::{Look, act, foot, main_tile, plain_head, tile};
use crate::web::screen::Screen;
use crate::web::session::winter as of;
use crate::web::wording;
use crate::words::Arg;

use super::winter::STEP;

/// Asked one after the other; the rest where somebody wants them.
const ASKED: usize = 3;
/// The mean is worked out, or comes from a weather service: nobody types it.
const TYPED: usize = 6;

/// One answer in words.
fn answer(form: Form, finding: &str, given: &Answer) -> String {
    match given {
        Answer::Seen { value: Value::Number(stored) } => {
            form.language().number(winter_typed::printed(finding, *stored, form.shown()))
        }
        Answer::NotSeen => form.say("log.none"),
        Answer::NotLooked { .. } => form.say("log.not_read"),
        other => wording::answer(form.language(), finding, other),
    }
}

/// What stands on a reading: one answer, or all that differ.
pub(super) fn answers(form: Form, finding: &str, all: &[Answer]) -> String {
    all.iter().map(|given| answer(form, finding, given)).collect::<Vec<_>>().join(" / ")
}

fn readings() -> impl Iterator<Item = &'static str> {
    OF_A_DAY.into_iter().take(TYPED)
}

/// One day: each reading with what was written.
pub(super) fn day(form: Form, id: Uuid, day: Day) -> AnyView {
    let sheet = form.with(|s| s.winter_log(id)).unwrap_or_default();
    let site = Site::day(day);
    let rows = readings().map(|finding| {
        let all = of::said(&sheet, finding, site);
        let name = wording::finding(form.language(), finding);
        let text = if all.is_empty() { form.say("log.not_yet") } else { answers(form, finding, &all) };
        let differ = (all.len() > 1).then(|| view! { <p class="alert">{form.say("log.differ")}</p> });
        let go = move || form.go(Screen::WinterRead(id, day, finding.to_owned()));
        view! { <li>{act(form, finding, form.language().named(&name, &text), go)}{differ}</li> }
    });
    let rows = rows.collect_view();
    let next = readings().take(ASKED).find(|finding| of::said(&sheet, finding, site).is_empty());
    let next = next.map(|finding| {
        let label = wording::finding(form.language(), finding);
        tile(form, "next", label, Look::Main, move || form.go(Screen::WinterRead(id, day, finding.to_owned())))
    });
    view! {
        <section class="ask">
            <p class="of">{crate::reading::winter_log::place(&sheet)}</p>
            {plain_head(wording::whole(&day.to_string()))}
            <ul class="rows">{rows}</ul>
        </section>
        <div class="tiles">
            {next}
            {tile(form, "days", form.say("log.days"), Look::Aside, move || form.go(Screen::WinterLog(id)))}
        </div>
    }
    .into_any()
}

/// One reading: the pad, or tiles.
pub(super) fn read(form: Form, id: Uuid, day: Day, finding: &str) -> AnyView {
    let Some(finding) = readings().find(|known| *known == finding) else { return ().into_any() };
    let site = Site::day(day);
    form.begin_field(&format!("winter {id} {day} {finding}"), String::new());
    let sheet = form.with(|s| s.winter_log(id)).unwrap_or_default();
    let all = of::said(&sheet, finding, site);
    let earlier = (!all.is_empty()).then(|| {
        let text = form.say_with("number.earlier", &[("answer", Arg::Text(answers(form, finding, &all)))]);
        let take_back = act(form, "take-back", form.say("log.take_back"), move || {
            form.take_back_log(id, finding, site);
        });
        view! { <div class="beside"><p class="earlier">{text}</p> {take_back}</div> }
    });
    let input = if finding == "day_crust" { crust(form, id, day) } else { number(form, id, day, finding) };
    view! {
        <section class="ask">
            <p class="of">{format!("{}, {}", crate::reading::winter_log::place(&sheet), wording::whole(&day.to_string()))}</p>
            {plain_head(form.say(&format!("log.ask.{finding}")))}
            {earlier}
        </section>
        <div class="tiles">{input}</div>
    }
    .into_any()
}

fn write(form: Form, id: Uuid, day: Day, finding: &'static str, given: Answer) {
    let name = wording::finding(form.language(), finding);
    let what = form.language().named(&format!("{day}, {name}"), &answer(form, finding, &given));
    if form.write_log(id, &[Draft { finding, site: Site::day(day), answer: given, step: STEP }], what) {
        form.end_input();
        let sheet = form.with(|s| s.winter_log(id)).unwrap_or_default();
        let open = |f: &&str| of::said(&sheet, f, Site::day(day)).is_empty();
        // The three of every day follow each other; a correction goes back to the day.
        let next = readings().take(ASKED).skip_while(|f| *f != finding).skip(1).find(open);
        form.go(next.map_or(Screen::WinterDay(id, day), |f| Screen::WinterRead(id, day, f.to_owned())));
    }
}

fn not_read(form: Form, id: Uuid, day: Day, finding: &'static str) -> AnyView {
    tile(form, "not-read", form.say("log.not_read"), Look::Aside, move || {
        write(form, id, day, finding, Answer::NotLooked { why: Why::NotGiven });
    })
}

fn number(form: Form, id: Uuid, day: Day, finding: &'static str) -> AnyView {
    let symbol = winter_typed::symbol(finding, form.shown());
    let largest = match find(finding).map(|def| def.shape) {
        Some(Shape::Number { max, .. }) => form.language().number(winter_typed::printed(finding, max, form.shown())),
        _ => String::new(),
    };
    let label = move || match form.typed.get() {
        typed if typed.is_empty() => form.say("number.type_first"),
        typed => form
            .say_with("tile.save", &[("what", Arg::Text(wording::with_unit(&form.language().number(typed), symbol)))]),
    };
    let save = main_tile(form, "save", label, move || {
        let typed = form.typed.try_get_untracked().unwrap_or_default();
        match winter_typed::typed(finding, &typed, form.shown()) {
            Some(stored) => write(form, id, day, finding, Answer::number(stored)),
            None => form.tell(form.say("log.not_a_number")),
        }
    });
    let below_zero = winter_typed::is_temperature(finding);
    let extra = if below_zero {
        // The minus keeps the corner that it has on every pad; the point, seldom typed here, stands above.
        act(form, "point", form.say("pad.point"), move || form.press("point"))
    } else {
        act(form, "none", form.say("log.none"), move || write(form, id, day, finding, Answer::NotSeen))
    };
    view! {
        <div class="typed-row">{super::super::inputs::display(form, symbol)} {extra}</div>
        {pad(form, !below_zero, below_zero, largest)}
        {foot(Some(save), not_read(form, id, day, finding))}
    }
    .into_any()
}

fn crust(form: Form, id: Uuid, day: Day) -> AnyView {
    let finding = "day_crust";
    let options = find(finding).map(crate::record::FindingDef::options).unwrap_or_default();
    let tiles = options.iter().map(|option| {
        let option = *option;
        tile(form, option, wording::option(form.language(), finding, option), Look::Value, move || {
            write(form, id, day, finding, Answer::choice(option));
        })
    });
    view! { {tiles.collect_view()} {foot(None, not_read(form, id, day, finding))} }.into_any()
}
