//! The phone's clocks and random bytes.

use wasm_bindgen::JsValue;

use crate::record::Moment;

use super::session::{Source, When};

/// The browser as a source of times and random bytes.
#[derive(Clone, Copy)]
pub(crate) struct Phone;

impl Source for Phone {
    fn when(&self) -> When {
        let date = js_sys::Date::new_0();
        let unix_ms = whole(date.get_time());
        let offset_min = -whole_signed(date.get_timezone_offset());
        let seconds = i64::try_from(unix_ms / 1000).unwrap_or_default();
        let at = Moment::from_unix(seconds, offset_min).unwrap_or(Moment::EPOCH);
        When { at, zone: zone_name(), unix_ms, steady_ms: whole(steady_ms()) }
    }

    fn random<const N: usize>(&self) -> [u8; N] {
        let mut bytes = [0_u8; N];
        // Every browser that runs this wasm has a source of random bytes; without one the ids of one
        // phone could meet, which the time in them still keeps apart.
        let _ = getrandom::fill(&mut bytes);
        bytes
    }
}

/// Milliseconds by the clock that nobody can set.
pub(crate) fn steady_ms() -> f64 {
    web_sys::window().and_then(|w| w.performance()).map_or(0.0, |p| p.now())
}

fn zone_name() -> String {
    let options = js_sys::Intl::DateTimeFormat::default().resolved_options();
    js_sys::Reflect::get(&options, &JsValue::from_str("timeZone")).ok().and_then(|z| z.as_string()).unwrap_or_default()
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
fn whole(ms: f64) -> u64 {
    ms.max(0.0) as u64
}

#[allow(clippy::cast_possible_truncation)]
fn whole_signed(minutes: f64) -> i32 {
    minutes as i32
}
