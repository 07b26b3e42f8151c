//! A winter log as CSV, picked or pasted, and the logs in bundles: units confirmed, indices, the plot.

use std::sync::Arc;

use leptos::prelude::*;

use super::view::{ReadFile, read_files};
use crate::office::hand::Figures;
use crate::office::winter::cells::DateOrder;
use crate::office::winter::deaths::deaths;
use crate::office::winter::plot::{Style, plot};
use crate::office::winter::report::{last_winter, lines, text};
use crate::office::winter::table::{Confirmed, Draft};
use crate::office::winter::units::{SnowUnit, TemperatureUnit};
use crate::reading::winter_log;
use crate::record::{Day, Fold};
use crate::science::winter::agency::{INDICES, Index};
use crate::science::winter::index::Asked;
use crate::science::winter::log::{Gauge, Log};
use crate::words::{Arg, Language, say_office};

const LANGUAGE: Language = Language::English;

fn tell(id: &str) -> String {
    say_office(LANGUAGE, id, &[])
}

/// What was picked, and what the person said of it.
#[derive(Clone, Default)]
struct State {
    name: String,
    draft: Option<Result<Draft, String>>,
    told: Confirmed,
    from: Option<Day>,
    to: Option<Day>,
}

/// The section of the page. The logs in bundles are those of the figures as they stand.
pub(super) fn winter(figures: RwSignal<Option<Arc<Figures>>>) -> AnyView {
    let state = RwSignal::new(State::default());
    let take = move |files: Vec<ReadFile>| {
        let Some((name, read)) = files.into_iter().next() else { return };
        let draft = read
            .unwrap_or_else(|| Err(tell("winter.page.too_large")))
            .and_then(|bytes| Draft::read(&bytes).map_err(|error| error.say(LANGUAGE)));
        let place = name.rsplit_once('.').map_or(name.as_str(), |(stem, _)| stem).to_owned();
        state.try_update(|s| {
            *s = State { name, draft: Some(draft), told: Confirmed { place, ..Confirmed::default() }, ..s.clone() };
        });
    };
    let day = move |id: &'static str, set: fn(&mut State, Option<Day>)| {
        view! {
            <label class="field">
                {tell(id)}
                <input type="date" data-field=id on:change=move |event| {
                    let day = Day::parse(&event_target_value(&event)).ok();
                    state.try_update(|s| set(s, day));
                } />
            </label>
        }
    };
    view! {
        <section data-winter="">
            <h2>{tell("winter.page.head")}</h2>
            <p>{tell("winter.page.what")}</p>
            <label class="tile file aside" data-pick="winter">
                <span class="label">{tell("winter.page.pick")}</span>
                <input type="file" class="file-input" on:change=move |event| read_files(&event, take) />
            </label>
            <label class="field">
                {tell("winter.page.paste")}
                <textarea class="words" rows="4" data-field="paste" on:change=move |event| {
                    let text = event_target_value(&event);
                    if !text.trim().is_empty() {
                        take(vec![(tell("winter.page.pasted"), Some(Ok(text.into_bytes())))]);
                    }
                }></textarea>
            </label>
            {move || state.with(|s| units(s, state))}
            {day("winter.page.from", |s, day| s.from = day)}
            {day("winter.page.to", |s, day| s.to = day)}
            {move || state.with(|s| figures.with(|figures| shown(s, figures.as_deref())))}
        </section>
    }
    .into_any()
}

/// A choice of units; nothing is read before the person has chosen.
fn chooser<T: Copy + PartialEq + Send + Sync + 'static>(
    state: RwSignal<State>,
    label: &str,
    name: &'static str,
    all: Vec<(&'static str, T)>,
    chosen: Option<T>,
    set: fn(&mut Confirmed, Option<T>),
) -> AnyView {
    let options = all
        .iter()
        .map(|(id, one)| {
            view! { <option value=*id selected=chosen == Some(*one)>{tell(&format!("winter.choice.{id}"))}</option> }
        })
        .collect_view();
    view! {
        <label class="field">
            {label.to_owned()}
            <select data-field=name on:change=move |event| {
                let picked = event_target_value(&event);
                let one = all.iter().find(|(id, _)| *id == picked).map(|(_, one)| *one);
                state.try_update(|s| set(&mut s.told, one));
            }>
                <option value="">{tell("winter.choice.none")}</option>
                {options}
            </select>
        </label>
    }
    .into_any()
}

fn units(s: &State, state: RwSignal<State>) -> AnyView {
    let draft = match &s.draft {
        None => return ().into_any(),
        Some(Err(why)) => {
            return view! { <p class="alert" role="alert">{format!("{}: {why}", s.name)}</p> }.into_any();
        }
        Some(Ok(draft)) => draft,
    };
    let open = draft.open(&s.told);
    let proposed = draft.as_proposed();
    let looks: Vec<String> = [proposed.temperature.map(TemperatureUnit::name), proposed.snow.map(SnowUnit::name)]
        .into_iter()
        .flatten()
        .map(|id| tell(&format!("winter.choice.{id}")))
        .collect();
    let looks = (!looks.is_empty() && !open.is_empty()).then(|| {
        let text = say_office(LANGUAGE, "winter.page.looks", &[("what", Arg::Text(looks.join("; ")))]);
        view! {
            <p>{text}</p>
            <button type="button" class="act" data-act="units-right" on:click=move |_| {
                state.try_update(|s| {
                    let (temperature, snow) = (s.told.temperature.or(proposed.temperature), s.told.snow.or(proposed.snow));
                    s.told = Confirmed { temperature, snow, ..s.told.clone() };
                });
            }>{tell("winter.page.right")}</button>
        }
    });
    let temperature = draft.has.temperature.then(|| {
        chooser(
            state,
            &tell("winter.page.temperature"),
            "temperature",
            TemperatureUnit::ALL.to_vec(),
            s.told.temperature,
            |t, u| t.temperature = u,
        )
    });
    let snow = draft.has.snow.then(|| {
        chooser(state, &tell("winter.page.snow"), "snow", SnowUnit::ALL.to_vec(), s.told.snow, |t, u| t.snow = u)
    });
    let dates = (draft.dates.is_none()).then(|| {
        let all = vec![("month-first", DateOrder::MonthFirst), ("day-first", DateOrder::DayFirst)];
        chooser(state, &tell("winter.page.dates"), "dates", all, s.told.dates, |t, u| t.dates = u)
    });
    let gauge = draft.has.sink.then(|| {
        let all = vec![
            ("quebec", Gauge::Quebec),
            ("copper", Gauge::Copper),
            ("deer-tracks", Gauge::DeerTracks),
            ("other", Gauge::Other),
        ];
        chooser(state, &tell("winter.page.gauge"), "gauge", all, s.told.gauge, |t, u| t.gauge = u)
    });
    let waits = (!open.is_empty()).then(|| view! { <p class="alert">{tell("winter.page.waits")}</p> });
    view! { {looks} {temperature} {snow} {dates} {gauge} {waits} }.into_any()
}

/// What follows from the CSV and from the bundles' own logs.
fn shown(s: &State, figures: Option<&Figures>) -> AnyView {
    let mut logs: Vec<Log> = Vec::new();
    let mut notes = Vec::new();
    if let Some(Ok(draft)) = &s.draft
        && draft.open(&s.told).is_empty()
    {
        let table = draft.table(&s.told);
        notes = table.notes.iter().map(|note| note.say(LANGUAGE)).collect();
        logs.extend(table.logs);
    }
    let none = Fold::default();
    let folded = figures.map_or(&none, |figures| &figures.counted.folded);
    logs.extend(winter_log::logs(folded));
    let Some(winter) = last_winter(&logs) else { return ().into_any() };
    let asked = Asked { winter, from: s.from.map(Day::date), to: s.to.map(Day::date), through: None };
    let wanted: Vec<&'static Index> = INDICES.iter().collect();
    let figures = lines(&logs, &wanted, &asked)
        .iter()
        .map(|line| {
            let (head, below) = text(LANGUAGE, line);
            let below = below.into_iter().map(|one| view! { <p>{one}</p> }).collect_view();
            view! { <details class="why" data-index=line.index.id><summary>{head}</summary>{below}</details> }
        })
        .collect_view();
    let (deaths, undated) = deaths(folded);
    let undated = (undated > 0).then(|| {
        let n = [("n", Arg::Count(i64::try_from(undated).unwrap_or(i64::MAX)))];
        view! { <p>{say_office(LANGUAGE, "winter.undated", &n)}</p> }
    });
    let span = Day::new(winter, 11, 1).zip(Day::new(winter + 1, 5, 31));
    let style = Style { us_units: s.told.temperature == Some(TemperatureUnit::Fahrenheit), language: LANGUAGE };
    let drawn = span.and_then(|(from, to)| plot(&logs, &deaths, from.date(), to.date(), style));
    let notes = notes.into_iter().map(|note| view! { <li>{note}</li> }).collect_view();
    view! {
        <ul class="rows" data-notes="">{notes}</ul>
        {figures}
        <p>{tell("winter.local")}</p>
        {undated}
        // Every word in it was escaped where it was drawn.
        {drawn.map(|svg| view! {
            <div class="winter-plot" tabindex="0" role="group" aria-label=tell("winter.page.plot") inner_html=svg></div>
        })}
    }
    .into_any()
}
