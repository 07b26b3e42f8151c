//! The address's hash: the browser's own Back works, and a reload comes back to the same screen.

use leptos::prelude::*;

use super::screen::Screen;

/// The screen that the address names.
pub(crate) fn screen() -> Screen {
    Screen::from_hash(&hash())
}

/// True where the page was opened for trying it out.
pub(crate) fn is_demo() -> bool {
    hash() == "#demo"
}

fn hash() -> String {
    web_sys::window().and_then(|w| w.location().hash().ok()).unwrap_or_default()
}

/// Put a screen into the address.
pub(crate) fn set(screen: &Screen) {
    if let Some(window) = web_sys::window()
        && Screen::from_hash(&hash()) != *screen
    {
        // A browser that refuses costs its own Back only.
        let _ = window.location().set_hash(&screen.hash());
    }
}

/// Call `act` with the screen whenever the address changes.
pub(crate) fn watch(act: impl Fn(Screen) + 'static) {
    let handle = window_event_listener(leptos::ev::hashchange, move |_| act(screen()));
    // For as long as the page lives.
    std::mem::forget(handle);
}
