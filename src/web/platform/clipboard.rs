//! Copying text.

use js_sys::Promise;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

use super::{PlatformError, navigator, part};

#[wasm_bindgen]
extern "C" {
    type Clip;

    #[wasm_bindgen(method, catch, js_name = writeText)]
    fn write_text(this: &Clip, text: &str) -> Result<Promise, JsValue>;
}

/// Copy a text. Call it from a tap.
///
/// # Errors
/// Where the browser does not allow it: select the text on screen and let the person copy it.
pub async fn copy(text: &str) -> Result<(), PlatformError> {
    let clip: Clip = part(&navigator()?, "clipboard")?;
    let promise = clip.write_text(text).map_err(|e| PlatformError::of(&e))?;
    JsFuture::from(promise).await.map(drop).map_err(|e| PlatformError::of(&e))
}
