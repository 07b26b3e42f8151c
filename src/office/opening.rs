//! What the office makes of a file that was handed in: intact and enrolled, intact but unknown,
//! damaged or altered, or made by a newer version. Never only yes or no.

use super::judging::Judging;
use super::keyring::{Keyring, Standing, decides};
use crate::bundle::received::Repair;
use crate::bundle::{Contents, Fingerprint, OpenError, Step};
use crate::record::{DeviceId, Digest, Moment};
use std::sync::Arc;

/// The outcome for one file, from best to worst.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Outcome {
    /// Not changed since an enrolled device signed it.
    Intact,
    /// Not changed since it was signed; the device is not enrolled, or was retired before.
    UnknownDevice,
    /// Made by a newer version; cannot be judged here.
    Newer,
    /// Damaged or altered.
    Damaged,
}

impl Outcome {
    /// The outcome as in reports for programs.
    pub fn code(self) -> &'static str {
        match self {
            Self::Intact => "intact",
            Self::UnknownDevice => "unknown_device",
            Self::Newer => "newer",
            Self::Damaged => "damaged",
        }
    }
}

/// The outcome with what belongs to it.
#[derive(Clone, Debug, PartialEq)]
pub enum Verdict {
    /// Intact and enrolled.
    Intact {
        /// What the office calls the device.
        label: String,
    },
    /// Intact, not enrolled.
    Unknown,
    /// Intact, made after the device was retired.
    Retired {
        /// What the office called the device.
        label: String,
        /// Since when it is retired.
        since: Moment,
    },
    /// Damaged or altered.
    Damaged {
        /// The check that failed.
        step: Step,
        /// What failed, as a lower-case clause.
        reason: String,
    },
    /// Made by a newer version.
    Newer {
        /// What is newer, as a lower-case clause.
        reason: String,
    },
}

/// One file, judged.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// The verdict.
    pub verdict: Verdict,
    /// The device that signed, where the signature is good.
    pub signer: Option<DeviceId>,
    /// What is inside, where it could be read. Under [`Verdict::Damaged`] it must not be used.
    pub contents: Option<Arc<Contents>>,
    /// What was taken off the file before reading.
    pub repairs: Vec<Repair>,
    /// The bundles carried inside, judged likewise.
    pub carried: Vec<Judged>,
    /// Photos that were deleted on the phone, as its own entries say.
    pub deleted: Vec<Digest>,
}

impl Judged {
    /// The outcome of this file alone.
    pub fn outcome(&self) -> Outcome {
        match self.verdict {
            Verdict::Intact { .. } => Outcome::Intact,
            Verdict::Unknown | Verdict::Retired { .. } => Outcome::UnknownDevice,
            Verdict::Newer { .. } => Outcome::Newer,
            Verdict::Damaged { .. } => Outcome::Damaged,
        }
    }

    /// The worst outcome of this file and all that it carries.
    pub fn worst(&self) -> Outcome {
        self.carried.iter().map(Self::worst).fold(self.outcome(), Outcome::max)
    }

    /// The device that signed it, where what that device decides counts.
    pub fn decider(&self) -> Option<DeviceId> {
        match &self.verdict {
            Verdict::Intact { label } if decides(label) => self.signer,
            _ => None,
        }
    }

    /// What counts of this file: what an enrolled device signed, and of what it carries, however deep, what devices that
    /// are enrolled themselves signed. What a device that is not enrolled carries counts in nothing.
    pub fn counted(&self) -> Vec<&Self> {
        let mut all = Vec::new();
        self.add_counted(&mut all);
        all
    }

    /// Every intact one of this file and all that it carries, whoever signed it: to be looked at.
    pub fn intact(&self) -> Vec<&Self> {
        let mut all = Vec::new();
        self.add_intact(&mut all);
        all
    }

    fn add_intact<'a>(&'a self, all: &mut Vec<&'a Self>) {
        if matches!(self.outcome(), Outcome::Intact | Outcome::UnknownDevice) {
            all.push(self);
        }
        self.carried.iter().for_each(|carried| carried.add_intact(all));
    }

    fn add_counted<'a>(&'a self, all: &mut Vec<&'a Self>) {
        if self.outcome() == Outcome::Intact {
            all.push(self);
            self.carried.iter().for_each(|carried| carried.add_counted(all));
        }
    }

    /// The fingerprint of the signer, where the signature is good.
    pub fn fingerprint(&self) -> Option<Fingerprint> {
        self.signer.map(Fingerprint::of)
    }

    /// What another keyring says of who signed it; all that was found inside stays as it is.
    pub fn stand(&mut self, keyring: &Keyring) {
        if let (Some(signer), Some(contents)) = (self.signer, &self.contents) {
            self.verdict = verdict(contents, signer, keyring);
        }
        self.carried.iter_mut().for_each(|inner| inner.stand(keyring));
    }

    /// Whether [`Self::stand`] would change something.
    fn stands_otherwise(&self, keyring: &Keyring) -> bool {
        let own = self.signer.zip(self.contents.as_ref());
        own.is_some_and(|(signer, contents)| self.verdict != verdict(contents, signer, keyring))
            || self.carried.iter().any(|inner| inner.stands_otherwise(keyring))
    }

    pub(super) fn refused(error: &OpenError) -> Self {
        let reason = error.to_string();
        let verdict = if error.is_newer_version() {
            Verdict::Newer { reason }
        } else {
            Verdict::Damaged { step: error.step(), reason }
        };
        Self { verdict, signer: None, contents: None, repairs: Vec::new(), carried: Vec::new(), deleted: Vec::new() }
    }
}

/// JPEG and PNG by their first bytes: a photo that came along is no damaged bundle.
pub fn is_picture(bytes: &[u8]) -> bool {
    bytes.starts_with(b"\xff\xd8\xff") || bytes.starts_with(b"\x89PNG\r\n\x1a\n")
}

/// Judges a bundle as received.
pub fn judge(bytes: &[u8], keyring: &Keyring) -> Judged {
    let mut judging = Judging::begin(bytes);
    while judging.step() {}
    judging.done(keyring)
}

/// Judges one anew by another keyring, without opening it again: its bytes are the same.
pub fn rejudge(judged: &mut Arc<Judged>, keyring: &Keyring) {
    if judged.stands_otherwise(keyring) {
        Arc::make_mut(judged).stand(keyring);
    }
}

/// A file too large to be read, judged without reading it.
pub fn judge_unread(error: &OpenError) -> Judged {
    Judged::refused(error)
}

fn verdict(contents: &Contents, signer: DeviceId, keyring: &Keyring) -> Verdict {
    if let Some(fault) = contents.faults.iter().find(|fault| fault.breaks_chain()) {
        return Verdict::Damaged { step: Step::Chain, reason: fault.to_string() };
    }
    match keyring.standing(signer, contents.payload.made_at) {
        Standing::Enrolled(known) => Verdict::Intact { label: known.label.clone() },
        Standing::Retired(known) => {
            Verdict::Retired { label: known.label.clone(), since: known.retired_at.unwrap_or(contents.payload.made_at) }
        }
        Standing::Unknown => Verdict::Unknown,
    }
}
