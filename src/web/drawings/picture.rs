//! A drawing as a view: the SVG, and what it shows in words for a screen reader.

use leptos::prelude::*;

use super::svg;
use crate::words::{Language, raw};

/// The drawing for an option of a finding, for a tile, described in a language; `None` where there is none.
pub fn picture(language: Language, finding: &str, option: &str) -> Option<AnyView> {
    let shows = raw(language, &format!("drawing.{finding}.{option}")).unwrap_or_default();
    svg(finding, option).map(|svg| drawing(svg, shows.to_owned()))
}

/// An SVG with its description; without one it is only for the eye.
pub fn drawing(svg: String, shows: String) -> AnyView {
    if shows.is_empty() {
        return view! { <span class="drawing" aria-hidden="true" inner_html=svg></span> }.into_any();
    }
    view! { <span class="drawing" role="img" aria-label=shows inner_html=svg></span> }.into_any()
}
