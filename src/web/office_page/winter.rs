//! A winter log as CSV, picked or pasted, those kept in the archive and those in bundles: units confirmed, indices, the
//! plot.

use std::sync::Arc;

use leptos::prelude::*;

use super::desk::{Desk, now, tell_with};
use super::view::{ReadFile, read_files};
use crate::office::hand::Hand;
use crate::office::winter::cells::DateOrder;
use crate::office::winter::deaths::deaths;
use crate::office::winter::kept::{Kept, KeptError};
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
    bytes: Arc<[u8]>,
    draft: Option<Result<Draft, String>>,
    told: Confirmed,
    from: Option<Day>,
    to: Option<Day>,
    /// Whether it was kept, and how that went in words.
    said: Option<(bool, String)>,
    /// The same file lies in the archive with other units.
    otherwise: bool,
}

/// The section of the page. The logs in bundles are those of the figures as they stand.
pub(super) fn winter(desk: Desk) -> AnyView {
    let state = RwSignal::new(State::default());
    let take = move |files: Vec<ReadFile>| {
        let Some((name, read)) = files.into_iter().next() else { return };
        let read = read.unwrap_or_else(|| Err(tell("winter.page.too_large")));
        let bytes: Arc<[u8]> = read.as_deref().unwrap_or_default().into();
        let draft = read.and_then(|bytes| Draft::read(&bytes).map_err(|error| error.say(LANGUAGE)));
        let place = name.rsplit_once('.').map_or(name.as_str(), |(stem, _)| stem).to_owned();
        state.try_update(|s| {
            let told = Confirmed { place, ..Confirmed::default() };
            *s = State { name, bytes, draft: Some(draft), told, said: None, otherwise: false, ..s.clone() };
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
            {move || keep(desk, state)}
            {day("winter.page.from", |s, day| s.from = day)}
            {day("winter.page.to", |s, day| s.to = day)}
            {move || state.with(|s| shown(s, desk))}
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
    let place = view! {
        <label class="field">
            {tell("winter.page.place")}
            <input type="text" maxlength="80" data-field="winter-place" prop:value=s.told.place.clone() on:change=move |event| {
                let place = event_target_value(&event).trim().to_owned();
                state.try_update(|s| s.told.place = place);
            }/>
        </label>
    };
    let waits = (!open.is_empty()).then(|| view! { <p class="alert">{tell("winter.page.waits")}</p> });
    view! { {looks} {temperature} {snow} {dates} {gauge} {place} {waits} }.into_any()
}

/// The button that keeps the log, once its units are confirmed, and how that went.
fn keep(desk: Desk, state: RwSignal<State>) -> AnyView {
    let (said, ready, otherwise) = state.with(|s| {
        let ready = matches!(&s.draft, Some(Ok(draft)) if draft.open(&s.told).is_empty());
        (s.said.clone(), ready, s.otherwise)
    });
    let act = move |correct: bool| {
        let (name, bytes, told) = state.with_untracked(|s| (s.name.clone(), Arc::clone(&s.bytes), s.told.clone()));
        let done = desk.hand.try_update(|hand| hand.keep_winter((&name, &bytes), &told, correct, now()));
        let (said, otherwise) = match done {
            Some(Ok(Kept::New(_))) => ((true, "winter.page.kept"), false),
            Some(Ok(Kept::Before)) => ((true, "winter.page.kept.before"), false),
            Some(Ok(Kept::Corrected(_))) => ((true, "winter.page.kept.corrected"), false),
            Some(Err(KeptError::ToldOtherwise { .. })) => ((false, "winter.page.kept.otherwise"), true),
            Some(Err(error)) => {
                let why = tell_with("winter.page.kept.not", &[("reason", error.to_string().into())]);
                state.try_update(|s| s.said = Some((false, why)));
                return;
            }
            None => return,
        };
        let text = tell_with(said.1, &[("name", name.into())]);
        // From now on it is among the archive's own.
        state.try_update(|s| {
            let draft = if said.0 { None } else { s.draft.clone() };
            *s = State { said: Some((said.0, text)), otherwise, draft, ..s.clone() };
        });
    };
    let button = ready.then(|| {
        let (id, name) = if otherwise {
            ("winter.page.keep.correct", "keep-winter-correct")
        } else {
            ("winter.page.keep", "keep-winter")
        };
        view! {
            <button type="button" class="act" data-act=name on:click=move |_| act(otherwise)>{tell(id)}</button>
        }
    });
    let said =
        said.map(|(good, text)| view! { <p class=(!good).then_some("alert") data-kept=good.to_string()>{text}</p> });
    view! { {button} <div role="status">{said}</div> }.into_any()
}

/// What follows from the CSV and from the bundles' own logs.
fn shown(s: &State, desk: Desk) -> AnyView {
    let mut logs: Vec<Log> = Vec::new();
    let mut notes = Vec::new();
    if let Some(Ok(draft)) = &s.draft
        && draft.open(&s.told).is_empty()
    {
        let table = draft.table(&s.told);
        notes = table.notes.iter().map(|note| note.say(LANGUAGE)).collect();
        logs.extend(table.logs);
    }
    let of_files = match desk.hand.with(Hand::daily_logs) {
        Ok(of_files) => of_files,
        Err(why) => {
            notes.push(why.to_string());
            Vec::new()
        }
    };
    logs.extend(of_files);
    let figures = desk.figures.get();
    let none = Fold::default();
    let folded = figures.as_deref().map_or(&none, |figures| &figures.counted.folded);
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
