//! The page itself: whether it has been read to its end.

use wasm_bindgen::JsCast as _;
use wasm_bindgen::closure::Closure;

use super::window;

/// Acts once the page has been read to its end: a program that begins before has nothing to draw on.
pub fn when_read(act: impl FnOnce() + 'static) {
    let document = window().ok().and_then(|window| window.document());
    let Some(document) = document.filter(|document| document.ready_state() == "loading") else { return act() };
    let listener = Closure::once_into_js(act);
    let _ = document.add_event_listener_with_callback("DOMContentLoaded", listener.unchecked_ref());
}
