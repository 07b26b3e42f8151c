//! The lock that makes this page the only writer among the tabs of one browser (Web Locks).

use js_sys::{Function, Object, Promise, Reflect};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

use super::browser_fault::name_and_message;

/// Why the lock was not given.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoLock {
    /// Another tab or window of this browser holds it.
    #[error("the form is open in another tab or window of this browser")]
    Elsewhere,
    /// The browser has no locks for this page: too old, or the address is not a safe one (https).
    #[error("this browser gives no lock to this page ({0}); an address with https is needed")]
    Unavailable(String),
}

#[wasm_bindgen]
extern "C" {
    // `web-sys` has locks only among its unstable parts.
    type Locks;

    #[wasm_bindgen(method, catch)]
    fn request(this: &Locks, name: &str, options: &JsValue, callback: &JsValue) -> Result<Promise, JsValue>;
}

/// The lock, held until this is dropped or the page goes away.
#[derive(Debug)]
pub struct Lock {
    release: Function,
}

impl Drop for Lock {
    fn drop(&mut self) {
        let _ = self.release.call0(&JsValue::UNDEFINED);
    }
}

/// How often the lock is asked for, and how long is waited in between. A page that is loaded anew may
/// come before the browser has taken the lock from the page that it replaces.
const TRIES: u32 = 5;
const PAUSE_MS: i32 = 80;

/// Take the lock if nobody has it.
///
/// # Errors
/// Where another page has it, or there are no locks.
pub async fn take(name: &str) -> Result<Lock, NoLock> {
    for _ in 1..TRIES {
        match ask(name, true).await {
            Err(NoLock::Elsewhere) => pause().await,
            other => return other,
        }
    }
    ask(name, true).await
}

/// Wait until nobody has the lock, then take it. A page that only shows can so learn that it may be
/// loaded anew for writing.
///
/// # Errors
/// Where there are no locks.
pub async fn wait(name: &str) -> Result<Lock, NoLock> {
    ask(name, false).await
}

async fn ask(name: &str, only_if_free: bool) -> Result<Lock, NoLock> {
    let unavailable = |error: JsValue| {
        let (name, message) = name_and_message(&error);
        NoLock::Unavailable(format!("{name} {message}").trim().to_owned())
    };
    let locks = locks().ok_or_else(|| NoLock::Unavailable("no locks".to_owned()))?;
    let options = Object::new();
    Reflect::set(&options, &"ifAvailable".into(), &only_if_free.into()).map_err(unavailable)?;
    let (answer, tell) = deferred();
    let (held, release) = deferred();
    let callback = Closure::once_into_js(move |lock: JsValue| -> JsValue {
        let given = !lock.is_null() && !lock.is_undefined();
        if let Some(tell) = tell {
            let _ = tell.call1(&JsValue::UNDEFINED, &given.into());
        }
        // The lock lasts as long as the promise that this gives back is open.
        if given { held.into() } else { JsValue::UNDEFINED }
    });
    let whole = locks.request(name, &options, &callback).map_err(unavailable)?;
    // A refusal comes by the request's own promise, an answer by the callback: whichever is first.
    let first = Promise::race(&js_sys::Array::of2(&answer, &whole));
    let given = JsFuture::from(first).await.map_err(unavailable)?;
    match (given.as_bool(), release) {
        (Some(true), Some(release)) => Ok(Lock { release }),
        _ => Err(NoLock::Elsewhere),
    }
}

async fn pause() {
    let wait = Promise::new(&mut |done, _| {
        let window = web_sys::window();
        // Without a timer the pause is none.
        if window.is_none_or(|w| w.set_timeout_with_callback_and_timeout_and_arguments_0(&done, PAUSE_MS).is_err()) {
            let _ = done.call0(&JsValue::UNDEFINED);
        }
    });
    let _ = JsFuture::from(wait).await;
}

fn locks() -> Option<Locks> {
    let navigator = web_sys::window()?.navigator();
    let locks = Reflect::get(&navigator, &"locks".into()).ok()?;
    locks.is_object().then(|| locks.unchecked_into())
}

fn deferred() -> (Promise, Option<Function>) {
    let mut resolve = None;
    let promise = Promise::new(&mut |done, _| resolve = Some(done));
    (promise, resolve)
}
