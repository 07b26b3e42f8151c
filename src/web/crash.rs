//! What happens when the wasm panics.
//!
//! A panic ends in a trap and whatever was half done stays half done, so the form is over. The page's
//! `crash.js`, loaded before the wasm, knows how to say that in words that are already in the page and
//! how to leave a note for the next start; the hook hands it the message and the place in the source.

use wasm_bindgen::prelude::*;

#[wasm_bindgen]
extern "C" {
    // `catch`: where the page has no such function, the trap that follows is still seen by `crash.js`
    // or by nobody, and a second failure in here would hide the first one's message.
    #[wasm_bindgen(catch, js_name = marrowbookCrash)]
    fn marrowbook_crash(what: &str) -> Result<(), JsValue>;
}

/// From here on every panic is handed to the page.
pub(crate) fn install_hook() {
    std::panic::set_hook(Box::new(|panic| {
        let _ = marrowbook_crash(&panic.to_string());
    }));
}

/// Panics on purpose. No screen calls it: a browser test does, through the wasm's exports, to see that a
/// real panic ends in words and that nothing ticked before it is lost.
#[wasm_bindgen(js_name = panicOnPurpose)]
#[allow(clippy::panic)] // that is its purpose
#[allow(unreachable_pub)] // wasm-bindgen exports only what is `pub`; nothing in Rust calls it
pub fn panic_on_purpose() {
    panic!("asked to panic by a test");
}
