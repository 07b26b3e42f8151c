//! Files beside the page: kept on the phone with it, so that they are there without signal.

use wasm_bindgen::JsCast as _;

/// A file beside the page; `None` where there is none.
pub(crate) async fn text(address: &str) -> Option<String> {
    let window = web_sys::window()?;
    let response = wasm_bindgen_futures::JsFuture::from(window.fetch_with_str(address)).await.ok()?;
    let response: web_sys::Response = response.dyn_into().ok()?;
    if !response.ok() {
        return None;
    }
    let text = wasm_bindgen_futures::JsFuture::from(response.text().ok()?).await.ok()?;
    text.as_string()
}
