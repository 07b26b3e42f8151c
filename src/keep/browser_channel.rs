//! Word between the tabs of one browser (BroadcastChannel).

use std::cell::RefCell;

use wasm_bindgen::prelude::*;
use web_sys::{BroadcastChannel, MessageEvent};

use super::browser_fault::name_and_message;

type Listener = Closure<dyn FnMut(MessageEvent)>;

/// A channel by name. A page does not hear itself.
pub struct Channel {
    inner: BroadcastChannel,
    listener: RefCell<Option<Listener>>,
}

impl Channel {
    /// Open it.
    ///
    /// # Errors
    /// What the browser says where it has none.
    pub fn open(name: &str) -> Result<Self, String> {
        let inner = BroadcastChannel::new(name).map_err(|e| name_and_message(&e).1)?;
        Ok(Self { inner, listener: RefCell::new(None) })
    }

    /// Tell the others. Nobody may be there to hear; that is no error.
    pub fn tell(&self, word: &str) {
        let _ = self.inner.post_message(&JsValue::from_str(word));
    }

    /// Hear the others; in place of an earlier listener.
    pub fn listen(&self, mut hear: impl FnMut(String) + 'static) {
        let closure = Closure::new(move |event: MessageEvent| {
            if let Some(word) = event.data().as_string() {
                hear(word);
            }
        });
        let function: &js_sys::Function = closure.as_ref().unchecked_ref();
        self.inner.set_onmessage(Some(function));
        *self.listener.borrow_mut() = Some(closure);
    }
}

impl Drop for Channel {
    fn drop(&mut self) {
        self.inner.set_onmessage(None);
        self.inner.close();
    }
}
