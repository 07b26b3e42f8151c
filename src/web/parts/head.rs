//! The head of a screen: it takes the focus, so that a screen reader says what is new.

use leptos::prelude::*;

/// The id of every screen's head, for the focus.
pub(crate) const HEAD: &str = "head";

/// The head of a question: what is asked, and how to look.
pub(crate) fn head(text: String, how: Option<String>, why: Option<String>, why_label: String) -> AnyView {
    view! {
        <h1 id=HEAD tabindex="-1">{text}</h1>
        {how.map(|how| view! { <p class="how">{how}</p> })}
        {why.map(|why| view! {
            <details class="why">
                <summary>{why_label}</summary>
                <p>{why}</p>
            </details>
        })}
    }
    .into_any()
}

/// The head of any other screen.
pub(crate) fn plain_head(text: String) -> AnyView {
    view! { <h1 id=HEAD tabindex="-1">{text}</h1> }.into_any()
}
