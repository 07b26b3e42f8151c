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

use crate::reading::{Outcome, Reading, Readings};
use crate::record::{Carcass, Shown};
use crate::words::{Language, say};

pub use basis::{BasisLine, basis};
pub(crate) use cards::card;
pub use timeline::timeline_view;
pub use view::{cause_note, reading_view};

/// How many parts the readings of a carcass are drawn in.
pub fn parts(readings: &Readings) -> usize {
    readings.each().len() + 2
}

/// One part of all readings of a carcass: first what they say in short, then one after the other. Where the cause of
/// death is left out, `no_cause` is the message that says why, and stands last. Together they are too much for one tap.
pub fn part(language: Language, carcass: &Carcass, readings: &Readings, no_cause: &str, n: usize) -> Option<AnyView> {
    let each = readings.each();
    match n.checked_sub(1) {
        None => in_short(language, &each),
        Some(at) => match each.get(at) {
            Some(one) => {
                let basis = basis(language, carcass, one);
                Some(reading_view(language, Shown::Metric, one, &readings.science, &basis))
            }
            None => readings.cause.is_none().then(|| cause_note(language, no_cause)),
        },
    }
}

fn in_short(language: Language, each: &[&Reading]) -> Option<AnyView> {
    let in_short = each
        .iter()
        .filter(|one| one.outcome != Outcome::NoEvidence)
        .filter_map(|one| {
            let said = one.statements.first()?.say(language);
            Some(
                view! { <li>{say(language, &one.title, &[])} {language.colon()} <strong>{said}</strong></li> }
                    .into_any(),
            )
        })
        .collect::<Vec<AnyView>>();
    (!in_short.is_empty()).then(|| {
        view! {
            <section class="reading" data-in-short="">
                <h2>{say(language, "reading.view.in_short", &[])}</h2>
                <ul>{in_short}</ul>
            </section>
        }
        .into_any()
    })
}
