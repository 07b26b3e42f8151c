//! The head of a screen: it takes the focus, so that a screen reader says what is new.

use leptos::prelude::*;

/// The id of every screen's head, for the focus.
pub(crate) const HEAD: &str = "head";

/// The head of a question: of which place, what is asked, and how to look; why it matters behind a line, and beside
/// that line the way to all questions.
pub(crate) fn head(
    place: Option<String>,
    text: String,
    how: Option<String>,
    why: Option<String>,
    why_label: String,
    aside: AnyView,
) -> AnyView {
    view! {
        <h1 id=HEAD tabindex="-1">{place.map(|place| view! { <span class="place">{place}</span>" " })}{text}</h1>
        {how.map(|how| view! { <p class="how">{how}</p> })}
        <div class="beside">
            {why.map(|why| view! {
                <details class="why">
                    <summary>{why_label}</summary>
                    <p>{why}</p>
                </details>
            })}
            {aside}
        </div>
    }
    .into_any()
}

/// The head of any other screen.
pub(crate) fn plain_head(text: String) -> AnyView {
    view! { <h1 id=HEAD tabindex="-1">{text}</h1> }.into_any()
}
