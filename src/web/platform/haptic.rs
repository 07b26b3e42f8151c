//! A short buzz in the hand, where the phone has one: a tick that is felt through a mitten.

use js_sys::Function;
use wasm_bindgen::JsValue;

use super::{PlatformError, navigator, part};

/// Milliseconds: felt, and over before the next tap.
const TICK_MS: u32 = 20;

/// Buzz once.
///
/// # Errors
/// Where the browser has no such thing. One that has it may still do nothing, and does not say so.
pub fn tick() -> Result<(), PlatformError> {
    let navigator = navigator()?;
    let vibrate: Function = part(&navigator, "vibrate")?;
    vibrate.call1(&navigator, &JsValue::from(TICK_MS)).map(drop).map_err(|e| PlatformError::of(&e))
}
