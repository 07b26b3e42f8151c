//! What the parts of the page share: the desk, the opened key, the folder.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use leptos::prelude::*;

use crate::bundle::DeviceKey;
use crate::office::archive::SHARED;
use crate::office::files::changed_there;
use crate::office::hand::{Figures, Hand};
use crate::office::zipped::Tree;
use crate::record::{DeviceId, Digest, Moment};
use crate::web::platform::download::download;
use crate::web::platform::file::OutFile;
use crate::web::platform::folder::Folder;
use crate::web::platform::{PlatformError, clock};
use crate::words::{Arg, Language, say_office};
use uuid::Uuid;

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
    /// The invented season, which nobody saves.
    Demo,
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

/// The parts of the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    Files,
    Carcasses,
    Decide,
    Laboratory,
    Season,
    Exports,
    Archive,
    Phones,
    Card,
}

/// What the parts share.
#[derive(Clone, Copy)]
pub(super) struct Desk {
    pub(super) hand: RwSignal<Hand>,
    pub(super) key: RwSignal<Option<Arc<DeviceKey>>>,
    pub(super) lies: RwSignal<Lies>,
    pub(super) saving: RwSignal<Saving>,
    /// Why a file was not handed to the browser.
    pub(super) not_handed: RwSignal<Option<String>>,
    /// The part that is shown.
    pub(super) part: RwSignal<Part>,
    /// The carcass that is open; the list where none is.
    pub(super) carcass: RwSignal<Option<Uuid>>,
    /// What follows from the archive, as far as it is worked out.
    pub(super) figures: RwSignal<Option<Arc<Figures>>>,
    /// Carcasses read, of how many, while figures are worked out.
    pub(super) progress: RwSignal<Option<(usize, usize)>>,
    /// Files opened, of how many; of none where a whole archive is being opened.
    pub(super) opening: RwSignal<Option<(usize, usize)>>,
    /// Moves when files were saved: what is told of them changes then, and no figure.
    saves: RwSignal<u32>,
    folder: StoredValue<Option<Folder>, LocalStorage>,
    /// Digests of files that other programs may change too, as they were when the folder was opened.
    seen: StoredValue<BTreeMap<String, Digest>>,
}

impl Desk {
    pub(super) fn new() -> Self {
        let desk = Self {
            hand: RwSignal::new(Hand::default()),
            key: RwSignal::new(None),
            lies: RwSignal::new(Lies::Page),
            saving: RwSignal::new(Saving::Idle),
            not_handed: RwSignal::new(None),
            part: RwSignal::new(Part::Files),
            carcass: RwSignal::new(None),
            figures: RwSignal::new(None),
            progress: RwSignal::new(None),
            opening: RwSignal::new(None),
            saves: RwSignal::new(0),
            folder: StoredValue::new_local(None),
            seen: StoredValue::new(BTreeMap::new()),
        };
        super::figures::keep_working(desk);
        Effect::new(move || {
            if desk.unsaved() > 0 && desk.folder.with_value(Option::is_some) {
                desk.save_into_folder();
            }
        });
        desk
    }

    /// Opens a carcass.
    pub(super) fn see(self, carcass: Uuid) {
        self.carcass.set(Some(carcass));
        self.show(Part::Carcasses);
    }

    /// Shows a part, from its beginning.
    pub(super) fn show(self, part: Part) {
        self.part.set(part);
        if let Some(window) = web_sys::window() {
            window.scroll_to_with_x_and_y(0.0, 0.0);
        }
    }

    /// The office's key, whose passphrase need not have been typed.
    pub(super) fn office(self) -> Option<DeviceId> {
        self.hand.try_with_untracked(|hand| hand.office_key()?.public().ok()).flatten().map(|key| key.id())
    }

    /// How many files are not saved; told anew when files come and when they were saved.
    pub(super) fn unsaved(self) -> usize {
        self.saves.track();
        self.hand.with(|hand| hand.held().unsaved().count())
    }

    /// Says that these files were saved.
    pub(super) fn saved(self, as_written: &Tree, removed: &BTreeSet<String>) {
        self.hand.try_with_untracked(|hand| hand.held().saved(as_written, removed));
        self.saves.try_update(|saves| *saves = saves.wrapping_add(1));
    }

    /// Hands a file to the browser; where that fails, the page says so.
    pub(super) fn hand_out(self, file: &OutFile) {
        self.handed_out(download(file));
    }

    /// Says so where a file was not handed to the browser.
    pub(super) fn handed_out(self, went: Result<(), PlatformError>) {
        self.not_handed.try_set(went.err().map(|error| error.to_string()));
    }

    /// Whether the archive lies in a folder that is open.
    pub(super) fn has_folder(self) -> bool {
        self.folder.with_value(Option::is_some)
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
        self.saving.set(Saving::Idle);
        self.lies.set(Lies::Folder(folder.title()));
        self.folder.set_value(Some(folder));
        // Written where something is not: the effect above looks again.
        self.saves.update(|saves| *saves = saves.wrapping_add(1));
    }

    /// The archive no longer lies in the folder.
    pub(super) fn out_of_folder(self) {
        self.folder.set_value(None);
        self.saving.set(Saving::Idle);
    }

    /// Writes what is not saved into the folder.
    pub(super) fn save_into_folder(self) {
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
            let mine = files.get(name).map(|bytes| Digest::of(&[bytes]));
            if changed_there(there, self.seen.with_value(|seen| seen.get(name).copied()), mine) {
                return Err(tell_with("archive.page.changed_there", &[("name", name.as_str().into())]));
            }
        }
        let mut written = BTreeMap::new();
        for path in unsaved.order() {
            let Some(bytes) = files.get(path) else { continue };
            folder.write_file(path, bytes).await.map_err(|error| error.to_string())?;
            if SHARED.contains(&path) {
                self.seen.update_value(|seen| {
                    seen.insert(path.to_owned(), Digest::of(&[bytes]));
                });
            }
            written.insert(path.to_owned(), bytes.clone());
        }
        for name in &unsaved.removed {
            folder.remove(name).await.map_err(|error| error.to_string())?;
            self.seen.update_value(|seen| {
                seen.remove(name);
            });
        }
        held.saved(&written, &unsaved.removed);
        self.saves.try_update(|saves| *saves = saves.wrapping_add(1));
        Ok(())
    }
}
