//! What several parts of the page draw alike: a field to type in, the way to a carcass.

use leptos::prelude::*;
use uuid::Uuid;

use super::desk::{Desk, tell_with};

/// What a field takes.
#[derive(Clone, Copy)]
pub(super) struct Takes {
    /// `numeric` or `text`, for keyboards on a screen.
    pub(super) mode: &'static str,
    /// The most characters.
    pub(super) most: u16,
}

impl Takes {
    /// A number of few digits.
    pub(super) const fn digits(most: u16) -> Self {
        Self { mode: "numeric", most }
    }

    /// Words on one line.
    pub(super) const fn words(most: u16) -> Self {
        Self { mode: "text", most }
    }
}

/// A field to type in, below its label.
pub(super) fn typed(held: RwSignal<String>, name: &'static str, label: String, takes: Takes) -> AnyView {
    view! {
        <label class="field">
            {label}
            <input type="text" inputmode=takes.mode maxlength=takes.most.to_string() data-field=name prop:value=move || held.get()
                on:input=move |event| held.set(event_target_value(&event))/>
        </label>
    }
    .into_any()
}

/// The way to the page of a carcass.
pub(super) fn see(desk: Desk, carcass: Uuid, code: &str) -> AnyView {
    let words = tell_with("decide.see", &[("code", code.into())]);
    view! { <button type="button" class="act" data-act="see" on:click=move |_| desk.see(carcass)>{words}</button> }
        .into_any()
}
