//! The list of carcasses, a page at a time, and one carcass with all that is known of it.

use std::sync::Arc;

use leptos::prelude::*;
use uuid::Uuid;

use super::desk::{Desk, LANGUAGE, Part, count, now, tell, tell_with};
use crate::office::carcass_report::{Sheets, carcass_sheets};
use crate::office::decide::open;
use crate::office::found_line::found_line;
use crate::office::hand::{Figures, Worked};
use crate::office::recompute::CarcassLine;
use crate::record::short_code::short_code;
use crate::record::{Carcass, plain_number};
use crate::web::platform::clock::{drawn, pause_ms};
use crate::web::platform::file::OutFile;
use crate::web::platform::print::print;
use crate::web::readings::{part, parts};
use crate::words::Arg;

/// Carcasses on one page of the list: what is drawn after a tap must not be felt.
const ON_A_PAGE: usize = 25;

pub(super) fn carcasses(desk: Desk) -> AnyView {
    let list = list(desk);
    let before = StoredValue::new(None);
    view! {
        <section data-part="carcasses">
            {move || bad_cards(desk)}
            <div class="no-print" hidden=move || desk.carcass.get().is_some()>{list}</div>
            {move || desk.carcass.get().map(|id| one(desk, id, before))}
        </section>
    }
    .into_any()
}

fn bad_cards(desk: Desk) -> AnyView {
    let bad = desk.hand.with(|hand| hand.cards().1);
    bad.into_iter()
        .map(|why| view! { <p class="alert no-print">{tell_with("desk.card_bad", &[("reason", why.into())])}</p> })
        .collect_view()
        .into_any()
}

fn list(desk: Desk) -> AnyView {
    let wanted = RwSignal::new(String::new());
    let body = move || match desk.figures.get() {
        None if desk.progress.get().is_some() => view! { <p>{tell("desk.working.begin")}</p> }.into_any(),
        None => view! { <p>{tell("desk.carcasses.none")}</p> }.into_any(),
        Some(figures) => lists(desk, &figures, wanted),
    };
    view! {
        <label class="field">
            {tell("desk.find")}
            <input type="search" data-field="find" autocomplete="off" prop:value=move || wanted.get()
                on:input=move |event| wanted.set(event_target_value(&event))/>
        </label>
        {body}
    }
    .into_any()
}

fn lists(desk: Desk, figures: &Arc<Figures>, wanted: RwSignal<String>) -> AnyView {
    let counted: Vec<Uuid> = figures.counted.carcasses.iter().map(|line| line.carcass).collect();
    let looked: Vec<Uuid> = figures.only_looked().map(|line| line.carcass).collect();
    let (n, only_looked) = (counted.len(), looked.len());
    let looked = (only_looked > 0).then(|| {
        let all = Arc::clone(&figures.looked);
        view! {
            <section data-looked=only_looked>
                <h2>{tell_with("desk.looked", &[("n", count(only_looked))])}</h2>
                <p>{tell("desk.looked.what")}</p>
                {pages(desk, all, looked, wanted)}
            </section>
        }
    });
    view! {
        <section data-carcasses=n>
            <h2>{tell_with("desk.carcasses", &[("n", count(n))])}</h2>
            <p>{tell("desk.recomputed")}</p>
            {odd(&figures.counted)}
            {pages(desk, Arc::clone(&figures.counted), counted, wanted)}
        </section>
        {looked}
    }
    .into_any()
}

/// Entries that were set aside, and examinations without a carcass.
fn odd(worked: &Worked) -> AnyView {
    let adrift = worked.folded.adrift.len();
    let adrift =
        (adrift > 0).then(|| view! { <p class="alert">{tell_with("desk.adrift", &[("n", count(adrift))])}</p> });
    let set_aside = worked
        .folded
        .set_aside
        .iter()
        .map(|setback| {
            let args = [("seq", Arg::Text(setback.id.seq.to_string())), ("reason", Arg::Text(setback.reason.clone()))];
            view! { <p class="alert">{tell_with("desk.set_aside", &args)}</p> }
        })
        .collect_view();
    view! { {set_aside}{adrift} }.into_any()
}

fn pages(desk: Desk, worked: Arc<Worked>, ids: Vec<Uuid>, wanted: RwSignal<String>) -> AnyView {
    let first = RwSignal::new(0_usize);
    // A search begins at its first page.
    Effect::new(move || {
        wanted.track();
        first.set(0);
    });
    let body = move || {
        let wanted = wanted.with(|text| plain_number(text));
        let fits = |id: &&Uuid| {
            wanted.is_empty() || short_code(**id).contains(&wanted) || plain_number(&id.to_string()).contains(&wanted)
        };
        let found: Vec<Uuid> = ids.iter().filter(fits).copied().collect();
        if found.is_empty() {
            let none = (!ids.is_empty()).then(|| view! { <p>{tell("desk.find.none")}</p> });
            return view! { {none} }.into_any();
        }
        let from = first.get().min(found.len().saturating_sub(1) / ON_A_PAGE * ON_A_PAGE);
        let rows = found
            .iter()
            .skip(from)
            .take(ON_A_PAGE)
            .filter_map(|id| {
                let at = worked.carcasses.binary_search_by_key(id, |line| line.carcass).ok()?;
                Some(row(desk, worked.carcasses.get(at)?, worked.folded.carcasses.get(id)?))
            })
            .collect_view();
        let turns = (found.len() > ON_A_PAGE).then(|| turns(first, from, found.len()));
        view! { {rows}{turns} }.into_any()
    };
    view! { {body} }.into_any()
}

fn turns(first: RwSignal<usize>, from: usize, all: usize) -> AnyView {
    let to = (from + ON_A_PAGE).min(all);
    let args = [("first", count(from + 1)), ("last", count(to)), ("all", count(all))];
    view! {
        <div class="ways turns">
            <button type="button" class="act" data-act="page-back" disabled={from == 0}
                on:click=move |_| first.set(from.saturating_sub(ON_A_PAGE))>{tell("desk.page.back")}</button>
            <p>{tell_with("desk.page", &args)}</p>
            <button type="button" class="act" data-act="page-on" disabled={to == all}
                on:click=move |_| first.set(to)>{tell("desk.page.on")}</button>
        </div>
    }
    .into_any()
}

fn row(desk: Desk, line: &CarcassLine, carcass: &Carcass) -> AnyView {
    let id = line.carcass;
    let head = [&line.readings.age, &line.readings.condition, &line.readings.sex]
        .into_iter()
        .filter_map(|reading| {
            let said = reading.statements.first()?.say(LANGUAGE);
            Some(view! { <li>{format!("{}: {said}", tell(&reading.title))}</li> })
        })
        .collect_view();
    let code = short_code(id);
    let title = tell_with("desk.carcass", &[("code", code.clone().into()), ("n", count(carcass.examinations.len()))]);
    let open = open(carcass).len();
    let split = (open > 0).then(|| {
        view! { <p data-split=open><strong>{tell_with("desk.open_questions", &[("n", count(open))])}</strong></p> }
    });
    view! {
        <article class="carcass" data-carcass=id.to_string()>
            <h3>{title}</h3>
            <p>{found_line(carcass)}</p>
            <ul>{head}</ul>
            {split}
            {phones(line)}
            <button type="button" class="act" data-act="open-carcass" on:click=move |_| desk.see(id)>
                {tell_with("desk.open", &[("code", code.into())])}
            </button>
        </article>
    }
    .into_any()
}

/// Whether the phones saw the same figures, and what explains it where they did not.
fn phones(line: &CarcassLine) -> AnyView {
    if line.phones.is_empty() {
        return view! { <p>{tell("desk.phone.none")}</p> }.into_any();
    }
    if line.phones.iter().all(|phone| phone.agrees) {
        return view! { <p data-phones="agree">{tell("desk.phone.agrees")}</p> }.into_any();
    }
    let lines = line
        .phones
        .iter()
        .flat_map(|phone| &phone.differs)
        .map(|differs| {
            let why = tell(differs.because.text());
            let args = [("method", differs.method.as_str().into()), ("why", why.into())];
            view! { <li>{tell_with("desk.phone.differs", &args)}</li> }
        })
        .collect_view();
    view! { <ul data-phones="differ">{lines}</ul> }.into_any()
}

/// The report that was made last, and of which carcass.
type Last = StoredValue<Option<(Uuid, Arc<Sheets>)>>;

/// What there is to tap at once; the report as soon as that is drawn.
fn one(desk: Desk, id: Uuid, last: Last) -> AnyView {
    let figures = desk.figures.get().filter(|figures| holds(figures, id));
    let back = view! {
        <button type="button" class="act" data-act="back-to-list" on:click=move |_| desk.carcass.set(None)>
            {tell("desk.back")}
        </button>
    };
    let Some(figures) = figures else {
        return view! { <div class="ways">{back}</div><p>{tell("desk.gone")}</p> }.into_any();
    };
    let sheets = made(desk, &figures, id, last);
    let refused = RwSignal::new(None::<String>);
    let on_print = move |_| {
        if let Some(sheets) = sheets.get_untracked() {
            refused.set(print(&sheets.page_rule, &file_name(id)).err().map(|error| error.to_string()));
        }
    };
    let on_save = move |_| {
        if let Some(sheets) = sheets.get_untracked() {
            save(desk, id, &sheets);
        }
    };
    let not_yet = move || sheets.with(Option::is_none);
    let split = split_link(desk, &figures, id);
    let all = all_readings(figures, id);
    view! {
        <div class="no-print" data-carcass-open=id.to_string()>
            <div class="ways">
                {back}
                <button type="button" class="act" data-act="print" disabled=not_yet on:click=on_print>{tell("desk.print")}</button>
                <button type="button" class="act" data-act="report" disabled=not_yet on:click=on_save>{tell("desk.save_report")}</button>
                {split}
            </div>
            <p>{tell("desk.print.how")}</p>
            <div role="alert">{move || refused.get().map(|why| view! {
                <p class="alert">{tell_with("desk.not_printed", &[("reason", why.into())])}</p>
            })}</div>
        </div>
        // Markup of ours alone: the report escapes all that was typed, and the page's policy runs no script in it.
        {move || sheets.get().map(|sheets| view! {
            <article class="paper" tabindex="0" inner_html=sheets.body.clone()></article>
        })}
        <div class="no-print">{all}</div>
    }
    .into_any()
}

/// Whether the carcass is in the archive, by any of its ids.
fn holds(figures: &Figures, id: Uuid) -> bool {
    [&figures.counted, &figures.looked].into_iter().any(|worked| worked.folded.carcass(id).is_some())
}

/// The report, made after what was tapped is drawn. Until then the one before stands, where it is of this carcass:
/// figures that come anew must not move the page under a reader's eyes.
fn made(desk: Desk, figures: &Arc<Figures>, id: Uuid, last: Last) -> RwSignal<Option<Arc<Sheets>>> {
    let before = last.get_value().filter(|(of, _)| *of == id).map(|(_, sheets)| sheets);
    let sheets = RwSignal::new(before.clone());
    let figures = Arc::clone(figures);
    leptos::task::spawn_local(async move {
        drawn().await;
        if sheets.is_disposed() {
            return;
        }
        let made = desk.hand.try_with_untracked(|hand| carcass_sheets(hand, &figures, id, now(), None)).flatten();
        let Some(made) = made.filter(|made| before.is_none_or(|before| *before != *made)).map(Arc::new) else { return };
        last.try_set_value(Some((id, Arc::clone(&made))));
        sheets.try_set(Some(made));
    });
    sheets
}

fn split_link(desk: Desk, figures: &Figures, id: Uuid) -> Option<AnyView> {
    let carcass = figures.counted.folded.carcasses.get(&id)?;
    let n = open(carcass).len();
    (n > 0).then(|| {
        view! {
            <button type="button" class="act" data-act="to-decide" on:click=move |_| desk.show(Part::Decide)>
                {tell_with("desk.open_questions", &[("n", count(n))])}
            </button>
        }
        .into_any()
    })
}

/// Plots, what would sharpen a reading, what it rests on in words: what paper has no room for. Drawn once it is opened,
/// and a part at a time: it is as much again as the report.
fn all_readings(figures: Arc<Figures>, id: Uuid) -> AnyView {
    // How many parts are drawn; `None` before it is opened.
    let shown = RwSignal::new(None::<usize>);
    let all = of(&figures, id).map_or(0, |(line, _)| parts(&line.readings));
    let draw = move |_| {
        if shown.get_untracked().is_some() {
            return;
        }
        shown.set(Some(0));
        leptos::task::spawn_local(async move {
            // So that it is seen to open first.
            drawn().await;
            for n in 1..=all {
                pause_ms(0).await;
                if shown.try_set(Some(n)).is_some() {
                    return;
                }
            }
        });
    };
    let opened = Memo::new(move |_| shown.get().is_some());
    let one = move |n: usize| {
        let figures = Arc::clone(&figures);
        let drawn = Memo::new(move |_| shown.get().is_some_and(|shown| n < shown));
        move || {
            let (line, carcass) = of(&figures, id).filter(|_| drawn.get())?;
            part(LANGUAGE, carcass, &line.readings, "cause.not_yet", n)
        }
    };
    let body = move || opened.get().then(|| (0..all).map(&one).collect_view());
    view! {
        <details class="why" data-all-readings="" on:toggle=draw>
            <summary>{tell("desk.all_readings")}</summary>
            {body}
        </details>
    }
    .into_any()
}

/// A carcass with its readings.
fn of(figures: &Figures, id: Uuid) -> Option<(&CarcassLine, &Carcass)> {
    let worked = [&figures.counted, &figures.looked];
    worked.into_iter().find_map(|worked| {
        let at = worked.carcasses.binary_search_by_key(&id, |line| line.carcass).ok()?;
        Some((worked.carcasses.get(at)?, worked.folded.carcasses.get(&id)?))
    })
}

fn file_name(id: Uuid) -> String {
    format!("report-{}", short_code(id))
}

/// The report as a page of its own, to be opened, read and printed anywhere.
fn save(desk: Desk, id: Uuid, sheets: &Sheets) {
    let name = format!("{}.html", file_name(id));
    desk.hand_out(&OutFile { name, media: "text/html".to_owned(), bytes: sheets.html().into_bytes() });
}
