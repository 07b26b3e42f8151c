//! The keyring at the desk: phones enrolled and retired, strangers told apart.

use std::collections::{BTreeMap, BTreeSet};

use super::{DeskError, Hand, RingFrom, Stranger};
use crate::bundle::{DeviceKey, Fingerprint, Kind, open};
use crate::office::key_file::KeyFile;
use crate::office::keyring::{Enrolment, Keyring};
use crate::office::opening::{Judged, Verdict};
use crate::record::{DeviceId, Moment};

impl Hand {
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
        self.stand_all();
        Ok(())
    }

    /// The keyring that was picked by itself, where one is in use: with an office key the archive's own takes its place.
    pub fn picked_ring(&self) -> Keyring {
        let picked = matches!(self.ring_from, RingFrom::Plain | RingFrom::Signed(_));
        let of_archive = || self.archive().keyring().unwrap_or_default();
        if picked && self.keyring != of_archive() { self.keyring.clone() } else { Keyring::default() }
    }

    /// Puts a new office key into the archive and signs the keyring with it; the devices of `more` go onto that.
    ///
    /// # Errors
    /// There is one already, the keyring does not hold, or a device of `more` does not fit beside its own.
    pub fn take_office_key(&mut self, file: &KeyFile, key: &DeviceKey, more: &Keyring) -> Result<(), DeskError> {
        self.archive().take_office_key(file, key, more)?;
        self.load_ring()?;
        self.stand_all();
        Ok(())
    }

    /// The office's key on its own ring: nobody need compare words, since it is open here. Done when the key is opened,
    /// which takes its time anyway, and again before it signs: every file is asked anew who signed it.
    ///
    /// # Errors
    /// It is not this archive's key, another device in use is called the office, or the key has another name there.
    pub fn enrol_office(&mut self, key: &DeviceKey, now: Moment) -> Result<(), DeskError> {
        let mut ring = self.archive().keyring()?;
        if ring.enrol_office(key.public().id(), now)? { self.save(&ring, Some(key)) } else { Ok(()) }
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
        let enrolled = ring.enrol_phone(label, Fingerprint::of(device), Some(device), now)?.clone();
        self.save(&ring, key)?;
        Ok(enrolled)
    }

    /// Retires a device from a moment on that is not later than `now`, and signs the keyring.
    ///
    /// # Errors
    /// No key, no device in use has that name, it is the key that signs this archive, or that moment has not come.
    pub fn retire(
        &mut self,
        label: &str,
        since: Moment,
        key: Option<&DeviceKey>,
        now: Moment,
    ) -> Result<(), DeskError> {
        let mut ring = self.archive().keyring()?;
        ring.retire(label, since, now, self.own_device())?;
        self.save(&ring, key)
    }

    /// How many phones of the keyring are in use: all but the key that signs here.
    pub fn phones_in_use(&self) -> usize {
        self.keyring.devices().iter().filter(|one| one.retired_at.is_none() && !self.is_own(one)).count()
    }

    /// Whether this is the key that signs this archive.
    pub fn is_own(&self, device: &Enrolment) -> bool {
        self.own_device().is_some_and(|own| device.fingerprint == Fingerprint::of(own))
    }

    fn own_device(&self) -> Option<DeviceId> {
        Some(self.office_key()?.public().ok()?.id())
    }

    /// How many of the files that count now were made by this device after a moment, those that others carried among
    /// them: they would count no longer.
    pub fn made_after(&self, device: Fingerprint, since: Moment) -> usize {
        let counted = self.received.values().flat_map(|judged| judged.counted());
        let of_it = counted.filter(|one| one.fingerprint() == Some(device));
        of_it.filter_map(|one| one.contents.as_ref()).filter(|one| one.payload.made_at > since).count()
    }

    /// Whether this is the key of the office whose archive lies here.
    pub(super) fn is_ours(&self, key: &DeviceKey) -> bool {
        self.office_key().and_then(|file| file.public().ok()) == Some(key.public())
    }

    pub(super) fn save(&mut self, ring: &Keyring, key: Option<&DeviceKey>) -> Result<(), DeskError> {
        let key = key.filter(|key| self.is_ours(key)).ok_or(DeskError::NoKey)?;
        self.archive().save_keyring(ring, Some(key))?;
        self.load_ring()?;
        self.stand_all();
        Ok(())
    }
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
