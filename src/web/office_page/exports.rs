//! What leaves the office for others: exports in open forms, labels, the protocol on paper.

use leptos::prelude::*;

use super::beside::{Works, run};
use super::desk::{Desk, count, tell, tell_with};
use super::fields::{Takes, typed};
use crate::office::errand::{Came, EXPORT, What};
use crate::office::export::Asked;
use crate::office::labels::labels_page;
use crate::office::paper::{Sheet, paper};
use crate::office::season::asked::{CELL_M, LEAST_CELL_M};
use crate::web::platform::file::OutFile;
use crate::words::Language;

/// What was typed and ticked.
#[derive(Clone, Copy)]
struct Wish {
    desk: Desk,
    winter: RwSignal<String>,
    cell: RwSignal<String>,
    exact: RwSignal<bool>,
    names: RwSignal<bool>,
    letter: RwSignal<bool>,
    works: RwSignal<Works>,
    said: RwSignal<Option<(bool, String)>>,
}

pub(super) fn exports(desk: Desk) -> AnyView {
    let wish = Wish {
        desk,
        winter: RwSignal::default(),
        cell: RwSignal::new(CELL_M.to_string()),
        exact: RwSignal::new(false),
        names: RwSignal::new(false),
        letter: RwSignal::new(false),
        works: RwSignal::new(Works::Nowhere),
        said: RwSignal::new(None),
    };
    let number = |held: RwSignal<String>, name: &'static str, words: String| typed(held, name, words, Takes::digits(8));
    let tick = |held: RwSignal<bool>, name: &'static str, id: &str| {
        view! {
            <label class="field">
                <input type="checkbox" data-field=name prop:checked=move || held.get()
                    on:change=move |event| held.set(event_target_checked(&event))/>
                " " {tell(id)}
            </label>
        }
    };
    let said = move || {
        wish.said
            .get()
            .map(|(good, text)| view! { <p class=(!good).then_some("alert") data-export=good.to_string()>{text}</p> })
    };
    let least = [("least", count(LEAST_CELL_M as usize))];
    view! {
        <section data-part="exports">
            <h2>{tell("exports.head")}</h2>
            <p>{tell("exports.what")}</p>
            {number(wish.winter, "export-winter", tell("exports.winter"))}
            {number(wish.cell, "export-cell", tell_with("exports.cell", &least))}
            {tick(wish.exact, "export-exact", "exports.exact")}
            {tick(wish.names, "export-names", "exports.names")}
            <button type="button" class="tile main" data-act="export" disabled=move || wish.works.get() != Works::Nowhere on:click=move |_| wish.export()>
                {tell("exports.save")}
            </button>
            <p role="status">{move || wish.works.get().told("exports.working")}</p>
            <div role="status">{said}</div>
            <h3>{tell("exports.paper")}</h3>
            <p>{tell("exports.paper.what")}</p>
            {tick(wish.letter, "export-letter", "exports.letter")}
            <button type="button" class="act" data-act="labels" on:click=move |_| wish.labels()>{tell("exports.labels")}</button>
            <button type="button" class="act" data-act="paper" on:click=move |_| wish.paper()>{tell("exports.protocol")}</button>
        </section>
    }
    .into_any()
}

impl Wish {
    fn tell(self, good: bool, text: String) {
        self.said.try_set(Some((good, text)));
    }

    fn export(self) {
        let texts = [self.winter, self.cell].map(|one| one.get_untracked());
        let [winter, cell] = texts.each_ref().map(String::as_str);
        let asked = match Asked::typed(winter, (!self.exact.get_untracked()).then_some(cell)) {
            Ok(asked) => Asked { names: self.names.get_untracked(), ..asked },
            Err(why) => return self.tell(false, tell_with("exports.not", &[("reason", why.to_string().into())])),
        };
        if self.works.get_untracked() != Works::Nowhere {
            return;
        }
        self.said.set(None);
        leptos::task::spawn_local(async move {
            match run(self.desk, What::Export(asked), self.works).await {
                Some(Ok((Came::Export(written), made))) => {
                    self.desk.handed_out(made.hand_out(EXPORT));
                    let args = [
                        ("n", count(written.carcasses)),
                        ("files", count(written.files)),
                        ("places", asked.of_places().into()),
                        ("persons", asked.of_persons().into()),
                    ];
                    self.tell(true, tell_with("exports.made", &args));
                }
                Some(Err(why)) => self.tell(false, tell_with("exports.not", &[("reason", why.into())])),
                // Nothing else comes of an export.
                Some(Ok((Came::Season(_), _))) | None => {}
            }
        });
    }

    fn sheet(self) -> Sheet {
        if self.letter.get_untracked() { Sheet::Letter } else { Sheet::A4 }
    }

    fn page(self, name: &str, html: String) {
        let file = OutFile { name: name.to_owned(), media: "text/html".to_owned(), bytes: html.into_bytes() };
        self.desk.hand_out(&file);
    }

    fn labels(self) {
        let figures = self.desk.figures.get_untracked();
        let all = figures.iter().flat_map(|figures| figures.counted.folded.carcasses.values());
        match labels_page(all, self.sheet()) {
            Some((html, n)) => {
                self.page("labels.html", html);
                self.tell(true, tell_with("exports.labels.made", &[("n", count(n))]));
            }
            None => self.tell(false, tell("exports.labels.none")),
        }
    }

    fn paper(self) {
        self.page("protocol.html", paper(Language::English, self.sheet()));
        self.tell(true, tell("exports.protocol.made"));
    }
}
