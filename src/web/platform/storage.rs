//! How long and how much the browser keeps for this page.

use js_sys::Promise;
use serde::Deserialize;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

use super::{PlatformError, navigator, part};

#[wasm_bindgen]
extern "C" {
    type Manager;

    #[wasm_bindgen(method, catch)]
    fn persist(this: &Manager) -> Result<Promise, JsValue>;
    #[wasm_bindgen(method, catch)]
    fn persisted(this: &Manager) -> Result<Promise, JsValue>;
    #[wasm_bindgen(method, catch)]
    fn estimate(this: &Manager) -> Result<Promise, JsValue>;
}

/// What is used and what the browser allows, both estimates of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Estimate {
    /// Bytes in use.
    pub used_bytes: u64,
    /// Bytes allowed.
    pub quota_bytes: u64,
}

/// As the browser gives it (Storage Standard, `StorageEstimate`).
#[derive(Deserialize)]
struct Given {
    usage: f64,
    quota: f64,
}

fn manager() -> Result<Manager, PlatformError> {
    part(&navigator()?, "storage")
}

/// Ask the browser not to delete the records when the phone runs short. The answer is shown, and not
/// relied upon.
///
/// # Errors
/// Where the browser knows no such promise.
pub async fn persist() -> Result<bool, PlatformError> {
    answer(manager()?.persist()).await
}

/// Whether the browser has promised that.
///
/// # Errors
/// Where the browser knows no such promise.
pub async fn persisted() -> Result<bool, PlatformError> {
    answer(manager()?.persisted()).await
}

async fn answer(asked: Result<Promise, JsValue>) -> Result<bool, PlatformError> {
    let promise = asked.map_err(|e| PlatformError::of(&e))?;
    let given = JsFuture::from(promise).await.map_err(|e| PlatformError::of(&e))?;
    Ok(given.is_truthy())
}

/// How full it is.
///
/// # Errors
/// Where the browser does not say.
pub async fn estimate() -> Result<Estimate, PlatformError> {
    let promise = manager()?.estimate().map_err(|e| PlatformError::of(&e))?;
    let given = JsFuture::from(promise).await.map_err(|e| PlatformError::of(&e))?;
    let Given { usage, quota } =
        serde_wasm_bindgen::from_value(given).map_err(|_| PlatformError::NotHere("an estimate of its storage"))?;
    Ok(Estimate { used_bytes: whole(usage), quota_bytes: whole(quota) })
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // byte counts of a disk
fn whole(bytes: f64) -> u64 {
    bytes.max(0.0) as u64
}
