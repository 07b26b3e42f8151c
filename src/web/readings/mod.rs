//! Readings on the screen. Everything shown comes from the reading; here it is only laid out.

pub mod allows;
pub mod basis;
pub mod figures;
pub mod plot;
pub mod scale;
pub mod view;

use leptos::prelude::*;

use crate::reading::Readings;
use crate::record::Carcass;
use crate::words::Language;

pub use basis::{BasisLine, basis};
pub use view::{cause_note, reading_view};

/// All readings of a carcass, one after the other, and the line that says that no cause is read here.
pub fn readings_view(language: Language, carcass: &Carcass, readings: &Readings) -> AnyView {
    let each = readings
        .each()
        .into_iter()
        .map(|one| reading_view(language, one, &readings.science, &basis(language, carcass, one)))
        .collect_view();
    view! { {each} {cause_note(language)} }.into_any()
}
