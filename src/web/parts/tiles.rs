//! Answer tiles: at least 15 mm tall, the full width of the page, acting when the finger lifts.

use std::collections::BTreeSet;

use leptos::prelude::*;

use crate::web::form::Form;

/// Most values on one page of tiles.
pub(crate) const A_PAGE: usize = 4;

/// How a tile looks, told by shape and words and never by colour alone.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Look {
    /// A value.
    Value,
    /// A value that is the answer given, or one picked so far.
    Chosen,
    /// The one tile that saves or goes on.
    Main,
    /// What leads aside: no answer, more, another way.
    Aside,
}

impl Look {
    pub(crate) const fn class(self) -> &'static str {
        match self {
            Self::Value => "tile",
            Self::Chosen => "tile chosen",
            Self::Main => "tile main",
            Self::Aside => "tile aside",
        }
    }
}

/// A tile. `name` stays the same from day to day, for tests.
pub(crate) fn tile(form: Form, name: &str, label: String, look: Look, act: impl Fn() + 'static) -> AnyView {
    let pressed = match look {
        Look::Value => Some("false"),
        Look::Chosen => Some("true"),
        Look::Main | Look::Aside => None,
    };
    view! {
        <button
            type="button"
            class=look.class()
            data-tile=name.to_owned()
            aria-pressed=pressed
            on:click=move |event| {
                if form.is_meant(&event) {
                    act();
                }
            }
        >
            <span class="label">{label}</span>
            <span class="tick" aria-hidden="true">{(look == Look::Chosen).then_some("\u{2713}")}</span>
        </button>
    }
    .into_any()
}

/// A tile with a picture above its words.
pub(crate) fn pictured_tile(
    form: Form,
    finding: &str,
    name: &'static str,
    label: String,
    look: Look,
    act: impl Fn() + 'static,
) -> AnyView {
    let chosen = look == Look::Chosen;
    view! {
        <button
            type="button"
            class=if chosen { "tile pictured chosen" } else { "tile pictured" }
            data-tile=name
            aria-pressed=if chosen { "true" } else { "false" }
            on:click=move |event| {
                if form.is_meant(&event) {
                    act();
                }
            }
        >
            {crate::web::drawings::picture(form.language(), finding, name)}
            <span class="label">{label}</span>
            <span class="tick" aria-hidden="true">{chosen.then_some("\u{2713}")}</span>
        </button>
    }
    .into_any()
}

/// A tile that is picked and unpicked in place, so that the focus stays on it.
pub(crate) fn toggle(form: Form, name: &'static str, label: String) -> AnyView {
    toggle_with(form, name, label, None)
}

/// The same with a picture above its words.
pub(crate) fn toggle_with(form: Form, name: &'static str, label: String, picture: Option<AnyView>) -> AnyView {
    let is_picked = move || form.picked.with(|picked| picked.contains(name));
    let (plain, picked) = if picture.is_some() {
        ("tile pictured", "tile pictured chosen")
    } else {
        (Look::Value.class(), Look::Chosen.class())
    };
    view! {
        <button
            type="button"
            class=move || if is_picked() { picked } else { plain }
            data-tile=name
            aria-pressed=move || if is_picked() { "true" } else { "false" }
            on:click=move |event| {
                if form.is_meant(&event) {
                    form.pick(name);
                }
            }
        >
            {picture}
            <span class="label">{label}</span>
            <span class="tick" aria-hidden="true">{move || is_picked().then_some("\u{2713}")}</span>
        </button>
    }
    .into_any()
}

/// The main tile, with words that follow what was picked or typed. Where it waits for that, it is outlined until then:
/// the answer that stands out is never `none of these`.
pub(crate) fn main_tile(
    form: Form,
    name: &'static str,
    label: impl Fn() -> String + Send + 'static,
    act: impl Fn() + 'static,
) -> AnyView {
    let waits = name != "second";
    let quiet = move || waits && form.picked.with(BTreeSet::is_empty) && form.typed.with(String::is_empty);
    main_tile_unless(form, name, quiet, label, act)
}

/// The same, outlined as long as `quiet` holds.
pub(crate) fn main_tile_unless(
    form: Form,
    name: &'static str,
    quiet: impl Fn() -> bool + Send + 'static,
    label: impl Fn() -> String + Send + 'static,
    act: impl Fn() + 'static,
) -> AnyView {
    view! {
        <button
            type="button"
            class=move || if quiet() { "tile main quiet" } else { Look::Main.class() }
            data-tile=name
            on:click=move |event| {
                if form.is_meant(&event) {
                    act();
                }
            }
        >
            <span class="label">{label}</span>
        </button>
    }
    .into_any()
}

/// The last row: what goes on at the left, `No answer` always at the right end of the page.
pub(crate) fn foot(on: Option<AnyView>, no_answer: AnyView) -> AnyView {
    view! { <div class="foot">{on}{no_answer}</div> }.into_any()
}

/// A smaller button for what is no answer: lists, links to other screens.
pub(crate) fn act(form: Form, name: &str, label: String, act: impl Fn() + 'static) -> AnyView {
    view! {
        <button
            type="button"
            class="act"
            data-act=name.to_owned()
            on:click=move |event| {
                if form.is_meant(&event) {
                    act();
                }
            }
        >
            {label}
        </button>
    }
    .into_any()
}

/// Which of `all` stand on this page, and whether there is more than one page.
pub(crate) fn pages<T: Clone>(all: &[T], page: usize) -> (Vec<T>, usize, usize) {
    let count = all.len().div_ceil(A_PAGE).max(1);
    let page = page % count;
    let shown = all.iter().skip(page * A_PAGE).take(A_PAGE).cloned().collect();
    (shown, page, count)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn four_on_a_page_and_round_again() {
        let all: Vec<u8> = (0..10).collect();
        assert_eq!(pages(&all, 0), (vec![0, 1, 2, 3], 0, 3));
        assert_eq!(pages(&all, 2), (vec![8, 9], 2, 3));
        assert_eq!(pages(&all, 3).1, 0);
        assert_eq!(pages::<u8>(&[], 0), (vec![], 0, 1));
    }
}
