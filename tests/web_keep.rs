//! The browser half of `keep`, in a real browser: what is ticked is in the database, and each thing that a
//! browser may refuse is refused here once. What must hold is our own design; no outside source is needed.
#![cfg(all(target_arch = "wasm32", feature = "web"))]
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::missing_docs_in_private_items
)]

use std::cell::Cell;
use std::rc::Rc;

use js_sys::Promise;
use marrowbook::keep::browser::{Opened, Place, ReadOnly, open};
use marrowbook::keep::browser_lock::{self, NoLock};
use marrowbook::keep::browser_quick::LocalQuick;
use marrowbook::keep::browser_store::BrowserStore;
use marrowbook::keep::{
    Break, Promise as Kept, Quick as _, QuickError, Report, Saved, Seed, Stamp, Store as _, StoreError, copies, photo,
    row,
};
use marrowbook::record::{
    Act, Answer, Body, DeviceId, Digest, ENTRY_SCHEMA, Entry, Head, Key, Moment, PersonCode, Salt, Site, Subject,
    Versions,
};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

#[wasm_bindgen(inline_js = r"
export function putRaw(database, store, key, value) {
  return new Promise((done, gone) => {
    const open = indexedDB.open(database);
    open.onerror = () => gone(open.error);
    open.onsuccess = () => {
      const work = open.result.transaction(store, 'readwrite');
      work.objectStore(store).put(value, key);
      work.oncomplete = () => { open.result.close(); done(); };
      work.onabort = () => { open.result.close(); gone(work.error); };
    };
  });
}
// A test that fails in wasm does not clean up after itself, so the next one does.
const undo = [];
export async function forget(database, prefix, spare) {
  while (undo.length > 0) undo.pop()();
  for (const name of Object.keys(localStorage)) if (name.startsWith(prefix)) localStorage.removeItem(name);
  await caches.delete(spare);
  return new Promise((done) => { indexedDB.deleteDatabase(database).onsuccess = () => done(); });
}
// Replaces a property of the page or of what it inherits; the function given back puts it right again.
export function replace(owner, name, value, throws) {
  const own = Object.getOwnPropertyDescriptor(owner, name);
  Object.defineProperty(owner, name, {
    configurable: true,
    get() { if (throws) throw new DOMException('switched off', 'SecurityError'); return value; },
  });
  const back = () => { if (own) Object.defineProperty(owner, name, own); else delete owner[name]; };
  undo.push(back);
  return back;
}
export function hearDurability() {
  const real = IDBDatabase.prototype.transaction;
  const heard = [];
  IDBDatabase.prototype.transaction = function (...args) {
    const made = real.apply(this, args);
    heard.push(made.mode + ' ' + made.durability + ' ' + Array.from(made.objectStoreNames).join('+'));
    return made;
  };
  return () => { IDBDatabase.prototype.transaction = real; return heard.join(', '); };
}
export function fill(prefix) {
  let size = 1 << 20;
  for (let at = 0; size > 0; ) {
    try { localStorage.setItem(prefix + 'ballast' + at, 'x'.repeat(size)); at += 1; } catch { size >>= 1; }
  }
}
export function page() { return window; }
export function browser() { return navigator; }
")]
extern "C" {
    #[wasm_bindgen(js_name = putRaw)]
    fn put_raw(database: &str, store: &str, key: &JsValue, value: &JsValue) -> Promise;
    fn forget(database: &str, prefix: &str, spare: &str) -> Promise;
    fn replace(owner: &JsValue, name: &str, value: &JsValue, throws: bool) -> js_sys::Function;
    #[wasm_bindgen(js_name = hearDurability)]
    fn hear_durability() -> js_sys::Function;
    fn fill(prefix: &str);
    fn page() -> JsValue;
    fn browser() -> JsValue;
}

/// Puts a replaced property right again.
struct Replaced(js_sys::Function);

impl Replaced {
    fn new(owner: &JsValue, name: &str, throws: bool) -> Self {
        Self(replace(owner, name, &JsValue::UNDEFINED, throws))
    }
}

impl Drop for Replaced {
    fn drop(&mut self) {
        self.0.call0(&JsValue::UNDEFINED).unwrap();
    }
}

fn place(name: &str) -> Place {
    Place {
        database: format!("trial {name}"),
        prefix: format!("trial.{name}."),
        lock: format!("trial.{name}"),
        spare: format!("trial.{name}"),
    }
}

async fn clean(name: &str) -> Place {
    let place = place(name);
    JsFuture::from(forget(&place.database, &place.prefix, &place.spare)).await.unwrap();
    place
}

fn device_of(seed: &Seed) -> DeviceId {
    DeviceId(Digest::of(&[b"device", &seed.0]))
}

fn moment() -> Moment {
    Moment::parse("2027-02-14T10:23:05-05:00").unwrap()
}

fn versions() -> Versions {
    Versions { protocol: 1, step: None, card: None }
}

fn body(what: &str) -> Body {
    Body {
        schema: ENTRY_SCHEMA,
        act: Act::Answer {
            key: Key {
                subject: Subject::Examination(uuid::Uuid::from_u128(7)),
                finding: "body_state".into(),
                site: Site::NONE,
                observer: PersonCode::new("K7").unwrap(),
            },
            answer: Answer::choice(what),
            supersedes: vec![],
        },
        typed_by: PersonCode::new("K7").unwrap(),
        at: moment(),
        zone: "America/Toronto".to_owned(),
        since_start_ms: Some(81_000),
        versions: versions(),
    }
}

async fn opened(place: &Place) -> Opened {
    let stamp = Stamp { at: moment(), zone: "America/Toronto".to_owned(), versions: versions() };
    open(place, || stamp, device_of).await
}

fn number(device: DeviceId, seq: u32) -> JsValue {
    js_sys::Array::of2(&device.to_string().into(), &seq.into()).into()
}

fn entries(opened: &Opened) -> Vec<Entry> {
    opened.journal.entries().cloned().collect()
}

#[wasm_bindgen_test]
async fn what_is_ticked_is_in_the_database_and_there_after_opening_again() {
    let place = clean("append").await;
    let first = opened(&place).await;
    assert_eq!((first.report.clone(), first.promise), (Report::default(), Kept::CrashAndPowerLoss));
    let panel = first.desk.append(vec![body("whole"), body("bones"), body("frozen")]).unwrap();
    let quick = LocalQuick::new(&place.prefix);
    assert_eq!(copies::read(&quick).unwrap().copies.len(), 3, "copies are there before anything was waited for");
    assert_eq!(panel.saving.await, Ok(Saved { earlier: 0 }));
    assert_eq!(copies::read(&quick).unwrap().copies.len(), 0);
    let other = BrowserStore::open(&place.database).await;
    for entry in &panel.entries {
        assert_eq!(other.row(entry.id()).await.unwrap(), Some(row::write(entry)));
    }
    other.close();
    let (device, seed) = (first.device, first.seed);
    drop(first);
    let again = opened(&place).await;
    assert_eq!(entries(&again), panel.entries);
    assert_eq!((again.device, again.seed, again.report.clone()), (device, seed, Report::default()));
    let next = again.desk.append(vec![body("whole")]).unwrap();
    assert_eq!(next.entries[0].header.prev, Some(panel.entries[2].header.digest()));
    assert_eq!(next.saving.await, Ok(Saved { earlier: 0 }));
}

#[wasm_bindgen_test]
async fn answers_are_written_strictly_and_with_their_head() {
    let place = clean("strict").await;
    let desk = opened(&place).await.desk;
    let stop = hear_durability();
    let drafted = desk.append(vec![body("whole"), body("bones")]).unwrap();
    drafted.saving.await.unwrap();
    desk.put_setting("units", &"metric").await.unwrap();
    let heard = stop.call0(&JsValue::UNDEFINED).unwrap().as_string().unwrap();
    // The second copy is brought up to date beside it, and reads for that.
    let heard: Vec<&str> = heard.split(", ").filter(|one| one.starts_with("readwrite")).collect();
    // Settings hold the row of points in hand, so they wait for the disk as answers do.
    assert_eq!(heard.join(", "), "readwrite strict entries+heads, readwrite strict settings");
    assert_eq!(desk.setting::<String>("units").await.unwrap().value.as_deref(), Some("metric"));
    let unread = desk.setting::<u32>("units").await.unwrap();
    assert_eq!(unread.value, None, "a setting that cannot be read is none");
    // It lies there under a name of its own, as it was written.
    let aside = unread.set_aside.expect("put aside");
    assert_eq!(desk.setting_text(&aside).await, Ok(Some("\"metric\"".to_owned())));
    assert_eq!(desk.setting::<String>("pace").await.map(|s| (s.value, s.set_aside)), Ok((None, None)));
}

#[wasm_bindgen_test]
async fn taps_in_quick_succession_are_all_saved_in_order() {
    let place = clean("hurry").await;
    let first = opened(&place).await;
    let all: Vec<_> = (0..25).map(|_| first.desk.append(vec![body("whole")]).unwrap()).collect();
    let mut given = Vec::new();
    for drafted in all {
        assert_eq!(drafted.saving.await, Ok(Saved { earlier: 0 }));
        given.extend(drafted.entries);
    }
    drop(first);
    assert_eq!(entries(&opened(&place).await), given);
}

#[wasm_bindgen_test]
async fn a_broken_row_is_set_aside_and_the_rest_opens() {
    let place = clean("broken").await;
    let first = opened(&place).await;
    let drafted = first.desk.append(vec![body("whole"), body("bones"), body("frozen")]).unwrap();
    drafted.saving.await.unwrap();
    let device = first.device;
    drop(first);
    let odd = js_sys::Object::new();
    js_sys::Reflect::set(&odd, &"mood".into(), &"calm".into()).unwrap();
    JsFuture::from(put_raw(&place.database, "entries", &number(device, 2), &odd)).await.unwrap();
    JsFuture::from(put_raw(&place.database, "entries", &"elsewhere".into(), &"words".into())).await.unwrap();
    let again = opened(&place).await;
    assert_eq!(again.journal.len(), 3, "two whole ones and the first of a new chain");
    assert_eq!(again.report.new_chain, Some(Break::Damage { seq: 2 }));
    let mut texts: Vec<&str> = again.report.set_aside.iter().map(|item| item.text.as_str()).collect();
    texts.sort_unstable();
    assert_eq!(texts, ["words", r#"{"mood":"calm"}"#]);
    drop(again);
    let third = opened(&place).await;
    assert_eq!(third.report, Report { set_aside_before: 2, ..Report::default() });
}

#[wasm_bindgen_test]
async fn a_quick_copy_that_never_reached_the_database_is_recovered() {
    let place = clean("copy").await;
    let first = opened(&place).await;
    let drafted = first.desk.append(vec![body("whole")]).unwrap();
    drafted.saving.await.unwrap();
    let (device, head) = (first.device, Head::after(&drafted.entries[0]));
    drop(first);
    let lone = head.next(&body("bones"), Salt([4; 16])).unwrap();
    let quick = LocalQuick::new(&place.prefix);
    copies::put(&quick, &lone).unwrap();
    let again = opened(&place).await;
    assert_eq!((again.report.recovered, again.device), (1, device));
    assert!(entries(&again).contains(&lone));
    assert_eq!(copies::read(&quick).unwrap().copies.len(), 0);
    drop(again);
    assert_eq!(opened(&place).await.report, Report::default());
}

#[wasm_bindgen_test]
async fn without_the_small_store_the_form_goes_on() {
    let place = clean("smallless").await;
    {
        let _off = Replaced::new(&page(), "localStorage", true);
        let quick = LocalQuick::new(&place.prefix);
        assert!(matches!(quick.put("a", "b"), Err(QuickError::Refused(_))));
        assert!(matches!(quick.get("a"), Err(QuickError::Refused(_))));
        assert!(matches!(quick.drop("a"), Err(QuickError::Refused(_))));
        assert!(matches!(quick.names(), Err(QuickError::Refused(_))));
        let first = opened(&place).await;
        assert!(matches!(first.report.quick_refused, Some(QuickError::Refused(_))));
        assert_eq!(first.promise, Kept::CrashAndPowerLoss);
        let drafted = first.desk.append(vec![body("whole")]).unwrap();
        assert_eq!(drafted.saving.await, Ok(Saved { earlier: 0 }));
    }
    assert_eq!(opened(&place).await.journal.len(), 1);
}

#[wasm_bindgen_test]
async fn a_full_small_store_is_an_error_and_no_crash() {
    let place = clean("full").await;
    let first = opened(&place).await;
    fill(&place.prefix);
    let quick = LocalQuick::new(&place.prefix);
    assert_eq!(quick.put("more", "x"), Err(QuickError::Full));
    let drafted = first.desk.append(vec![body("whole")]).unwrap();
    assert_eq!(drafted.saving.await, Ok(Saved { earlier: 0 }));
    drop(first);
    clean("full").await;
}

#[wasm_bindgen_test]
async fn without_the_database_answers_go_to_the_small_store_and_are_recovered_later() {
    let place = clean("baseless").await;
    let device = opened(&place).await.device;
    let given = {
        let _off = Replaced::new(&page(), "indexedDB", false);
        let first = opened(&place).await;
        assert!(matches!(first.report.store_refused, Some(StoreError::Refused(_))));
        assert_eq!((first.promise, first.device), (Kept::CrashedTabOnly, device));
        let drafted = first.desk.append(vec![body("whole")]).unwrap();
        let unsaved = drafted.saving.await.unwrap_err();
        assert_eq!((unsaved.promise, unsaved.waiting), (Kept::CrashedTabOnly, 1));
        assert_eq!((first.desk.promise(), first.desk.waiting()), (Kept::CrashedTabOnly, 1));
        drafted.entries
    };
    let again = opened(&place).await;
    assert_eq!((again.report.recovered, again.report.new_chain), (1, None));
    assert_eq!(entries(&again), given);
}

#[wasm_bindgen_test]
async fn of_two_pages_one_writes_and_the_other_shows() {
    let place = clean("two").await;
    let one = opened(&place).await;
    let two = opened(&place).await;
    assert_eq!(two.desk.read_only(), Some(&ReadOnly::NoLock(NoLock::Elsewhere)));
    assert!(two.seed.is_none() && one.desk.read_only().is_none());
    assert!(two.desk.append(vec![body("whole")]).is_err());
    let heard = Rc::new(Cell::new(0));
    let count = Rc::clone(&heard);
    two.desk.on_added(move || count.set(count.get() + 1));
    let drafted = one.desk.append(vec![body("whole")]).unwrap();
    drafted.saving.await.unwrap();
    for _ in 0..100 {
        if heard.get() > 0 {
            break;
        }
        pause(10).await;
    }
    assert_eq!(heard.get(), 1);
    let shown: Vec<Entry> = two.desk.reread().await.unwrap().entries().cloned().collect();
    assert_eq!(shown, drafted.entries);
    drop(one);
    // Whoever waits for the lock gets it now.
    drop(browser_lock::wait(&place.lock).await.unwrap());
    assert!(opened(&place).await.desk.read_only().is_none());
}

#[wasm_bindgen_test]
async fn without_locks_the_page_only_shows_and_says_why() {
    let place = clean("lockless").await;
    let _off = Replaced::new(&browser(), "locks", false);
    let first = opened(&place).await;
    assert!(matches!(first.desk.read_only(), Some(ReadOnly::NoLock(NoLock::Unavailable(_)))));
    assert!(LocalQuick::new(&place.prefix).names().unwrap().is_empty(), "nothing was written");
}

#[wasm_bindgen_test]
async fn a_lost_connection_is_opened_again() {
    let place = clean("lost").await;
    let first = opened(&place).await;
    first.desk.store().close();
    let drafted = first.desk.append(vec![body("whole")]).unwrap();
    assert_eq!(drafted.saving.await, Ok(Saved { earlier: 0 }));
    first.desk.store().close();
    let kept = first.desk.keep_photo(b"abc", "image/jpeg").await.unwrap();
    assert_eq!(first.desk.photo(&kept).await, Ok(photo::Kept::Whole(b"abc".to_vec())));
}

#[wasm_bindgen_test]
async fn what_stands_under_a_number_is_never_overwritten() {
    let place = clean("rival").await;
    let first = opened(&place).await;
    let rival = Head::start(first.device).next(&body("bones"), Salt([1; 16])).unwrap();
    let second = Head::after(&rival).next(&body("bones"), Salt([1; 16])).unwrap();
    let (key, text) = (number(first.device, 2), row::write(&second));
    JsFuture::from(put_raw(&place.database, "entries", &key, &text.as_str().into())).await.unwrap();
    let drafted = first.desk.append(vec![body("whole"), body("whole"), body("whole")]).unwrap();
    let unsaved = drafted.saving.await.unwrap_err();
    assert_eq!((unsaved.reason, unsaved.promise), (StoreError::Taken, Kept::CrashedTabOnly));
    let store = first.desk.store();
    assert_eq!(store.row(second.id()).await.unwrap(), Some(text));
    assert_eq!(store.row(drafted.entries[0].id()).await, Ok(None), "all or nothing");
    drop(first);
    let again = opened(&place).await;
    assert_eq!(again.report.forks, [second.id()]);
    for entry in drafted.entries.iter().chain([&second]) {
        assert!(entries(&again).contains(entry));
    }
}

#[wasm_bindgen_test]
async fn photos_come_back_byte_for_byte() {
    let place = clean("photo").await;
    let first = opened(&place).await;
    let bytes: Vec<u8> = (0..300_000_u32).map(|n| u8::try_from(n % 251).unwrap()).collect();
    let kept = first.desk.keep_photo(&bytes, "image/jpeg").await.unwrap();
    assert_eq!(kept.bytes, 300_000);
    drop(first);
    let again = opened(&place).await;
    assert_eq!(again.desk.photo(&kept).await, Ok(photo::Kept::Whole(bytes)));
    assert_eq!(again.desk.photos().await, Ok(vec![kept.sha256]));
    let key = js_sys::Array::of1(&kept.sha256.to_string().into());
    let other = js_sys::Uint8Array::from(&b"other"[..]);
    JsFuture::from(put_raw(&place.database, "photos", &key, &other)).await.unwrap();
    assert_eq!(again.desk.photo(&kept).await, Ok(photo::Kept::Altered(b"other".to_vec())));
    again.desk.delete_photo(kept.sha256).await.unwrap();
    assert_eq!(again.desk.photo(&kept).await, Ok(photo::Kept::NotHere));
}

#[wasm_bindgen_test]
async fn what_others_keep_in_the_small_store_is_left_alone() {
    let place = clean("others").await;
    let storage = web_sys::window().unwrap().local_storage().unwrap().unwrap();
    storage.set_item("a neighbour", "not json {").unwrap();
    storage.set_item(&format!("{}copy.9.ab", place.prefix), "torn {").unwrap();
    let first = opened(&place).await;
    assert_eq!(first.report.set_aside.len(), 1);
    assert_eq!(first.report.set_aside[0].text, "torn {");
    assert_eq!(storage.get_item("a neighbour").unwrap().as_deref(), Some("not json {"));
    storage.remove_item("a neighbour").unwrap();
}

async fn pause(ms: i32) {
    let wait = Promise::new(&mut |done, _| {
        web_sys::window().unwrap().set_timeout_with_callback_and_timeout_and_arguments_0(&done, ms).unwrap();
    });
    JsFuture::from(wait).await.unwrap();
}
