//! What the findings of one carcass say: in short, and each reading in full on a screen of its own.

use leptos::prelude::*;
use uuid::Uuid;

use crate::reading::{self, Reading, Readings};
use crate::record::Carcass;
use crate::web::form::Form;
use crate::web::parts::{Look, plain_head, tile};
use crate::web::readings::{basis, card, cause_note, reading_view};
use crate::web::screen::Screen;
use crate::web::session::HeldCard;
use crate::words::Arg;

/// The carcass of an examination, with all that is read from it.
fn read(form: Form, examination: Uuid) -> Option<(Carcass, Readings)> {
    let carcass =
        form.with(|s| s.bodies.fold_of_examination(examination).carcass_of(examination).cloned()).flatten()?;
    let card = form.with(|s| s.card.clone()).flatten();
    let readings = reading::all(&carcass, &HeldCard::given(card.as_ref()));
    Some((carcass, readings))
}

/// The three that matter most on one screen, then the look worth most, then all others.
pub(super) fn readings(form: Form, examination: Uuid) -> AnyView {
    let body = read(form, examination).map(|(_, readings)| {
        let shown = form.shown();
        let open = |one: &Reading| {
            let method = one.method.clone();
            card(form, one, shown, move || form.go(Screen::Reading(examination, method.clone())))
        };
        let main = readings.main().into_iter().map(open).collect_view();
        let others = readings.others().into_iter().map(open).collect_view();
        view! {
            <div class="cards">{main}</div>
            {sharpen(form, examination, &readings)}
            <h2>{form.say("reading.short.others")}</h2>
            <div class="cards">{others}</div>
            {cause_note(form.language())}
        }
    });
    view! {
        <section class="ask">
            {plain_head(form.say("readings.head"))}
        </section>
        {body}
        <div class="tiles">
            {tile(form, "journal", form.say("steps.journal"), Look::Value, move || form.go(Screen::Journal(examination)))}
            {tile(form, "hand-over", form.say("readings.hand_over"), Look::Value, move || form.go(Screen::HandOver))}
            {tile(form, "start", form.say("visit.to_start"), Look::Aside, move || form.go(Screen::Start))}
        </div>
    }
    .into_any()
}

/// The one look that is worth most over the three; a tap goes to its question.
fn sharpen(form: Form, examination: Uuid, readings: &Readings) -> AnyView {
    let looks = readings.sharpen();
    let asked = form.now_once().filter(|now| now.here.examination == Some(examination)).and_then(|now| {
        let view = now.view();
        let ask = |look: &&reading::Sharpen| {
            let state = now.situation.asking(&view, &look.finding, look.site)?;
            Some((look.look.say_in(form.language(), form.shown()), state.ask.name()))
        };
        looks.iter().find_map(ask)
    });
    let look = |text: String| [("look", Arg::Text(text))];
    match (asked, looks.first()) {
        (Some((text, name)), _) => {
            let label = form.say_with("reading.short.sharpen", &look(text));
            tile(form, "sharpen", label, Look::Aside, move || form.go(Screen::Visit(Some(name.clone()))))
        }
        (None, Some(first)) => {
            let text = first.look.say_in(form.language(), form.shown());
            view! { <p data-sharpen="">{form.say_with("reading.short.sharpen_not_here", &look(text))}</p> }.into_any()
        }
        (None, None) => view! { <p data-sharpen="">{form.say("reading.short.none")}</p> }.into_any(),
    }
}

/// One reading in full.
pub(super) fn one(form: Form, examination: Uuid, method: &str) -> AnyView {
    let found = read(form, examination).and_then(|(carcass, readings)| {
        let one = readings.each().into_iter().find(|r| r.method == method)?.clone();
        let lines = basis(form.language(), &carcass, &one);
        Some(reading_view(form.language(), form.shown(), &one, &readings.science, &lines))
    });
    let missing = found.is_none().then(|| plain_head(form.say("visit.not_asked")));
    let head = missing.is_none().then(|| plain_head(form.say("readings.head")));
    view! {
        {missing}
        {head}
        {found}
        <div class="tiles">
            {tile(form, "readings", form.say("visit.readings"), Look::Aside, move || form.go(Screen::Readings(examination)))}
        </div>
    }
    .into_any()
}
