//! The quick copies: entries on their way to the store proper, and two hints for a day on which that
//! store does not open.

use std::fmt::Write as _;

use crate::record::{Entry, Head};

use super::store::{Quick, QuickError};
use super::{Seed, row};

const COPY: &str = "copy.";
const HEAD: &str = "head";
const SEED: &str = "seed";
const PROBE: &str = "probe";

/// One copy as found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RawCopy {
    /// Its name in the quick store.
    pub name: String,
    /// Its text.
    pub text: String,
}

/// All that the quick store holds of ours.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Copies {
    /// Copies of entries.
    pub copies: Vec<RawCopy>,
    /// The head when an entry was last saved. May lag behind, never runs ahead.
    pub head: Option<String>,
    /// The key's seed, in case the other store does not open.
    pub seed: Option<String>,
}

/// The name of an entry's copy. Number and digest, so that no copy ever takes another's place; in
/// hexadecimal, because the page that rescues raw records leaves out names that look like secrets.
pub fn name(entry: &Entry) -> String {
    let digest = entry.header.digest();
    let mut name = format!("{COPY}{}.", entry.header.seq);
    for byte in digest.0.iter().take(12) {
        // Writing to a text cannot fail.
        let _ = write!(name, "{byte:02x}");
    }
    name
}

/// Whether the quick store takes, gives and drops a text just now.
///
/// # Errors
/// Where it does not.
pub fn probe<Q: Quick>(quick: &Q) -> Result<(), QuickError> {
    quick.put(PROBE, "1")?;
    let back = quick.get(PROBE)?;
    quick.drop(PROBE)?;
    if back.as_deref() == Some("1") {
        Ok(())
    } else {
        Err(QuickError::Refused("it does not give back what it took".to_owned()))
    }
}

/// Read all of it.
///
/// # Errors
/// Where the quick store is refused.
pub fn read<Q: Quick>(quick: &Q) -> Result<Copies, QuickError> {
    let mut copies = Vec::new();
    for name in quick.names()? {
        if !name.starts_with(COPY) {
            continue;
        }
        if let Some(text) = quick.get(&name)? {
            copies.push(RawCopy { name, text });
        }
    }
    Ok(Copies { copies, head: quick.get(HEAD)?, seed: quick.get(SEED)? })
}

/// Put an entry's copy in.
///
/// # Errors
/// Where the quick store is full or refused.
pub fn put<Q: Quick>(quick: &Q, entry: &Entry) -> Result<(), QuickError> {
    quick.put(&name(entry), &row::write(entry))
}

/// Note how far the journal is saved.
///
/// # Errors
/// Where the quick store is full or refused.
pub fn put_head<Q: Quick>(quick: &Q, head: &Head) -> Result<(), QuickError> {
    quick.put(HEAD, &row::write_head(head))
}

/// Keep the seed here too.
///
/// # Errors
/// Where the quick store is full or refused.
pub fn put_seed<Q: Quick>(quick: &Q, seed: &Seed) -> Result<(), QuickError> {
    quick.put(SEED, &seed.write())
}
