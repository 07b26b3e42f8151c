//! The part that draws codes and reads them: a wasm of its own behind `public/parts/frames.js`, loaded when used.

use js_sys::{Function, Promise, Uint8Array};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

use super::{PlatformError, part, window};

#[wasm_bindgen]
extern "C" {
    /// The module.
    pub type FramesPart;

    #[wasm_bindgen(method, catch)]
    fn ready(this: &FramesPart) -> Result<Promise, JsValue>;
    #[wasm_bindgen(method, catch)]
    fn draw(this: &FramesPart) -> Result<(), JsValue>;
    #[wasm_bindgen(method, catch)]
    fn show(this: &FramesPart, language: &str, bytes: &[u8]) -> Result<Promise, JsValue>;
    #[wasm_bindgen(method, catch)]
    fn take(this: &FramesPart, language: &str) -> Result<Promise, JsValue>;
}

/// Load the part; `at` is its place beside the page.
///
/// # Errors
/// Where it is not kept on this phone and there is no signal, or the browser refuses it.
pub async fn load(at: &str) -> Result<FramesPart, PlatformError> {
    let fault = |e: JsValue| PlatformError::of(&e);
    let import: Function = part(&window()?, "marrowbookPart")?;
    let promise = import.call1(&JsValue::UNDEFINED, &at.into()).map_err(fault)?;
    let module: FramesPart = JsFuture::from(promise.unchecked_into::<Promise>()).await.map_err(fault)?.unchecked_into();
    JsFuture::from(module.ready().map_err(fault)?).await.map_err(fault)?;
    Ok(module)
}

impl FramesPart {
    /// Draw each code that the page has left room for.
    pub fn draw_codes(&self) {
        // Where a text is too long for a code, its lines are on the screen all the same.
        let _ = self.draw();
    }

    /// Show bytes until their room has gone; too many are told there.
    ///
    /// # Errors
    /// Where what it says is not at hand.
    pub async fn begin(&self, language: &str, bytes: &[u8]) -> Result<(), PlatformError> {
        let fault = |e: JsValue| PlatformError::of(&e);
        JsFuture::from(self.show(language, bytes).map_err(fault)?).await.map(drop).map_err(fault)
    }

    /// Look through the camera until a file is whole.
    ///
    /// # Errors
    /// What to tell; `None` where the person has gone on.
    pub async fn look(&self, language: &str) -> Result<Vec<u8>, Option<String>> {
        // What the part throws is what to tell; anything else is the browser's.
        let told = |e: JsValue| {
            (!e.is_undefined()).then(|| e.as_string().unwrap_or_else(|| PlatformError::of(&e).to_string()))
        };
        let came = JsFuture::from(self.take(language).map_err(told)?).await.map_err(told)?;
        Ok(came.unchecked_into::<Uint8Array>().to_vec())
    }
}
