//! The database itself: opening it, transactions of a stated durability, and the wait for their end.

use idb::event::DatabaseEvent as _;
use idb::{Database, Factory, ObjectStoreParams};
use js_sys::{Array, Promise};
use serde::Serialize;
use serde_wasm_bindgen::Serializer;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::{IdbDatabase, IdbTransaction};

use super::StoreError;
use super::browser_fault::{idb_error, store_error};

/// Version of the set of stores. A new store or index means a new version and a step in [`upgrade`].
const VERSION: u32 = 1;

/// Names of the stores.
pub(super) mod stores {
    /// Entries under [device, number].
    pub(crate) const ENTRIES: &str = "entries";
    /// Heads under [device].
    pub(crate) const HEADS: &str = "heads";
    /// Forks under [device, number, digest].
    pub(crate) const FORKS: &str = "forks";
    /// Damaged records under [name].
    pub(crate) const SET_ASIDE: &str = "set_aside";
    /// Key seeds, numbered as they come. The page that rescues raw records leaves this store out by
    /// its name.
    pub(crate) const SEEDS: &str = "seeds";
    /// Photos under [digest].
    pub(crate) const PHOTOS: &str = "photos";
    /// Settings under [name].
    pub(crate) const SETTINGS: &str = "settings";
    /// All of them.
    pub(crate) const ALL: [&str; 7] = [ENTRIES, HEADS, FORKS, SET_ASIDE, SEEDS, PHOTOS, SETTINGS];
}

/// How long a transaction waits before it says that it is complete.
#[derive(Clone, Copy, Serialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Durability {
    /// Until the data is on disk.
    Strict,
}

#[derive(Serialize)]
struct Options {
    durability: Durability,
}

#[wasm_bindgen]
extern "C" {
    // `web-sys` has the form with options only among its unstable parts.
    type WithOptions;

    #[wasm_bindgen(method, catch)]
    fn transaction(
        this: &WithOptions,
        stores: &Array,
        mode: &str,
        options: &JsValue,
    ) -> Result<IdbTransaction, JsValue>;
}

/// Open the database, making its stores where they are missing.
pub(super) async fn open(name: &str) -> Result<IdbDatabase, StoreError> {
    let mut request = Factory::new().and_then(|factory| factory.open(name, Some(VERSION))).map_err(idb_error)?;
    request.on_upgrade_needed(|event| {
        // A store that cannot be made shows as soon as it is used; nothing can be told from here.
        if let Ok(database) = event.database() {
            let _ = upgrade(&database);
        }
    });
    let mut database = request.await.map_err(idb_error)?;
    // A newer form in another tab must be able to add its stores; this one then asks to be reloaded.
    database.on_version_change(|event| {
        let target = event.target().and_then(|target| target.dyn_into::<IdbDatabase>().ok());
        if let Some(database) = target {
            database.close();
        }
    });
    // The handler must outlive this wrapper, which cannot be kept: it does not lend what it wraps.
    database.forget_callbacks();
    Ok(database.into())
}

fn upgrade(database: &Database) -> Result<(), idb::Error> {
    let there = database.store_names();
    for name in stores::ALL.into_iter().filter(|name| !there.iter().any(|other| other == name)) {
        let mut params = ObjectStoreParams::new();
        params.auto_increment(name == stores::SEEDS);
        database.create_object_store(name, params)?;
    }
    Ok(())
}

/// Begin a transaction that writes.
pub(super) fn write(database: &IdbDatabase, names: &[&str], durability: Durability) -> Result<Writing, StoreError> {
    let names: Array = names.iter().map(|name| JsValue::from_str(name)).collect();
    let options = Options { durability }
        .serialize(&Serializer::json_compatible())
        .map_err(|e| StoreError::Failed(e.to_string()))?;
    let inner = database
        .unchecked_ref::<WithOptions>()
        .transaction(&names, "readwrite", &options)
        .map_err(|e| store_error(&e))?;
    Ok(Writing { inner })
}

/// A transaction that writes. All its requests are made before anything is waited for: waiting for
/// anything else in between would end it.
pub(super) struct Writing {
    inner: IdbTransaction,
}

impl Writing {
    /// One of its stores.
    pub(super) fn store(&self, name: &str) -> Result<idb::ObjectStore, StoreError> {
        idb::Transaction::from(self.inner.clone()).object_store(name).map_err(idb_error)
    }

    /// Make the requests; if one cannot even be made, take the whole transaction back.
    pub(super) async fn run(self, requests: impl FnOnce(&Self) -> Result<(), StoreError>) -> Result<(), StoreError> {
        // The ears first, then the requests: an end that comes early must not be missed.
        let end = self.end();
        if let Err(error) = requests(&self) {
            let _ = self.inner.abort();
            let _ = JsFuture::from(end).await;
            return Err(error);
        }
        match JsFuture::from(end).await {
            Ok(_) => Ok(()),
            Err(_) => Err(self.inner.error().map_or_else(
                || StoreError::Lost("the browser ended the transaction".to_owned()),
                |fault| store_error(&fault),
            )),
        }
    }

    fn end(&self) -> Promise {
        Promise::new(&mut |done, gone| {
            self.inner.set_oncomplete(Some(&done));
            self.inner.set_onabort(Some(&gone));
        })
    }
}
