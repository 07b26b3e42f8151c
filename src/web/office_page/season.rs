//! The season in the page: the figures of `office season`, its plots and tables, and all of it as a zip.

use std::sync::{Arc, Weak};

use leptos::prelude::*;

use super::beside::{Works, run};
use super::desk::{Desk, count, tell, tell_with};
use super::fields::{Takes, typed};
use super::figures::are;
use crate::office::errand::{Came, What};
use crate::office::hand::Figures;
use crate::office::season::asked::{Asked, winter_typed};
use crate::office::season::shown::Shown;
use crate::office::season::told::Told;
use crate::office::season::written::manifest_file;
use crate::office::zipped::{Tree, pack};
use crate::web::platform::file::OutFile;

/// What was worked out, and from what.
struct Worked {
    shown: Shown,
    /// All that is saved, but for the manifest.
    files: Tree,
    /// The figures of the page at that moment: others mean that the archive has changed.
    of: Option<Weak<Figures>>,
}

pub(super) fn season_part(desk: Desk) -> AnyView {
    let (worked, failed, works) =
        (RwSignal::new(None::<Arc<Worked>>), RwSignal::new(None::<String>), RwSignal::new(Works::Nowhere));
    let winter = RwSignal::new(String::new());
    let work = move |_| {
        if works.get_untracked() != Works::Nowhere {
            return;
        }
        let asked = match winter_typed(&winter.get_untracked()) {
            Ok(winter) => Asked { winter, ..Asked::default() },
            Err(why) => return failed.set(Some(why.to_string())),
        };
        failed.set(None);
        let of = desk.figures.get_untracked().map(|figures| Arc::downgrade(&figures));
        leptos::task::spawn_local(async move {
            match run(desk, What::Season(asked), works).await {
                Some(Ok((Came::Season(shown), made))) => match made.files().await {
                    Ok(files) => drop(worked.try_set(Some(Arc::new(Worked { shown: *shown, files, of })))),
                    Err(why) => drop(failed.try_set(Some(why.to_string()))),
                },
                Some(Err(why)) => drop(failed.try_set(Some(why))),
                // Nothing else comes of a season.
                Some(Ok((Came::Export(_), _))) | None => {}
            }
        });
    };
    view! {
        <section data-part="season">
            <h2>{tell("desk.season.head")}</h2>
            <p>{tell("desk.season.what")}</p>
            {typed(winter, "season-winter", tell("desk.season.winter"), Takes::digits(4))}
            <button type="button" class="tile main" data-act="work-season" disabled=move || works.get() != Works::Nowhere on:click=work>
                {tell("desk.season.work")}
            </button>
            <p role="status">{move || works.get().told("desk.season.working")}</p>
            <div role="alert">{move || failed.get().map(|why| view! {
                <p class="alert">{tell_with("desk.season.failed", &[("reason", why.into())])}</p>
            })}</div>
            {move || worked.get().map(|worked| shown(desk, &worked))}
        </section>
    }
    .into_any()
}

fn shown(desk: Desk, worked: &Arc<Worked>) -> AnyView {
    let shown = &worked.shown;
    let args =
        [("winter", shown.winter.as_str().into()), ("found", count(shown.found)), ("counted", count(shown.counted))];
    let lines = shown.lines.iter().map(|line| view! { <li>{line.clone()}</li> }).collect_view();
    let of = worked.of.clone();
    let stale = move || {
        let now = desk.figures.get();
        let same = match (&of, &now) {
            (Some(then), Some(now)) => are(then, now),
            (then, now) => then.is_none() && now.is_none(),
        };
        (!same).then(|| view! { <p class="alert" data-stale="">{tell("desk.season.stale")}</p> })
    };
    let plots = shown
        .plots
        .iter()
        .map(|plot| {
            let table = plot.table.as_ref().map(|told| table(told, true));
            view! {
                // Drawn by us from numbers and the catalogue's words, each escaped.
                <div class="winter-plot" data-plot=plot.name.clone() tabindex="0" role="group" aria-label=plot.name.clone()
                    inner_html=plot.svg.clone()></div>
                {table}
            }
        })
        .collect_view();
    let tables = shown.tables.iter().map(|told| table(told, false)).collect_view();
    let to_save = Arc::clone(worked);
    view! {
        {stale}
        <h3 data-season=shown.counted>{tell_with("desk.season.found", &args)}</h3>
        <ul>{lines}</ul>
        <button type="button" class="tile aside" data-act="save-season" on:click=move |_| save(desk, &to_save)>
            {tell("desk.season.save")}
        </button>
        <p>{tell("desk.season.unsigned")}</p>
        {plots}
        <h3>{tell("desk.season.tables")}</h3>
        {tables}
    }
    .into_any()
}

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
    let packed = manifest_file(&worked.shown.manifest, desk.key_now().as_deref()).and_then(|(name, bytes)| {
        let mut files = worked.files.clone();
        files.insert(name, bytes.into());
        pack(&files).map_err(|error| error.to_string())
    });
    match packed {
        Ok(bytes) => {
            let name = format!("season-{}.zip", worked.shown.winter);
            desk.hand_out(&OutFile { name, media: "application/zip".to_owned(), bytes });
        }
        Err(why) => drop(desk.not_handed.try_set(Some(why))),
    }
}
