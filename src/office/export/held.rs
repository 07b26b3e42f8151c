//! An export held in memory: what the page hands to the browser.

use std::collections::BTreeMap;
use std::io::{self, Write};
use std::sync::{Arc, Mutex, PoisonError};

use super::{Asked, ExportError, Out, Written, write};
use crate::office::streamed::Streamed;
use crate::office::zipped::Tree;

/// Files in the making, by path.
#[derive(Debug, Default)]
struct Held(Arc<Mutex<BTreeMap<String, Vec<u8>>>>);

/// One of them.
struct File {
    name: String,
    held: Arc<Mutex<BTreeMap<String, Vec<u8>>>>,
}

impl Out for Held {
    fn file(&mut self, name: &str) -> io::Result<Box<dyn Write + Send>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner).insert(name.to_owned(), Vec::new());
        Ok(Box::new(File { name: name.to_owned(), held: Arc::clone(&self.0) }))
    }
}

impl Write for File {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let mut held = self.held.lock().unwrap_or_else(PoisonError::into_inner);
        held.entry(self.name.clone()).or_default().extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// The archive in open forms, as files by path; in a browser without Parquet.
///
/// # Errors
/// The archive cannot be read, or nothing in it is of what was asked.
pub fn exported(streamed: &Streamed, asked: &Asked) -> Result<(Tree, Written), ExportError> {
    let mut out = Held::default();
    let written = write(streamed, asked, &mut out)?;
    let files = std::mem::take(&mut *out.0.lock().unwrap_or_else(PoisonError::into_inner));
    Ok((files.into_iter().map(|(name, bytes)| (name, bytes.into())).collect(), written))
}
