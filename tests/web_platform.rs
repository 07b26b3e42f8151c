//! The edges of the browser: right where they are there, an error where they are not, never a crash.
#![cfg(all(target_arch = "wasm32", feature = "web"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::cell::RefCell;
use std::rc::Rc;

use js_sys::Date;
use marrowbook::record::{Moment, PlaceSource};
use marrowbook::web::platform::file::OutFile;
use marrowbook::web::platform::position::{self, NoFix};
use marrowbook::web::platform::{PlatformError, clipboard, clock, download, random, share, storage, wake_lock};
use wasm_bindgen::prelude::*;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

#[wasm_bindgen(inline_js = r"
// Puts `value` in the place of a part of the navigator until `restore` is called.
const undo = [];
export function replace(name, value) {
  undo.push(() => delete navigator[name]);
  Object.defineProperty(navigator, name, { configurable: true, get() { return value; } });
}
export function restore() { while (undo.length > 0) undo.pop()(); }
export function moveTo(zone, offset) {
  const [of_date, of_format] = [Date.prototype.getTimezoneOffset, Intl.DateTimeFormat];
  Date.prototype.getTimezoneOffset = () => offset;
  Intl.DateTimeFormat = () => ({ resolvedOptions: () => ({ timeZone: zone }) });
  undo.push(() => { Date.prototype.getTimezoneOffset = of_date; Intl.DateTimeFormat = of_format; });
}
export function locator() {
  return {
    cleared: [],
    watchPosition(found, failed, options) {
      this.options = options;
      failed({ code: 2, message: 'searching' });
      found({ coords: { latitude: 46.12345678, longitude: -79.5, accuracy: 4.2 }, timestamp: 1800000000123.7 });
      failed({ code: 1, message: 'switched off' });
      found({ coords: { latitude: NaN, longitude: 1, accuracy: 1 }, timestamp: 1 });
      return 41;
    },
    clearWatch(id) { this.cleared.push(id); },
  };
}
export function refusing(name) {
  const say = () => Promise.reject(new DOMException('closed', name));
  return { share: say, canShare: () => true, writeText: say, request: say };
}
export function sharing(heard) {
  replace('canShare', (data) => data.files.length === 1 && data.files[0].type === 'text/plain');
  replace('share', async (data) => { heard.push(data.title, data.files[0].name, await data.files[0].text()); });
}
export function asleep() {
  const made = [];
  replace('wakeLock', { async request(kind) { const one = { kind, on: true, async release() { this.on = false; } }; made.push(one); return one; } });
  return made;
}
export function comeBack() { document.dispatchEvent(new Event('visibilitychange')); }
export function clickedDownloads() {
  const heard = [];
  const real = HTMLAnchorElement.prototype.click;
  HTMLAnchorElement.prototype.click = function () { heard.push(this.download, this.href); };
  undo.push(() => { HTMLAnchorElement.prototype.click = real; });
  return heard;
}
export async function fetched(url) { return (await fetch(url)).text(); }
")]
extern "C" {
    fn replace(name: &str, value: &JsValue);
    fn restore();
    #[wasm_bindgen(js_name = moveTo)]
    fn move_to(zone: &str, offset: i32);
    fn locator() -> JsValue;
    fn refusing(name: &str) -> JsValue;
    fn sharing(heard: &js_sys::Array);
    fn asleep() -> js_sys::Array;
    #[wasm_bindgen(js_name = comeBack)]
    fn come_back();
    #[wasm_bindgen(js_name = clickedDownloads)]
    fn clicked_downloads() -> js_sys::Array;
    #[wasm_bindgen(catch)]
    async fn fetched(url: &str) -> Result<JsValue, JsValue>;
}

fn get(owner: &JsValue, name: &str) -> JsValue {
    js_sys::Reflect::get(owner, &name.into()).unwrap()
}

// ECMAScript: getTimezoneOffset is UTC less local time in minutes; Toronto in winter is UTC-5, so 300;
// Adelaide in summer is UTC+10:30, so -630.
#[wasm_bindgen_test]
fn the_offset_has_the_other_sign() {
    assert_eq!(clock::offset_minutes(300.0), -300);
    assert_eq!(clock::offset_minutes(-630.0), 630);
    assert_eq!(clock::offset_minutes(-0.0), 0);
}

// Checked against the browser's own calendar: the local parts of Date, and what it reads back from the text.
#[wasm_bindgen_test]
fn the_local_time_is_what_the_browser_reads_back() {
    let before = Date::now();
    let now = clock::now().unwrap();
    let after = Date::now();
    let back = Date::parse(&now.to_string());
    assert!((before - 1000.0..=after).contains(&back), "{now}");
    let date = Date::new(&back.into());
    let (year, month, day) = now.date();
    assert_eq!(
        (f64::from(year), f64::from(month) - 1.0, f64::from(day)),
        (f64::from(date.get_full_year()), f64::from(date.get_month()), f64::from(date.get_date()))
    );
    assert_eq!(u32::from(now.hour_minute().0), date.get_hours());
    assert_eq!(Moment::parse(&now.to_string()), Ok(now));
    assert!(!clock::zone().is_empty());
    assert!(!clock::zone().contains(' '), "{}", clock::zone());
}

// A phone that crosses into another zone says so at its next answer.
#[wasm_bindgen_test]
fn the_zones_name_follows_the_offset() {
    let own = clock::zone();
    move_to("Australia/Adelaide", -630);
    assert_eq!(clock::zone(), "Australia/Adelaide");
    assert_eq!(clock::zone(), "Australia/Adelaide", "kept");
    restore();
    assert_eq!(clock::zone(), own);
}

#[wasm_bindgen_test]
fn the_clock_that_cannot_be_set_goes_on() {
    let first = clock::monotonic_ms().unwrap();
    let until = Date::now() + 20.0;
    while Date::now() < until {}
    let passed = clock::monotonic_ms().unwrap() - first;
    assert!((15..5000).contains(&passed), "{passed}");
}

#[wasm_bindgen_test]
fn new_ids_are_of_version_7_and_differ() {
    let (one, two) = (random::new_id().unwrap(), random::new_id().unwrap());
    assert_ne!(one, two);
    assert_eq!(one.get_version_num(), 7);
    let mut bytes = [0; 32];
    random::fill(&mut bytes).unwrap();
    assert_ne!(bytes, [0; 32]);
}

#[wasm_bindgen_test]
async fn storage_is_estimated() {
    let estimate = storage::estimate().await.unwrap();
    assert!(estimate.quota_bytes > estimate.used_bytes, "{estimate:?}");
    // Whether the browser promises is its own choice; that both questions agree is not.
    let promised = storage::persist().await.unwrap();
    assert_eq!(storage::persisted().await.unwrap(), promised);
}

#[wasm_bindgen_test]
async fn what_is_not_there_is_an_error_and_no_crash() {
    for name in ["storage", "clipboard", "share", "canShare", "wakeLock", "geolocation"] {
        replace(name, &JsValue::UNDEFINED);
    }
    assert_eq!(storage::persist().await, Err(PlatformError::NotHere("storage")));
    assert_eq!(storage::estimate().await, Err(PlatformError::NotHere("storage")));
    assert_eq!(clipboard::copy("a").await, Err(PlatformError::NotHere("clipboard")));
    assert_eq!(share::ready(&[], "a").err(), Some(PlatformError::NotHere("share")));
    assert_eq!(wake_lock::keep_awake().await.err(), Some(PlatformError::NotHere("wakeLock")));
    assert_eq!(position::watch(|_| {}).err(), Some(PlatformError::NotHere("geolocation")));
    restore();
}

#[wasm_bindgen_test]
async fn a_no_and_a_closed_sheet_are_told_apart() {
    let refuse = refusing("NotAllowedError");
    replace("clipboard", &refuse);
    replace("wakeLock", &refuse);
    assert_eq!(clipboard::copy("a").await, Err(PlatformError::NotAllowed("closed".to_owned())));
    assert_eq!(wake_lock::keep_awake().await.err(), Some(PlatformError::NotAllowed("closed".to_owned())));
    let close = refusing("AbortError");
    replace("share", &get(&close, "share"));
    replace("canShare", &get(&close, "canShare"));
    let ready = share::ready(&[OutFile::text("a.txt", "b")], "c").unwrap();
    assert_eq!(ready.share().await, Err(PlatformError::Cancelled));
    restore();
}

#[wasm_bindgen_test]
async fn a_file_is_shared_as_it_was_made() {
    let heard = js_sys::Array::new();
    sharing(&heard);
    let ready = share::ready(&[OutFile::text("visit.txt", "four ribs")], "A visit").unwrap();
    ready.share().await.unwrap();
    let words: Vec<String> = heard.iter().map(|word| word.as_string().unwrap()).collect();
    assert_eq!(words, ["A visit", "visit.txt", "four ribs"]);
    let other = OutFile { name: "a.bin".to_owned(), media: "application/zip".to_owned(), bytes: vec![1] };
    assert!(matches!(share::ready(&[other], "A visit"), Err(PlatformError::NotHere(_))));
    restore();
}

#[wasm_bindgen_test]
async fn a_file_is_offered_for_saving() {
    let heard = clicked_downloads();
    download::download(&OutFile::text("visit.txt", "four ribs")).unwrap();
    assert_eq!(heard.get(0).as_string().unwrap(), "visit.txt");
    let text = fetched(&heard.get(1).as_string().unwrap()).await.unwrap();
    assert_eq!(text.as_string().unwrap(), "four ribs");
    restore();
}

#[wasm_bindgen_test]
async fn the_screen_is_kept_on_again_when_the_page_comes_back() {
    let made = asleep();
    let awake = wake_lock::keep_awake().await.unwrap();
    assert_eq!((made.length(), get(&made.get(0), "kind").as_string().unwrap()), (1, "screen".to_owned()));
    come_back();
    for _ in 0..10 {
        wasm_bindgen_futures::JsFuture::from(js_sys::Promise::resolve(&JsValue::NULL)).await.unwrap();
    }
    assert_eq!(made.length(), 2);
    drop(awake);
    assert!(get(&made.get(1), "on").is_falsy());
    come_back();
    assert_eq!(made.length(), 2, "nobody asks any more");
    restore();
}

#[wasm_bindgen_test]
fn positions_and_reasons_arrive_and_the_watch_ends() {
    let phone = locator();
    replace("geolocation", &phone);
    let heard = Rc::new(RefCell::new(Vec::new()));
    let list = Rc::clone(&heard);
    let watch = position::watch(move |told| list.borrow_mut().push(told)).unwrap();
    {
        let heard = heard.borrow();
        assert_eq!(heard.len(), 3, "what is no number is no position");
        assert_eq!(heard[0], Err(NoFix::NotYet("searching".to_owned())));
        let fix = heard[1].clone().unwrap();
        // Arithmetic only: degrees times ten million, metres rounded up.
        assert_eq!((fix.place.lat_e7, fix.place.lon_e7), (461_234_568, -795_000_000));
        assert_eq!((fix.place.accuracy_m_95, fix.place.source), (Some(5), PlaceSource::Device));
        assert_eq!(fix.unix_ms, 1_800_000_000_123);
        assert_eq!(heard[2], Err(NoFix::Denied("switched off".to_owned())));
    }
    let options = get(&phone, "options");
    assert!(get(&options, "enableHighAccuracy").is_truthy());
    assert!(get(&options, "timeout").is_undefined());
    drop(watch);
    assert_eq!(js_sys::Array::from(&get(&phone, "cleared")).get(0).as_f64(), Some(41.0));
    assert_eq!(position::place(0.0, 0.0, Some(1e12)).accuracy_m_95, Some(u32::MAX));
    assert_eq!(position::place(0.0, 0.0, None).accuracy_m_95, None);
    restore();
}
