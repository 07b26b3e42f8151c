//! Files that are picked: judged, and put into the archive.

use std::sync::Arc;

use super::{Hand, Kept, Picked, What};
use crate::bundle::{Limits, OpenError};
use crate::office::judging::Judging;
use crate::office::opening::{Outcome, is_picture, judge_unread};
use crate::record::Digest;

/// A file that is being looked at, in short parts: a page answers taps in between. Nothing is told of it, and nothing
/// kept, before [`Hand::taken`].
pub struct Taking {
    name: String,
    bytes: Vec<u8>,
    digest: Digest,
    /// `None` for a photo.
    judging: Option<Judging>,
}

impl Taking {
    /// Does the next part; false where nothing is left.
    pub fn step(&mut self) -> bool {
        self.judging.as_mut().is_some_and(Judging::step)
    }

    /// Whether the next part is longer than others, so that a page pauses before it.
    pub fn is_long(&self) -> bool {
        self.judging.as_ref().is_some_and(Judging::is_long)
    }
}

impl Hand {
    /// Takes a file in; one that was picked before is not taken twice. It goes into the archive as received unless it
    /// is damaged; a photo goes there once a file there names it.
    pub fn take(&mut self, name: String, bytes: Vec<u8>) {
        if let Some(taking) = self.taking(name, bytes) {
            self.taken(taking);
        }
    }

    /// The same in parts; `None` for one that was picked before.
    pub fn taking(&self, name: String, bytes: Vec<u8>) -> Option<Taking> {
        if self.was_picked(&bytes) {
            return None;
        }
        let digest = Digest::of(&[&bytes]);
        let judging = (!is_picture(&bytes)).then(|| Judging::begin(&bytes));
        Some(Taking { name, bytes, digest, judging })
    }

    fn was_picked(&self, bytes: &[u8]) -> bool {
        // What was not read has no bytes here, and is no empty file.
        self.files.iter().any(|file| file.was_read && *file.bytes == *bytes)
    }

    /// Takes in a file that was looked at.
    pub fn taken(&mut self, taking: Taking) {
        let Taking { name, bytes, digest, judging } = taking;
        // Picked once more in the meantime.
        if self.was_picked(&bytes) {
            return;
        }
        let what = match judging {
            Some(judging) => What::Judged(Box::new(judging.done(&self.keyring))),
            None => What::Photo(digest),
        };
        let mut kept = Kept::Not;
        if let What::Judged(judged) = &what
            && judged.outcome() != Outcome::Damaged
        {
            kept = if self.received.contains_key(&digest) { Kept::Before } else { Kept::New };
            // Held in memory: this cannot fail, and where it did the file would show as not kept.
            match self.archive().keep(&bytes) {
                Ok(_) => self.receive(digest, Arc::new((**judged).clone())),
                Err(_) => kept = Kept::Not,
            }
        }
        self.files.push(Picked { name, what, kept, was_read: true, bytes: bytes.into(), sha256: digest });
        self.keep_waiting();
    }

    /// Photos that were waiting for a file that names them.
    pub(super) fn keep_waiting(&mut self) {
        let archive = self.archive();
        for file in &mut self.files {
            let What::Photo(digest) = &file.what else { continue };
            if file.kept != Kept::Not || !self.named.contains(digest) {
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
        self.take_without_bytes(name, What::Judged(Box::new(judge_unread(&error))));
    }

    /// A file that the browser could not read.
    pub fn take_unread(&mut self, name: String, why: String) {
        self.take_without_bytes(name, What::Unread(why));
    }

    fn take_without_bytes(&mut self, name: String, what: What) {
        let bytes = Arc::new([]);
        let sha256 = Digest::of(&[&*bytes]);
        self.files.push(Picked { name, what, kept: Kept::Not, was_read: false, bytes, sha256 });
    }
}
