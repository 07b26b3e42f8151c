//! The season in the page: the figures of `office season`, its plots and tables, and all of it as a zip.

use std::collections::BTreeSet;
use std::sync::Arc;

use leptos::prelude::*;

use super::desk::{Desk, count, tell, tell_with};
use crate::office::hand::Figures;
use crate::office::keyring::Keyring;
use crate::office::season::asked::{Asked, winter_typed};
use crate::office::season::csv::Csv;
use crate::office::season::told::{Told, told};
use crate::office::season::{Files, Season, gather, plots, season, tables, written};
use crate::office::zipped::{Tree, pack};
use crate::web::platform::clock::pause_ms;
use crate::web::platform::file::OutFile;

/// What was worked out, and from what.
struct Worked {
    season: Season,
    from: Files,
    keyring: Keyring,
    asked: Asked,
    /// The figures of the page at that moment: others mean that the archive has changed.
    of: Option<Arc<Figures>>,
}

pub(super) fn season_part(desk: Desk) -> AnyView {
    let (worked, failed, working) =
        (RwSignal::new(None::<Arc<Worked>>), RwSignal::new(None::<String>), RwSignal::new(false));
    let winter = RwSignal::new(String::new());
    let work = move |_| {
        if working.get_untracked() {
            return;
        }
        let asked = match winter_typed(&winter.get_untracked()) {
            Ok(winter) => Asked { winter, ..Asked::default() },
            Err(why) => return failed.set(Some(why.to_string())),
        };
        working.set(true);
        failed.set(None);
        leptos::task::spawn_local(async move {
            // So that the page says so before it is busy.
            pause_ms(60).await;
            let of = desk.figures.try_get_untracked().flatten();
            let done = desk.hand.try_with_untracked(|hand| {
                let keyring = hand.keyring.clone();
                let gathered = gather(&hand.archive(), &keyring, None).map_err(|error| error.to_string())?;
                let season = season(&gathered, &asked).map_err(|error| error.to_string())?;
                Ok::<_, String>(Worked { season, from: gathered.files, keyring, asked, of })
            });
            working.try_set(false);
            match done {
                Some(Ok(done)) => drop(worked.try_set(Some(Arc::new(done)))),
                Some(Err(why)) => drop(failed.try_set(Some(why))),
                None => {}
            }
        });
    };
    view! {
        <section data-part="season">
            <h2>{tell("desk.season.head")}</h2>
            <p>{tell("desk.season.what")}</p>
            <label class="field">
                {tell("desk.season.winter")}
                <input type="text" inputmode="numeric" maxlength="4" data-field="season-winter" prop:value=move || winter.get()
                    on:input=move |event| winter.set(event_target_value(&event))/>
            </label>
            <button type="button" class="tile main" data-act="work-season" disabled=move || working.get() on:click=work>
                {tell("desk.season.work")}
            </button>
            <p role="status">{move || working.get().then(|| tell("desk.season.working"))}</p>
            <div role="alert">{move || failed.get().map(|why| view! {
                <p class="alert">{tell_with("desk.season.failed", &[("reason", why.into())])}</p>
            })}</div>
            {move || worked.get().map(|worked| shown(desk, &worked))}
        </section>
    }
    .into_any()
}

fn shown(desk: Desk, worked: &Arc<Worked>) -> AnyView {
    let season = &worked.season;
    let carcasses = &season.carcasses;
    let args = [
        ("winter", season.winter.as_str().into()),
        ("found", count(carcasses.found)),
        ("counted", count(carcasses.counted)),
    ];
    let mut lines: Vec<String> = Vec::new();
    for left in &carcasses.left_out {
        let codes = left.codes.join(", ");
        let args = [("n", count(left.carcasses)), ("why", left.why.as_str().into()), ("codes", codes.into())];
        lines.push(tell_with("desk.season.left_out", &args));
    }
    for (n, id) in [(carcasses.undated, "desk.season.undated"), (carcasses.no_carcass, "desk.season.no_carcass")] {
        if n > 0 {
            lines.push(tell_with(id, &[("n", count(n))]));
        }
    }
    for (reason, n) in season.not_used_by_reason() {
        lines.push(tell_with("desk.season.not_used", &[("n", count(n)), ("reason", reason.into())]));
    }
    lines.extend(season.cautions.iter().cloned());
    let lines = lines.into_iter().map(|line| view! { <li>{line}</li> }).collect_view();
    let of = worked.of.clone();
    let stale = move || {
        let now = desk.figures.get();
        let same = match (&of, &now) {
            (Some(then), Some(now)) => Arc::ptr_eq(then, now),
            (then, now) => then.is_none() && now.is_none(),
        };
        (!same).then(|| view! { <p class="alert" data-stale="">{tell("desk.season.stale")}</p> })
    };
    let all: Vec<(&'static str, Csv)> = tables::all(season);
    let plots = plots::all(season);
    let of_plots: BTreeSet<&str> = plots.iter().map(|(name, _)| stem(name)).collect();
    let find = |stem_of: &str| all.iter().find(|(name, _)| stem(name) == stem_of);
    let plots_view = plots
        .iter()
        .map(|(name, svg)| {
            let table = find(stem(name)).map(|(file, csv)| table(&told(file, csv, ROWS), true));
            view! {
                // Drawn by us from numbers and the catalogue's words, each escaped.
                <div class="winter-plot" data-plot=*name tabindex="0" role="group" aria-label=stem(name).to_owned() inner_html=svg.clone()></div>
                {table}
            }
        })
        .collect_view();
    let others = all
        .iter()
        .filter(|(name, csv)| !of_plots.contains(stem(name)) && !csv.rows.is_empty())
        .map(|(name, csv)| table(&told(name, csv, ROWS), false))
        .collect_view();
    let to_save = Arc::clone(worked);
    view! {
        {stale}
        <h3 data-season=carcasses.counted>{tell_with("desk.season.found", &args)}</h3>
        <ul>{lines}</ul>
        <button type="button" class="tile aside" data-act="save-season" on:click=move |_| save(desk, &to_save)>
            {tell("desk.season.save")}
        </button>
        <p>{tell("desk.season.unsigned")}</p>
        {plots_view}
        <h3>{tell("desk.season.tables")}</h3>
        {others}
    }
    .into_any()
}

fn stem(name: &str) -> &str {
    name.rsplit_once('.').map_or(name, |(stem, _)| stem)
}

/// The most rows that are drawn; the file has them all.
const ROWS: usize = 200;

/// A table; `of_plot` where it stands under the plot that shows the same.
fn table(told: &Told, of_plot: bool) -> AnyView {
    let title = if of_plot { tell("desk.season.table") } else { told.name.clone() };
    let head = told.head.iter().map(|name| view! { <th scope="col">{name.clone()}</th> }).collect_view();
    let row = |row: &Vec<String>| row.iter().map(|one| view! { <td>{one.clone()}</td> }).collect_view();
    let rows = told.rows.iter().map(|one| view! { <tr>{row(one)}</tr> }).collect_view();
    let left = (told.left > 0).then(|| view! { <p>{tell_with("desk.season.rows", &[("n", count(told.left))])}</p> });
    view! {
        <details class="why">
            <summary>{title}</summary>
            <p>{told.what.clone()}</p>
            <div class="season-table" tabindex="0" role="group" aria-label=told.name.clone()>
                <table><thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>
            </div>
            {left}
        </details>
    }
    .into_any()
}

fn save(desk: Desk, worked: &Worked) {
    let key = desk.key_now();
    let files = written::files(&worked.from, &worked.keyring, worked.asked, &worked.season, key.as_deref());
    let packed = files.and_then(|files| {
        let tree: Tree = files.into_iter().map(|(name, bytes)| (name, Arc::from(bytes))).collect();
        pack(&tree).map_err(|error| error.to_string())
    });
    match packed {
        Ok(bytes) => {
            let name = format!("season-{}.zip", worked.season.winter);
            desk.hand_out(&OutFile { name, media: "application/zip".to_owned(), bytes });
        }
        Err(why) => drop(desk.not_handed.try_set(Some(why))),
    }
}
