//! The desk that the crew's form works at: stores, lock and queue of this browser, opened together.

use std::rc::Rc;

use futures_util::future::join4;
use serde::Serialize;
use serde::de::DeserializeOwned;
use wasm_bindgen_futures::spawn_local;

use crate::record::{Body, DeviceId, Digest, Journal, JsonError, Photo, Salt};

use super::browser_channel::Channel;
pub use super::browser_lock::NoLock;
use super::browser_lock::{self, Lock};
use super::browser_quick::LocalQuick;
use super::browser_spare::CacheSpare;
use super::browser_store::BrowserStore;
use super::settings::{self, Setting};
use super::spare::{Doubled, Spare as _};
use super::store::{Store as _, StoreError};
use super::{Begin, Drafted, Promise, Queue, Report, Seed, Stamp, Unsaved, Writing, photo};

/// What the other tabs are told when entries were added.
const ADDED: &str = "added";

/// The names under which everything lies in this browser.
#[derive(Clone, Debug)]
pub struct Place {
    /// The database.
    pub database: String,
    /// The cache that holds the second copy.
    pub spare: String,
    /// What names in the small store begin with.
    pub prefix: String,
    /// The lock, and the channel between tabs.
    pub lock: String,
}

impl Default for Place {
    fn default() -> Self {
        Self {
            database: "marrowbook".to_owned(),
            spare: "marrowbook.spare".to_owned(),
            prefix: "marrowbook.".to_owned(),
            lock: "marrowbook.journal".to_owned(),
        }
    }
}

/// Why this page only shows.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ReadOnly {
    /// No lock.
    #[error(transparent)]
    NoLock(#[from] NoLock),
    /// The browser gives no random bytes, without which neither key nor entry can be made.
    #[error("this browser gives no random bytes: {0}")]
    NoRandom(String),
}

/// Why an answer was not taken. It was not taken at all: the screen keeps it.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotTaken {
    /// This page only shows.
    #[error(transparent)]
    ReadOnly(#[from] ReadOnly),
    /// The answer cannot be written down.
    #[error("this answer cannot be written: {0}")]
    Unwritable(#[from] JsonError),
}

/// What the opening gave.
pub struct Opened {
    /// The desk.
    pub desk: Desk,
    /// All entries that can be read.
    pub journal: Journal,
    /// The device that this phone writes as.
    pub device: DeviceId,
    /// The seed of its key; absent where the page only shows.
    pub seed: Option<Seed>,
    /// What to say on the first screen.
    pub report: Report,
    /// What can be promised about the next answer.
    pub promise: Promise,
}

type BothStores = Doubled<BrowserStore, CacheSpare>;
type BrowserQueue = Queue<BothStores, LocalQuick>;

/// The desk. Dropping it gives the lock back.
pub struct Desk {
    store: Rc<BothStores>,
    writing: Result<Rc<BrowserQueue>, ReadOnly>,
    channel: Option<Rc<Channel>>,
    lock: Option<Lock>,
}

/// Open everything. Never fails: where the browser refuses something, `report`, `promise` and
/// [`Desk::read_only`] say what, and the form goes on with the rest. All that another process of the browser has to
/// answer is asked for at the first poll; `stamp` is made while it is on its way.
pub async fn open(place: &Place, stamp: impl FnOnce() -> Stamp, device_of: impl Fn(&Seed) -> DeviceId) -> Opened {
    let spare = CacheSpare::new(&place.spare);
    let (lock, proper) = (browser_lock::take(&place.lock), BrowserStore::open(&place.database));
    let (lock, proper, names, stamp) = join4(lock, proper, spare.names(), async { stamp() }).await;
    let (may_write, lock, begin) = prepare(lock, stamp);
    let store = Rc::new(Doubled::new(proper, spare, names));
    let quick = LocalQuick::new(&place.prefix);
    let opened = super::open(Rc::clone(&store), quick, &begin, device_of, may_write.is_ok()).await;
    let writing = match (may_write, opened.writing) {
        (Ok(()), Writing::Queue(queue)) => Ok(queue),
        (Ok(()), Writing::ReadOnly) => Err(ReadOnly::NoLock(NoLock::Elsewhere)),
        (Err(why), _) => Err(why),
    };
    let channel = Channel::open(&place.lock).ok().map(Rc::new);
    Opened {
        desk: Desk { store, writing, channel, lock },
        journal: opened.journal,
        device: opened.device,
        seed: opened.seed,
        report: opened.report,
        promise: opened.promise,
    }
}

fn prepare(lock: Result<Lock, NoLock>, stamp: Stamp) -> (Result<(), ReadOnly>, Option<Lock>, Begin) {
    let mut begin = Begin { seed: Seed([0; 32]), salt: Salt([0; 16]), stamp };
    let random = fill(&mut begin.seed.0).and_then(|()| fill(&mut begin.salt.0));
    match (random, lock) {
        (Ok(()), Ok(lock)) => (Ok(()), Some(lock), begin),
        (Err(why), _) => (Err(why), None, begin),
        (_, Err(why)) => (Err(why.into()), None, begin),
    }
}

fn fill(bytes: &mut [u8]) -> Result<(), ReadOnly> {
    getrandom::fill(bytes).map_err(|e| ReadOnly::NoRandom(e.to_string()))
}

impl Desk {
    /// Take the answers of one tap. They are entries from here on and have their quick copies when
    /// this returns; they are written without being asked again, and `saving` resolves when that has
    /// ended: show the tick then.
    ///
    /// # Errors
    /// Where they were not taken.
    pub fn append(&self, bodies: Vec<Body>) -> Result<Drafted, NotTaken> {
        let queue = self.writing.as_ref().map_err(Clone::clone)?;
        let mut answers = Vec::with_capacity(bodies.len());
        for body in bodies {
            let mut salt = Salt([0; 16]);
            fill(&mut salt.0)?;
            answers.push((body, salt));
        }
        let drafted = queue.draft(answers)?;
        let (queue, store, channel) = (Rc::clone(queue), Rc::clone(&self.store), self.channel.clone());
        spawn_local(async move {
            if queue.flush().await.is_ok() {
                tell(channel.as_deref());
                let _ = store.merge().await;
            }
        });
        Ok(drafted)
    }

    /// Bring the second copy up to the store proper, for a page that writes. It reads everything once more, so it is
    /// for when the first screen is there; what it does not come to, the next start does.
    pub fn tidy(&self) {
        if self.writing.is_ok() {
            let store = Rc::clone(&self.store);
            spawn_local(async move {
                let _ = store.tidy().await;
            });
        }
    }

    /// Try again to save what waits.
    ///
    /// # Errors
    /// What waits goes on waiting.
    pub async fn retry(&self) -> Result<(), Unsaved> {
        if let Ok(queue) = &self.writing {
            queue.flush().await?;
            tell(self.channel.as_deref());
        }
        Ok(())
    }

    /// Why this page only shows, where it does.
    pub fn read_only(&self) -> Option<&ReadOnly> {
        self.writing.as_ref().err()
    }

    /// What can be promised about the next answer, as things stand.
    pub fn promise(&self) -> Promise {
        self.writing.as_ref().map_or(Promise::MemoryOnly, |queue| queue.promise())
    }

    /// Why the last try to save failed, where it did.
    pub fn trouble(&self) -> Option<StoreError> {
        self.writing.as_ref().ok().and_then(|queue| queue.trouble())
    }

    /// How many entries wait to be saved.
    pub fn waiting(&self) -> usize {
        self.writing.as_ref().map_or(0, |queue| queue.waiting())
    }

    /// Hear that another page has added entries; then [`reread`](Self::reread).
    pub fn on_added(&self, mut hear: impl FnMut() + 'static) {
        if let Some(channel) = &self.channel {
            channel.listen(move |word| {
                if word == ADDED {
                    hear();
                }
            });
        }
    }

    /// The entries as they are on disk now, for a page that only shows.
    ///
    /// # Errors
    /// Where the store is refused or lost.
    pub async fn reread(&self) -> Result<Journal, StoreError> {
        let found = match self.store.read().await {
            Err(StoreError::Lost(_)) => {
                self.store.reopen().await?;
                self.store.read().await?
            }
            other => other?,
        };
        let mut journal = Journal::new();
        let rows = found.rows.iter().map(|raw| &raw.text).chain(&found.forks);
        for entry in rows.filter_map(|text| super::row::read(text).ok()) {
            // A row that was read agrees with its header: adding it cannot fail.
            let _ = journal.add(entry);
        }
        Ok(journal)
    }

    /// Keep a photo; then append the entry that names it.
    ///
    /// # Errors
    /// Where the store is full, refused or lost.
    pub async fn keep_photo(&self, bytes: &[u8], media: &str) -> Result<Photo, StoreError> {
        photo::keep(&*self.store, bytes, media).await
    }

    /// A photo's bytes.
    ///
    /// # Errors
    /// Where the store is refused or lost.
    pub async fn photo(&self, photo: &Photo) -> Result<photo::Kept, StoreError> {
        photo::read(&*self.store, photo).await
    }

    /// The photos that are here.
    ///
    /// # Errors
    /// Where the store is refused or lost.
    pub async fn photos(&self) -> Result<Vec<Digest>, StoreError> {
        self.store.photos().await
    }

    /// Delete a photo's bytes. Append the entry that says so first: the journal keeps the trace.
    ///
    /// # Errors
    /// Where the store is refused or lost.
    pub async fn delete_photo(&self, name: Digest) -> Result<(), StoreError> {
        self.store.delete_photo(name).await
    }

    /// A setting's text as it lies there.
    ///
    /// # Errors
    /// Where the store is refused or lost.
    pub async fn setting_text(&self, name: &str) -> Result<Option<String>, StoreError> {
        self.store.setting(name).await
    }

    /// Keep a setting's text.
    ///
    /// # Errors
    /// Where the store is full, refused or lost.
    pub async fn put_setting_text(&self, name: &str, text: &str) -> Result<(), StoreError> {
        self.store.put_setting(name, text).await
    }

    /// A setting; one that this version cannot read is put aside and not lost.
    ///
    /// # Errors
    /// Where the store is full, refused or lost.
    pub async fn setting<T: DeserializeOwned>(&self, name: &str) -> Result<Setting<T>, StoreError> {
        settings::read(&*self.store, name).await
    }

    /// Keep a setting.
    ///
    /// # Errors
    /// Where the store is full, refused or lost, or the value cannot be written as JSON.
    pub async fn put_setting<T: Serialize>(&self, name: &str, value: &T) -> Result<(), StoreError> {
        let text = serde_json::to_string(value).map_err(|e| StoreError::Failed(e.to_string()))?;
        self.store.put_setting(name, &text).await
    }

    /// The store proper.
    pub fn store(&self) -> &BrowserStore {
        self.store.inner()
    }

    /// Whether this page holds the lock.
    pub const fn holds_lock(&self) -> bool {
        self.lock.is_some()
    }
}

impl Drop for Desk {
    fn drop(&mut self) {
        // An open connection would stand in the way of a newer version's stores.
        self.store.inner().close();
    }
}

fn tell(channel: Option<&Channel>) {
    if let Some(channel) = channel {
        channel.tell(ADDED);
    }
}
