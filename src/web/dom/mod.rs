//! The screen as a tree of one type, and its drawing.
//!
//! Signals, effects and owners are Leptos's. Its views are not used: they make a type, with its own code,
//! for every element, attribute and closure, which was a third of what a phone loads. Here [`view`] writes
//! the same HTML as a tree of [`Node`]s, `draw` puts it into the page, and where a closure gives a new tree
//! the old one is changed to it in place, so that focus and half-typed fields stay.

mod draw;
mod node;
mod value;

pub use draw::{mount, mount_in};
pub use node::{CollectView, Element, IntoAny, IntoNode, Node, drawn, element, many, node};
pub use value::{IntoValue, Value};

/// What a file with screens needs.
pub mod prelude {
    pub use super::{CollectView, IntoAny, IntoNode, Node as AnyView};
    pub use leptos::prelude::{
        Callable, Callback, Effect, Get, GetUntracked, GetValue, LocalStorage, Memo, RwSignal, Set, SetValue, Signal,
        StoredValue, Track, Update, UpdateUntracked, UpdateValue, With, WithUntracked, WithValue, WriteValue, document,
        event_target_value, request_animation_frame, set_interval_with_handle, set_timeout, window_event_listener,
    };
    pub use marrowbook_view::view;
}
