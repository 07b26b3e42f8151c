//! The lines of a label, to be copied by hand.

use leptos::prelude::*;

use crate::guide::Label;
use crate::words::Language;

/// Name and value of each line; a line that nobody has said yet is dotted, to be filled in.
pub(crate) fn label_lines(language: Language, label: &Label) -> AnyView {
    let lines = label.lines.iter().map(|(name, value)| {
        let value = if value.is_empty() { "\u{2026}\u{2026}\u{2026}" } else { value };
        view! { <li>{language.named(name, value)}</li> }
    });
    view! { <ul class="rows label-lines">{lines.collect_view()}</ul> }.into_any()
}
