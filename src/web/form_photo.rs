//! Taking photos: the slot noted before the camera opens, the picture made smaller, kept, and then named by an
//! entry; deleting with a trace.

use leptos::prelude::*;
use uuid::Uuid;

use crate::guide::Draft;
use crate::guide::photos::{BACK_TO_CAMERA_MS, photo_step, photo_words};
use crate::record::{Answer, Photo, Value};
use crate::words::Arg;

use super::edge::Phone;
use super::form::Form;
use super::photo_slot::{self, Slot};
use super::picture::{self, NoPicture};
use super::platform::{PlatformError, clock};
use super::screen::Screen;
use super::session::{Here, Picture, Session, Source as _};

/// Why a photo was not kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum NotKept {
    /// No room.
    Full,
    /// Anything else, in plain words.
    Other(String),
}

impl Form {
    /// The camera is about to open for this photo.
    pub(crate) fn note_slot(self, ask: String, item: u16) {
        let here = self.with(|s| s.here.clone()).unwrap_or_default();
        let Here { examination, report, .. } = here;
        self.hold_slot(Some(Slot { ask, item, examination, report, at_ms: clock::unix_ms(), photo: None }));
    }

    /// Nothing is being taken any more.
    pub(crate) fn forget_slot(self) {
        if self.slot.try_with_value(Option::is_some) == Some(true) {
            self.hold_slot(None);
        }
    }

    fn hold_slot(self, slot: Option<Slot>) {
        let text = slot.as_ref().map(Slot::write).unwrap_or_default();
        photo_slot::keep(&text);
        self.desk.try_with_value(|desk| desk.put_text(photo_slot::NAME.to_owned(), text));
        self.slot.try_set_value(slot);
    }

    /// What the camera or the pictures of the phone gave. One at a time: two would fill a small phone's memory.
    pub(crate) fn take_photo(self, file: web_sys::File) {
        let Some(slot) = self.slot.try_get_value().flatten() else { return };
        if self.taking.try_get_untracked().flatten().is_some() {
            return;
        }
        self.taking.try_set(Some(slot.item));
        self.tell(self.say("photo.keeping"));
        leptos::task::spawn_local(async move {
            let told = match picture::smaller(&file).await {
                Ok(bytes) => self.keep_photo(slot.clone(), bytes).await,
                Err(why) => Err(self.no_picture(why)),
            };
            self.taking.try_set(None);
            self.forget_slot();
            match told {
                Ok(()) => self.after_photo(&slot),
                Err(text) => self.tell(text),
            }
        });
    }

    /// Keep a picture's bytes; only when they are on disk an entry names them.
    async fn keep_photo(self, slot: Slot, bytes: Vec<u8>) -> Result<(), String> {
        let photo = crate::keep::photo::name(&bytes, "image/jpeg");
        self.hold_slot(Some(Slot { photo: Some(photo.clone()), ..slot.clone() }));
        let kept = self.desk.try_with_value(|desk| desk.keep_photo(bytes, photo.media.clone()));
        match kept {
            Some(kept) => kept.await.map_err(|why| match why {
                NotKept::Full => self.say("photo.full"),
                NotKept::Other(reason) => self.say_with("photo.not_kept", &[("reason", Arg::Text(reason))]),
            })?,
            None => return Ok(()),
        };
        if self.name_photo(&slot, photo) {
            Ok(())
        } else {
            Err(self.notice.try_get_untracked().flatten().unwrap_or_default())
        }
    }

    /// The entry that names a photo that is kept.
    fn name_photo(self, slot: &Slot, photo: Photo) -> bool {
        let Some((step, finding)) = photo_step(slot.step()) else { return false };
        let draft = Draft { finding, site: slot.site(), answer: Answer::Seen { value: Value::Photo(photo) }, step };
        let bodies = self.with(|s| s.answer_at(slot.examination, slot.report, &[draft], &Phone.when()));
        match bodies {
            Some(Ok(bodies)) => self.write(bodies, self.words_of(slot)),
            Some(Err(flaw)) => {
                self.tell(super::wording::flaw(self.language(), self.shown(), &flaw));
                false
            }
            None => false,
        }
    }

    /// What is photographed, in words.
    fn words_of(self, slot: &Slot) -> String {
        let finding = photo_step(slot.step()).map_or("photo", |(_, finding)| finding);
        let words = photo_words(self.language(), finding, slot.item);
        if words.is_empty() { self.say("saved.photo") } else { words }
    }

    /// A list stays on the screen; a question for one photo has its answer and gives way.
    fn after_photo(self, slot: &Slot) {
        let Some(now) = self.now_once() else { return };
        let here = match self.screen.try_get_untracked() {
            Some(Screen::Visit(Some(name))) => name,
            // What comes next has changed with the answer; the question on the screen is the one that was answered.
            Some(Screen::Visit(None)) => slot.ask.clone(),
            _ => String::new(),
        };
        let is_list = now.ask(Some(&slot.ask)).is_some_and(|ask| ask.questions(&now.view()).len() > 1);
        self.hush();
        if here == slot.ask && !is_list {
            self.end_input();
            self.go(Screen::Visit(None));
        }
    }

    fn no_picture(self, why: NoPicture) -> String {
        match why {
            NoPicture::Other => self.say("photo.no_picture"),
            NoPicture::Heic => self.say("photo.heic"),
            NoPicture::Broken => self.say("photo.broken"),
            NoPicture::NoCanvas => self.say("photo.no_canvas"),
            NoPicture::TooLarge(n) => self.say_with("photo.too_large", &[("n", Arg::Text(n.to_string()))]),
        }
    }

    /// What was being photographed when the page went; the visit is taken up there.
    pub(super) fn slot_of_before(session: &mut Session, kept: Option<&str>) -> Option<Slot> {
        let slot = photo_slot::find().as_deref().and_then(Slot::read).or_else(|| Slot::read(kept?))?;
        if let Some(examination) = slot.examination {
            // Of another phone's records, or of records that were cleared.
            session.bodies.outing_of(examination)?;
            session.take_up(examination);
        } else {
            session.take_up_report(slot.report);
        }
        Some(slot)
    }

    /// Go back to where the camera was opened, and say what became of the picture. One that was kept and not yet
    /// named is named now.
    pub(super) fn back_from_camera(self, slot: Slot) {
        let soon = clock::unix_ms().saturating_sub(slot.at_ms) < BACK_TO_CAMERA_MS;
        let to = if soon { Screen::Visit(Some(slot.ask.clone())) } else { Screen::Resume };
        self.go(to);
        let what = Arg::Text(self.words_of(&slot));
        let lost = if soon {
            self.say("photo.lost")
        } else {
            self.say_with("photo.lost_elsewhere", &[("what", what.clone())])
        };
        let Some(photo) = slot.photo.clone() else {
            self.hold_slot(None);
            return self.tell(lost);
        };
        if self.with(|s| s.names_photo(&photo)) == Some(true) {
            return self.hold_slot(None);
        }
        let Some(read) = self.desk.try_with_value(|desk| desk.photo(photo.clone())) else { return };
        leptos::task::spawn_local(async move {
            let text = if read.await.is_some() && self.name_photo(&slot, photo) {
                self.say_with("photo.kept_after_all", &[("what", what)])
            } else {
                lost
            };
            self.hold_slot(None);
            self.tell(text);
        });
    }

    /// Delete a photo: first the entries that say so, and only when they are on disk its bytes.
    pub(crate) fn delete_picture(self, examination: Uuid, picture: &Picture) {
        let bodies = self.with(|s| s.delete_picture(examination, picture, &Phone.when()));
        match bodies {
            Some(Ok(bodies)) => {
                self.write_then(bodies, self.say("saved.photo_deleted"), move || self.sweep_photos());
            }
            Some(Err(flaw)) => self.tell(super::wording::flaw(self.language(), self.shown(), &flaw)),
            None => {}
        }
        self.redraw();
    }

    /// Drop the bytes of photos that were deleted: now, or at the next start where the phone died in between.
    pub(super) fn sweep_photos(self) {
        for name in self.with(Session::gone).unwrap_or_default() {
            self.desk.try_with_value(|desk| desk.delete_photo(name));
        }
    }

    /// One photo after the other, each read when it is its turn; then how it went, and how many are not here.
    pub(crate) fn each_photo(
        self,
        photos: Vec<Photo>,
        each: impl Fn(&Photo, Vec<u8>) -> Result<(), PlatformError> + 'static,
        then: impl FnOnce(Result<(), PlatformError>, usize) + 'static,
    ) {
        leptos::task::spawn_local(async move {
            let mut missing = 0;
            for photo in photos {
                let Some(read) = self.desk.try_with_value(|desk| desk.photo(photo.clone())) else { return };
                match read.await.map(|bytes| each(&photo, bytes)) {
                    Some(Ok(())) => {}
                    Some(Err(why)) => return then(Err(why), missing),
                    None => missing += 1,
                }
            }
            then(Ok(()), missing);
        });
    }

    /// The bytes of photos, in order; `None` for one that is not on this phone any more.
    pub(crate) fn photos(self, photos: Vec<Photo>, then: impl FnOnce(Vec<(Photo, Option<Vec<u8>>)>) + 'static) {
        let reads: Vec<_> = photos
            .into_iter()
            .filter_map(|photo| self.desk.try_with_value(|desk| desk.photo(photo.clone())).map(|read| (photo, read)))
            .collect();
        leptos::task::spawn_local(async move {
            let mut all = Vec::new();
            for (photo, read) in reads {
                all.push((photo, read.await));
            }
            then(all);
        });
    }
}
