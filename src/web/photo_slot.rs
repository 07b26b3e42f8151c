//! Which photo is being taken, noted before the camera opens: a phone that runs short closes the page meanwhile, and
//! the page that comes back goes on where it was.

use std::fmt::Write as _;

use uuid::Uuid;

use crate::record::{Digest, Photo, Site};

/// The name under which both stores hold it.
pub(crate) const NAME: &str = "photo-slot";

/// Which photo is being taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Slot {
    /// The ask's name, to go back to it.
    pub(crate) ask: String,
    /// The photo's number.
    pub(crate) item: u16,
    /// The examination in hand.
    pub(crate) examination: Option<Uuid>,
    /// The report in hand.
    pub(crate) report: Option<Uuid>,
    /// When the camera was opened, in milliseconds since 1970.
    pub(crate) at_ms: u64,
    /// The picture, once it is about to be kept: its entry may not have been written yet.
    pub(crate) photo: Option<Photo>,
}

impl Slot {
    /// The step that asks for it.
    pub(crate) fn step(&self) -> &str {
        self.ask.split('.').next().unwrap_or_default()
    }

    /// Its place.
    pub(crate) fn site(&self) -> Site {
        Site::item(self.item)
    }

    /// As kept.
    pub(crate) fn write(&self) -> String {
        let id = |id: Option<Uuid>| id.map_or_else(|| "-".to_owned(), |id| id.to_string());
        let (exam, report) = (id(self.examination), id(self.report));
        let mut text = format!("{} {} {exam} {report} {}", self.ask, self.item, self.at_ms);
        if let Some(Photo { bytes, media, sha256 }) = &self.photo {
            // Writing into a text cannot fail.
            let _ = write!(text, " {sha256} {bytes} {media}");
        }
        text
    }

    /// From its kept form; `None` for anything else.
    pub(crate) fn read(text: &str) -> Option<Self> {
        let mut words = text.split(' ');
        let mut word = || words.next();
        let id = |word: &str| if word == "-" { Some(None) } else { Uuid::parse_str(word).ok().map(Some) };
        let ask = word().filter(|ask| !ask.is_empty())?.to_owned();
        let item = word()?.parse().ok()?;
        let (examination, report) = (id(word()?)?, id(word()?)?);
        let at_ms = word()?.parse().ok()?;
        let photo = match word() {
            Some(digest) => {
                let sha256 = Digest::parse(digest).ok()?;
                Some(Photo { sha256, bytes: word()?.parse().ok()?, media: word()?.to_owned() })
            }
            None => None,
        };
        Some(Self { ask, item, examination, report, at_ms, photo })
    }
}

#[cfg(target_arch = "wasm32")]
mod store {
    use crate::keep::Quick as _;
    use crate::keep::browser_quick::LocalQuick;

    use super::NAME;

    pub(crate) fn keep(text: &str) {
        let quick = LocalQuick::new("marrowbook.");
        // Where the small store is shut the store proper holds it.
        let _ = if text.is_empty() { quick.drop(NAME) } else { quick.put(NAME, text) };
    }

    pub(crate) fn find() -> Option<String> {
        LocalQuick::new("marrowbook.").get(NAME).ok().flatten()
    }
}

#[cfg(not(target_arch = "wasm32"))]
mod store {
    pub(crate) fn keep(_text: &str) {}

    pub(crate) fn find() -> Option<String> {
        None
    }
}

pub(crate) use store::{find, keep};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn written_and_read_again_is_the_same() {
        let photo = Photo { sha256: Digest::of(&[b"x"]), bytes: 812, media: "image/jpeg".to_owned() };
        for photo in [None, Some(photo)] {
            let examination = Some(Uuid::from_u128(7));
            let slot = Slot { ask: "photos".to_owned(), item: 31, examination, report: None, at_ms: 1_800, photo };
            assert_eq!(Slot::read(&slot.write()), Some(slot));
        }
        for bad in ["", "photos", "photos 31 x - 5", "photos 31 - - soon", "photos 31 - - 5 nodigest 3 image/jpeg"] {
            assert_eq!(Slot::read(bad), None, "{bad}");
        }
        let slot = Slot::read("photo_jaw.2 2 - - 5").unwrap();
        assert_eq!((slot.step(), slot.site()), ("photo_jaw", Site::item(2)));
    }
}
