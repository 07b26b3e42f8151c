//! Local time with its offset, the zone's name, and a clock that nobody can set.

use std::cell::RefCell;

use js_sys::{Date, Function, Object, Reflect};
use wasm_bindgen::JsValue;

use super::{PlatformError, part, window};
use crate::record::{Day, Moment};

/// Milliseconds since 1970 by the device's clock, which may be wrong and may be set.
pub fn unix_ms() -> u64 {
    whole_ms(Date::now())
}

/// The local time now.
///
/// # Errors
/// Where the device's clock stands outside the years 0 to 9999.
pub fn now() -> Result<Moment, PlatformError> {
    let date = Date::new_0();
    #[allow(clippy::cast_possible_truncation)] // an f64 of this size is a whole number of seconds
    let seconds = (date.get_time() / 1000.0).floor() as i64;
    Moment::from_unix(seconds, offset_minutes(date.get_timezone_offset()))
        .map_err(|e| PlatformError::Failed(e.to_string()))
}

/// Minutes east of UTC from what `Date.getTimezoneOffset` gives, which counts minutes west
/// (ECMAScript, `Date.prototype.getTimezoneOffset`: UTC less local time).
#[allow(clippy::cast_possible_truncation)] // at most some hundreds of minutes
pub fn offset_minutes(timezone_offset: f64) -> i32 {
    -timezone_offset.round() as i32
}

/// Minutes east of UTC at the beginning of a day, as this machine's zone has them.
pub fn offset_on(day: Day) -> i32 {
    let date = day.date();
    let month = i32::from(u8::from(date.month())) - 1;
    let at = Date::new_with_year_month_day(date.year().unsigned_abs(), month, i32::from(date.day()));
    offset_minutes(at.get_timezone_offset())
}

/// Waits, so that the browser can draw what was said before a long piece of work begins.
pub async fn pause_ms(ms: i32) {
    let wait = js_sys::Promise::new(&mut |resolve, _| {
        if let Ok(window) = window() {
            let _ = window.set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, ms);
        }
    });
    let _ = wasm_bindgen_futures::JsFuture::from(wait).await;
}

/// Waits until what was said has been drawn; on a page that nobody looks at, and so is not drawn, a moment.
pub async fn drawn() {
    let wait = js_sys::Promise::new(&mut |resolve, _| {
        if let Ok(window) = window() {
            let _ = window.request_animation_frame(&resolve);
            let _ = window.set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, 100);
        }
    });
    let _ = wasm_bindgen_futures::JsFuture::from(wait).await;
    // Asked before it is drawn; this comes after.
    pause_ms(0).await;
}

/// The zone's name, such as `America/Toronto`; empty where the browser tells none.
///
/// Asked for with every tap, and slow to ask for: the name is that of the last time as long as the offset is.
pub fn zone() -> String {
    thread_local! {
        static LAST: RefCell<Option<(i32, String)>> = const { RefCell::new(None) };
    }
    let offset = offset_minutes(Date::new_0().get_timezone_offset());
    LAST.with_borrow_mut(|last| match last {
        Some((then, name)) if *then == offset => name.clone(),
        _ => last.insert((offset, resolved_zone().unwrap_or_default())).1.clone(),
    })
}

fn resolved_zone() -> Option<String> {
    let intl: Object = part(&js_sys::global(), "Intl").ok()?;
    let make: Function = part(&intl, "DateTimeFormat").ok()?;
    let format = make.call0(&JsValue::UNDEFINED).ok()?;
    let resolve: Function = part(&format, "resolvedOptions").ok()?;
    let options = resolve.call0(&format).ok()?;
    Reflect::get(&options, &"timeZone".into()).ok()?.as_string()
}

/// Milliseconds since the page was opened, by a clock that cannot be set. It may stand still while the
/// phone sleeps, and begins at 0 again with each opening.
///
/// # Errors
/// Where the browser has none.
pub fn monotonic_ms() -> Result<u64, PlatformError> {
    let performance = window()?.performance().ok_or(PlatformError::NotHere("a clock that cannot be set"))?;
    Ok(whole_ms(performance.now()))
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // clocks give 0 to some 10^12
fn whole_ms(ms: f64) -> u64 {
    ms.max(0.0) as u64
}
