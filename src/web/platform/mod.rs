//! The edges of the browser, each a small wrapper that gives a `Result` and never panics.
//!
//! A browser may lack any of these, and refuse any of them at any time. What is lacking is asked for
//! before it is called: a call of something that is not there would end the form.

pub mod aside;
#[cfg(target_arch = "wasm32")]
pub mod channel;
pub mod clipboard;
pub mod clock;
pub mod download;
pub mod file;
pub mod folder;
pub mod frames_part;
pub mod haptic;
#[cfg(target_arch = "wasm32")]
pub mod lock;
pub mod page;
pub mod position;
pub mod print;
pub mod random;
pub mod share;
pub mod storage;
pub mod wake_lock;

use js_sys::Reflect;
use wasm_bindgen::{JsCast, JsValue};

/// Why an edge gave nothing.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PlatformError {
    /// This browser does not have it, or not for a page without https.
    #[error("this browser does not offer {0}")]
    NotHere(&'static str),
    /// The person or the browser said no.
    #[error("not allowed: {0}")]
    NotAllowed(String),
    /// The person closed the sheet. Nothing needs to be said.
    #[error("cancelled")]
    Cancelled,
    /// Anything else, in the browser's own words.
    #[error("{0}")]
    Failed(String),
}

impl PlatformError {
    /// From what the browser threw. Names as in the Web IDL standard's table of error names.
    pub(crate) fn of(error: &JsValue) -> Self {
        let text = |name: &str| Reflect::get(error, &name.into()).ok().and_then(|value| value.as_string());
        let name = text("name").unwrap_or_default();
        let message = text("message").or_else(|| error.as_string()).unwrap_or_default();
        match name.as_str() {
            "AbortError" => Self::Cancelled,
            "NotAllowedError" | "SecurityError" => Self::NotAllowed(message),
            _ if name.is_empty() => Self::Failed(message),
            _ => Self::Failed(format!("{name}: {message}")),
        }
    }
}

/// A part of an object of the browser, taken for a `T`, if it is there at all.
fn part<T: JsCast>(owner: &impl AsRef<JsValue>, name: &'static str) -> Result<T, PlatformError> {
    let found = Reflect::get(owner.as_ref(), &name.into()).map_err(|e| PlatformError::of(&e))?;
    if found.is_object() || found.is_function() {
        Ok(found.unchecked_into())
    } else {
        Err(PlatformError::NotHere(name))
    }
}

/// What of the phone's own this browser does not have at all: messages that say what works in its place.
pub(crate) fn lacking() -> Vec<&'static str> {
    let Ok(navigator) = navigator() else { return Vec::new() };
    [("geolocation", "lacks.position"), ("wakeLock", "lacks.awake"), ("canShare", "lacks.share")]
        .into_iter()
        .filter(|(name, _)| part::<JsValue>(&navigator, name).is_err())
        .map(|(_, message)| message)
        .collect()
}

fn window() -> Result<web_sys::Window, PlatformError> {
    web_sys::window().ok_or(PlatformError::NotHere("a page"))
}

fn navigator() -> Result<web_sys::Navigator, PlatformError> {
    Ok(window()?.navigator())
}
