//! Keeping the screen on.

use std::cell::RefCell;
use std::rc::Rc;

use js_sys::{Object, Promise};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{Document, VisibilityState};

use super::{PlatformError, navigator, part, window};

#[wasm_bindgen]
extern "C" {
    type Keeper;
    type Sentinel;

    #[wasm_bindgen(method, catch)]
    fn request(this: &Keeper, kind: &str) -> Result<Promise, JsValue>;
    #[wasm_bindgen(method, catch)]
    fn release(this: &Sentinel) -> Result<Promise, JsValue>;
}

type Held = Rc<RefCell<Option<Sentinel>>>;

/// The screen is kept on until this is dropped.
pub struct Awake {
    held: Held,
    document: Document,
    on_change: Closure<dyn FnMut()>,
}

/// Keep the screen on. The browser ends that whenever the page is hidden; it is asked for anew when the
/// page comes back.
///
/// # Errors
/// Where the browser has no such thing, or the battery is low.
pub async fn keep_awake() -> Result<Awake, PlatformError> {
    let document = window()?.document().ok_or(PlatformError::NotHere("a page"))?;
    let held: Held = Rc::new(RefCell::new(Some(ask().await?)));
    let (again, page) = (Rc::clone(&held), document.clone());
    let on_change = Closure::new(move || {
        if page.visibility_state() == VisibilityState::Visible {
            let held = Rc::clone(&again);
            spawn_local(async move {
                // Refused on coming back: the screen will go dark as it always did.
                let Ok(sentinel) = ask().await else { return };
                // Nobody wants it any more where this is all that is left of the wish.
                if Rc::strong_count(&held) == 1 {
                    let _ = sentinel.release();
                } else {
                    *held.borrow_mut() = Some(sentinel);
                }
            });
        }
    });
    let function: &js_sys::Function = on_change.as_ref().unchecked_ref();
    document.add_event_listener_with_callback("visibilitychange", function).map_err(|e| PlatformError::of(&e))?;
    Ok(Awake { held, document, on_change })
}

async fn ask() -> Result<Sentinel, PlatformError> {
    let keeper: Keeper = part::<Object>(&navigator()?, "wakeLock")?.unchecked_into();
    let promise = keeper.request("screen").map_err(|e| PlatformError::of(&e))?;
    let given = JsFuture::from(promise).await.map_err(|e| PlatformError::of(&e))?;
    Ok(given.unchecked_into())
}

impl Drop for Awake {
    fn drop(&mut self) {
        let function: &js_sys::Function = self.on_change.as_ref().unchecked_ref();
        let _ = self.document.remove_event_listener_with_callback("visibilitychange", function);
        if let Some(sentinel) = self.held.borrow_mut().take() {
            let _ = sentinel.release();
        }
    }
}
