//! The winter log: places, and the days of one place.

use leptos::prelude::*;
use uuid::Uuid;

use crate::guide::Draft;
use crate::reading::winter_log::OF_A_DAY;
use crate::record::{Answer, Day, Sheet, Site, Value, find};
use crate::web::edge::Phone;
use crate::web::form::Form;
use crate::web::parts::{Look, act, main_tile, plain_head, tile};
use crate::web::screen::Screen;
use crate::web::session::{Source as _, winter as of};
use crate::web::wording;
use crate::words::Arg;

/// Days listed; any other is found by its date.
const LISTED: usize = 14;
/// The step that these answers name.
pub(super) const STEP: &str = "winter_log";

/// The places that are logged.
pub(super) fn places(form: Form) -> AnyView {
    form.begin_field("winter-place", String::new());
    let all = form.with(crate::web::session::Session::winter_logs).unwrap_or_default();
    let tiles = all.into_iter().map(|(id, place, last)| {
        let label = match last {
            Some(day) => form.say_with(
                "log.place",
                &[("place", Arg::Text(place)), ("day", Arg::Text(wording::whole(&day.to_string())))],
            ),
            None => place,
        };
        tile(form, &format!("log-{id}"), label, Look::Value, move || form.go(Screen::WinterLog(id)))
    });
    let label = move || {
        let typed = form.typed.get();
        let id = if typed.trim().is_empty() { "log.name_first" } else { "log.begin" };
        form.say_with(id, &[("place", Arg::Text(typed.trim().to_owned()))])
    };
    view! {
        <section class="ask">
            {plain_head(form.say("log.head"))}
            <p class="how">{form.say("log.how")}</p>
        </section>
        <div class="tiles">
            {tiles.collect_view()}
            <label class="field">
                {form.say("log.new_place")}
                <input
                    type="text"
                    autocomplete="off"
                    maxlength="60"
                    data-field="place"
                    prop:value=move || form.typed.get()
                    on:input=move |event| form.type_in(event_target_value(&event))
                />
            </label>
            {main_tile(form, "begin-log", label, move || begin(form))}
        </div>
    }
    .into_any()
}

fn begin(form: Form) {
    let name = form.typed.try_get_untracked().unwrap_or_default().trim().to_owned();
    if name.is_empty() {
        form.tell(form.say("log.name_first"));
        return;
    }
    let id = Phone.id();
    let draft = Draft {
        finding: "log_place_name",
        site: Site::NONE,
        answer: Answer::Seen { value: Value::Text(name) },
        step: STEP,
    };
    if form.write_log(id, &[draft], form.say("log.begun")) {
        form.end_input();
        form.go(Screen::WinterLog(id));
    }
}

/// One place: today first, then the days that were logged.
pub(super) fn log(form: Form, id: Uuid) -> AnyView {
    let sheet = form.with(|s| s.winter_log(id)).unwrap_or_default();
    let today = Day::of(Phone.when().at);
    let on = move |day: Day| form.go(Screen::WinterDay(id, day));
    let newest = today
        .into_iter()
        .flat_map(|today| [(today, "log.today"), (today.shifted(-1).unwrap_or(today), "log.yesterday")]);
    let newest = newest.map(|(day, label)| {
        let label = form.say_with(label, &[("day", Arg::Text(wording::whole(&day.to_string())))]);
        tile(form, &format!("day-{day}"), label, Look::Value, move || on(day))
    });
    let days = of::days_of(&sheet);
    let rows = days.iter().take(LISTED).map(|day| {
        let day = *day;
        let label = form.language().named(&wording::whole(&day.to_string()), &in_short(form, &sheet, day));
        view! { <li>{act(form, &format!("logged-{day}"), label, move || on(day))}</li> }
    });
    let rows = rows.collect_view();
    view! {
        <section class="ask">
            {plain_head(form.say_with("log.of", &[("place", Arg::Text(crate::reading::winter_log::place(&sheet)))]))}
        </section>
        <div class="tiles">{newest.collect_view()}</div>
        <label class="field">
            // The browser sets the parts in an order of its own.
            {form.say_with("log.other_day", &[("day", Arg::Text(today.map(|day| wording::whole(&day.to_string())).unwrap_or_default()))])}
            <input
                type="date"
                data-field="day"
                max=today.map(|day| day.to_string())
                on:change=move |event| match Day::parse(&event_target_value(&event)) {
                    Ok(day) if today.is_none_or(|today| day <= today) => on(day),
                    _ => form.tell(form.say("log.no_day")),
                }
            />
        </label>
        <ul class="rows">{rows}</ul>
        {choice(form, id, &sheet, "log_read_at")}
        {choice(form, id, &sheet, "log_sink_gauge")}
    }
    .into_any()
}

fn is_number(answer: &Answer) -> bool {
    matches!(answer, Answer::Seen { value: Value::Number(_) })
}

/// A day in one line: what was read, in the order of the questions.
fn in_short(form: Form, sheet: &Sheet, day: Day) -> String {
    let of_day = OF_A_DAY.iter().filter_map(|finding| {
        let all = of::said(sheet, finding, Site::day(day));
        let said = (!all.is_empty()).then(|| super::winter_day::answers(form, finding, &all))?;
        // The night's cold and the depth tell themselves by their units; the rest is named.
        let plain = ["day_minimum_c", "day_snow_depth_cm"].contains(finding) && all.iter().all(is_number);
        Some(if plain { said } else { form.language().named(&wording::finding(form.language(), finding), &said) })
    });
    of_day.collect::<Vec<_>>().join(", ")
}

/// A fact about the log itself, changed in place.
fn choice(form: Form, id: Uuid, sheet: &Sheet, finding: &'static str) -> AnyView {
    let chosen = sheet.choice(finding);
    let options = find(finding).map(crate::record::FindingDef::options).unwrap_or_default();
    let buttons = options.iter().map(|option| {
        let option = *option;
        let is_chosen = chosen.as_deref() == Some(option);
        let label = wording::option(form.language(), finding, option);
        let label = if is_chosen { format!("\u{2713} {label}") } else { label };
        act(form, &format!("{finding}-{option}"), label.clone(), move || {
            let draft = Draft { finding, site: Site::NONE, answer: Answer::choice(option), step: STEP };
            form.write_log(id, &[draft], label.clone());
        })
    });
    view! {
        <h2>{wording::finding(form.language(), finding)}</h2>
        <div class="days">{buttons.collect_view()}</div>
    }
    .into_any()
}
