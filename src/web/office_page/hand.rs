//! What was handed to the page so far, and what follows from it. Nothing here knows a browser.

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::bundle::{Fingerprint, Kind, Limits, OpenError, open};
use crate::office::keyring::Keyring;
use crate::office::opening::{Judged, Outcome, is_picture, judge, judge_unread};
use crate::office::recompute::{Gathered, Recomputed};
use crate::record::{Digest, Photo};

/// A file as it was picked.
#[derive(Clone, Debug)]
pub struct Picked {
    /// Its name, which proves nothing.
    pub name: String,
    /// What it turned out to be.
    pub what: What,
    bytes: Arc<[u8]>,
}

/// What a file turned out to be.
#[derive(Clone, Debug)]
pub enum What {
    /// A photo, by the digest of its bytes.
    Photo(Digest),
    /// Anything else, judged as a bundle.
    Judged(Box<Judged>),
    /// The browser could not read it, with its own words for why.
    Unread(String),
}

/// What the keyring in use rests on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum RingFrom {
    /// None was given: every device is unknown.
    #[default]
    Nowhere,
    /// A plain file: whoever could write it could enrol a device.
    Plain,
    /// A file signed by this key, which the person has to compare.
    Signed(Fingerprint),
}

/// All that was handed to the page.
#[derive(Clone, Debug, Default)]
pub struct Hand {
    /// The devices that count as enrolled.
    pub keyring: Keyring,
    /// What the keyring rests on.
    pub ring_from: RingFrom,
    /// The files, in the order in which they were picked.
    pub files: Vec<Picked>,
}

impl Hand {
    /// Takes a file in; one that was picked before is not taken twice.
    pub fn take(&mut self, name: String, bytes: Vec<u8>) {
        if self.files.iter().any(|file| !matches!(file.what, What::Unread(_)) && *file.bytes == *bytes) {
            return;
        }
        let what = self.look(&bytes);
        self.files.push(Picked { name, what, bytes: bytes.into() });
    }

    /// A file that is too large to be one of ours; it was not read.
    pub fn take_too_large(&mut self, name: String) {
        let error = OpenError::TooLarge { limit: Limits::default().file_bytes };
        self.files.push(Picked { name, what: What::Judged(Box::new(judge_unread(&error))), bytes: Arc::new([]) });
    }

    /// A file that the browser could not read.
    pub fn take_unread(&mut self, name: String, why: String) {
        self.files.push(Picked { name, what: What::Unread(why), bytes: Arc::new([]) });
    }

    fn look(&self, bytes: &[u8]) -> What {
        if is_picture(bytes) {
            What::Photo(Digest::of(&[bytes]))
        } else {
            What::Judged(Box::new(judge(bytes, &self.keyring)))
        }
    }

    /// Takes the office's keyring, signed or plain, and judges every file anew.
    ///
    /// # Errors
    /// Why it is no keyring, as a lower-case clause. The one before stays in use.
    pub fn take_keyring(&mut self, bytes: &[u8]) -> Result<(), String> {
        let (keyring, from) = match open(bytes, Kind::Keyring) {
            Ok(opened) => {
                let text = std::str::from_utf8(&opened.payload).map_err(|error| error.to_string())?;
                let ring = Keyring::read(text).map_err(|error| error.to_string())?;
                (ring, RingFrom::Signed(Fingerprint::of(opened.signer.id())))
            }
            Err(no_envelope) => {
                let text = std::str::from_utf8(bytes).map_err(|_| no_envelope.to_string())?;
                // A file that begins like JSON of ours but is neither: the envelope's error says more.
                let ring = Keyring::read(text).map_err(|error| {
                    if text.contains("\"payload\"") { no_envelope.to_string() } else { error.to_string() }
                })?;
                (ring, RingFrom::Plain)
            }
        };
        (self.keyring, self.ring_from) = (keyring, from);
        let all = std::mem::take(&mut self.files);
        self.files = all
            .into_iter()
            .map(|file| match &file.what {
                What::Judged(_) if !file.bytes.is_empty() => Picked { what: self.look(&file.bytes), ..file },
                _ => file,
            })
            .collect();
        Ok(())
    }

    /// Photos that bundles here name.
    fn named(&self) -> BTreeSet<Digest> {
        self.judged()
            .filter_map(|judged| judged.contents.as_ref())
            .flat_map(|contents| contents.payload.photos.iter().map(|photo| photo.sha256))
            .collect()
    }

    /// The bundle that names a photo.
    pub fn names(&self, digest: Digest) -> Option<&str> {
        self.files.iter().find_map(|file| match &file.what {
            What::Judged(judged) => {
                let photos = judged.contents.iter().flat_map(|contents| &contents.payload.photos);
                photos.into_iter().any(|photo| photo.sha256 == digest).then_some(file.name.as_str())
            }
            _ => None,
        })
    }

    /// Whether a photo that a bundle names was picked as well.
    pub fn has(&self, photo: &Photo) -> bool {
        self.files.iter().any(|file| matches!(file.what, What::Photo(digest) if digest == photo.sha256))
    }

    fn judged(&self) -> impl Iterator<Item = &Judged> {
        self.files.iter().filter_map(|file| match &file.what {
            What::Judged(judged) => Some(&**judged),
            _ => None,
        })
    }

    /// How many files there are of each outcome, worst counted for what a bundle carries; photos that no
    /// bundle names are left out.
    pub fn count(&self, outcome: Outcome) -> usize {
        self.judged().filter(|judged| judged.worst() == outcome).count()
    }

    /// Photos as signed, and photos that nothing here vouches for.
    pub fn photos(&self) -> (usize, usize) {
        let named = self.named();
        let is_named = |file: &&Picked| matches!(file.what, What::Photo(digest) if named.contains(&digest));
        let all = self.files.iter().filter(|file| matches!(file.what, What::Photo(_))).count();
        let good = self.files.iter().filter(is_named).count();
        (good, all - good)
    }

    /// Everything intact as one journal, and the readings of each carcass worked out anew.
    pub fn recompute(&self) -> Recomputed {
        let mut gathered = Gathered::default();
        for judged in self.judged() {
            gathered.take(judged);
        }
        gathered.recompute()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bundle::{DeviceKey, canonical, seal};
    use crate::record::Moment;

    fn at() -> Moment {
        Moment::parse("2027-02-03T12:00:00-05:00").unwrap()
    }

    fn bundle() -> Vec<u8> {
        include_bytes!("../../../tests/kit/intact--as-made.txt").to_vec()
    }

    fn outcomes(hand: &Hand) -> Vec<Outcome> {
        hand.judged().map(Judged::outcome).collect()
    }

    #[test]
    fn a_bundle_is_unknown_until_its_device_is_on_the_ring_and_is_judged_anew_then() {
        let mut hand = Hand::default();
        hand.take("from-mail.txt".to_owned(), bundle());
        assert_eq!(outcomes(&hand), [Outcome::UnknownDevice]);
        let device = hand.judged().next().unwrap().signer.unwrap();
        let mut ring = Keyring::default();
        ring.enrol("blue phone", Fingerprint::of(device), Some(device), at()).unwrap();
        hand.take_keyring(ring.write().unwrap().as_bytes()).unwrap();
        assert_eq!(outcomes(&hand), [Outcome::Intact]);
        assert_eq!(hand.ring_from, RingFrom::Plain);
    }

    #[test]
    fn a_signed_ring_says_who_signed_it_and_a_changed_one_is_refused() {
        let key = DeviceKey::from_seed(&[5; 32]);
        let text = seal(Kind::Keyring, &canonical::to_vec(&Keyring::default()).unwrap(), &key).unwrap();
        let mut hand = Hand::default();
        hand.take_keyring(text.as_bytes()).unwrap();
        assert_eq!(hand.ring_from, RingFrom::Signed(Fingerprint::of(key.public().id())));
        let changed = text.replacen("\"signature\":\"", "\"signature\":\"A", 1);
        assert!(hand.take_keyring(changed.as_bytes()).is_err());
        assert!(hand.take_keyring(&bundle()).is_err(), "a bundle is no keyring");
        assert!(matches!(hand.ring_from, RingFrom::Signed(_)), "the ring before stays");
    }

    #[test]
    fn the_same_file_picked_twice_is_one_file() {
        let mut hand = Hand::default();
        hand.take("a.txt".to_owned(), bundle());
        hand.take("a (1).txt".to_owned(), bundle());
        assert_eq!(hand.files.len(), 1);
        hand.take_too_large("film.mov".to_owned());
        hand.take_too_large("film.mov".to_owned());
        assert_eq!(hand.count(Outcome::Damaged), 2);
    }

    #[test]
    fn a_photo_that_no_bundle_names_stands_apart() {
        let mut hand = Hand::default();
        // First bytes of a JPEG file: ISO/IEC 10918-1, SOI and the next marker.
        hand.take("deer.jpg".to_owned(), b"\xff\xd8\xff\xe0....".to_vec());
        assert_eq!(hand.photos(), (0, 1));
        assert!(matches!(hand.files[0].what, What::Photo(digest) if hand.names(digest).is_none()));
    }
}
