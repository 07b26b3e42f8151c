//! Where entries lie while an archive is read in parts: in memory while they are few, then in a file of its own in the
//! system's folder for such files.

use std::env;
use std::fs::{self, File, OpenOptions};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};
use std::thread;

use crate::office::streamed::Bounds;
use crate::office::streamed::store::{InMemory, Store};

/// Bytes that are held in memory before a file is made.
const HELD: usize = 16 << 20;
/// Most threads: each holds a part.
const MOST_THREADS: usize = 8;

/// As much at a time as there are cores.
pub(super) fn bounds() -> Bounds {
    let threads = thread::available_parallelism().map_or(1, usize::from).min(MOST_THREADS);
    Bounds { threads, ..Bounds::default() }
}

/// Where they lie.
pub(super) struct InBetween {
    held: usize,
    folder: PathBuf,
    lies: Lies,
}

enum Lies {
    Memory(InMemory),
    File { file: Mutex<File>, end: u64, _left: Left },
}

impl Default for InBetween {
    fn default() -> Self {
        Self { held: HELD, folder: env::temp_dir(), lies: Lies::Memory(InMemory::default()) }
    }
}

/// The name of the file, where it could not be taken away as soon as it was open. Elsewhere nothing is left of it however
/// the program ends.
struct Left(Option<PathBuf>);

impl Drop for Left {
    fn drop(&mut self) {
        if let Some(path) = &self.0 {
            let _ = fs::remove_file(path);
        }
    }
}

/// A new file that nobody else may read.
fn make(folder: &Path) -> io::Result<(File, Left)> {
    let mut random = [0; 8];
    getrandom::fill(&mut random).map_err(|error| io::Error::other(error.to_string()))?;
    let path = folder.join(format!("marrowbook-{:016x}.tmp", u64::from_le_bytes(random)));
    let mut options = OpenOptions::new();
    options.read(true).write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let file = options.open(&path)?;
    let left = if fs::remove_file(&path).is_ok() { None } else { Some(path) };
    Ok((file, Left(left)))
}

impl InBetween {
    /// Which folder, beside what the system says.
    fn named(&self, error: &io::Error) -> io::Error {
        io::Error::new(error.kind(), format!("a file for in between in {}: {error}", self.folder.display()))
    }

    fn put_in_file(&mut self, bytes: &[u8]) -> io::Result<u64> {
        if let Lies::Memory(held) = &self.lies {
            let (mut file, left) = make(&self.folder)?;
            file.write_all(held.bytes())?;
            let end = held.bytes().len() as u64;
            self.lies = Lies::File { file: Mutex::new(file), end, _left: left };
        }
        let Lies::File { file, end, .. } = &mut self.lies else { return Ok(0) };
        let file = file.get_mut().unwrap_or_else(PoisonError::into_inner);
        file.seek(SeekFrom::Start(*end))?;
        file.write_all(bytes)?;
        let at = *end;
        *end += bytes.len() as u64;
        Ok(at)
    }
}

impl Store for InBetween {
    fn put(&mut self, bytes: &[u8]) -> io::Result<u64> {
        match &mut self.lies {
            Lies::Memory(held) if held.bytes().len() + bytes.len() <= self.held => held.put(bytes),
            _ => self.put_in_file(bytes).map_err(|error| self.named(&error)),
        }
    }

    fn get(&self, at: u64, length: usize) -> io::Result<Vec<u8>> {
        let Lies::File { file, .. } = &self.lies else {
            let Lies::Memory(held) = &self.lies else { return Err(io::ErrorKind::UnexpectedEof.into()) };
            return held.get(at, length);
        };
        let mut bytes = vec![0; length];
        let mut file = file.lock().unwrap_or_else(PoisonError::into_inner);
        let read = file.seek(SeekFrom::Start(at)).and_then(|_| file.read_exact(&mut bytes));
        read.map_err(|error| self.named(&error))?;
        Ok(bytes)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(folder: PathBuf, held: usize) -> InBetween {
        InBetween { held, folder, ..InBetween::default() }
    }

    #[test]
    fn few_lie_in_memory_and_many_in_a_file_of_which_nothing_is_left() {
        let folder = env::temp_dir().join(format!("marrowbook-in-between-{}", std::process::id()));
        fs::create_dir_all(&folder).unwrap();
        let mut store = at(folder.clone(), 1000);
        let row = |n: u8| vec![n; usize::from(n) * 7];
        let mut places = Vec::new();
        for n in 1..40 {
            places.push((store.put(&row(n)).unwrap(), n));
            assert_eq!(
                matches!(store.lies, Lies::Memory(_)),
                places.iter().map(|(_, n)| row(*n).len()).sum::<usize>() <= 1000
            );
        }
        for (at, n) in places.into_iter().rev() {
            assert_eq!(store.get(at, row(n).len()).unwrap(), row(n));
        }
        drop(store);
        // It fails where the folder holds anything.
        fs::remove_dir(&folder).unwrap();
    }

    #[test]
    fn a_folder_that_cannot_be_written_is_named() {
        let mut store = at(PathBuf::from("/no/such/folder"), 10);
        assert_eq!(store.put(&[1; 10]).unwrap(), 0);
        let error = store.put(&[2]).unwrap_err();
        assert!(error.to_string().contains("/no/such/folder"), "{error}");
    }
}
