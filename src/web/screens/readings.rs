//! What the findings of one carcass say: in short, and each reading in full on a screen of its own.

use std::time::Duration;

use leptos::prelude::*;
use uuid::Uuid;

use crate::guide::cause_may_be_shown;
use crate::reading::{self, CauseWork, Given, Reading, Readings};
use crate::record::{Carcass, Fold};
use crate::science::winter::log::Log;
use crate::web::edge::steady_ms;
use crate::web::form::Form;
use crate::web::parts::{Look, plain_head, tile};
use crate::web::readings::{basis, card, cause_note, reading_view, timeline_view};
use crate::web::screen::Screen;
use crate::web::session::HeldCard;
use crate::words::Arg;

/// Longest piece of work between two taps.
const SLICE_MS: u64 = 8;

/// A carcass and what is given beside it. The cause of death steers no eye: it is read once every
/// examination of the carcass here is closed, and shown once its table has been drawn between taps.
struct Looked {
    carcass: Carcass,
    fold: Fold,
    logs: Vec<Log>,
    card: Option<HeldCard>,
    closed: bool,
    worked_out: RwSignal<bool>,
}

impl Looked {
    fn at(form: Form, examination: Uuid) -> Option<Self> {
        let fold = form.with(|s| s.bodies.fold_for_readings(examination))?;
        let logs = reading::winter_log::logs(&fold);
        let carcass = fold.carcass_of(examination)?.clone();
        let card = form.with(|s| s.card.clone()).flatten();
        let closed = cause_may_be_shown(&carcass);
        let worked_out = RwSignal::new(false);
        if closed {
            let given = HeldCard::given(card.as_ref()).with(&fold, &logs);
            work_on(reading::cause_work(&carcass, &given), worked_out);
        }
        Some(Self { carcass, fold, logs, card, closed, worked_out })
    }

    /// All readings as far as they may be shown now; follows the drawing of the table.
    fn readings(&self) -> Readings {
        let without_cause = !(self.closed && self.worked_out.get());
        reading::all(&self.carcass, &Given { without_cause, ..self.given() })
    }

    fn given(&self) -> Given<'_> {
        HeldCard::given(self.card.as_ref()).with(&self.fold, &self.logs)
    }

    /// Why there is no cause, where there is none.
    const fn no_cause(&self) -> &'static str {
        if self.closed { "cause.working" } else { "cause.not_yet" }
    }
}

/// The three that matter most on one screen, then the look worth most, then all others.
pub(super) fn readings(form: Form, examination: Uuid) -> AnyView {
    let looked = Looked::at(form, examination);
    let body = move || {
        looked.as_ref().map(|looked| {
            let readings = looked.readings();
            let shown = form.shown();
            let open = |one: &Reading| {
                let method = one.method.clone();
                card(form, one, shown, move || form.go(Screen::Reading(examination, method.clone())))
            };
            let main = readings.main().into_iter().map(open).collect_view();
            let others = readings.others().into_iter().map(open).collect_view();
            let note = readings.cause.is_none().then(|| cause_note(form.language(), looked.no_cause()));
            view! {
                <div class="cards">{main}</div>
                {sharpen(form, examination, &readings)}
                <h2>{form.say("reading.short.others")}</h2>
                <div class="cards">{others}</div>
                {note}
            }
        })
    };
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

/// Works in slices that leave room for taps, then says that it is done. A screen that was left meanwhile
/// has nobody to tell, and the rest is not worked out.
fn work_on(work: CauseWork, done: RwSignal<bool>) {
    let until = steady_ms() + SLICE_MS;
    loop {
        if work.step() {
            let _ = done.try_set(true);
            return;
        }
        if steady_ms() >= until {
            break;
        }
    }
    if done.try_get_untracked().is_some() {
        set_timeout(move || work_on(work, done), Duration::ZERO);
    }
}

/// The one look that is worth most over the three; a tap goes to its question.
fn sharpen(form: Form, examination: Uuid, readings: &Readings) -> AnyView {
    let looks = readings.sharpen();
    let asked =
        form.now_once().filter(|now| now.here.examination == Some(examination) && !now.is_closed()).and_then(|now| {
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
    let looked = Looked::at(form, examination);
    let method = method.to_owned();
    let body = move || {
        let found = looked.as_ref().and_then(|looked| {
            let readings = looked.readings();
            let one = readings.each().into_iter().find(|r| r.method == method)?.clone();
            let lines = basis(form.language(), &looked.carcass, &one);
            let death = readings.death.as_ref().is_some_and(|death| death.method == one.method);
            let line = death.then(|| reading::timeline(&looked.carcass, &looked.given())).flatten();
            let timeline = timeline_view(form.language(), line.as_ref());
            let view = reading_view(form.language(), form.shown(), &one, &readings.science, &lines);
            Some((form.say(&one.title), view! { {view} {timeline} }))
        });
        let waits = looked.as_ref().filter(|_| method.starts_with("cause."));
        let note = waits.filter(|_| found.is_none()).map(|looked| cause_note(form.language(), looked.no_cause()));
        let missing = found.is_none() && note.is_none();
        // The head takes the focus: it says which reading was opened.
        let (title, found) = found.map_or((None, None), |(title, view)| (Some(title), Some(view)));
        let other = || form.say(if missing { "visit.not_asked" } else { "readings.head" });
        view! { {plain_head(title.unwrap_or_else(other))} {found} {note} }
    };
    view! {
        {body}
        <div class="tiles">
            {tile(form, "readings", form.say("visit.readings"), Look::Aside, move || form.go(Screen::Readings(examination)))}
        </div>
    }
    .into_any()
}
