//! What every part shares in which somebody signs: who it is, whether the key is open, and how it went.

use leptos::prelude::*;

use super::desk::{Desk, tell};

/// What was said last: whether it was done, and in words.
pub(super) type Said = RwSignal<Option<(bool, String)>>;

/// Says so where the office's key is not open.
pub(super) fn no_key(desk: Desk, words: &'static str) -> impl Fn() -> AnyView + Send + 'static {
    move || {
        let shut = desk.key.get().is_none();
        shut.then(|| view! { <p class="alert" data-no-key="">{tell(words)}</p> }).into_any()
    }
}

/// Asks for the code of who signs.
pub(super) fn by_field(name: &'static str, person: RwSignal<String>) -> AnyView {
    view! {
        <label class="field">
            {tell("decide.by")}
            <input type="text" maxlength="12" data-field=name prop:value=move || person.get()
                on:input=move |event| person.set(event_target_value(&event))/>
        </label>
    }
    .into_any()
}

/// The line of how it went.
pub(super) fn said_line(said: Said) -> impl Fn() -> AnyView + Send + 'static {
    move || {
        let line = |(good, words): (bool, String)| {
            let class = if good { "report-line" } else { "alert" };
            view! { <p class=class data-good=good.to_string()>{words}</p> }
        };
        said.get().map(line).into_any()
    }
}
