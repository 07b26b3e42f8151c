//! The phone's share sheet.

use js_sys::{Array, Object, Promise, Reflect};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

use super::file::OutFile;
use super::{PlatformError, navigator, part};

#[wasm_bindgen]
extern "C" {
    #[derive(Clone, Debug)]
    type Sharer;

    #[wasm_bindgen(method, catch)]
    fn share(this: &Sharer, data: &JsValue) -> Result<Promise, JsValue>;
    #[wasm_bindgen(method, catch, js_name = canShare)]
    fn can_share(this: &Sharer, data: &JsValue) -> Result<bool, JsValue>;
}

/// Files made ready for the share sheet. Make them before the tap: the tap counts for some seconds
/// only.
#[derive(Clone, Debug)]
pub struct Ready {
    sharer: Sharer,
    data: Object,
}

/// Make files ready, if this browser shares files of that kind at all.
///
/// # Errors
/// Where it does not: offer another way.
pub fn ready(files: &[OutFile], title: &str) -> Result<Ready, PlatformError> {
    let navigator = navigator()?;
    part::<js_sys::Function>(&navigator, "share")?;
    part::<js_sys::Function>(&navigator, "canShare")?;
    let sharer: Sharer = JsValue::from(navigator).unchecked_into();
    let list = Array::new();
    for file in files {
        let file = file.make()?;
        list.push(&file);
    }
    let data = Object::new();
    let set = |name: &str, value: &JsValue| Reflect::set(&data, &name.into(), value).map_err(|e| PlatformError::of(&e));
    set("files", &list)?;
    set("title", &title.into())?;
    match sharer.can_share(&data) {
        Ok(true) => Ok(Ready { sharer, data }),
        Ok(false) => Err(PlatformError::NotHere("sharing of such files")),
        Err(error) => Err(PlatformError::of(&error)),
    }
}

impl Ready {
    /// Open the sheet. Call it from the tap itself. That it ends well does not mean that anything
    /// arrived: only the person can say so.
    ///
    /// # Errors
    /// [`PlatformError::Cancelled`] where the person closed the sheet.
    pub async fn share(&self) -> Result<(), PlatformError> {
        let promise = self.sharer.share(&self.data).map_err(|e| PlatformError::of(&e))?;
        JsFuture::from(promise).await.map(drop).map_err(|e| PlatformError::of(&e))
    }
}
