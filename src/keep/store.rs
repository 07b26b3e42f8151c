//! The two stores as the rest of the room sees them.

use crate::record::{Digest, Entry, EntryId, Head};

use super::Seed;

/// What went wrong with the store proper.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum StoreError {
    /// The browser does not let this page keep anything (private mode, setting, damaged profile).
    #[error("the browser refuses to keep records: {0}")]
    Refused(String),
    /// No room left.
    #[error("the phone's storage for this page is full")]
    Full,
    /// The connection to the store went away; opening it again may help.
    #[error("the connection to the record store was lost: {0}")]
    Lost(String),
    /// Something stands already where an entry was to be added. Nothing was overwritten.
    #[error("an entry of that number is stored already")]
    Taken,
    /// Anything else, in the store's own words.
    #[error("the record store failed: {0}")]
    Failed(String),
}

/// What went wrong with the quick store.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum QuickError {
    /// Not available to this page.
    #[error("the browser refuses its small store: {0}")]
    Refused(String),
    /// No room left.
    #[error("the browser's small store is full")]
    Full,
}

/// One stored row as it lies there, not yet trusted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RawRow {
    /// The number it is stored under; `None` where the place is no entry's number.
    pub at: Option<EntryId>,
    /// Its text.
    pub text: String,
}

/// A record that cannot be read, kept verbatim with the reason.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SetAside {
    /// Where it was found, in a plain clause.
    pub place: String,
    /// What is wrong with it, in a plain clause.
    pub reason: String,
    /// The text as found.
    pub text: String,
}

impl SetAside {
    /// Its name in the store: the same text from the same place is set aside once only.
    pub fn name(&self) -> Digest {
        Digest::of(&[self.place.as_bytes(), b"\n", self.text.as_bytes()])
    }
}

/// All that the store proper holds about the journal.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Shelf {
    /// Entries, each under its number.
    pub rows: Vec<RawRow>,
    /// Heads, one a device.
    pub heads: Vec<String>,
    /// Entries whose number was taken by another.
    pub forks: Vec<String>,
    /// Names of what has been set aside before.
    pub set_aside: Vec<Digest>,
    /// Key seeds, the oldest first.
    pub seeds: Vec<String>,
    /// Entries that only the second copy holds.
    pub spared: Vec<RawRow>,
    /// The key's seed, where only the second copy holds it.
    pub spared_seed: Option<String>,
}

/// What goes into the store proper in one transaction: all of it or nothing.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Changes {
    /// Entries to add, each under its own number.
    pub entries: Vec<Entry>,
    /// The head after them; replaces that device's head.
    pub head: Option<Head>,
    /// Entries whose number is taken, to keep under number and digest. Twice is no error.
    pub forks: Vec<Entry>,
    /// Damaged records to set aside under their name. Twice is no error.
    pub set_aside: Vec<SetAside>,
    /// Key seeds to add.
    pub seeds: Vec<Seed>,
}

impl Changes {
    /// True where there is nothing to do.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
            && self.head.is_none()
            && self.forks.is_empty()
            && self.set_aside.is_empty()
            && self.seeds.is_empty()
    }
}

/// The store proper.
///
/// Futures are not `Send`: a browser page has one thread, and so has everything that uses this.
#[allow(async_fn_in_trait)]
pub trait Store {
    /// Everything about the journal.
    async fn read(&self) -> Result<Shelf, StoreError>;

    /// Put all changes in, in one transaction that is on disk when this returns.
    ///
    /// # Errors
    /// Then nothing of it is in, except after [`StoreError::Lost`], where it is not known.
    async fn commit(&self, changes: &Changes) -> Result<(), StoreError>;

    /// The row stored under one number.
    async fn row(&self, id: EntryId) -> Result<Option<String>, StoreError>;

    /// Make the connection anew.
    async fn reopen(&self) -> Result<(), StoreError>;

    /// Keep a photo's bytes under their digest; keeping it twice changes nothing.
    async fn put_photo(&self, name: Digest, bytes: &[u8]) -> Result<(), StoreError>;

    /// A photo's bytes.
    async fn photo(&self, name: Digest) -> Result<Option<Vec<u8>>, StoreError>;

    /// The photos that are here.
    async fn photos(&self) -> Result<Vec<Digest>, StoreError>;

    /// Delete a photo's bytes. The entry that names it stays; whoever deletes also says so in the
    /// journal.
    async fn delete_photo(&self, name: Digest) -> Result<(), StoreError>;

    /// A setting's JSON text.
    async fn setting(&self, name: &str) -> Result<Option<String>, StoreError>;

    /// Keep a setting, in place of an earlier one.
    async fn put_setting(&self, name: &str, json: &str) -> Result<(), StoreError>;
}

/// The quick store: texts by name, taken at once.
pub trait Quick {
    /// The text under a name.
    fn get(&self, name: &str) -> Result<Option<String>, QuickError>;

    /// Put a text under a name.
    fn put(&self, name: &str, text: &str) -> Result<(), QuickError>;

    /// Drop a name; dropping what is not there is no error.
    fn drop(&self, name: &str) -> Result<(), QuickError>;

    /// All names of ours.
    fn names(&self) -> Result<Vec<String>, QuickError>;
}
