//! Long lists: some rows at first, more at a tap.

use std::hash::Hash;

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
        view! { {rows}{more(all.len(), shown)} }.into_any()
    }
}

/// The same of a list that changes: a row whose `key` stays is not drawn anew, so that one that goes takes no longer with
/// it than itself, and what somebody types in another stays there. The rows, and the button apart from them: it is no row.
pub(super) fn keyed<T, K>(
    all: RwSignal<Vec<T>>,
    shown: RwSignal<usize>,
    key: impl Fn(&T) -> K + Clone + Send + Sync + 'static,
    row: impl Fn(T) -> AnyView + Clone + Send + Sync + 'static,
) -> [AnyView; 2]
where
    T: Clone + Send + Sync + 'static,
    K: Eq + Hash + Send + Sync + 'static,
{
    let first = move || all.with(|all| all.iter().take(shown.get()).cloned().collect::<Vec<_>>());
    let rows = view! { <For each=first key=key children=row/> };
    let more = move || more(all.with(Vec::len), shown);
    [rows.into_any(), more.into_any()]
}

fn more(all: usize, shown: RwSignal<usize>) -> Option<AnyView> {
    let left = all.checked_sub(shown.get()).filter(|left| *left > 0)?;
    let words = tell_with("decide.more", &[("n", count(left.min(AT_ONCE)))]);
    Some(
        view! {
            <button type="button" class="act" data-act="more" on:click=move |_| shown.update(|n| *n += AT_ONCE)>{words}</button>
        }
        .into_any(),
    )
}
