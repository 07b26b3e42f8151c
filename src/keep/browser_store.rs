//! The store proper in the browser: IndexedDB. Records cross as JSON texts, photos as byte arrays.

use std::cell::RefCell;
use std::future::IntoFuture as _;

use idb::{ObjectStore, Query, TransactionMode};
use js_sys::{Array, JSON, Uint8Array};
use serde::{Deserialize, Serialize};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::IdbDatabase;

use crate::record::{DeviceId, Digest, Entry, EntryId, Head, to_canonical};

use super::browser_database::{self, Durability, stores};
use super::browser_fault::idb_error;
use super::row;
use super::store::{Changes, RawRow, SetAside, Shelf, Store, StoreError};

/// The database, or why there is none.
pub struct BrowserStore {
    name: String,
    database: RefCell<Result<IdbDatabase, StoreError>>,
}

/// What is set aside, as stored.
#[derive(Serialize, Deserialize)]
struct Aside<'a> {
    place: &'a str,
    reason: &'a str,
    text: &'a str,
}

impl BrowserStore {
    /// Open it. A refusal is kept and told at every use, so that the form can go on without.
    pub async fn open(name: &str) -> Self {
        Self { name: name.to_owned(), database: RefCell::new(browser_database::open(name).await) }
    }

    /// Close the connection. What is used after this says that it is lost, and [`Store::reopen`] helps.
    pub fn close(&self) {
        if let Ok(database) = &*self.database.borrow() {
            database.close();
        }
    }

    fn database(&self) -> Result<IdbDatabase, StoreError> {
        self.database.borrow().clone()
    }

    fn reading(&self, names: &[&str]) -> Result<idb::Transaction, StoreError> {
        idb::Database::from(self.database()?).transaction(names, TransactionMode::ReadOnly).map_err(idb_error)
    }

    async fn get(&self, name: &str, key: JsValue) -> Result<Option<JsValue>, StoreError> {
        let store = self.reading(&[name])?.object_store(name).map_err(idb_error)?;
        store.get(Query::Key(key)).map_err(idb_error)?.await.map_err(idb_error)
    }

    async fn write_one(
        &self,
        name: &str,
        durability: Durability,
        request: impl FnOnce(&ObjectStore) -> Result<(), idb::Error>,
    ) -> Result<(), StoreError> {
        let writing = browser_database::write(&self.database()?, &[name], durability)?;
        writing.run(|writing| request(&writing.store(name)?).map_err(idb_error)).await
    }
}

impl Store for BrowserStore {
    async fn read(&self) -> Result<Shelf, StoreError> {
        let names = [stores::ENTRIES, stores::HEADS, stores::FORKS, stores::SET_ASIDE, stores::SEEDS];
        let transaction = self.reading(&names)?;
        let store = |name| transaction.object_store(name).map_err(idb_error);
        let all = |name| Ok(store(name)?.get_all(None, None).map_err(idb_error)?.into_future());
        let keys = |name| Ok(store(name)?.get_all_keys(None, None).map_err(idb_error)?.into_future());
        // All asked before the first answer is waited for: one transaction, one moment.
        let (rows, numbers) = (all(stores::ENTRIES)?, keys(stores::ENTRIES)?);
        let (heads, forks) = (all(stores::HEADS)?, all(stores::FORKS)?);
        let (aside, seeds) = (keys(stores::SET_ASIDE)?, all(stores::SEEDS)?);
        let (rows, numbers) = (rows.await.map_err(idb_error)?, numbers.await.map_err(idb_error)?);
        let pairs = numbers.iter().zip(&rows);
        Ok(Shelf {
            rows: pairs.map(|(key, value)| RawRow { at: entry_id(key), text: text(value) }).collect(),
            heads: texts(&heads.await.map_err(idb_error)?),
            forks: texts(&forks.await.map_err(idb_error)?),
            set_aside: aside.await.map_err(idb_error)?.iter().filter_map(digest).collect(),
            seeds: texts(&seeds.await.map_err(idb_error)?),
            ..Shelf::default()
        })
    }

    async fn commit(&self, changes: &Changes) -> Result<(), StoreError> {
        let prepared = Prepared::new(changes);
        let names = prepared.names();
        if names.is_empty() {
            return Ok(());
        }
        let writing = browser_database::write(&self.database()?, &names, Durability::Strict)?;
        writing
            .run(|writing| {
                for part in &prepared.0 {
                    let store = writing.store(part.store)?;
                    for (key, value) in &part.rows {
                        match part.how {
                            // An entry never takes another's place.
                            How::Add => store.add(value, key.as_ref()).map(drop),
                            How::Put => store.put(value, key.as_ref()).map(drop),
                        }
                        .map_err(idb_error)?;
                    }
                }
                Ok(())
            })
            .await
    }

    async fn row(&self, id: EntryId) -> Result<Option<String>, StoreError> {
        Ok(self.get(stores::ENTRIES, entry_key(id)).await?.as_ref().map(text))
    }

    async fn reopen(&self) -> Result<(), StoreError> {
        self.close();
        let opened = browser_database::open(&self.name).await;
        let told = opened.as_ref().err().cloned();
        *self.database.borrow_mut() = opened;
        told.map_or(Ok(()), Err)
    }

    async fn put_photo(&self, name: Digest, bytes: &[u8]) -> Result<(), StoreError> {
        let value = Uint8Array::from(bytes);
        let key = key(&[name.to_string().into()]);
        self.write_one(stores::PHOTOS, Durability::Strict, |store| store.put(&value, Some(&key)).map(drop)).await
    }

    async fn photo(&self, name: Digest) -> Result<Option<Vec<u8>>, StoreError> {
        let found = self.get(stores::PHOTOS, key(&[name.to_string().into()])).await?;
        Ok(found.and_then(|value| value.dyn_into::<Uint8Array>().ok()).map(|bytes| bytes.to_vec()))
    }

    async fn photos(&self) -> Result<Vec<Digest>, StoreError> {
        let store = self.reading(&[stores::PHOTOS])?.object_store(stores::PHOTOS).map_err(idb_error)?;
        let keys = store.get_all_keys(None, None).map_err(idb_error)?.await.map_err(idb_error)?;
        Ok(keys.iter().filter_map(digest).collect())
    }

    async fn delete_photo(&self, name: Digest) -> Result<(), StoreError> {
        let key = key(&[name.to_string().into()]);
        self.write_one(stores::PHOTOS, Durability::Strict, |store| store.delete(Query::Key(key)).map(drop)).await
    }

    async fn setting(&self, name: &str) -> Result<Option<String>, StoreError> {
        Ok(self.get(stores::SETTINGS, key(&[name.into()])).await?.as_ref().map(text))
    }

    async fn put_setting(&self, name: &str, json: &str) -> Result<(), StoreError> {
        let (key, value) = (key(&[name.into()]), JsValue::from_str(json));
        // Half a row of points lies here too: it has to outlive a dead battery.
        self.write_one(stores::SETTINGS, Durability::Strict, |store| store.put(&value, Some(&key)).map(drop)).await
    }
}

enum How {
    Add,
    Put,
}

struct Part {
    store: &'static str,
    how: How,
    rows: Vec<(Option<JsValue>, JsValue)>,
}

/// Changes as keys and values, made before the transaction begins.
struct Prepared(Vec<Part>);

impl Prepared {
    fn new(changes: &Changes) -> Self {
        let value = |text: String| JsValue::from_str(&text);
        let entry = |entry: &Entry| (Some(entry_key(entry.id())), value(row::write(entry)));
        let head = |head: &Head| (Some(key(&[device_key(head.device)])), value(row::write_head(head)));
        let fork = |entry: &Entry| (Some(fork_key(entry)), value(row::write(entry)));
        let aside = |item: &SetAside| (Some(key(&[item.name().to_string().into()])), value(aside_text(item)));
        let seed = |seed: &super::Seed| (None, value(seed.write()));
        let part = |store, how, rows| Part { store, how, rows };
        let all = [
            part(stores::ENTRIES, How::Add, changes.entries.iter().map(entry).collect()),
            part(stores::HEADS, How::Put, changes.head.iter().map(head).collect()),
            part(stores::FORKS, How::Put, changes.forks.iter().map(fork).collect()),
            part(stores::SET_ASIDE, How::Put, changes.set_aside.iter().map(aside).collect()),
            part(stores::SEEDS, How::Add, changes.seeds.iter().map(seed).collect()),
        ];
        Self(all.into_iter().filter(|part: &Part| !part.rows.is_empty()).collect())
    }

    fn names(&self) -> Vec<&'static str> {
        self.0.iter().map(|part| part.store).collect()
    }
}

fn aside_text(item: &SetAside) -> String {
    // Three texts: writing them cannot fail.
    to_canonical(&Aside { place: &item.place, reason: &item.reason, text: &item.text }).unwrap_or_default()
}

/// Keys are arrays throughout: the page that rescues raw records takes only plain texts for names.
fn key(parts: &[JsValue]) -> JsValue {
    parts.iter().collect::<Array>().into()
}

fn device_key(device: DeviceId) -> JsValue {
    device.to_string().into()
}

fn entry_key(id: EntryId) -> JsValue {
    key(&[device_key(id.device), (id.seq as f64).into()])
}

fn fork_key(entry: &Entry) -> JsValue {
    let id = entry.id();
    key(&[device_key(id.device), (id.seq as f64).into(), entry.header.digest().to_string().into()])
}

fn entry_id(key: &JsValue) -> Option<EntryId> {
    let parts: &Array = key.dyn_ref()?;
    let device = DeviceId(Digest::parse(&parts.get(0).as_string()?).ok()?);
    let number = parts.get(1).as_f64()?;
    // Whole and exact, or no number of ours.
    let exact = (0.0..=9_007_199_254_740_991.0).contains(&number) && number.fract() == 0.0;
    let whole = parts.length() == 2 && exact;
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // checked in the line above
    whole.then_some(EntryId { device, seq: number as u64 })
}

fn digest(key: &JsValue) -> Option<Digest> {
    let parts: &Array = key.dyn_ref()?;
    Digest::parse(&parts.get(0).as_string()?).ok()
}

/// The text of a row; of what is no text, its JSON, so that it can be set aside as it is.
fn text(value: &JsValue) -> String {
    value
        .as_string()
        .or_else(|| JSON::stringify(value).ok().and_then(|json| json.as_string()))
        .unwrap_or_else(|| "a value that is no text".to_owned())
}

fn texts(values: &[JsValue]) -> Vec<String> {
    values.iter().map(text).collect()
}
