//! A file made in the page, to be shared or saved.

use js_sys::{Array, Uint8Array};
use wasm_bindgen::JsValue;

use super::PlatformError;

/// A file to hand over.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OutFile {
    /// Its name. Browsers share only few kinds: `.txt` and `.jpg` among them, `.json` not.
    pub name: String,
    /// Media type, such as `text/plain`.
    pub media: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

impl OutFile {
    /// A text file.
    pub fn text(name: &str, text: &str) -> Self {
        Self { name: name.to_owned(), media: "text/plain".to_owned(), bytes: text.as_bytes().to_vec() }
    }

    pub(crate) fn make(&self) -> Result<web_sys::File, PlatformError> {
        let parts = Array::of1(&Uint8Array::from(self.bytes.as_slice()));
        let options = web_sys::FilePropertyBag::new();
        options.set_type(&self.media);
        let parts: &JsValue = parts.as_ref();
        web_sys::File::new_with_u8_array_sequence_and_options(parts, &self.name, &options)
            .map_err(|e| PlatformError::of(&e))
    }
}
