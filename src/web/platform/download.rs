//! Saving a file among the phone's downloads.

use wasm_bindgen::prelude::*;
use web_sys::{Blob, HtmlAnchorElement, Url};

use super::file::OutFile;
use super::{PlatformError, window};

/// How long the file stays at hand for the browser to fetch.
const KEEP_MS: i32 = 60_000;

/// Offer a file for saving. The browser does not tell whether it was saved. On an iPhone, from the home
/// screen, share instead: there are no downloads there.
///
/// # Errors
/// Where the page cannot make the file.
pub fn download(file: &OutFile) -> Result<(), PlatformError> {
    offer(&file.name, &*file.make()?)
}

/// The same of bytes that the browser holds already.
///
/// # Errors
/// Where the page cannot make the file.
pub fn offer(name: &str, held: &Blob) -> Result<(), PlatformError> {
    let fault = |e: JsValue| PlatformError::of(&e);
    let window = window()?;
    let document = window.document().ok_or(PlatformError::NotHere("a page"))?;
    let url = Url::create_object_url_with_blob(held).map_err(fault)?;
    let link: HtmlAnchorElement = document.create_element("a").map_err(fault)?.unchecked_into();
    link.set_href(&url);
    link.set_download(name);
    link.click();
    let forget = Closure::once_into_js(move || {
        let _ = Url::revoke_object_url(&url);
    });
    window
        .set_timeout_with_callback_and_timeout_and_arguments_0(forget.unchecked_ref(), KEEP_MS)
        .map(drop)
        .map_err(fault)
}
