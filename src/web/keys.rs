//! The keyboard: digits pick tiles or press the pad's keys, so that a laptop, a switch or a
//! wireless pad in a warm pocket can do all that a thumb can.

use leptos::prelude::*;
use wasm_bindgen::JsCast as _;

use super::form::Form;

/// Listen for as long as the page lives.
pub(crate) fn watch(form: Form) {
    let handle = window_event_listener(leptos::ev::keydown, move |event| {
        if event.ctrl_key() || event.alt_key() || event.meta_key() || is_typing(&event) {
            return;
        }
        if press(&event.key()) {
            event.prevent_default();
        }
        let _ = form;
    });
    std::mem::forget(handle);
}

/// True where the key belongs to a text field.
fn is_typing(event: &web_sys::KeyboardEvent) -> bool {
    let target = event.target().and_then(|t| t.dyn_into::<web_sys::Element>().ok());
    target.is_some_and(|t| matches!(t.tag_name().as_str(), "INPUT" | "TEXTAREA" | "SELECT"))
}

fn press(key: &str) -> bool {
    let pad = |name: &str| click(&format!("[data-key='{name}']"));
    match key {
        digit if digit.len() == 1 && digit.bytes().all(|b| b.is_ascii_digit()) => pad(digit) || nth_tile(digit),
        "." | "," => pad("point"),
        "-" => pad("minus"),
        "Backspace" => pad("rub"),
        _ => false,
    }
}

fn click(selector: &str) -> bool {
    let found = document().query_selector(selector).ok().flatten();
    found.and_then(|e| e.dyn_into::<web_sys::HtmlElement>().ok()).map(|e| e.click()).is_some()
}

fn nth_tile(digit: &str) -> bool {
    let Some(place) = digit.parse::<u32>().ok().and_then(|n| n.checked_sub(1)) else { return false };
    let tiles = document().query_selector_all("main [data-tile]").ok();
    let tile = tiles.and_then(|all| all.item(place)).and_then(|n| n.dyn_into::<web_sys::HtmlElement>().ok());
    tile.map(|t| t.click()).is_some()
}
