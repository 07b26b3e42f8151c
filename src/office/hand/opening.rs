//! An archive's files opened in short parts before it is taken over: a page answers taps in between.

use std::collections::BTreeMap;
use std::vec::IntoIter;

use crate::office::judging::Judging;
use crate::office::keyring::Keyring;
use crate::office::opening::Judged;
use crate::office::zipped::Tree;
use crate::record::Digest;

/// Files of an archive by path, each with the digest of its bytes.
pub(super) type JudgedFiles = BTreeMap<String, (Digest, Judged)>;

/// An archive that is being opened. Who signed its files is asked of its keyring once it is taken over.
pub struct ArchiveOpening {
    pub(super) files: Tree,
    pub(super) judged: JudgedFiles,
    now: Option<(String, Judging)>,
    todo: IntoIter<String>,
}

impl ArchiveOpening {
    /// Of files as they were read; none of them was opened yet.
    pub fn of(files: Tree) -> Self {
        let todo: Vec<String> = files.keys().filter(|path| path.starts_with("received/")).cloned().collect();
        Self { files, judged: BTreeMap::new(), now: None, todo: todo.into_iter() }
    }

    /// Does the next part; false where nothing is left.
    pub fn step(&mut self) -> bool {
        if let Some((_, judging)) = &mut self.now
            && judging.step()
        {
            return true;
        }
        if let Some((path, judging)) = self.now.take() {
            if let Some(bytes) = self.files.get(&path) {
                self.judged.insert(path, (Digest::of(&[bytes]), judging.done(&Keyring::default())));
            }
            return true;
        }
        let Some(path) = self.todo.next() else { return false };
        if let Some(bytes) = self.files.get(&path) {
            self.now = Some((path, Judging::begin(bytes)));
        }
        true
    }

    /// Whether the next part is longer than others, so that a page pauses before it.
    pub fn is_long(&self) -> bool {
        self.now.as_ref().is_none_or(|(_, judging)| judging.is_long())
    }

    /// Files opened, of how many.
    pub fn so_far(&self) -> (usize, usize) {
        (self.judged.len(), self.judged.len() + usize::from(self.now.is_some()) + self.todo.len())
    }
}
