//! The office at its desk: what was handed in, the archive that it goes into, the keyring, and what follows from it.
//! Nothing here knows a browser.

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;
use std::sync::Arc;

use super::archive::{Archive, ArchiveError, SHARED, hex};
use super::cards::Cards;
use super::files::HeldFiles;
use super::key_file::KeyFile;
use super::keyring::{Enrolment, Keyring, KeyringError};
use super::opening::{Judged, Outcome, Verdict, is_picture, judge, judge_unread};
use super::photos::{deleted, named};
use super::recompute::{Gathered, Recomputed};
use super::zipped::Tree;
use crate::bundle::{DeviceKey, Fingerprint, Kind, Limits, OpenError, open};
use crate::card::Card;
use crate::record::{DeviceId, Digest, Fold, Journal, Moment, Photo, fold};

/// A file as it was picked.
#[derive(Clone, Debug)]
pub struct Picked {
    /// Its name, which proves nothing.
    pub name: String,
    /// What it turned out to be.
    pub what: What,
    /// What became of it.
    pub kept: Kept,
    /// False for one too large, or that the browser could not read: its bytes are not here.
    was_read: bool,
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

/// What became of a file that was handed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kept {
    /// It lies in the archive now.
    New,
    /// It lay there before: no news.
    Before,
    /// It does not go there: damaged, unread, or a photo that nothing vouches for yet.
    Not,
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
    /// The archive's own, signed by the office key that lies in it.
    Archive(Fingerprint),
    /// The archive's own was signed by this key, whose file does not lie in it: every device is unknown until it does.
    KeyMissing(Fingerprint),
}

/// Why a thing was not done at the desk.
#[derive(Debug, thiserror::Error)]
pub enum DeskError {
    /// The archive.
    #[error("{0}")]
    Archive(#[from] ArchiveError),
    /// A ring by itself, beside the office's own.
    #[error("this archive has its own keyring, signed by its office key; enrol a phone under Phones")]
    RingThere,
    /// A file that is no keyring.
    #[error("{0}")]
    NoRing(String),
    /// The keyring.
    #[error("{0}")]
    Keyring(#[from] KeyringError),
    /// The office key has not been opened.
    #[error("the keyring is signed with the office key: open it with its passphrase first, or make one")]
    NoKey,
    /// Two archives that cannot be one.
    #[error(
        "this page and what was opened have different files `{0}`; save this page's archive as a zip, open this page \
         again, and then open the other one"
    )]
    Apart(String),
}

/// A device that signed files here and does not count.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stranger {
    /// The label that it gives itself.
    pub label: String,
    /// What the office called it, and from when it is retired; `None` where it was never enrolled.
    pub retired: Option<(String, Moment)>,
}

/// All that lies on the office's desk.
#[derive(Debug, Default)]
pub struct Hand {
    /// The devices that count as enrolled.
    pub keyring: Keyring,
    /// What the keyring rests on.
    pub ring_from: RingFrom,
    /// The files, in the order in which they were picked.
    pub files: Vec<Picked>,
    held: HeldFiles,
    /// Every file under received/, judged by the keyring.
    received: BTreeMap<Digest, Arc<Judged>>,
    /// Photos of the archive by the digest of their bytes, with where they lie.
    photos: BTreeMap<Digest, PathBuf>,
}

/// What follows from the archive.
#[derive(Clone, Debug)]
pub struct Figures {
    /// What enrolled devices wrote: this counts.
    pub counted: Recomputed,
    /// Everything intact together, whoever wrote it: to be looked at, counted in nothing.
    pub looked: Recomputed,
}

impl Figures {
    /// Carcasses of which only phones that are not enrolled tell.
    pub fn only_looked(&self) -> impl Iterator<Item = &super::recompute::CarcassLine> {
        let counted: BTreeSet<_> = self.counted.carcasses.iter().map(|line| line.carcass).collect();
        let joined = move |line: &super::recompute::CarcassLine| {
            let ids = self.looked.folded.carcasses.get(&line.carcass).map(|carcass| &carcass.joined);
            ids.is_some_and(|ids| ids.iter().any(|id| counted.contains(id)))
        };
        self.looked.carcasses.iter().filter(move |line| !joined(line))
    }
}

impl Hand {
    /// The archive on the desk.
    pub fn archive(&self) -> Archive {
        Archive::held(&self.held)
    }

    /// Its files.
    pub const fn held(&self) -> &HeldFiles {
        &self.held
    }

    /// Takes an archive that was read from a folder or a zip. What came into this page before and was not saved goes
    /// into it: files named by their digest go together whatever they are.
    ///
    /// # Errors
    /// Both have a key or a keyring, and not the same; or its key or keyring does not hold. The archive before stays.
    pub fn take_archive(&mut self, files: Tree) -> Result<(), DeskError> {
        let before = self.held.unsaved().written;
        let mine = self.held.all();
        // Key and ring belong together: half of the one archive's with half of the other's would lose phones.
        let differs = SHARED.into_iter().find(|name| mine.get(*name) != files.get(*name));
        if let Some(name) = differs
            && SHARED.iter().any(|name| before.contains(*name))
            && SHARED.iter().any(|name| files.contains_key(*name))
        {
            return Err(DeskError::Apart(name.to_owned()));
        }
        let held = HeldFiles::of(files.clone());
        for path in &before {
            if let Some(bytes) = mine.get(path)
                && files.get(path) != Some(bytes)
            {
                held.put(path, bytes);
            }
        }
        let mut next = Self { held, files: self.files.clone(), ..Self::default() };
        next.load()?;
        next.settle();
        *self = next;
        self.keep_waiting();
        Ok(())
    }

    /// What became of each file, told anew of an archive that was opened. One that was saved in the archive before and
    /// does not lie in this one leaves the desk, so that nothing is said of it here.
    fn settle(&mut self) {
        let written = self.held.unsaved().written;
        let (received, photos) = (&self.received, &self.photos);
        self.files.retain_mut(|file| {
            let digest = Digest::of(&[&file.bytes]);
            let path = match file.what {
                What::Photo(_) => photos.get(&digest).map(|path| path.to_string_lossy().into_owned()),
                What::Judged(_) => received.contains_key(&digest).then(|| format!("received/{}.txt", hex(digest))),
                What::Unread(_) => None,
            };
            match path {
                Some(path) => file.kept = if written.contains(&path) { Kept::New } else { Kept::Before },
                None => return file.kept == Kept::Not,
            }
            true
        });
    }

    /// Reads keyring, files and photos of the archive anew.
    fn load(&mut self) -> Result<(), DeskError> {
        let archive = self.archive();
        self.keyring = archive.keyring()?;
        let key = archive.office_key()?;
        let public = key.as_ref().map(|key| (key, key.public()));
        self.ring_from = match public {
            Some((_, Ok(public))) => RingFrom::Archive(Fingerprint::of(public.id())),
            Some((_, Err(error))) => {
                return Err(ArchiveError::OfficeKey { path: "office-key.json".into(), error }.into());
            }
            None if !self.keyring.devices().is_empty() => RingFrom::Plain,
            None => match archive.opened_keyring()? {
                Some((signer, ring)) if !ring.devices().is_empty() => {
                    RingFrom::KeyMissing(Fingerprint::of(signer.id()))
                }
                _ => RingFrom::Nowhere,
            },
        };
        self.photos = archive.photos()?;
        self.judge_all()
    }

    fn judge_all(&mut self) -> Result<(), DeskError> {
        let archive = self.archive();
        self.received.clear();
        for path in archive.received()? {
            let bytes = archive.read(&path)?;
            self.received.insert(Digest::of(&[&bytes]), Arc::new(judge(&bytes, &self.keyring)));
        }
        let keyring = &self.keyring;
        for file in &mut self.files {
            if matches!(file.what, What::Judged(_)) && file.was_read {
                file.what = What::Judged(Box::new(judge(&file.bytes, keyring)));
            }
        }
        Ok(())
    }

    /// Takes a file in; one that was picked before is not taken twice. It goes into the archive as received unless it
    /// is damaged; a photo goes there once a file there names it.
    pub fn take(&mut self, name: String, bytes: Vec<u8>) {
        // What was not read has no bytes here, and is no empty file.
        let before = |file: &Picked| file.was_read && *file.bytes == *bytes;
        if self.files.iter().any(before) {
            return;
        }
        let digest = Digest::of(&[&bytes]);
        let what =
            if is_picture(&bytes) { What::Photo(digest) } else { What::Judged(Box::new(judge(&bytes, &self.keyring))) };
        let mut kept = Kept::Not;
        if let What::Judged(judged) = &what
            && judged.outcome() != Outcome::Damaged
        {
            kept = if self.received.contains_key(&digest) { Kept::Before } else { Kept::New };
            // Held in memory: this cannot fail, and where it did the file would show as not kept.
            match self.archive().keep(&bytes) {
                Ok(_) => drop(self.received.insert(digest, Arc::new((**judged).clone()))),
                Err(_) => kept = Kept::Not,
            }
        }
        self.files.push(Picked { name, what, kept, was_read: true, bytes: bytes.into() });
        self.keep_waiting();
    }

    /// Photos that were waiting for a file that names them.
    fn keep_waiting(&mut self) {
        let named = self.named();
        let archive = self.archive();
        for file in &mut self.files {
            let What::Photo(digest) = &file.what else { continue };
            if file.kept != Kept::Not || !named.contains(digest) {
                continue;
            }
            if self.photos.contains_key(digest) {
                file.kept = Kept::Before;
            } else if let Ok(path) = archive.keep_photo(&file.bytes) {
                self.photos.insert(*digest, path);
                file.kept = Kept::New;
            }
        }
    }

    /// A file that is too large to be one of ours; it was not read.
    pub fn take_too_large(&mut self, name: String) {
        let error = OpenError::TooLarge { limit: Limits::default().file_bytes };
        let what = What::Judged(Box::new(judge_unread(&error)));
        self.files.push(Picked { name, what, kept: Kept::Not, was_read: false, bytes: Arc::new([]) });
    }

    /// A file that the browser could not read.
    pub fn take_unread(&mut self, name: String, why: String) {
        let what = What::Unread(why);
        self.files.push(Picked { name, what, kept: Kept::Not, was_read: false, bytes: Arc::new([]) });
    }

    /// Takes a keyring by itself, signed or plain, and judges every file anew: for looking at files without the
    /// archive. The archive is not changed by it.
    ///
    /// # Errors
    /// The archive has an office key, or why it is no keyring. The one before stays in use.
    pub fn take_keyring(&mut self, bytes: &[u8]) -> Result<(), DeskError> {
        if self.office_key().is_some() {
            return Err(DeskError::RingThere);
        }
        let no_ring = |error: &dyn std::fmt::Display| DeskError::NoRing(error.to_string());
        (self.keyring, self.ring_from) = match open(bytes, Kind::Keyring) {
            Ok(opened) => {
                let text = std::str::from_utf8(&opened.payload).map_err(|error| no_ring(&error))?;
                (Keyring::read(text)?, RingFrom::Signed(Fingerprint::of(opened.signer.id())))
            }
            Err(no_envelope) => {
                let text = std::str::from_utf8(bytes).map_err(|_| no_ring(&no_envelope))?;
                // A file that begins like JSON of ours but is neither: the envelope's error says more.
                let ring = Keyring::read(text).map_err(|error| {
                    if text.contains("\"payload\"") { no_ring(&no_envelope) } else { no_ring(&error) }
                })?;
                (ring, RingFrom::Plain)
            }
        };
        self.judge_all()
    }

    /// Puts a new office key into the archive and signs the keyring with it.
    ///
    /// # Errors
    /// There is one already, or the keyring does not hold.
    pub fn take_office_key(&mut self, file: &KeyFile, key: &DeviceKey) -> Result<(), DeskError> {
        self.archive().take_office_key(file, key)?;
        self.load()
    }

    /// The office's key file, where the archive has one.
    pub fn office_key(&self) -> Option<KeyFile> {
        self.archive().office_key().ok().flatten()
    }

    /// Devices that signed files here and do not count: not on the keyring, or retired before they made one of them.
    pub fn unknown(&self) -> BTreeMap<DeviceId, Stranger> {
        let mut out = BTreeMap::new();
        let known: BTreeSet<Fingerprint> =
            self.keyring.devices().iter().filter(|one| one.retired_at.is_none()).map(|one| one.fingerprint).collect();
        self.received.values().for_each(|judged| strangers(judged, &mut out));
        out.retain(|device, _| !known.contains(&Fingerprint::of(*device)));
        out
    }

    /// Enrols a device whose words a person has compared, and signs the keyring.
    ///
    /// # Errors
    /// No key, or the name or device does not fit.
    pub fn enrol(
        &mut self,
        label: &str,
        device: DeviceId,
        key: Option<&DeviceKey>,
        now: Moment,
    ) -> Result<Enrolment, DeskError> {
        let mut ring = self.archive().keyring()?;
        let enrolled = ring.enrol(label, Fingerprint::of(device), Some(device), now)?.clone();
        self.save(&ring, key)?;
        Ok(enrolled)
    }

    /// Retires a device from a moment on, and signs the keyring.
    ///
    /// # Errors
    /// No key, or no device in use has that name.
    pub fn retire(&mut self, label: &str, since: Moment, key: Option<&DeviceKey>) -> Result<(), DeskError> {
        let mut ring = self.archive().keyring()?;
        ring.retire(label, since)?;
        self.save(&ring, key)
    }

    fn save(&mut self, ring: &Keyring, key: Option<&DeviceKey>) -> Result<(), DeskError> {
        let key = key.ok_or(DeskError::NoKey)?;
        let ours = self.office_key().and_then(|file| file.public().ok()).ok_or(DeskError::NoKey)?;
        if ours != key.public() {
            return Err(DeskError::NoKey);
        }
        self.archive().save_keyring(ring, Some(key))?;
        self.load()
    }

    /// The cards of the archive, and those of its files that are no cards, each with its reason.
    pub fn cards(&self) -> (Cards, Vec<String>) {
        let archive = self.archive();
        let office = self.office_key().and_then(|file| file.public().ok());
        let (mut cards, mut bad) = (Cards::default(), Vec::new());
        for path in archive.cards().unwrap_or_default() {
            let taken = archive.read(&path).map_err(|error| error.to_string()).and_then(|bytes| {
                cards.take(&bytes, office.as_ref()).map_err(|error| format!("{}: {error}", path.display()))
            });
            bad.extend(taken.err());
        }
        (cards, bad)
    }

    /// The signed file of this office's newest card in the archive: the highest serial. One that another office signed
    /// is none, and is no draft for this office's next.
    pub fn newest_card(&self) -> Option<(Card, Vec<u8>)> {
        let archive = self.archive();
        let office = self.office_key().and_then(|file| file.public().ok());
        let cards = archive.cards().unwrap_or_default().into_iter().filter_map(|path| {
            let bytes = archive.read(&path).ok()?;
            let mut one = Cards::default();
            one.take(&bytes, office.as_ref()).ok()?;
            Some((one.newest()?.clone(), bytes))
        });
        cards.max_by_key(|(card, _)| (card.serial, card.valid_from.unix_seconds()))
    }

    /// Photos that files of the archive name.
    fn named(&self) -> BTreeSet<Digest> {
        self.received.values().flat_map(|judged| named(judged)).map(|photo| photo.sha256).collect()
    }

    /// The file handed in that names a photo; the archive where an earlier one did.
    pub fn names(&self, digest: Digest) -> Option<&str> {
        let of_this = self.files.iter().find_map(|file| match &file.what {
            What::Judged(judged) => {
                named(judged).iter().any(|photo| photo.sha256 == digest).then_some(file.name.as_str())
            }
            _ => None,
        });
        of_this.or_else(|| self.named().contains(&digest).then_some("received/"))
    }

    /// Whether a photo that a bundle names is at hand.
    pub fn has(&self, photo: &Photo) -> bool {
        self.photos.contains_key(&photo.sha256)
            || self.files.iter().any(|file| matches!(file.what, What::Photo(digest) if digest == photo.sha256))
    }

    /// Photos that files of the archive name and that have not come, each with the label of the phone that named it.
    pub fn missing_photos(&self) -> BTreeMap<Digest, String> {
        let (mut out, mut gone) = (BTreeMap::new(), BTreeSet::new());
        self.received.values().for_each(|judged| told_of_photos(judged, &mut out, &mut gone));
        out.retain(|_, (photo, _)| !self.has(photo) && !gone.contains(&photo.sha256));
        out.into_iter().map(|(digest, (_, label))| (digest, label.to_owned())).collect()
    }

    /// The bytes of a photo of the archive: those that were signed, whatever the file is called.
    pub fn photo(&self, digest: Digest) -> Option<Arc<[u8]>> {
        self.held.get(&self.photos.get(&digest)?.to_string_lossy())
    }

    fn judged(&self) -> impl Iterator<Item = &Judged> {
        self.files.iter().filter_map(|file| match &file.what {
            What::Judged(judged) => Some(&**judged),
            _ => None,
        })
    }

    /// Every file under received/, by the digest of its bytes.
    pub const fn received(&self) -> &BTreeMap<Digest, Arc<Judged>> {
        &self.received
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

    /// All entries that count; or of all intact files, whoever signed them.
    pub fn journal(&self, counted: bool) -> Journal {
        let mut gathered = Gathered::default();
        for judged in self.received.values() {
            if counted { gathered.take_counted(judged) } else { gathered.take(judged) }
        }
        gathered.journal
    }

    /// What enrolled devices wrote, folded.
    pub fn folded(&self) -> Fold {
        fold(&self.journal(true))
    }

    /// Everything of the archive, worked out anew with the office's cards as of `now`: what counts, and all together.
    pub fn figures(&self, now: Moment) -> Figures {
        let cards = self.cards().0;
        let (mut counted, mut all) = (Gathered::default(), Gathered::default());
        let mut alike = true;
        for judged in self.received.values() {
            counted.take_counted(judged);
            all.take(judged);
            alike &= judged.worst() == Outcome::Intact;
        }
        let counted = counted.recompute_with(&cards, now);
        // Most days everything is of enrolled phones, and once is enough.
        let looked = if alike { counted.clone() } else { all.recompute_with(&cards, now) };
        Figures { counted, looked }
    }
}

/// Photos that a file and all that it carries name, each with the label of the phone that did; and those of which it
/// says that they were deleted.
fn told_of_photos<'a>(
    judged: &'a Judged,
    named: &mut BTreeMap<Digest, (&'a Photo, &'a str)>,
    gone: &mut BTreeSet<Digest>,
) {
    if let Some(contents) = &judged.contents {
        let label = contents.payload.label.as_str();
        named.extend(contents.payload.photos.iter().map(|photo| (photo.sha256, (photo, label))));
    }
    gone.extend(deleted(judged));
    judged.carried.iter().for_each(|inner| told_of_photos(inner, named, gone));
}

fn strangers(judged: &Judged, out: &mut BTreeMap<DeviceId, Stranger>) {
    if let (Some(signer), Some(contents)) = (judged.signer, &judged.contents) {
        let label = contents.payload.label.clone();
        match &judged.verdict {
            Verdict::Unknown => drop(out.insert(signer, Stranger { label, retired: None })),
            Verdict::Retired { label: ours, since } => {
                out.insert(signer, Stranger { label, retired: Some((ours.clone(), *since)) });
            }
            _ => {}
        }
    }
    judged.carried.iter().for_each(|inner| strangers(inner, out));
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
        include_bytes!("../../tests/kit/intact--as-made.txt").to_vec()
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
        assert_eq!(hand.files[0].kept, Kept::Not);
        assert_eq!(hand.held().unsaved().count(), 0, "nothing vouches for it, so it is not kept");
    }

    #[test]
    fn files_go_into_the_archive_byte_for_byte_and_once_and_damaged_ones_do_not() {
        let mut hand = Hand::default();
        hand.take("from-mail.txt".to_owned(), bundle());
        let name = format!("received/{}.txt", super::super::archive::hex(Digest::of(&[&bundle()])));
        assert_eq!(hand.held().get(&name).as_deref(), Some(bundle().as_slice()));
        assert_eq!(hand.files[0].kept, Kept::New);
        let mut broken = bundle();
        broken.truncate(200);
        hand.take("cut.txt".to_owned(), broken);
        assert_eq!(hand.files[1].kept, Kept::Not);
        assert_eq!(hand.held().all().len(), 1);
        // the same archive opened another day: the bundle again is no news
        let mut other = Hand::default();
        other.take_archive(hand.held().all()).unwrap();
        other.take("again.txt".to_owned(), bundle());
        assert_eq!(other.files[0].kept, Kept::Before);
        assert_eq!(other.held().unsaved().count(), 0);
    }

    #[test]
    fn an_unknown_phone_counts_in_nothing_until_its_words_were_compared_and_a_retired_one_keeps_what_it_made() {
        let key = DeviceKey::from_seed(&[5; 32]);
        let random = crate::office::key_file::Randomness { seed: [5; 32], salt: [1; 16], nonce: [2; 12] };
        let file = KeyFile::make("acorn basin cedar dolphin", random).unwrap();
        let mut hand = Hand::default();
        hand.take("a.txt".to_owned(), bundle());
        let figures = hand.figures(at());
        assert_eq!((figures.counted.carcasses.len(), figures.only_looked().count()), (0, 1));
        let unknown = hand.unknown();
        let (device, _) = unknown.iter().next().unwrap();
        assert!(matches!(hand.enrol("blue", *device, Some(&key), at()), Err(DeskError::NoKey)), "no office key yet");
        hand.take_office_key(&file, &key).unwrap();
        let other = DeviceKey::from_seed(&[6; 32]);
        assert!(matches!(hand.enrol("blue", *device, Some(&other), at()), Err(DeskError::NoKey)), "another's key");
        hand.enrol("blue", *device, Some(&key), at()).unwrap();
        let figures = hand.figures(at());
        assert_eq!((figures.counted.carcasses.len(), figures.only_looked().count()), (1, 0));
        assert!(hand.unknown().is_empty());
        assert_eq!(outcomes(&hand), [Outcome::Intact], "the file on the desk is judged anew");
        // retired from a day before it was made: it counts no more
        hand.retire("blue", Moment::parse("2020-01-01T00:00:00-05:00").unwrap(), Some(&key)).unwrap();
        assert_eq!(hand.figures(at()).counted.carcasses.len(), 0);
        assert!(hand.retire("blue", at(), Some(&key)).is_err(), "no such device in use");
        // what is saved opens with the command line's own code, and with another key in it does not
        let mut next = Hand::default();
        next.take_archive(hand.held().all()).unwrap();
        assert_eq!(next.keyring, hand.keyring);
        assert_eq!(next.ring_from, RingFrom::Archive(Fingerprint::of(key.public().id())));
        let mut files = hand.held().all();
        let foreign = seal(Kind::Keyring, &canonical::to_vec(&Keyring::default()).unwrap(), &other).unwrap();
        files.insert("keyring.txt".to_owned(), foreign.as_bytes().into());
        assert!(Hand::default().take_archive(files.clone()).is_err());
        assert!(matches!(hand.take_archive(files), Err(DeskError::Apart(_))), "two keyrings cannot be one");
    }
}
