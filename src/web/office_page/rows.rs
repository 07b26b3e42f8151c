//! Long lists: some rows at first, more at a tap.

use leptos::prelude::*;

use super::desk::{count, tell_with};

/// Of each list so many are drawn at first, and so many more at a tap.
pub(super) const AT_ONCE: usize = 20;

/// The first rows of a list, and a button for more of it.
pub(super) fn drawn<T: Send + 'static>(
    all: Vec<T>,
    shown: RwSignal<usize>,
    row: impl Fn(&T) -> AnyView + Send + 'static,
) -> impl Fn() -> AnyView + Send + 'static {
    move || {
        let rows = all.iter().take(shown.get()).map(&row).collect_view();
        let left = all.len().checked_sub(shown.get()).filter(|left| *left > 0);
        let more = left.map(|left| {
            let words = tell_with("decide.more", &[("n", count(left.min(AT_ONCE)))]);
            view! {
                <button type="button" class="act" data-act="more" on:click=move |_| shown.update(|n| *n += AT_ONCE)>{words}</button>
            }
        });
        view! { {rows}{more} }.into_any()
    }
}
