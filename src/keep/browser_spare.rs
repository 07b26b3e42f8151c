//! The second copy in the browser: Cache Storage, where each piece is a file of its own.

use js_sys::{Array, Promise, Uint8Array};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{Cache, Request, Response};

use super::browser_fault::store_error;
use super::spare::Spare;
use super::store::StoreError;

/// Pieces lie under this address, of which nothing is ever asked of a server.
const WHERE: &str = "/marrowbook.spare/";

/// A cache by its name.
pub struct CacheSpare {
    name: String,
}

impl CacheSpare {
    /// The worker that keeps the program's files takes no cache of this name for one of its own: theirs hold a folder.
    pub fn new(name: &str) -> Self {
        Self { name: name.to_owned() }
    }

    async fn cache(&self) -> Result<Cache, StoreError> {
        let window = web_sys::window().ok_or_else(|| StoreError::Refused("no page".to_owned()))?;
        let caches = window.caches().map_err(|e| store_error(&e))?;
        // An address that is not a safe one has none.
        if caches.is_falsy() {
            return Err(StoreError::Refused("this browser has no second store".to_owned()));
        }
        done(caches.open(&self.name)).await
    }
}

async fn done<T: JsCast>(promise: Promise) -> Result<T, StoreError> {
    JsFuture::from(promise).await.map(JsCast::unchecked_into).map_err(|e| store_error(&e))
}

fn address(name: &str) -> String {
    format!("{WHERE}{name}")
}

impl Spare for CacheSpare {
    async fn names(&self) -> Result<Vec<String>, StoreError> {
        let keys: Array = done(self.cache().await?.keys()).await?;
        let name = |key: JsValue| Some(key.unchecked_into::<Request>().url().split_once(WHERE)?.1.to_owned());
        Ok(keys.iter().filter_map(name).collect())
    }

    async fn get(&self, name: &str) -> Result<Option<Vec<u8>>, StoreError> {
        let found: JsValue = done(self.cache().await?.match_with_str(&address(name))).await?;
        if found.is_undefined() {
            return Ok(None);
        }
        let found: Response = found.unchecked_into();
        let bytes: JsValue = done(found.array_buffer().map_err(|e| store_error(&e))?).await?;
        Ok(Some(Uint8Array::new(&bytes).to_vec()))
    }

    async fn put(&self, name: &str, bytes: &[u8]) -> Result<(), StoreError> {
        let body = Uint8Array::from(bytes);
        let piece = Response::new_with_opt_js_u8_array(Some(&body)).map_err(|e| store_error(&e))?;
        let put = done::<JsValue>(self.cache().await?.put_with_str(&address(name), &piece)).await;
        match put {
            // What browsers say here when the disk is full: Chromium `UnknownError` (seen), others a quota.
            Err(StoreError::Lost(_)) => Err(StoreError::Full),
            other => other.map(drop),
        }
    }

    async fn drop(&self, name: &str) -> Result<(), StoreError> {
        done::<JsValue>(self.cache().await?.delete_with_str(&address(name))).await.map(drop)
    }
}
