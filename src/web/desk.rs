//! Where entries go: this browser's stores behind one queue. Before they are open, and outside a
//! browser, nothing is taken.

use crate::keep::received::Received;
use crate::keep::settings::Setting;
use crate::keep::{Promise, Saving};
use crate::record::{Body, Digest, Entry, Photo};

use super::form_photo::NotKept;

#[cfg(target_arch = "wasm32")]
use crate::keep::{StoreError, browser, received};

/// Where entries go.
#[derive(Clone, Default)]
pub(crate) struct Desk {
    #[cfg(target_arch = "wasm32")]
    inner: Option<std::rc::Rc<browser::Desk>>,
}

/// Answers taken in, and the wait for the tick.
pub(crate) struct Taken {
    /// The entries.
    pub(crate) entries: Vec<Entry>,
    /// Resolves when the first try to save has ended.
    pub(crate) saving: Option<Saving>,
}

#[cfg(target_arch = "wasm32")]
fn not_kept(error: StoreError) -> NotKept {
    match error {
        StoreError::Full => NotKept::Full,
        other => NotKept::Other(other.to_string()),
    }
}

#[cfg(target_arch = "wasm32")]
impl Desk {
    /// The open desk.
    pub(crate) fn open(desk: browser::Desk) -> Self {
        Self { inner: Some(std::rc::Rc::new(desk)) }
    }

    /// Bring the second copy up to date.
    pub(crate) fn tidy(&self) {
        if let Some(desk) = &self.inner {
            desk.tidy();
        }
    }

    /// Why nothing may be written here; `None` where it may.
    pub(crate) fn read_only(&self) -> Option<String> {
        self.inner.as_ref().and_then(|desk| desk.read_only().map(ToString::to_string))
    }

    /// What can be promised about the next answer.
    pub(crate) fn promise(&self) -> Promise {
        self.inner.as_ref().map_or(Promise::MemoryOnly, |desk| desk.promise())
    }

    /// Make entries of bodies; they are written without being asked again.
    ///
    /// # Errors
    /// Why they were not taken.
    pub(crate) fn append(&self, bodies: Vec<Body>) -> Result<Taken, String> {
        let desk = self.inner.as_ref().ok_or_else(String::new)?;
        let drafted = desk.append(bodies).map_err(|error| error.to_string())?;
        Ok(Taken { entries: drafted.entries, saving: Some(drafted.saving) })
    }

    /// Keep settings. What cannot be kept holds until the page is closed.
    pub(crate) fn put_settings(&self, settings: super::settings::Settings) {
        let Some(desk) = self.inner.clone() else { return };
        leptos::task::spawn_local(async move {
            let _ = desk.put_setting(super::settings::NAME, &settings).await;
        });
    }

    /// Keep a text of its own beside the journal. What cannot be kept holds until the page is closed.
    pub(crate) fn put_text(&self, name: String, text: String) {
        let Some(desk) = self.inner.clone() else { return };
        leptos::task::spawn_local(async move {
            let _ = desk.put_setting_text(&name, &text).await;
        });
    }

    /// Keep what is carried for other phones, and say whether it is on disk.
    ///
    /// # Errors
    /// Why it was not kept.
    pub(crate) fn keep_received(&self, all: Received) -> impl Future<Output = Result<(), NotKept>> + use<> {
        let desk = self.inner.clone();
        async move {
            let desk = desk.ok_or_else(|| NotKept::Other(String::new()))?;
            desk.put_setting(received::NAME, &all).await.map_err(not_kept)
        }
    }

    /// Keep what is half given: whose, and what. What cannot be kept stays in the small store.
    pub(crate) fn put_half(&self, half: (String, String)) {
        let Some(desk) = self.inner.clone() else { return };
        leptos::task::spawn_local(async move {
            let _ = desk.put_setting(super::half_typed::NAME, &half).await;
        });
    }

    /// Keep a photo.
    ///
    /// # Errors
    /// Why it was not kept.
    pub(crate) fn keep_photo(
        &self,
        bytes: Vec<u8>,
        media: String,
    ) -> impl Future<Output = Result<Photo, NotKept>> + use<> {
        let desk = self.inner.clone();
        async move {
            let desk = desk.ok_or_else(|| NotKept::Other(String::new()))?;
            desk.keep_photo(&bytes, &media).await.map_err(not_kept)
        }
    }

    /// Drop a photo's bytes. What cannot be dropped now is dropped at the next start.
    pub(crate) fn delete_photo(&self, name: Digest) {
        let Some(desk) = self.inner.clone() else { return };
        leptos::task::spawn_local(async move {
            let _ = desk.delete_photo(name).await;
        });
    }

    /// How many photos are here.
    pub(crate) fn photo_count(&self) -> impl Future<Output = usize> + use<> {
        let desk = self.inner.clone();
        async move {
            match desk {
                Some(desk) => desk.photos().await.map(|all| all.len()).unwrap_or_default(),
                None => 0,
            }
        }
    }
}

#[cfg(target_arch = "wasm32")]
impl Desk {
    /// A text kept beside the journal; `None` where there is none.
    pub(crate) fn text(&self, name: &'static str) -> impl Future<Output = Option<String>> + use<> {
        let desk = self.inner.clone();
        async move { desk?.setting_text(name).await.ok().flatten() }
    }

    /// What is carried for other phones; what cannot be read is put aside.
    ///
    /// # Errors
    /// Where the store does not answer.
    pub(crate) fn received(&self) -> impl Future<Output = Result<Setting<Received>, NotKept>> + use<> {
        let desk = self.inner.clone();
        async move {
            let desk = desk.ok_or_else(|| NotKept::Other(String::new()))?;
            desk.setting(received::NAME).await.map_err(not_kept)
        }
    }

    /// A photo's bytes; `None` where they are not here, or no longer those that the entry names.
    pub(crate) fn photo(&self, photo: Photo) -> impl Future<Output = Option<Vec<u8>>> + use<> {
        let desk = self.inner.clone();
        async move {
            match desk?.photo(&photo).await {
                Ok(crate::keep::photo::Kept::Whole(bytes)) => Some(bytes),
                _ => None,
            }
        }
    }
}

#[cfg(not(target_arch = "wasm32"))]
impl Desk {
    pub(crate) fn text(&self, name: &'static str) -> impl Future<Output = Option<String>> + use<> {
        let _ = (self, name);
        async move { None }
    }

    pub(crate) fn received(&self) -> impl Future<Output = Result<Setting<Received>, NotKept>> + use<> {
        async move { Err(NotKept::Other(String::new())) }
    }

    pub(crate) fn put_text(&self, name: String, text: String) {
        let _ = (name, text);
    }

    pub(crate) fn keep_received(&self, all: Received) -> impl Future<Output = Result<(), NotKept>> + use<> {
        async move { Err(NotKept::Other(format!("{} not kept", all.all().len()))) }
    }

    pub(crate) fn photo(&self, photo: Photo) -> impl Future<Output = Option<Vec<u8>>> + use<> {
        let _ = photo;
        async move { None }
    }

    pub(crate) fn read_only(&self) -> Option<String> {
        Some("there is no browser here".to_owned())
    }

    pub(crate) fn promise(&self) -> Promise {
        Promise::MemoryOnly
    }

    pub(crate) fn append(&self, bodies: Vec<Body>) -> Result<Taken, String> {
        let _ = bodies;
        Ok(Taken { entries: Vec::new(), saving: None })
    }

    pub(crate) fn put_settings(&self, settings: super::settings::Settings) {
        let _ = settings;
    }

    pub(crate) fn put_half(&self, half: (String, String)) {
        let _ = half;
    }

    pub(crate) fn keep_photo(
        &self,
        bytes: Vec<u8>,
        media: String,
    ) -> impl Future<Output = Result<Photo, NotKept>> + use<> {
        async move { Err(NotKept::Other(format!("{} bytes of {media} not kept", bytes.len()))) }
    }

    pub(crate) fn delete_photo(&self, name: Digest) {
        let _ = name;
    }

    pub(crate) fn photo_count(&self) -> impl Future<Output = usize> + use<> {
        async move { 0 }
    }
}
