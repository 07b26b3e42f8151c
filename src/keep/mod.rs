//! Where the journal, photos and settings live.
//!
//! Two stores that fail in different ways. The *quick* store takes a text at once and survives a
//! crashed tab, but the last writes before a power cut can be gone. The *store* proper takes a whole
//! transaction or nothing and has it on disk when it says so. An answer goes into the first at once
//! (the copy), then into the second; only then is it `saved` and the copy dropped. At the start what
//! both hold is read, compared and mended by one pure function, [`start::plan`].
//!
//! Nothing in the journal is ever overwritten: entries are added under their own number, damaged
//! ones stay where they are and are set aside with the reason, forks have a place of their own.

#[cfg(all(feature = "web", target_arch = "wasm32"))]
pub mod browser;
#[cfg(all(feature = "web", target_arch = "wasm32"))]
pub mod browser_channel;
#[cfg(all(feature = "web", target_arch = "wasm32"))]
mod browser_database;
#[cfg(all(feature = "web", target_arch = "wasm32"))]
pub mod browser_fault;
#[cfg(all(feature = "web", target_arch = "wasm32"))]
pub mod browser_lock;
#[cfg(all(feature = "web", target_arch = "wasm32"))]
pub mod browser_quick;
#[cfg(all(feature = "web", target_arch = "wasm32"))]
pub mod browser_spare;
#[cfg(all(feature = "web", target_arch = "wasm32"))]
pub mod browser_store;
mod chain;
pub mod copies;
#[cfg(all(test, not(target_arch = "wasm32")))]
mod kill_tests;
pub mod memory;
pub mod opening;
pub mod photo;
pub mod promise;
pub mod queue;
#[cfg(test)]
mod queue_tests;
pub mod received;
pub mod row;
mod saving;
pub mod seed;
pub mod settings;
pub mod spare;
#[cfg(test)]
mod spare_tests;
pub mod start;
#[cfg(test)]
mod start_tests;
pub mod store;
#[cfg(test)]
mod test_kit;
mod turn;

pub use chain::Break;
pub use opening::{Opened, Writing, open};
pub use promise::Promise;
pub use queue::{Drafted, Queue};
pub use saving::{Saved, Saving, Unsaved};
pub use seed::Seed;
pub use start::{Begin, Report, Stamp};
pub use store::{Changes, Quick, QuickError, SetAside, Store, StoreError};
