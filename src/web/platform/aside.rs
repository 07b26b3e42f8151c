//! A second thread beside the page with the same program in it (`public/office/aside.js`), for work that would hold the
//! page.
//!
//! Page to thread: `[program, address of its glue]`, and after `true` came back `[text, name, bytes, name, bytes, …]`.
//! Thread to page: the same with a blob for bytes, so that what is only saved never goes through the page; or a text that
//! says why not.

use std::collections::BTreeMap;
use std::sync::Arc;

use futures_util::future::{Either, select};
use js_sys::{Array, ArrayBuffer, Function, Promise, Uint8Array};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{Blob, BlobPropertyBag, DedicatedWorkerGlobalScope, MessageEvent, Url, Worker};

use super::clock::pause_ms;
use super::{PlatformError, part, window};

/// Files by name.
pub type Files = BTreeMap<String, Arc<[u8]>>;

/// Files by name that the browser holds.
pub type Blobs = BTreeMap<String, Blob>;

/// Beside the page.
const SCRIPT: &str = "aside.js";
/// A thread that has not begun by then is none: its script may hang on a bad network.
const READY_MS: i32 = 20_000;
/// So many bytes are copied before the page looks for taps.
const COPIED_AT_ONCE: u32 = 4 << 20;

/// The thread. It ends with this.
#[derive(Debug)]
pub struct Aside(Worker);

impl Drop for Aside {
    fn drop(&mut self) {
        self.0.terminate();
    }
}

impl Aside {
    /// Begins one.
    ///
    /// # Errors
    /// The browser has none for this page, or its script cannot be had just now.
    pub async fn start() -> Result<Self, PlatformError> {
        let fault = |e: JsValue| PlatformError::of(&e);
        let none = PlatformError::NotHere("a second thread");
        // What is lacking is asked for first.
        let _: Function = part(&js_sys::global(), "Worker")?;
        let document = window()?.document().ok_or(PlatformError::NotHere("a page"))?;
        let base = document.base_uri().map_err(fault)?.unwrap_or_default();
        let address = |at: &str| Url::new_with_base(at, &base).map(|url| url.href()).map_err(fault);
        // The build gives the glue a name of its own each time, and names it in the page's head.
        let link = document.query_selector("link[rel=modulepreload]").map_err(fault)?;
        let glue = link.and_then(|link| link.get_attribute("href")).ok_or(none)?;
        let aside = Self(Worker::new(&address(SCRIPT)?).map_err(fault)?);
        let ready = aside.next();
        let begin = Array::of2(&wasm_bindgen::module(), &address(&glue)?.into());
        aside.0.post_message(&begin).map_err(fault)?;
        match select(Box::pin(ready), Box::pin(pause_ms(READY_MS))).await {
            Either::Left((said, _)) => match said?.as_bool() {
                Some(true) => Ok(aside),
                _ => Err(PlatformError::Failed("the second thread did not begin".to_owned())),
            },
            Either::Right(_) => Err(PlatformError::Failed("the second thread did not begin in time".to_owned())),
        }
    }

    /// What it says next; a text is a fault.
    fn next(&self) -> impl Future<Output = Result<JsValue, PlatformError>> + use<> {
        let worker = &self.0;
        let said = Promise::new(&mut |resolve, reject| {
            worker.set_onmessage(Some(&resolve));
            worker.set_onerror(Some(&reject));
        });
        async move {
            let event = JsFuture::from(said).await.map_err(|e| PlatformError::of(&e))?;
            let data = event.unchecked_into::<MessageEvent>().data();
            match data.as_string() {
                Some(why) => Err(PlatformError::Failed(why)),
                None => Ok(data),
            }
        }
    }

    /// Hands it a text and files, and waits for what it makes of them.
    ///
    /// # Errors
    /// It ended in between; most likely the memory was not enough.
    pub async fn ask(self, text: &str, files: &Files) -> Result<(String, Blobs), PlatformError> {
        let parcel = Array::of1(&text.into());
        let transfer = Array::new();
        let mut copied = 0;
        for (name, bytes) in files {
            let bytes = Uint8Array::from(&**bytes);
            parcel.push(&name.into());
            parcel.push(&bytes);
            transfer.push(&bytes.buffer());
            copied += bytes.length();
            if copied >= COPIED_AT_ONCE {
                copied = 0;
                pause_ms(0).await;
            }
        }
        let answer = self.next();
        self.0.post_message_with_transfer(&parcel, &transfer).map_err(|e| PlatformError::of(&e))?;
        let answer: Array = answer.await?.unchecked_into();
        Ok((answer.shift().as_string().unwrap_or_default(), rest(&answer).collect()))
    }
}

/// The files of a parcel whose text was taken.
fn rest<T: JsCast>(parcel: &Array) -> impl Iterator<Item = (String, T)> + '_ {
    std::iter::from_fn(|| {
        let more = parcel.length() > 0;
        more.then(|| (parcel.shift().as_string().unwrap_or_default(), parcel.shift().unchecked_into()))
    })
}

/// Bytes of a file that the browser holds.
///
/// # Errors
/// They are no longer there.
pub async fn bytes(of: &Blob) -> Result<Vec<u8>, PlatformError> {
    let buffer = JsFuture::from(of.array_buffer()).await.map_err(|e| PlatformError::of(&e))?;
    Ok(Uint8Array::new(&buffer.unchecked_into::<ArrayBuffer>()).to_vec())
}

fn blob(bytes: &[u8]) -> Result<Blob, JsValue> {
    let options = BlobPropertyBag::new();
    // What else it is, its name says.
    options.set_type("application/octet-stream");
    Blob::new_with_u8_array_sequence_and_options(&Array::of1(&Uint8Array::from(bytes)), &options)
}

/// In such a thread: does what the page asks for, and says true. On the page: false.
pub fn serve(work: impl Fn(&str, Files) -> (String, Files) + 'static) -> bool {
    let Ok(scope) = js_sys::global().dyn_into::<DedicatedWorkerGlobalScope>() else { return false };
    let own = scope.clone();
    let hear = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
        let parcel: Array = event.data().unchecked_into();
        let text = parcel.shift().as_string().unwrap_or_default();
        let files = rest::<Uint8Array>(&parcel).map(|(name, bytes)| (name, bytes.to_vec().into())).collect();
        let (text, files) = work(&text, files);
        let parcel = Array::of1(&text.into());
        let all = files.iter().try_for_each(|(name, bytes)| {
            parcel.push(&name.into());
            parcel.push(&blob(bytes)?.into());
            Ok::<_, JsValue>(())
        });
        let answer = all.map_or_else(|fault| PlatformError::of(&fault).to_string().into(), |()| parcel.into());
        // Where even this fails nobody is left to tell.
        let _ = own.post_message(&answer);
    });
    scope.set_onmessage(Some(hear.as_ref().unchecked_ref()));
    // As long as the thread.
    hear.forget();
    scope.post_message(&JsValue::TRUE).is_ok()
}
