//! A bundle judged in short parts, with all that it carries: a page answers taps in between.

use std::sync::Arc;

use super::keyring::Keyring;
use super::opening::{Judged, Verdict};
use super::photos::deleted;
use crate::bundle::received::Repair;
use crate::bundle::{Checked, Contents, ContentsError, Kind, Limits, OpenError, Opening, Reading, Step};
use crate::record::DeviceId;

/// How deep bundles carried inside bundles are looked at: a phone that carries for another phone.
const CARRIED_DEPTH: usize = 2;

/// What all bundles carried inside one file may unpack to, in bytes.
const CARRIED_BYTES: usize = 64 << 20;

/// Entries that are looked at in one part.
const AT_ONCE: usize = 200;

/// A file that is being judged. Who signed it is asked of the keyring last.
pub struct Judging {
    file: File,
    /// What all that is carried may still unpack to.
    left_bytes: usize,
}

/// A bundle: the file, or one that it carries.
struct File {
    depth: usize,
    state: State,
}

enum State {
    /// Its signature is good.
    Opening(Opening),
    /// Every check of the file itself has passed.
    Opened(Checked),
    Reading(Signed, Reading),
    Carrying(Signed, Carrying),
    Judged(Judged),
    /// Between two of them.
    Between,
}

struct Signed {
    by: DeviceId,
    repairs: Vec<Repair>,
}

struct Carrying {
    contents: Contents,
    /// All are opened before any is read: together they may unpack to so much and no more.
    files: Vec<File>,
}

impl Judging {
    /// Looks at a file as received, up to its signature.
    pub fn begin(bytes: &[u8]) -> Self {
        Self::within(bytes, CARRIED_BYTES)
    }

    /// The same where all that is carried may unpack to so many bytes.
    pub(super) fn within(bytes: &[u8], left_bytes: usize) -> Self {
        Self { file: File::begin(bytes, Limits::default(), CARRIED_DEPTH), left_bytes }
    }

    /// Does the next part; false where nothing is left.
    pub fn step(&mut self) -> bool {
        self.file.step(&mut self.left_bytes)
    }

    /// Whether the next part goes through the whole file, so that a page pauses before it.
    pub fn is_long(&self) -> bool {
        match &self.file.state {
            State::Opening(opening) => opening.is_long(),
            State::Opened(_) | State::Carrying(..) => true,
            _ => false,
        }
    }

    /// The judgement by this keyring, once nothing is left.
    pub fn done(mut self, keyring: &Keyring) -> Judged {
        while self.step() {}
        let mut judged = self.file.judged();
        judged.stand(keyring);
        judged
    }
}

impl File {
    fn begin(bytes: &[u8], limits: Limits, depth: usize) -> Self {
        let state = match Opening::begin(bytes, Kind::Bundle, limits) {
            Ok(opening) => State::Opening(opening),
            Err(error) => State::refused(&error),
        };
        Self { depth, state }
    }

    fn is_opening(&self) -> bool {
        matches!(self.state, State::Opening(_))
    }

    /// Goes on; false where it was judged before.
    fn step(&mut self, left_bytes: &mut usize) -> bool {
        if matches!(self.state, State::Judged(_)) {
            return false;
        }
        self.state = match std::mem::replace(&mut self.state, State::Between) {
            State::Opening(mut opening) => match opening.step() {
                Ok(true) => State::Opening(opening),
                Ok(false) => opening.done().map_or_else(|error| State::refused(&error), State::Opened),
                Err(error) => State::refused(&error),
            },
            State::Opened(Checked { signer, payload, repairs }) => {
                let signed = Signed { by: signer.id(), repairs };
                match Reading::begin(signed.by, &payload) {
                    Ok(reading) => State::Reading(signed, reading),
                    Err(error) => State::unread(signed, &error),
                }
            }
            State::Reading(signed, mut reading) => match reading.step(AT_ONCE) {
                Ok(true) => State::Reading(signed, reading),
                Ok(false) => State::Carrying(signed, Carrying { contents: reading.done(), files: Vec::new() }),
                Err(error) => State::unread(signed, &error),
            },
            State::Carrying(signed, mut carrying) => {
                if carrying.step(self.depth, left_bytes) {
                    State::Carrying(signed, carrying)
                } else {
                    State::read(signed, carrying)
                }
            }
            done @ (State::Judged(_) | State::Between) => done,
        };
        true
    }

    fn judged(self) -> Judged {
        if let State::Judged(judged) = self.state { judged } else { too_deep() }
    }
}

impl State {
    fn refused(error: &OpenError) -> Self {
        Self::Judged(Judged::refused(error))
    }

    /// Well signed, and not of a form that can be taken.
    fn unread(signed: Signed, error: &ContentsError) -> Self {
        let reason = error.to_string();
        let verdict = if let ContentsError::NewerForm(_) = error {
            Verdict::Newer { reason }
        } else {
            Verdict::Damaged { step: Step::Payload, reason }
        };
        let Signed { by, repairs } = signed;
        let (carried, deleted) = (Vec::new(), Vec::new());
        Self::Judged(Judged { verdict, signer: Some(by), contents: None, repairs, carried, deleted })
    }

    fn read(signed: Signed, carrying: Carrying) -> Self {
        let Carrying { contents, files } = carrying;
        let Signed { by, repairs } = signed;
        let deleted = deleted(&contents);
        let carried = files.into_iter().map(File::judged).collect();
        // Until the keyring is asked.
        let verdict = Verdict::Unknown;
        Self::Judged(Judged {
            verdict,
            signer: Some(by),
            contents: Some(Arc::new(contents)),
            repairs,
            carried,
            deleted,
        })
    }
}

impl Carrying {
    /// Does the next part of what a bundle at this depth carries; false where nothing is left.
    fn step(&mut self, depth: usize, left_bytes: &mut usize) -> bool {
        if let Some(file) = self.files.last_mut()
            && file.is_opening()
        {
            let more = file.step(left_bytes);
            if let State::Opened(checked) = &file.state {
                *left_bytes = left_bytes.saturating_sub(checked.payload.len());
            }
            return more;
        }
        if let Some(text) = self.contents.payload.carried.get(self.files.len()) {
            self.files.push(match depth.checked_sub(1) {
                Some(depth) => {
                    let limits = Limits { payload_bytes: *left_bytes, ..Limits::default() };
                    File::begin(text.as_bytes(), limits, depth)
                }
                None => File { depth, state: State::Judged(too_deep()) },
            });
            return true;
        }
        self.files.iter_mut().any(|file| file.step(left_bytes))
    }
}

fn too_deep() -> Judged {
    let reason = format!("it is carried inside more than {CARRIED_DEPTH} other bundles");
    let verdict = Verdict::Damaged { step: Step::Envelope, reason };
    Judged { verdict, signer: None, contents: None, repairs: Vec::new(), carried: Vec::new(), deleted: Vec::new() }
}
