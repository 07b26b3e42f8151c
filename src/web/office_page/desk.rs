//! What the parts of the page share: the desk, the opened key, the folder.

use std::collections::BTreeMap;
use std::sync::Arc;

use leptos::prelude::*;

use crate::bundle::DeviceKey;
use crate::office::hand::Hand;
use crate::record::{Digest, Moment};
use crate::web::platform::clock;
use crate::web::platform::folder::Folder;
use crate::words::{Arg, Language, say_office};

pub(super) const LANGUAGE: Language = Language::English;

pub(super) fn tell(id: &str) -> String {
    say_office(LANGUAGE, id, &[])
}

pub(super) fn tell_with(id: &str, args: &[(&str, Arg)]) -> String {
    say_office(LANGUAGE, id, args)
}

pub(super) fn count(n: usize) -> Arg {
    Arg::Count(i64::try_from(n).unwrap_or(i64::MAX))
}

/// Now, by this machine's clock.
pub(super) fn now() -> Moment {
    clock::now().unwrap_or(Moment::EPOCH)
}

/// Where the archive lies.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) enum Lies {
    #[default]
    Page,
    Zip(String),
    Folder(String),
}

/// How saving stands.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) enum Saving {
    #[default]
    Idle,
    Working,
    Failed(String),
    Handed,
}

/// What the parts share.
#[derive(Clone, Copy)]
pub(super) struct Desk {
    pub(super) hand: RwSignal<Hand>,
    pub(super) key: RwSignal<Option<Arc<DeviceKey>>>,
    pub(super) lies: RwSignal<Lies>,
    pub(super) saving: RwSignal<Saving>,
    folder: StoredValue<Option<Folder>, LocalStorage>,
    /// Digests of files that other programs may change too, as they were when the folder was opened.
    seen: StoredValue<BTreeMap<String, Digest>>,
}

/// Files without their digest for a name.
const SHARED: [&str; 3] = ["office-key.json", "keyring.txt", "keyring.json"];

impl Desk {
    pub(super) fn new() -> Self {
        let desk = Self {
            hand: RwSignal::new(Hand::default()),
            key: RwSignal::new(None),
            lies: RwSignal::new(Lies::Page),
            saving: RwSignal::new(Saving::Idle),
            folder: StoredValue::new_local(None),
            seen: StoredValue::new(BTreeMap::new()),
        };
        Effect::new(move || {
            let unsaved = desk.hand.with(|hand| hand.held().unsaved().count());
            if unsaved > 0 && desk.folder.with_value(Option::is_some) {
                desk.save_into_folder();
            }
        });
        desk
    }

    pub(super) fn key_now(self) -> Option<Arc<DeviceKey>> {
        self.key.try_get_untracked().flatten()
    }

    /// Takes over a folder that was opened.
    pub(super) fn in_folder(self, folder: Folder) {
        let files = self.hand.with_untracked(|hand| hand.held().all());
        let unsaved = self.hand.with_untracked(|hand| hand.held().unsaved().written);
        let read = SHARED.into_iter().filter(|name| !unsaved.contains(*name));
        let seen = read.filter_map(|name| Some((name.to_owned(), Digest::of(&[files.get(name)?])))).collect();
        self.seen.set_value(seen);
        self.lies.set(Lies::Folder(folder.title()));
        self.folder.set_value(Some(folder));
        self.hand.update(|_| {});
    }

    /// The archive no longer lies in the folder.
    pub(super) fn out_of_folder(self) {
        self.folder.set_value(None);
    }

    fn save_into_folder(self) {
        if self.saving.get_untracked() == Saving::Working {
            return;
        }
        let Some(folder) = self.folder.get_value() else { return };
        self.saving.set(Saving::Working);
        leptos::task::spawn_local(async move {
            let done = self.write_unsaved(&folder).await;
            let next = done.map_or_else(Saving::Failed, |()| Saving::Idle);
            let again = next == Saving::Idle;
            self.saving.try_set(next);
            // What came in the meantime; after a fault the person acts first.
            if again && self.hand.try_with_untracked(|hand| hand.held().unsaved().count() > 0) == Some(true) {
                self.save_into_folder();
            }
        });
    }

    async fn write_unsaved(self, folder: &Folder) -> Result<(), String> {
        let held = self.hand.try_with_untracked(|hand| hand.held().clone()).unwrap_or_default();
        let unsaved = held.unsaved();
        let files = held.all();
        for name in unsaved.written.iter().chain(&unsaved.removed).filter(|name| SHARED.contains(&name.as_str())) {
            let there = folder.read(name).await.map_err(|error| error.to_string())?;
            let there = there.map(|bytes| Digest::of(&[&bytes]));
            let same = files.get(name).is_some_and(|mine| there == Some(Digest::of(&[mine])));
            if there != self.seen.with_value(|seen| seen.get(name).copied()) && !same {
                return Err(tell_with("archive.page.changed_there", &[("name", name.as_str().into())]));
            }
        }
        // Named by digest first: a keyring or key never lies there without what it speaks of.
        let (shared, mut order): (Vec<&String>, Vec<&String>) =
            unsaved.written.iter().partition(|name| SHARED.contains(&name.as_str()));
        order.extend(shared.into_iter().rev());
        let mut written = BTreeMap::new();
        for path in order {
            let Some(bytes) = files.get(path) else { continue };
            folder.write_file(path, bytes).await.map_err(|error| error.to_string())?;
            if SHARED.contains(&path.as_str()) {
                self.seen.update_value(|seen| {
                    seen.insert(path.clone(), Digest::of(&[bytes]));
                });
            }
            written.insert(path.clone(), bytes.clone());
        }
        for name in &unsaved.removed {
            folder.remove(name).await.map_err(|error| error.to_string())?;
            self.seen.update_value(|seen| {
                seen.remove(name);
            });
        }
        held.saved(&written, &unsaved.removed);
        self.hand.try_update(|_| {});
        Ok(())
    }
}
