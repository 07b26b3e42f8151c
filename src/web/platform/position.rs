//! Where the phone is (W3C Geolocation).

use js_sys::{Function, Reflect};
use wasm_bindgen::prelude::*;

use super::{PlatformError, navigator, part};
use crate::record::{Place, PlaceSource};

#[wasm_bindgen]
extern "C" {
    #[derive(Clone)]
    type Locator;

    #[wasm_bindgen(method, catch, js_name = watchPosition)]
    fn watch(this: &Locator, found: &Function, failed: &Function, options: &JsValue) -> Result<i32, JsValue>;
    #[wasm_bindgen(method, catch, js_name = clearWatch)]
    fn clear(this: &Locator, watch: i32) -> Result<(), JsValue>;
}

/// One position.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fix {
    /// The place, with the radius that holds it with 95 % confidence (W3C Geolocation, `accuracy`).
    pub place: Place,
    /// When it was measured: milliseconds since 1970 by the device's clock. May be old.
    pub unix_ms: u64,
}

/// Why there is no position. The codes are those of the W3C Geolocation standard.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoFix {
    /// The person or a setting said no (code 1).
    #[error("the phone does not give its position to this page: {0}")]
    Denied(String),
    /// No position yet (code 2). A cold start without network takes minutes; the watch goes on.
    #[error("no position yet: {0}")]
    NotYet(String),
    /// This browser has no position to give.
    #[error(transparent)]
    Platform(#[from] PlatformError),
}

/// A watch; it ends when this is dropped.
pub struct Watch {
    locator: Locator,
    id: i32,
    _found: Closure<dyn FnMut(JsValue)>,
    _failed: Closure<dyn FnMut(JsValue)>,
}

/// Watch the position, as exactly as the phone can, for as long as it takes.
///
/// # Errors
/// Where the browser has none to give. What comes later comes to `hear`.
pub fn watch(hear: impl FnMut(Result<Fix, NoFix>) + 'static) -> Result<Watch, PlatformError> {
    let locator: Locator = part(&navigator()?, "geolocation")?;
    let hear = std::rc::Rc::new(std::cell::RefCell::new(hear));
    let other = std::rc::Rc::clone(&hear);
    // A listener that is still busy with the last position misses one; the next comes soon.
    let found: Closure<dyn FnMut(JsValue)> = Closure::new(move |position: JsValue| {
        if let (Some(fix), Ok(mut hear)) = (fix(&position), hear.try_borrow_mut()) {
            hear(Ok(fix));
        }
    });
    let failed: Closure<dyn FnMut(JsValue)> = Closure::new(move |error: JsValue| {
        if let Ok(mut hear) = other.try_borrow_mut() {
            hear(Err(no_fix(&error)));
        }
    });
    // No timeout: the first position may take minutes, and nothing waits for it.
    let options = js_sys::Object::new();
    for (name, value) in [("enableHighAccuracy", JsValue::TRUE), ("maximumAge", 5000.into())] {
        Reflect::set(&options, &name.into(), &value).map_err(|e| PlatformError::of(&e))?;
    }
    let id = locator
        .watch(found.as_ref().unchecked_ref(), failed.as_ref().unchecked_ref(), &options)
        .map_err(|e| PlatformError::of(&e))?;
    Ok(Watch { locator, id, _found: found, _failed: failed })
}

impl Drop for Watch {
    fn drop(&mut self) {
        let _ = self.locator.clear(self.id);
    }
}

fn fix(position: &JsValue) -> Option<Fix> {
    let get = |owner: &JsValue, name: &str| Reflect::get(owner, &name.into()).ok();
    let coords = get(position, "coords")?;
    let number = |owner: &JsValue, name: &str| get(owner, name)?.as_f64().filter(|n| n.is_finite());
    let place = place(number(&coords, "latitude")?, number(&coords, "longitude")?, number(&coords, "accuracy"));
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // a clock's milliseconds
    let unix_ms = number(position, "timestamp")?.max(0.0) as u64;
    Some(Fix { place, unix_ms })
}

/// Degrees and metres as the record writes them. The radius is rounded up: it must not look better
/// than it is.
#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // degrees, and metres cut to a u32
pub fn place(lat: f64, lon: f64, accuracy_m: Option<f64>) -> Place {
    Place {
        lat_e7: (lat * 1e7).round() as i64,
        lon_e7: (lon * 1e7).round() as i64,
        accuracy_m_95: accuracy_m.map(|m| m.ceil().clamp(0.0, f64::from(u32::MAX)) as u32),
        source: PlaceSource::Device,
    }
}

fn no_fix(error: &JsValue) -> NoFix {
    let code = Reflect::get(error, &"code".into()).ok().and_then(|code| code.as_f64());
    let message = Reflect::get(error, &"message".into()).ok().and_then(|text| text.as_string()).unwrap_or_default();
    if code.is_some_and(|code| (0.5..1.5).contains(&code)) { NoFix::Denied(message) } else { NoFix::NotYet(message) }
}
