//! Where an archive's files lie: in a folder on disk, or held in memory by a page that reads and writes the folder, or
//! a zip, in its own way. What is done with the files is the same code for both.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use super::archive::{FOLDERS, SHARED};
use crate::record::Digest;

/// Files held in memory, by path below the archive's folder (`received/….txt`). Clones hold the same files.
#[derive(Clone, Debug, Default)]
pub struct HeldFiles(Arc<Mutex<Tree>>);

#[derive(Debug, Default)]
struct Tree {
    files: BTreeMap<String, Arc<[u8]>>,
    changed: BTreeSet<String>,
    removed: BTreeSet<String>,
}

/// What has to be written for folder or zip to be as the page is.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Unsaved {
    /// Files that are new or were changed.
    pub written: BTreeSet<String>,
    /// Files that are gone.
    pub removed: BTreeSet<String>,
}

impl Unsaved {
    /// How many files there are.
    pub fn count(&self) -> usize {
        self.written.len() + self.removed.len()
    }

    /// The files in the order in which they are to be written: first those named by digest, so that keyring and key
    /// never lie there without what they speak of; then keyring, and the key last. A key without its keyring would be
    /// read as an office that knows no phone.
    pub fn order(&self) -> Vec<&str> {
        let own = self.written.iter().map(String::as_str).filter(|name| !SHARED.contains(name));
        own.chain(SHARED.into_iter().filter(|name| self.written.contains(*name))).collect()
    }
}

/// Whether a file that other programs may change too was changed by one of them: it is neither what was `seen` there
/// when the folder was opened, nor what is to be written (`mine`; `None` where it is to be removed).
pub fn changed_there(there: Option<Digest>, seen: Option<Digest>, mine: Option<Digest>) -> bool {
    there != seen && there != mine
}

impl HeldFiles {
    fn tree(&self) -> MutexGuard<'_, Tree> {
        // A page that panicked in between has ended anyway; nothing half written can be in a map.
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Files as they were read from folder or zip: none of them counts as changed.
    pub fn of(files: BTreeMap<String, Arc<[u8]>>) -> Self {
        Self(Arc::new(Mutex::new(Tree { files, ..Tree::default() })))
    }

    /// The files of an archive's folder on disk.
    ///
    /// # Errors
    /// A file cannot be read.
    pub fn of_folder(folder: &Path) -> io::Result<Self> {
        let mut files = BTreeMap::new();
        for inside in [""].into_iter().chain(FOLDERS) {
            for path in Files::Disk.list(&folder.join(inside))? {
                // What other programs left beside the archive is not its own.
                let Ok(below) = path.strip_prefix(folder) else { continue };
                let name = held(below);
                if path.is_file() && (!inside.is_empty() || SHARED.contains(&name.as_str())) {
                    files.insert(name, fs::read(&path)?.into());
                }
            }
        }
        Ok(Self::of(files))
    }

    /// All files.
    pub fn all(&self) -> BTreeMap<String, Arc<[u8]>> {
        self.tree().files.clone()
    }

    /// One file.
    pub fn get(&self, path: &str) -> Option<Arc<[u8]>> {
        self.tree().files.get(path).cloned()
    }

    /// What was changed since it was read or last saved.
    pub fn unsaved(&self) -> Unsaved {
        let tree = self.tree();
        Unsaved { written: tree.changed.clone(), removed: tree.removed.clone() }
    }

    /// Says that these were saved. A file that was changed again in the meantime stays unsaved.
    pub fn saved(&self, as_written: &BTreeMap<String, Arc<[u8]>>, removed: &BTreeSet<String>) {
        let mut tree = self.tree();
        for (path, bytes) in as_written {
            if tree.files.get(path).is_some_and(|now| now == bytes) {
                tree.changed.remove(path);
            }
        }
        tree.removed.retain(|path| !removed.contains(path));
    }

    /// Puts a file there as changed.
    pub fn put(&self, path: &str, bytes: &[u8]) {
        let mut tree = self.tree();
        tree.files.insert(path.to_owned(), bytes.into());
        tree.changed.insert(path.to_owned());
        tree.removed.remove(path);
    }

    fn remove(&self, path: &str) -> bool {
        let mut tree = self.tree();
        let there = tree.files.remove(path).is_some();
        tree.changed.remove(path);
        if there {
            tree.removed.insert(path.to_owned());
        }
        there
    }
}

/// Where the files lie.
#[derive(Clone, Debug)]
pub(in crate::office) enum Files {
    /// On disk, below the archive's folder.
    Disk,
    /// In memory.
    Held(HeldFiles),
}

fn held(path: &Path) -> String {
    // The same name whatever the system's separator.
    let parts = path.components().filter_map(|part| match part {
        std::path::Component::Normal(name) => Some(name.to_string_lossy()),
        _ => None,
    });
    parts.collect::<Vec<_>>().join("/")
}

impl Files {
    pub(in crate::office) fn read(&self, path: &Path) -> io::Result<Vec<u8>> {
        match self {
            Self::Disk => fs::read(path),
            Self::Held(files) => {
                files.get(&held(path)).map(|bytes| bytes.to_vec()).ok_or_else(|| io::ErrorKind::NotFound.into())
            }
        }
    }

    pub(in crate::office) fn exists(&self, path: &Path) -> bool {
        match self {
            Self::Disk => path.exists(),
            Self::Held(files) => files.get(&held(path)).is_some(),
        }
    }

    /// Writes a new file first and then puts it in the place of the old one, so that a power cut leaves one
    /// of the two whole.
    pub(in crate::office) fn put(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        if let Self::Held(files) = self {
            files.put(&held(path), bytes);
            return Ok(());
        }
        if let Some(folder) = path.parent() {
            fs::create_dir_all(folder)?;
        }
        let fresh = path.with_extension("new");
        let mut file = fs::File::create(&fresh)?;
        io::Write::write_all(&mut file, bytes)?;
        file.sync_all()?;
        fs::rename(&fresh, path)
    }

    pub(in crate::office) fn remove(&self, path: &Path) -> io::Result<()> {
        match self {
            Self::Disk => fs::remove_file(path),
            Self::Held(files) if files.remove(&held(path)) => Ok(()),
            Self::Held(_) => Err(io::ErrorKind::NotFound.into()),
        }
    }

    /// What lies in a folder, in order of names; nothing where there is no such folder.
    pub(in crate::office) fn list(&self, folder: &Path) -> io::Result<Vec<PathBuf>> {
        let mut paths: Vec<PathBuf> = match self {
            Self::Disk => match fs::read_dir(folder) {
                Err(error) if error.kind() == io::ErrorKind::NotFound => Vec::new(),
                listed => listed?.map(|entry| entry.map(|entry| entry.path())).collect::<io::Result<_>>()?,
            },
            Self::Held(files) => {
                let inside = format!("{}/", held(folder));
                let tree = files.tree();
                let names = tree.files.keys().filter_map(|path| path.strip_prefix(&inside));
                names.filter(|name| !name.contains('/')).map(|name| folder.join(name)).collect()
            }
        };
        paths.sort();
        Ok(paths)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_saved_is_no_longer_unsaved_unless_it_changed_again() {
        let files = HeldFiles::of([("keyring.json".to_owned(), Arc::from(&b"a"[..]))].into());
        assert_eq!(files.unsaved().count(), 0);
        files.put("received/x.txt", b"one");
        let written = [("received/x.txt".to_owned(), Arc::from(&b"one"[..]))].into();
        files.put("received/x.txt", b"two");
        files.saved(&written, &BTreeSet::new());
        assert_eq!(files.unsaved().count(), 1, "it was changed while it was being saved");
        let written = [("received/x.txt".to_owned(), Arc::from(&b"two"[..]))].into();
        files.saved(&written, &BTreeSet::new());
        assert_eq!(files.unsaved(), Unsaved::default());
        assert!(files.remove("keyring.json"));
        assert_eq!(files.unsaved().removed.len(), 1);
    }

    #[test]
    fn the_key_is_written_last_and_never_before_its_keyring() {
        let files = HeldFiles::default();
        for path in ["keyring.txt", "office-key.json", "received/x.txt", "keyring.json", "cards/a.txt"] {
            files.put(path, b"");
        }
        let unsaved = files.unsaved();
        assert_eq!(
            unsaved.order(),
            ["cards/a.txt", "received/x.txt", "keyring.json", "keyring.txt", "office-key.json"]
        );
    }

    #[test]
    fn what_another_program_changed_is_told_from_what_is_as_it_was() {
        let [a, b, c] = [b"a", b"b", b"c"].map(|bytes| Some(Digest::of(&[bytes])));
        assert!(!changed_there(a, a, b), "as it was when the folder was opened");
        assert!(!changed_there(b, a, b), "written already, as it is to be");
        assert!(changed_there(c, a, b), "another program's");
        assert!(changed_there(None, a, b), "another program removed it");
        assert!(changed_there(c, None, b), "another program made it");
        assert!(!changed_there(None, a, None), "gone, as it is to be");
    }

    #[test]
    fn a_folder_in_memory_is_listed_as_one_on_disk_is() {
        let files = HeldFiles::default();
        for path in ["received/b.txt", "received/a.txt", "received/deep/c.txt", "receivedx/d.txt", "e.txt"] {
            files.put(path, b"");
        }
        let listed = Files::Held(files).list(Path::new("received")).unwrap();
        assert_eq!(listed, ["received/a.txt", "received/b.txt"].map(PathBuf::from));
        assert_eq!(Files::Held(HeldFiles::default()).list(Path::new("cards")).unwrap(), Vec::<PathBuf>::new());
    }
}
