//! The quick store in the browser: `localStorage` through `gloo-storage`.
//!
//! That crate panics where the browser denies the storage, so each call asks for it first, and what
//! it offers without such a question (`raw`, `clear`, `length`) is not used.

use gloo_storage::errors::StorageError;
use gloo_storage::{LocalStorage, Storage as _};

use super::browser_fault::{quick_error, quick_error_named};
use super::store::{Quick, QuickError};

/// `localStorage`, names with a prefix of ours.
#[derive(Clone, Debug)]
pub struct LocalQuick {
    prefix: String,
}

impl LocalQuick {
    /// Names begin with this.
    pub fn new(prefix: &str) -> Self {
        Self { prefix: prefix.to_owned() }
    }

    /// The storage, if the browser lets this page have it just now.
    fn ask() -> Result<web_sys::Storage, QuickError> {
        let window = web_sys::window().ok_or_else(|| QuickError::Refused("no page".to_owned()))?;
        let storage = window.local_storage().map_err(|e| quick_error(&e))?;
        storage.ok_or_else(|| QuickError::Refused("this browser has none".to_owned()))
    }

    fn full(&self, name: &str) -> String {
        format!("{}{name}", self.prefix)
    }
}

fn told(error: StorageError) -> QuickError {
    match error {
        StorageError::JsError(fault) => quick_error_named(&fault.name, &fault.message),
        other => QuickError::Refused(other.to_string()),
    }
}

impl Quick for LocalQuick {
    fn get(&self, name: &str) -> Result<Option<String>, QuickError> {
        let storage = Self::ask()?;
        let full = self.full(name);
        match LocalStorage::get::<String>(&full) {
            Ok(text) => Ok(Some(text)),
            Err(StorageError::KeyNotFound(_)) => Ok(None),
            // Not written by this, or torn: the text as it lies there, for whoever reads it strictly.
            Err(StorageError::SerdeError(_)) => storage.get_item(&full).map_err(|e| quick_error(&e)),
            Err(other) => Err(told(other)),
        }
    }

    fn put(&self, name: &str, text: &str) -> Result<(), QuickError> {
        Self::ask()?;
        LocalStorage::set(self.full(name), text).map_err(told)
    }

    fn drop(&self, name: &str) -> Result<(), QuickError> {
        Self::ask()?;
        LocalStorage::delete(self.full(name));
        Ok(())
    }

    fn names(&self) -> Result<Vec<String>, QuickError> {
        let storage = Self::ask()?;
        let mut names = Vec::new();
        for at in 0..storage.length().map_err(|e| quick_error(&e))? {
            let name = storage.key(at).map_err(|e| quick_error(&e))?;
            names.extend(name.as_deref().and_then(|full| full.strip_prefix(&self.prefix)).map(str::to_owned));
        }
        Ok(names)
    }
}
