//! Readings on the screen. Everything shown comes from the reading; here it is only laid out.

pub mod allows;
pub mod basis;
mod cards;
pub mod figures;
pub mod plot;
pub mod scale;
pub mod timeline;
pub mod view;

use leptos::prelude::*;

use crate::reading::{Outcome, Readings};
use crate::record::{Carcass, Shown};
use crate::words::{Language, say};

pub use basis::{BasisLine, basis};
pub(crate) use cards::card;
pub use timeline::timeline_view;
pub use view::{cause_note, reading_view};

/// All readings of a carcass, one after the other. Where the cause of death is left out, `no_cause` is the
/// message that says why.
pub fn readings_view(language: Language, carcass: &Carcass, readings: &Readings, no_cause: &str) -> AnyView {
    let in_short = readings
        .each()
        .into_iter()
        .filter(|one| one.outcome != Outcome::NoEvidence)
        .filter_map(|one| {
            let said = one.statements.first()?.say(language);
            Some(
                view! { <li>{say(language, &one.title, &[])} {language.colon()} <strong>{said}</strong></li> }
                    .into_any(),
            )
        })
        .collect::<Vec<AnyView>>();
    let in_short = (!in_short.is_empty()).then(|| {
        view! {
            <section class="reading" data-in-short="">
                <h2>{say(language, "reading.view.in_short", &[])}</h2>
                <ul>{in_short}</ul>
            </section>
        }
    });
    let each = readings
        .each()
        .into_iter()
        .map(|one| reading_view(language, Shown::Metric, one, &readings.science, &basis(language, carcass, one)))
        .collect_view();
    let note = readings.cause.is_none().then(|| cause_note(language, no_cause));
    view! { {in_short} {each} {note} }.into_any()
}
