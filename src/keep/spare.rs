//! The second copy: what the store proper took, once more in a store of another kind.
//!
//! A browser may throw its whole record store away. Chromium does so when a block of the store's log does not read: a
//! write that a full disk or a dead battery cut off is passed over at the next start, new records are appended behind
//! it, and the start after that finds the log damaged and begins an empty store. Pieces of the second copy are files of
//! their own, written once and not again.

use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet};

use crate::record::{DeviceId, Digest, EntryId, Head};

use super::row;
use super::store::{Changes, RawRow, Shelf, Store, StoreError};

/// So many pieces with fewer entries than this each are made one: each is a file, and the start lists them.
const MANY: u64 = 64;
const SEED: &str = "seed";

/// A store of pieces under names of letters, digits, `-`, `_` and `.`.
#[allow(async_fn_in_trait)]
pub trait Spare {
    /// All names.
    async fn names(&self) -> Result<Vec<String>, StoreError>;
    /// The bytes under a name.
    async fn get(&self, name: &str) -> Result<Option<Vec<u8>>, StoreError>;
    /// Put bytes under a name.
    async fn put(&self, name: &str, bytes: &[u8]) -> Result<(), StoreError>;
    /// Drop a name; dropping what is not there is no error.
    async fn drop(&self, name: &str) -> Result<(), StoreError>;
}

/// Entries of one device that follow each other, in one piece.
#[derive(Clone, Copy, PartialEq, Eq)]
struct Piece {
    device: DeviceId,
    first: u64,
    last: u64,
}

impl Piece {
    fn name(self) -> String {
        format!("entries.{}.{}.{}", self.device, self.first, self.last)
    }

    fn read(name: &str) -> Option<Self> {
        let mut parts = name.strip_prefix("entries.")?.split('.');
        let device = DeviceId(Digest::parse(parts.next()?).ok()?);
        let (first, last): (u64, u64) = (parts.next()?.parse().ok()?, parts.next()?.parse().ok()?);
        // A name that was not written here must not keep the start counting.
        (first <= last && last - first < 1_000_000).then_some(Self { device, first, last })
    }

    fn ids(self) -> impl Iterator<Item = EntryId> + Clone {
        (self.first..=self.last).map(move |seq| EntryId { device: self.device, seq })
    }

    fn holds(self, id: EntryId) -> bool {
        id.device == self.device && (self.first..=self.last).contains(&id.seq)
    }
}

/// Rows as pieces: one for each run of numbers. A row holds no line break.
fn pieces<'a>(rows: impl Iterator<Item = (EntryId, &'a str)>) -> Vec<(Piece, String)> {
    let mut all: Vec<(Piece, String)> = Vec::new();
    for (EntryId { device, seq }, text) in rows {
        match all.last_mut() {
            Some((piece, joined)) if piece.device == device && piece.last + 1 == seq => {
                piece.last = seq;
                joined.push('\n');
                joined.push_str(text);
            }
            _ => all.push((Piece { device, first: seq, last: seq }, text.to_owned())),
        }
    }
    all
}

fn photo(name: Digest) -> String {
    format!("photo.{name}")
}

fn setting(name: &str) -> String {
    format!("setting.{name}")
}

/// The store proper with its second copy. What the copy cannot take is not saved: a disk that is too full for one is
/// too full for both. Where the browser has no second store at all, the store proper stands alone.
pub struct Doubled<S, P> {
    inner: S,
    spare: P,
    /// Names of the pieces; `None` where there is no second store.
    names: RefCell<Option<BTreeSet<String>>>,
    /// What the copy has not taken yet.
    owed: RefCell<BTreeMap<String, Vec<u8>>>,
    merging: Cell<bool>,
}

impl<S: Store, P: Spare> Doubled<S, P> {
    /// Both of them. `names` are those of the spare, as it gave them.
    pub fn new(inner: S, spare: P, names: Result<Vec<String>, StoreError>) -> Self {
        let names = RefCell::new(names.ok().map(BTreeSet::from_iter));
        Self { inner, spare, names, owed: RefCell::default(), merging: Cell::new(false) }
    }

    /// The store proper.
    pub const fn inner(&self) -> &S {
        &self.inner
    }

    /// Copy what lies in the store proper alone (an earlier form wrote no second copy), and make one piece of many.
    /// For the page that writes, after its start.
    ///
    /// # Errors
    /// Where either store fails. Nothing is lost by it.
    pub async fn tidy(&self) -> Result<(), StoreError> {
        if self.names.borrow().is_none() {
            return Ok(());
        }
        let found = self.inner.read().await?;
        let old = self.pieces();
        let rows = found.rows.iter().filter_map(|raw| Some((raw.at?, raw.text.as_str())));
        for (piece, text) in pieces(rows.filter(|(id, _)| !old.iter().any(|piece| piece.holds(*id)))) {
            self.put(&piece.name(), text.as_bytes()).await?;
        }
        if let Some(seed) = found.seeds.first().filter(|_| !self.has(SEED)) {
            self.put(SEED, seed.as_bytes()).await?;
        }
        for name in self.inner.photos().await? {
            if !self.has(&photo(name))
                && let Some(bytes) = self.inner.photo(name).await?
            {
                self.put(&photo(name), &bytes).await?;
            }
        }
        self.merge().await
    }

    /// Make one piece of many small ones; nothing where they are few. What was merged is large and stays as it is.
    ///
    /// # Errors
    /// Where the second store fails. Nothing is lost by it.
    pub async fn merge(&self) -> Result<(), StoreError> {
        let small: Vec<Piece> = self.pieces().into_iter().filter(|piece| piece.last - piece.first < MANY).collect();
        if small.len() as u64 <= MANY || self.merging.replace(true) {
            return Ok(());
        }
        let done = self.merge_all(&small).await;
        self.merging.set(false);
        done
    }

    async fn merge_all(&self, small: &[Piece]) -> Result<(), StoreError> {
        let mut rows = BTreeMap::new();
        for piece in small {
            let text = self.text(&piece.name()).await.unwrap_or_default();
            rows.extend(piece.ids().zip(text.lines().map(str::to_owned)));
        }
        let new = pieces(rows.iter().map(|(id, text)| (*id, text.as_str())));
        for (piece, text) in &new {
            self.put(&piece.name(), text.as_bytes()).await?;
        }
        for old in small.iter().filter(|old| !new.iter().any(|(new, _)| new == *old)) {
            if old.ids().all(|id| rows.contains_key(&id)) {
                self.drop(&old.name()).await?;
            }
        }
        Ok(())
    }

    fn has(&self, name: &str) -> bool {
        self.names.borrow().as_ref().is_some_and(|names| names.contains(name))
    }

    fn pieces(&self) -> Vec<Piece> {
        self.names.borrow().iter().flatten().filter_map(|name| Piece::read(name)).collect()
    }

    async fn put(&self, name: &str, bytes: &[u8]) -> Result<(), StoreError> {
        if self.names.borrow().is_none() {
            return Ok(());
        }
        self.spare.put(name, bytes).await?;
        if let Some(names) = &mut *self.names.borrow_mut() {
            names.insert(name.to_owned());
        }
        Ok(())
    }

    async fn get(&self, name: &str) -> Result<Option<Vec<u8>>, StoreError> {
        if self.has(name) { self.spare.get(name).await } else { Ok(None) }
    }

    async fn drop(&self, name: &str) -> Result<(), StoreError> {
        if self.has(name) {
            self.spare.drop(name).await?;
            if let Some(names) = &mut *self.names.borrow_mut() {
                names.remove(name);
            }
        }
        Ok(())
    }

    async fn text(&self, name: &str) -> Option<String> {
        String::from_utf8(self.get(name).await.ok()??).ok()
    }

    async fn copy(&self, changes: &Changes) -> Result<(), StoreError> {
        let rows: Vec<_> = changes.entries.iter().map(|entry| (entry.id(), row::write(entry))).collect();
        let pieces = pieces(rows.iter().map(|(id, text)| (*id, text.as_str())));
        let pieces = pieces.into_iter().map(|(piece, text)| (piece.name(), text.into_bytes()));
        let seed = changes.seeds.first().map(|seed| (SEED.to_owned(), seed.write().into_bytes()));
        self.owed.borrow_mut().extend(pieces.chain(seed));
        loop {
            let next = self.owed.borrow().iter().next().map(|(name, bytes)| (name.clone(), bytes.clone()));
            let Some((name, bytes)) = next else { return Ok(()) };
            self.put(&name, &bytes).await?;
            self.owed.borrow_mut().remove(&name);
        }
    }
}

impl<S: Store, P: Spare> Store for Doubled<S, P> {
    async fn read(&self) -> Result<Shelf, StoreError> {
        let mut found = self.inner.read().await?;
        let here: BTreeSet<EntryId> = found.rows.iter().filter_map(|raw| raw.at).collect();
        for piece in self.pieces() {
            let ids = piece.ids();
            if ids.clone().all(|id| here.contains(&id)) {
                continue;
            }
            let text = self.text(&piece.name()).await.unwrap_or_default();
            // A piece that does not read was written all the same: its numbers are in use, and what is missing is told.
            if text.is_empty() {
                found.heads.push(row::write_head(&Head { device: piece.device, seq: piece.last, digest: None }));
            }
            let rows = ids.zip(text.lines()).filter(|(id, _)| !here.contains(id));
            found.spared.extend(rows.map(|(id, text)| RawRow { at: Some(id), text: text.to_owned() }));
        }
        if found.seeds.is_empty() {
            found.spared_seed = self.text(SEED).await;
        }
        Ok(found)
    }

    async fn commit(&self, changes: &Changes) -> Result<(), StoreError> {
        self.inner.commit(changes).await?;
        self.copy(changes).await
    }

    async fn row(&self, id: EntryId) -> Result<Option<String>, StoreError> {
        self.inner.row(id).await
    }

    async fn reopen(&self) -> Result<(), StoreError> {
        self.inner.reopen().await
    }

    async fn put_photo(&self, name: Digest, bytes: &[u8]) -> Result<(), StoreError> {
        self.inner.put_photo(name, bytes).await?;
        self.put(&photo(name), bytes).await
    }

    async fn photo(&self, name: Digest) -> Result<Option<Vec<u8>>, StoreError> {
        match self.inner.photo(name).await? {
            None => self.get(&photo(name)).await,
            found => Ok(found),
        }
    }

    async fn photos(&self) -> Result<Vec<Digest>, StoreError> {
        let mut all = self.inner.photos().await?;
        for name in self.names.borrow().iter().flatten() {
            let spared = name.strip_prefix("photo.").and_then(|name| Digest::parse(name).ok());
            all.extend(spared.filter(|name| !all.contains(name)));
        }
        Ok(all)
    }

    async fn delete_photo(&self, name: Digest) -> Result<(), StoreError> {
        self.drop(&photo(name)).await?;
        self.inner.delete_photo(name).await
    }

    async fn setting(&self, name: &str) -> Result<Option<String>, StoreError> {
        match self.inner.setting(name).await? {
            None => Ok(self.text(&setting(name)).await),
            found => Ok(found),
        }
    }

    async fn put_setting(&self, name: &str, json: &str) -> Result<(), StoreError> {
        self.inner.put_setting(name, json).await?;
        self.put(&setting(name), json.as_bytes()).await
    }
}
